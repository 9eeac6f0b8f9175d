"""The five examples as a newcomer enters them: what he fills in, form by form, from an empty one to the quote.

An entry is a field that is filled or chosen; a field with several lines counts as so many. Keys are the characters
typed. A choice is two taps, a field one. A screen is an address that is seen.
"""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Locator, Page
from pypdf import PdfReader

EXAMPLES = Path(__file__).parents[2] / "examples"


@dataclass(frozen=True)
class Step:
    """One form: the page it is opened from ("": a new job), the section or the shape, and what goes in."""

    page: str
    section: str
    fields: dict[str, str]


Way = tuple[Step, ...]


def head(name: str, customer: str, address: str) -> dict[str, str]:
    return {"job.name": name, "job.customer": customer, "job.address": f"{address}, Alder Flat"}


def rows(section: str, *entries: dict[str, str], first: int = 0) -> dict[str, str]:
    """Entries of a list, each with its fields."""
    return {f"{section}.{n}.{key}": text for n, entry in enumerate(entries, first) for key, text in entry.items()}


def garden_wall(_: str) -> Way:
    wall = {
        "length": "60'", "height": "6'", "facing": "south", "block": "dense", "out_of_plane": "1/4 in",
        "pilasters.every": "10'", "pilasters.width": "16 in", "pilasters.out": "4 in", "sprinklers": "true",
    }  # fmt: skip
    about = head("Alder Flat, garden wall", "the Alder Flat Grange", "9 Mill Road")
    return (Step("", "garden_wall", about | rows("garden_wall", wall) | {"coats.paint": "false"}),)


CHIMNEY_LINES = {
    "en": (
        "chimney \"Chimney\" 4' x 2'-8\" x 6', roof 6 in 12, foot 12', facing south, sound brick, flush joints, "
        "out of plane 1/4 in, cap drip",
        "soffit \"South eave, soffit\" 32' x 2', foot 9', facing south, frame, open studs, studs 16 in",
        "soffit \"Porch slab, underside\" 12' x 5', foot 8', concrete",
        'foundation "Foundation, south side" 32\' x 1\'-6", facing south, painted block, dense block, flush joints, '
        "out of plane 1/8 in, left outside corner, right outside corner",
    ),
    "es": (
        "chimenea \"Chimenea\" 4' x 2'-8\" x 6', techo 6 in 12, pie 12', mira al sur, ladrillo firme, juntas al ras, "
        "fuera de plano 1/4 in, remate goterón",
        "plafón \"Alero sur\" 32' x 2', pie 9', mira al sur, bastidor, montantes abiertos, postes 16 in",
        "plafón \"Losa del porche\" 12' x 5', pie 8', concreto",
        'cimiento "Zócalo sur" 32\' x 1\'-6", mira al sur, bloque pintado, bloque denso, juntas al ras, '
        "fuera de plano 1/8 in, izquierda esquina de afuera, derecha esquina de afuera",
    ),
}


def chimney_soffit(language: str) -> Way:
    about = head("Harrow house, chimney and soffit", "L. Harrow", "31 Depot Street")
    tried = {"tests.scrape": "holds", "tests.water": "beads", "tests.pull": "held"}
    protect = {"what": "protect", "says": "shingles round the chimney, porch floor", "hours": "3 h"}
    lines = {"walls": "\n".join(CHIMNEY_LINES[language]), "job.built": "1958", "coats.paint": "false"}
    return (
        Step("", "lines", about | lines | {"coats.sand": "20/30"}),
        Step("wall", "strip", rows("strip", tried, first=2)),
        Step("price", "also", rows("also", protect)),
    )


PATCH_SIDES = {"hollow.head": "4 in", "hollow.right": "10 in"} | {
    f"lines.{side}": "12 in" for side in ("head", "sill", "left", "right")
}


