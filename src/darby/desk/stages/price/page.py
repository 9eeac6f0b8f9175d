"""The price, and what moves it."""

from darby.desk.places import StagePage

PAGE = StagePage(place="money", order=2, stages=("price",), sections=("also", "price"))
