"""How true the finished face came out: what shows under each straightedge, and what may."""

from darby.desk.places import StagePage

PAGE = StagePage(place="put-on", order=8, stages=("straightedge",), sections=("finished",), crew=True, later=True)
