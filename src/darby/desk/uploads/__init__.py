"""What a phone may hand in: a photograph or a list of log lines, held to size, kind, pixels and time."""

from darby.desk.uploads.limits import Refused
from darby.desk.uploads.lists import lines_of
from darby.desk.uploads.numbers import moment, number, whole
from darby.desk.uploads.pictures import Picture, picture

__all__ = ["Picture", "Refused", "lines_of", "moment", "number", "picture", "whole"]
