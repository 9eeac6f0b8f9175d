"""The grounds: how far out the face stands at each, from the readings of the bare wall."""

from darby.desk.places import StagePage

PAGE = StagePage(place="wall", order=3, stages=("grounds",), sections=("readings",), crew=True, later=True)
