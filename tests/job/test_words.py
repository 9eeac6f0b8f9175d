"""Every code has its sentence in both languages, and asks for nothing a fault does not have."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import darby.job
from darby.job import JobError, allowed, loads
from darby.words import LANGUAGES, catalogue, say
from tests.job.broken import BROKEN, FIVE
from tests.job.test_broken import broken_texts

SOURCE = "".join(path.read_text("utf-8") for path in Path(darby.job.__file__).parent.rglob("*.py"))
NAMED = set(re.findall(r'"(job\.[a-z0-9-]+)"', SOURCE)) - {"job.toml"}
MADE = {
    *(f"job.unsaid-{name}" for name in ("block", "joints", "sheathing", "studs", "brick")),
    *(f"job.assumed-{name}" for name in ("base-edge", "top", "outside-corner", "inside-corner")),
    "job.too-large", "job.too-small",
}  # fmt: skip
"""Codes that are put together in the code: a key, or a kind of end, is their second half."""
CODES = NAMED | MADE
ALLOWED = {value for name, value in vars(allowed).items() if name.isupper()}


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_code_has_a_sentence_and_every_sentence_a_code(language: str) -> None:
    sentences = {code for code in catalogue(language) if code.startswith("job.")}  # type: ignore[arg-type]
    assert sentences == CODES | {"job.nearest"}


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_wording_of_what_is_allowed_is_in_the_catalogue(language: str) -> None:
    words = catalogue(language)  # type: ignore[arg-type]
    assert {wording for wording in ALLOWED if f"word.{wording}" not in words} == set()


def test_spanish_says_it_in_spanish() -> None:
    assert all(catalogue("en")[f"word.{w}"] != catalogue("es")[f"word.{w}"] for w in ALLOWED)
    assert all(catalogue("en")[code] != catalogue("es")[code] for code in CODES)


class AsItStands:
    """What he wrote is shown as he wrote it, not looked up and put into Spanish."""

    def __init__(self, text: str) -> None:
        self.text = text

    def __str__(self) -> str:
        return self.text


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_broken_job_can_be_told(language: str) -> None:
    for broken in (*BROKEN, *FIVE):
        job, firm = broken_texts(broken)
        with pytest.raises(JobError) as caught:
            loads(job, firm=firm)
        for f in caught.value.faults:
            values = {"place": AsItStands(f.place), "found": AsItStands(f.found), "allowed": f.allowed}
            sentence = say(f.code, values, language)  # type: ignore[arg-type]
            assert f.place in sentence
            assert f.found in sentence or f.code == "job.missing"
            assert "{" not in sentence.replace("{ kind", "").replace("[{", "").replace("{damp_by", "").replace(
                "{tap}", ""
            )


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_was_assumed_can_be_told(language: str) -> None:
    for code in CODES:
        if code.startswith(("job.assumed-", "job.unsaid-")):
            assert say(code, (), language).endswith(".")  # type: ignore[arg-type]
