"""The mortar and what one batch of it takes."""

from darby.desk.places import StagePage

PAGE = StagePage(place="put-on", order=4, stages=("volumes", "mixes"), crew=True)