def window_patch(_: str) -> Way:
    about = head("Pruett house, upstairs window", "D. Pruett", "8 Orchard Street") | {"job.built": "1960"}
    ring = {
        "name": "Upstairs window, patch", "size": "3' x 4'", "width": "12 in", "wall": "22' x 9'", "at": "8'",
        "up": "3'", "foot": "10'", "facing": "east", "sheathing": "wood", "studs": "16 in", "thickness": "1 in",
        "proud": "1 in", "replaced": "true",
    }  # fmt: skip
    patch = PATCH_SIDES | {"flange": "1-3/8 in", "old": "hard", "cut": "6 sq ft/h"}
    cracks = (
        {
            "name": "from the window's lower left corner", "line": "8', 3'\n7'-2\", 2'\n6'-8\", 1'-2\"",
            "width": "1/32 in", "gauge": "0.1 mm",
            **rows("reading", *({"on": on, "width": width, "air": air} for on, width, air in (
                ("2026-02-14", "0.8 mm", "38 °F"), ("2026-05-02", "0.8 mm", "62 °F"),
                ("2026-07-18", "0.7 mm", "91 °F"), ("2026-09-20", "0.8 mm", "70 °F")))),
        },
        {
            "name": "from the eave, north end", "line": "18'-6\", 9'\n18'-2\", 7'\n18'-5\", 4'-6\"",
            "width": "3/32 in", "gauge": "0.1 mm",
            **rows("reading", *({"on": on, "width": width, "air": air} for on, width, air in (
                ("2026-02-14", "2.4 mm", "38 °F"), ("2026-05-02", "2.1 mm", "62 °F"),
                ("2026-07-18", "1.7 mm", "91 °F")))),
        },
    )  # fmt: skip
    quiet = "s" * 22
    beside = "ssssssss...h" + "s" * 10
    found = {
        "name": "Upstairs, east wall", "size": "22' x 9'", "openings": "window 3' x 4' at 8' up 3'", "grid": "1'",
        "taps": "\n".join([quiet, quiet, *[beside] * 4, quiet, "sshh" + "s" * 18, quiet]), "pace": "300 sq ft/h",
        **rows("hollow", {"name": "right of the window", "size": "10 in x 4'", "at": "11'", "up": "3'",
                          "push": "gives"}),
        **rows("crack", *cracks),
        **rows("loose", {"name": "under the sill", "size": "3' x 1'", "at": "8'", "up": "1'-10\""}),
    }  # fmt: skip
    also = (
        {"what": "protect", "says": "roof of the porch below, and the planting", "hours": "2 h"},
        {"what": "dispose", "says": "old plaster, wetted and bagged", "cost": "$90.00"},
    )
    firm = rows("firm.crew", {"role": "plasterer", "people": "1"}, {"role": "tender", "people": "1"}) | {
        "firm.access.0.kind": "scaffold", "firm.access.0.per_day": "$32.00", "firm.access.0.set_up": "2 h",
        "firm.usual.price": "$8 to $400/sq ft", "firm.usual.pace": "2 to 900 sq ft/day",
    }  # fmt: skip
    return (
        Step("", "patch", about | rows("ring", ring) | rows("patch", patch)
             | {"coats.sand": "16/20", "coats.paint": "true"}),
        Step("survey", "survey", rows("survey", found)),
        Step("price", "also", rows("also", *also)),
        Step("price", "firm", firm),
    )  # fmt: skip


RECOAT_OPENINGS = {
    "en": (
        '1: door "front door" 3068 at 16\', frame 3/4 in',
        "1: window \"living room window\" 6' x 4' at 5', sill 3', frame 3/4 in",
        "1: window \"bedroom window\" 4' x 3' at 26', sill 4', frame 1/2 in",
        "2: window \"east window\" 3' x 4' at 10', sill 3', frame 3/4 in",
        '3: door "kitchen door" 3068 at 6\', frame 1 1/4 in',
        "3: window \"kitchen window\" 4' x 3' at 14', sill 4', frame 3/4 in",
        "3: window \"back bedroom window\" 5' x 4' at 25', sill 3', frame 3/4 in",
        "4: window \"bath window\" 2' x 2' at 11', sill 5', reveal 3 in",
    ),
    "es": (
        '1: puerta "de enfrente" 3068 a 16\', marco 3/4 in',
        "1: ventana \"de la sala\" 6' x 4' a 5', antepecho 3', marco 3/4 in",
        "1: ventana \"de la recámara\" 4' x 3' a 26', antepecho 4', marco 1/2 in",
        "2: ventana \"oriente\" 3' x 4' a 10', antepecho 3', marco 3/4 in",
        '3: puerta "de la cocina" 3068 a 6\', marco 1 1/4 in',
        "3: ventana \"de la cocina\" 4' x 3' a 14', antepecho 4', marco 3/4 in",
        "3: ventana \"de atrás\" 5' x 4' a 25', antepecho 3', marco 3/4 in",
        "4: ventana \"del baño\" 2' x 2' a 11', antepecho 5', mocheta 3 in",
    ),
}


