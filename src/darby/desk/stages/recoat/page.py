"""Old walls coated anew: what the new plaster must fit, and paint, skim or lath beside each other as in the letter."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest

from darby.desk.places import StagePage
from darby.desk.put_on.reader import reader
from darby.desk.reading import Read
from darby.desk.speaking import said_in
from darby.papers.filled.letter import letter


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """The letter as it goes to the owner of the house; None where there is nothing to choose between."""
    answers, setting = read.answers, said_in(request)
    if answers is None:
        return {}
    return {"letter": letter(reader(answers, setting))}


PAGE = StagePage(place="put-on", order=7, stages=("recoat",), sections=("recoat", "coats"), more=more)
