"""What can hurt whoever works on this job, and what the law or the code wants: said before anybody begins."""

from darby.desk.places import StagePage

PAGE = StagePage(place="day", order=1, stages=("cautions",), sections=("job",), crew=True)