def recoat(language: str) -> Way:
    about = head("Alder Flat, Orchard Street house", "the Orchard Street owners", "27 Orchard Street")
    house = {
        "walls": "36', 24', 36', 24'", "height": "9'", "gables": "2: 5'\n4: 5'", "studs": "16 in",
        "facing": "south" if language == "en" else "sur", "tests.scrape": "holds", "tests.water": "beads",
        "tests.tap": "sound", "tests.pull": "held", "above_earth": "6 in", "above_paving": "3 in",
        "openings": "\n".join(RECOAT_OPENINGS[language]),
    }  # fmt: skip
    vents = (
        {"name": "gable vent", "surface": "house-2", "at": "12'", "up": "11'", "clear": "5/8 in"},
        {"name": "dryer hood", "surface": "house-3", "at": "31' 6\"", "up": "1' 6\"", "clear": "1 1/8 in"},
        {"name": "crawl-space vents", "surface": "house-1", "at": "2'", "up": "6 in", "clear": "1/4 in", "count": "4"},
    )
    fixtures = (
        {"what": "lamp", "count": "4", "each": "30 min"}, {"what": "downspout", "count": "4", "each": "45 min"},
        {"what": "hose bib plate", "count": "2", "each": "10 min"},
    )  # fmt: skip
    chosen = {"surface": "house", "choose": "heavy-skim",
              "why": "sound all over, and the owners want the old dash texture gone"}  # fmt: skip
    protect = {"what": "protect", "says": "walks, shrubs and the porch floor", "hours": "4 h", "area": "500 sq ft"}
    return (
        Step("", "recoat", about | {"job.built": "1962", "recoat.returns": "1 1/4 in", "recoat.weep": "3/8 in"}
             | rows("house", house)),
        Step("recoat", "recoat", rows("recoat.vent", *vents) | rows("recoat.fixture", *fixtures)
             | rows("recoat.eave", {"name": "frieze under the eave", "surface": "house", "clear": "1 1/2 in"})
             | {"recoat.wash": "400 sq ft/h", "recoat.mask": "60 ft/h", "recoat.roughen": "90 sq ft/h"}),
        Step("coats", "coats", {"coats.colored": "true"} | rows("coats.on", chosen)),
        Step("price", "also", rows("also", protect)),
    )  # fmt: skip


FIREHALL_LINES = (
    "wall \"Engine bay, south wall\" 24' x 12', gable 3', facing south, dense block, struck joints, "
    "out of plane 5/8 in",
    "door 3068 at 1'-8\", reveal 4\"",
    "door \"engine door\" 12' x 10' at 9', reveal 4\", plaster head left right",
    "wall \"Engine bay, east wall\" 34' x 12', facing east, dense block, struck joints, out of plane 1/4 in",
    "wall \"Engine bay, north wall\" 24' x 12', gable 3', facing north, dense block, struck joints",
    "door 3068 at 10', reveal 4\"",
    "house \"Crew room\" 14' + 12' + 14' x 8', facing east, frame, wood, studs 16 in, top soffit",
    "1: window 3' x 4' at 5', sill 3'", "2: window 4' x 4' at 4', sill 3'", "3: door 3068 at 9'",
    "wall \"Roof parapet\" 45' x 2', facing south, foot 12', lightweight block, flush joints, top drip, "
    "left outside corner, right outside corner",
)  # fmt: skip
SOUTH, EAST, NORTH, PARAPET = (
    "engine-bay-south-wall", "engine-bay-east-wall", "engine-bay-north-wall", "roof-parapet",
)  # fmt: skip


