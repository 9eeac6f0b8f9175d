"""Every figure of the room's rule books as it was published, so that a slip of the pen turns a check red."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from importlib import resources

import pytest

from darby.rulebook import default

BOOKS = ("allowances", "lath", "accessories", "coating")

AS_PUBLISHED = {
    "openings.none-under.china": (Fraction("0.3"), "m2"),
    "openings.none-under.is-1200": (Fraction("0.5"), "m2"),
    "openings.none-under.is-1200-full": (Fraction("0.5"), "m2"),
    "openings.none-under.greece": (Fraction("2.5"), "m2"),
    "openings.none-under.us-60": (60, "sq ft"),
    "openings.none-under.us-7yd": (7, "sq yd"),
    "openings.one-face-up-to.is-1200-full": (3, "m2"),
    "openings.share.half": (50, "%"),
    "allow.spread.lceted": (10, "%"),
    "allow.waste.composite-schedule": (10, "%"),
    "allow.waste.civil-at-work": (15, "%"),
    "allow.bulking.sabin": (20, "%"),
    "allow.accessories.practice": (10, "%"),
    "allow.lath.practice": (5, "%"),
    "lath.key.volume.pearson": (8, "cu ft"),
    "lath.key.area.pearson": (100, "sq yd"),
    "block.long.nominal": (16, "in"),
    "block.high.nominal": (8, "in"),
    "block.joint-width.nominal": (Fraction(3, 8), "in"),
    "block.joint-depth.tooled": (Fraction(1, 8), "in"),
    "dry-volume.factor.civil-at-work": (Fraction("1.33"), ""),
    "dry-volume.cement-density.civil-at-work": (1440, "kg/m3"),
    "dry-volume.bag.civil-at-work": (50, "kg"),
    "mortar.sand-share.pca": (1, ""),
    "order.part-bag.practice": (Fraction(1, 4), ""),
    "order.part-load.practice": (Fraction(1, 2), ""),
    "lath.sheet.width.c847": (27, "in"),
    "lath.sheet.length.c847": (96, "in"),
    "lath.sheet.length.c847-10": (97, "in"),
    "lath.lap.side.c1063": (Fraction(1, 2), "in"),
    "lath.lap.side.merritt": (1, "in"),
    "lath.lap.end.c1063": (1, "in"),
    "lath.lap.end.merritt": (2, "in"),
    "lath.bundle.sheets.navy": (10, "sheets"),
    "lath.bundle.area.navy": (20, "sq yd"),
    "studs.spacing.usual": (16, "in"),
    "lath.fastener.along-studs.c1063": (7, "in"),
    "lath.fastener.along-studs.irc-2018": (6, "in"),
    "lath.fastener.along-studs.irc": (7, "in"),
    "lath.fastener.masonry-area.ufgs": (8 * 16, "sq in"),
    "lath.fastener.masonry-area.sma": (1, "sq ft"),
    "wrb.lap.horizontal.ubc": (2, "in"),
    "wrb.lap.vertical.ubc": (6, "in"),
    "paper.width.usual": (40, "in"),
    "sealant.width-to-depth.detailing": (2, ""),
    "sealant.depth.least.detailing": (Fraction(1, 4), "in"),
    "sealant.depth.most.detailing": (Fraction(1, 2), "in"),
    "bonding.spread.memory": (200, "sq ft/gal"),
    "coating.spread.prime.masonry": ((150, 300), "sq ft/gal"),
    "coating.spread.prime.smooth": ((250, 350), "sq ft/gal"),
    "coating.spread.second.masonry": ((300, 400), "sq ft/gal"),
    "coating.spread.second.smooth": ((300, 400), "sq ft/gal"),
    "coating.spread.third.masonry": ((350, 450), "sq ft/gal"),
    "coating.spread.third.smooth": ((400, 500), "sq ft/gal"),
    "coating.film.textured.ufc": ((20, 30), "mil"),
    "coating.coats.prime.practice": (1, "coats"),
    "coating.coats.paint.practice": (2, "coats"),
}


def rows() -> list[dict[str, str]]:
    folder = resources.files("darby.rulebook")
    return [r for b in BOOKS for r in tomllib.loads(folder.joinpath(f"{b}.toml").read_text("utf-8"))["figure"]]


@pytest.mark.parametrize("id", AS_PUBLISHED)
def test_as_published(id: str) -> None:
    figure = default().figures[id]
    value, name = AS_PUBLISHED[id]
    assert figure.unit.name == name
    found = (figure.low, figure.high) if isinstance(value, tuple) else (figure.value,)
    expected = value if isinstance(value, tuple) else (value,)
    assert [float(figure.unit.from_si(x)) for x in found if x is not None] == pytest.approx(
        [float(x) for x in expected]
    )


def test_every_number_of_the_room_is_pinned() -> None:
    assert {r["id"] for r in rows() if r.get("kind") != "rule"} == set(AS_PUBLISHED)


def test_every_custom_has_a_sentence_and_its_figures() -> None:
    from darby.words import catalogue

    voices = {r["voice"] for r in rows() if r["subject"] == "openings.rule"}
    for voice in voices:
        assert f"quantities.opening-rule.{voice}" in catalogue("en")
        assert f"word.quantities.opening-rule.{voice}" in catalogue("es")
    worked = {r["voice"] for r in rows() if r["subject"] in ("openings.none-under", "openings.share")}
    assert worked == voices - {"net"}
