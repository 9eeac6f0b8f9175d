"""Old walls: what was found on them and what it asks for; how far they are cut back round an opening, and how deep.

``survey(SurveyAsk) -> (Survey, Working)`` and ``patch(PatchAsk) -> (Patch, Working)``; coating anew is ``recoat``.
"""

from darby.condition.patch_model import CoatOn, MixOn, Patch, PatchAsk, SideCut
from darby.condition.patching import patch
from darby.condition.survey_model import Crack, Finding, GaugeReading, Hollow, Loose, Survey, SurveyAsk, Tap
from darby.condition.surveying import survey

__all__ = [
    "CoatOn", "Crack", "Finding", "GaugeReading", "Hollow", "Loose", "MixOn", "Patch", "PatchAsk", "SideCut", "Survey",
    "SurveyAsk", "Tap", "patch", "survey",
]  # fmt: skip