def firehall(_: str) -> Way:
    about = head("Alder Flat fire hall", "the Alder Flat Volunteer Fire Company", "2 Mill Road")
    outside, inside = "outside corner", "inside corner"
    hollow = {"name": "the hollow by the small door", "base": "lath over block",
              "outline": "4'-8\", 0\"\n9', 0\"\n9', 8'-6\"\n4'-8\", 8'-6\""}  # fmt: skip
    old = {"kind": "meets old work", "up_to": "9'-4\"", "thickness": "7/8 in", "proud": "7/8 in"}
    walls = (
        {**{f"left.{k}": v for k, v in old.items()}, "right.kind": outside, "right.with": EAST,
         **rows("zone", hollow)},
        {"left.kind": outside, "left.with": SOUTH, "right.kind": outside, "right.with": NORTH},
        {"left.kind": outside, "left.with": EAST, "right.kind": inside, "right.with": "crew-room-1"},
        {"base_edge": "roof line"},
    )  # fmt: skip
    points = (
        "1', 1', 0 in", "1', 5', 1/8 in", "1', 9', 1/8 in", "1', 11' 6\", 3/16 in", "6', 1', -5/16 in",
        "6', 5', -3/8 in", "6', 8', -1/4 in", "6', 11', 0 in", "12', 11', 1/16 in", "12', 14', 1/8 in",
        "18', 11', 1/8 in", "22' 6\", 1', 1/16 in", "22' 6\", 5', 1/8 in", "22' 6\", 9', 3/16 in",
        "23', 11' 6\", 1/4 in",
    )  # fmt: skip
    match = {
        "surface": SOUTH, "says": "the office, south face, right of its door, chest high", "looks": "dash",
        "retained": "No. 4, 0 g\nNo. 8, 1.1 g\nNo. 16, 4.8 g\nNo. 20, 2.0 g\nNo. 30, 1.2 g\nNo. 50, 0.6 g\npan, 0.3 g",
        "depths": "0.085 in, 0.110 in, 0.072 in, 0.095 in, 0.120 in, 0.064 in, 0.101 in, 0.090 in, 0.078 in, 0.106 in",
        "paint_coats": "3",
    }  # fmt: skip
    on = (
        {"surface": NORTH, "choose": "two-coat", "suction": "low", "why": "splash test, north side, mossy and tight"},
        {"surface": PARAPET, "total": "5/8 in",
         "why": "a 5/8 in. cap flashing is already on; the face has to come out to it"},
    )  # fmt: skip
    also = (
        {"what": "protect", "says": "pavers, shrubs and the office windows", "hours": "3 h"},
        {"what": "mask", "says": "engine door frame and tracks", "length": "76'", "hours": "2 h"},
        {"what": "take off and put back", "says": "two lamps and a hose bib plate", "hours": "2 h"},
        {"what": "wash", "says": "block walls, low pressure, the day before", "hours": "4 h"},
        {"what": "dispose", "says": "bags, cut-offs and washings", "cost": "$180.00"},
    )
    return (
        Step("", "lines", about | {"walls": "\n".join(FIREHALL_LINES), "job.built": "2026", "coats.paint": "false"}),
        Step("wall", "wall", rows("wall", *walls)),
        Step("grounds", "readings", rows("readings", {"surface": SOUTH, "points": "\n".join(points)})),
        Step("match", "match", rows("match", match)),
        Step("coats", "coats", rows("coats.on", *on)),
        Step("joints", "joints", rows("joints", {"surface": EAST, "block": "17'"})),
        Step("order", "ordered", rows("ordered", {"item": "portland", "amount": "10 bags", "on": "2026-09-28"})),
        Step("price", "also", rows("also", *also)),
    )


WAYS: dict[str, Callable[[str], Way]] = {
    "garden-wall": garden_wall, "chimney-soffit": chimney_soffit, "window-patch": window_patch, "recoat": recoat,
    "firehall": firehall,
}  # fmt: skip


