"""The joints of every wall."""

from darby.desk.places import StagePage

PAGE = StagePage(place="put-on", order=2, stages=("joints",), sections=("joints",), crew=True)
