"""Surfaces that a shape wrote are called in the reader's language; what people typed stays as typed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from darby.job import load
from darby.measure import Cap, Pilasters, box, garden_wall, house, length
from darby.measure.surface import Surface
from darby.words import surface_called
from darby.words.surfaces import called_together
from tests.cli.running import JOBS


def ft(text: str):
    return length(text)


def slope(to: str) -> Cap:
    return Cap("slope", length("2 in"), to)  # type: ignore[arg-type]


MANY = garden_wall(
    "gw", "Barda de {Ruth}", ft("60'"), ft("6'"), ft("8 in"), slope("both"),
    pilasters=Pilasters((ft("10'"), ft("30'")), ft("16 in"), ft("4 in"), frozenset({"front", "back"})),
)  # fmt: skip
ONE_TOP = garden_wall("gw", "Barda", ft("60'"), ft("6'"), ft("8 in"), slope("front"))
CHIMNEY = box("ch", "Chimney", [ft("3'"), ft("2'")], ft("6'"), slope("front"))


@pytest.mark.parametrize("surface", [*MANY, *ONE_TOP, *CHIMNEY], ids=lambda s: s.id)
def test_in_english_it_is_the_surface_s_own_name(surface: Surface):
    assert surface_called(surface) == surface.name


def test_every_part_has_its_spanish():
    said = {s.id: surface_called(s, "es") for s in (*MANY, *ONE_TOP, *CHIMNEY)}
    assert len([s for s in MANY if s.says]) == len(MANY) == 8
    assert said["gw-left"] == "Barda, cabecera izquierda"
    for surface in (*MANY, *ONE_TOP):
        assert surface.says is not None
        called = surface_called(surface, "es")
        assert called.startswith(surface.says[1] + ", ")
        assert not {"front", "back", "end", "top", "sides", "pilasters"} & set(called.replace(",", "").split())
    assert "{Ruth}" in surface_called(MANY[0], "es")
    assert said["ch-top"] == "Chimney, corona"


def test_what_people_typed_stays_in_both_languages():
    for wall in house("crew", "Crew room", [ft("14'"), ft("12'"), ft("14'"), ft("12'")], ft("8'"), facing=90.0):
        assert surface_called(wall, "es") == surface_called(wall) == wall.name


@pytest.mark.parametrize("path", JOBS, ids=lambda p: p.name)
def test_every_surface_of_the_examples_can_be_called(path):
    for surface in load(path).surfaces:
        assert surface_called(surface) == surface.name
        assert surface_called(surface, "es")


# --- many in one breath -----------------------------------------------------------------------------------


ROOMS = house("hut", "Hut", [ft("10'"), ft("8'"), ft("10'"), ft("8'")], ft("8'"))


def test_all_faces_of_a_shape_are_called_as_the_shape():
    faces = [*MANY, *ROOMS]
    named = called_together({s.id for s in MANY}, faces)
    assert set(named.values()) == {"Barda de {Ruth}"}
    assert set(named) == {s.id for s in MANY}
    assert set(called_together({s.id for s in ROOMS}, faces).values()) == {"Hut"}


def test_one_face_less_and_each_has_its_own_name():
    some = [*MANY][1:]
    assert called_together({s.id for s in some}, MANY, "es") == {s.id: surface_called(s, "es") for s in some}


@pytest.mark.parametrize(("language", "word"), [("en", "everywhere"), ("es", "en todas partes")])
def test_all_of_three_shapes_is_everywhere_and_all_of_two_is_not(language, word):
    two = [*MANY, *ROOMS]
    assert set(called_together({s.id for s in two}, two, language).values()) == {"Barda de {Ruth}", "Hut"}
    three = [*two, *CHIMNEY]
    assert called_together({s.id for s in three}, three, language) == {s.id: word for s in three}


def test_names_with_nothing_in_common_stay_apart():
    walls = [replace(s, name=name) for s, name in zip(ROOMS, ("North", "East", "South", "West"), strict=True)]
    two = {walls[0].id, walls[1].id}
    assert list(called_together(two, walls).values()) == ["North", "East"]
    assert set(called_together({w.id for w in walls}, walls).values()) == {"everywhere"}