@dataclass
class Counted:
    """Somebody at a page, and what it took."""

    page: Page
    taps: int = 0
    keys: int = 0
    entries: int = 0
    screens: set[str] = field(default_factory=set)

    def seen(self) -> None:
        self.screens.add(re.sub(r"\?.*|#.*", "", self.page.url))
        assert self.page.evaluate("document.documentElement.scrollWidth <= innerWidth"), self.page.url

    def tap(self, what: Locator) -> None:
        what.click()
        self.page.wait_for_load_state()
        self.taps += 1
        self.seen()

    def show(self, at: Locator) -> None:
        """Open what it stands in, as one who looks for it does."""
        at.wait_for(state="attached")
        while (closed := at.locator("xpath=ancestor::details[not(@open)]")).count():
            closed.first.locator("> summary").click()
            self.taps += 1

    def enter(self, name: str, text: str) -> None:
        at = self.page.locator(f'[name="{name}"]')
        self.show(at)
        if at.evaluate("e => e.tagName") == "SELECT":
            at.select_option(text)
            self.taps += 2
        else:
            at.fill(text)
            self.taps += 1
            self.keys += len(text)
        self.entries += text.count("\n") + 1

    def step(self, step: Step) -> None:
        """Go to the form, fill it in, keep it."""
        if not step.page:
            self.tap(self.page.locator('nav.lead a[href="/new"]'))
            self.tap(self.page.locator(f'a[href="/new/{step.section}"]'))
        else:
            self.go(step.page)
            self.tap(self.page.locator(f'.given a[href*="/section/{step.section}?"]').first)
            self.page.locator('form.fill [name="base"]').first.wait_for(state="attached")
        for name, text in step.fields.items():
            self.enter(name, text)
        if not step.page:
            self.tap(self.page.locator("form.fill button.go"))
            assert "/job/" in self.page.url, self.page.locator("main").inner_text()
        else:
            self.tap(self.page.locator(f'form.fill[action*="/section/{step.section}"] button.go'))
            self.page.locator("#changed").wait_for()

    def go(self, name: str) -> None:
        """To a page of the job by the rod, by its place first where it lies under another."""
        if f"/{name}/" in self.page.url:
            return
        mark = self.page.locator(f'.rod a[href$="/{name}/"]:visible, .stages a[href$="/{name}/"]:visible')
        if not mark.count():
            self.tap(self.page.locator(f'.rod li.place:has(a[href$="/{name}/"]) > a').first)
        if f"/{name}/" not in self.page.url:
            self.tap(mark.first)

    def downloaded(self) -> str:
        """The text of the quote, taken by the browser as a file."""
        link = self.page.locator('a[href$="/paper/quote.pdf"]').first
        with self.page.expect_download() as download:
            link.click(modifiers=["Alt"])  # a tap opens it in the browser's own window for PDF; this takes it home
        self.taps += 1
        return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(download.value.path().read_bytes())).pages)

    def enter_job(self, way: Way) -> str:
        """Every form of the way, kept; the document that came of it."""
        for step in way:
            self.step(step)
        return self.page.locator("nav.lead a.job").get_attribute("href").split("/")[2]

    def quote(self) -> tuple[str, str]:
        """To the quote by its link, and home with it: the total on the page, the text of the paper."""
        self.tap(self.page.locator('nav.lead a[href$="/quote/"]'))
        return self.page.locator(".sum-line .v").first.inner_text(), self.downloaded()


# --- what it must come to ------------------------------------------------------------------------------


def come_to(answers: Any) -> dict[str, Any]:
    """What is compared: the price, the packages of each item, how each place is built up, trips and days."""
    price, days, order = (answers.good(stage)["job"] for stage in ("price", "days", "order"))
    assert price.complete
    return {
        "total": price.total.value,
        "quote": sorted(line.amount.value for line in price.quote),
        "bags": {line.item: line.packages.value if line.packages is not None else None for line in order.lines},
        "coats": sorted(
            (built.chosen.id, [(coat.name, coat.nominal.value) for coat in built.chosen.coats])
            for coats in answers.good("coats").values()
            for _, built in coats.zones
        ),
        "trips": days.count.value,
        "span": days.span.value,
    }


def example_like(name: str, entered: Mapping[str, Any], firm: str | None) -> dict[str, Any]:
    """What the example comes to on the day, and under the short names, of what was entered."""
    import tomllib

    from darby.answers import answer
    from darby.desk.sketching.lines import SHAPES
    from darby.job import dump, loads

    there = tomllib.loads((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"))
    names = {
        ours["id"]: theirs["id"]
        for section in SHAPES
        for ours, theirs in zip(there.get(section, ()), entered.get(section, ()), strict=True)
    }
    there["job"]["as_of"] = entered["job"]["as_of"]
    return come_to(answer(loads(dump(_renamed(there, names)), firm=firm)))


def _renamed(value: Any, names: Mapping[str, str], key: str = "") -> Any:
    """The document with its walls under other short names."""
    if isinstance(value, dict):
        return {k: _renamed(v, names, k) for k, v in value.items()}
    if isinstance(value, list):
        return [_renamed(v, names, key) for v in value]
    if key not in ("id", "surface", "with"):
        return value
    stem, dash, number = str(value).rpartition("-")
    return names.get(value) or (f"{names[stem]}{dash}{number}" if stem in names else value)


def is_the_example(name: str, document: str) -> str:
    """Hold what was entered against the example; its total as money."""
    from darby.desk.kept import saving
    from darby.desk.reading import read

    found = read(document)
    ours = come_to(found.answers)
    assert ours == example_like(name, found.tables, saving.firm_text())
    return f"{ours['total']:,.2f}"
