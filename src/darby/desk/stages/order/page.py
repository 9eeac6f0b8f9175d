"""What to order, and how to saw the bars."""

from darby.desk.places import StagePage

PAGE = StagePage(place="money", order=1, stages=("order", "cuts"), sections=("ordered",), later=True)
