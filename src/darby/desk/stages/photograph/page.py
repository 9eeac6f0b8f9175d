"""A photograph of a wall made straight by known points, and what can be measured on it."""

from __future__ import annotations

from darby.desk.photographed.showing import more
from darby.desk.places import StagePage

PAGE = StagePage(place="wall", order=9, crew=True, more=more)
