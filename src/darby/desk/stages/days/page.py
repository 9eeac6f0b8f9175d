"""The trips, the waits between coats, and painting."""

from darby.desk.places import StagePage

PAGE = StagePage(place="day", order=2, stages=("days", "paint"), sections=("days", "also"), crew=True)
