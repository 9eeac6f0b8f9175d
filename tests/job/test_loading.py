"""What good documents become: trade terms, exact SI, and a list of what was assumed."""

from __future__ import annotations

import subprocess
import sys
import tomllib
from datetime import date
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest

from darby.job import Job, JobError, load, loads
from darby.job.firm import Allowance, Crew, Follows, Profit, Share
from darby.measure.surface import Meets
from darby.measure.units import FT, GAL, IN, LB
from tests.job.documents import FIRM, JOB

EXAMPLES = Path(__file__).parents[2] / "examples"
HOUR = 3600


def edge(job: Job, surface: str, name: str):
    return next(e for e in job.surface(surface).edges if e.id == name)


def opening(job: Job, surface: str, name: str):
    return next(o for o in job.surface(surface).openings if o.id == name)


def codes(error: JobError) -> list[str]:
    return [fault.code for fault in error.faults]


def faults_of(text: str, **how) -> list[str]:
    with pytest.raises(JobError) as caught:
        loads(text, **how)
    return codes(caught.value)


@pytest.fixture
def good() -> Job:
    return loads(JOB, firm=FIRM)


# --- the examples that ship ---


@pytest.mark.usefixtures("real_book")
def test_the_fire_hall_loads() -> None:
    job = load(EXAMPLES / "firehall.toml")
    assert job.as_of == date(2026, 9, 30)
    assert [s.id for s in job.surfaces] == [
        "bay-south", "bay-east", "bay-north", "parapet", "crew-1", "crew-2", "crew-3",
    ]  # fmt: skip
    assert job.firm.name == "Three Coats & Daughters"
    assert job.firm.people == 5
    assert edge(job, "bay-south", "left").meets == Meets("old plaster", Fraction(7, 8) * IN, Fraction(7, 8) * IN)
    assert edge(job, "bay-south", "left-above").kind == "outside corner"
    assert edge(job, "bay-north", "right").shared == edge(job, "crew-1", "left").shared == "bay-north|crew-1"
    assert job.base("bay-south", "hollow").kind == "lath over block"
    assert job.coats.wanted("parapet").total == Fraction(5, 8) * IN
    assert (job.ordered[0].item, job.ordered[0].unit.name) == ("portland", "bags")
    assert [a.what for a in job.also] == ["protect", "mask", "take off and put back", "wash", "dispose"]
    assert job.also[-1].cost == Decimal("180.00")


@pytest.mark.usefixtures("real_book")
def test_every_example_loads() -> None:
    jobs = [path for path in sorted(EXAMPLES.glob("*.toml")) if "darby" in tomllib.loads(path.read_text("utf-8"))]
    assert jobs
    for path in jobs:
        assert load(path).surfaces, path.name


# --- walls ---


def test_lengths_are_exact(good: Job) -> None:
    front = good.surface("front")
    assert {c.id: (c.u, c.v) for c in front.outline} == {
        "base-left": (0, 0), "base-right": (20 * FT, 0), "top-right": (20 * FT, 112 * IN),
        "peak": (10 * FT, 136 * IN), "top-left": (0, 112 * IN), "left-break": (0, 8 * FT),
    }  # fmt: skip
    assert good.base("front", "rest").out_of_plane == IN / 4
    assert good.base("shed-3", "rest").studs == 16 * IN


def test_a_line_and_a_table_make_openings(good: Job) -> None:
    door, window = opening(good, "front", "door-1"), opening(good, "front", "shop-window")
    assert (door.outline[0].u, door.outline[2].u - door.outline[0].u, door.outline[2].v) == (2 * FT, 3 * FT, 80 * IN)
    assert door.reveal == 4 * IN
    assert door.plastered == {"head", "left", "right"}
    assert window.plastered == {"head"}
    assert (window.outline[0].u, window.outline[0].v) == (10 * FT, 3 * FT)


def test_a_corner_is_one_corner(good: Job) -> None:
    assert edge(good, "front", "right").shared == edge(good, "side", "left").shared == "front|side"
    assert edge(good, "side", "right").shared is None
    around = [edge(good, f"shed-{n}", "right").shared for n in (1, 2, 3, 4)]
    assert len(set(around)) == 4


def test_the_other_side_of_a_corner_may_be_left_to_us() -> None:
    job = loads(JOB.replace('left = { kind = "outside corner", with = "front" }\n', ""), firm=FIRM)
    assert edge(job, "side", "left").shared == "front|side"
    assert "job.assumed-outside-corner" not in {n.code for n in job.assumed}


def test_houses_turn_with_the_plan(good: Job) -> None:
    assert [good.surface(f"shed-{n}").facing for n in (1, 2, 3, 4)] == [190.0, 100.0, 10.0, 280.0]
    assert [c.id for c in good.surface("shed-2").outline].count("peak") == 1
    assert [c.id for c in good.surface("shed-1").outline].count("peak") == 0


@pytest.mark.parametrize(
    ("written", "degrees"),
    [("north", 0), ("E", 90), ("south east", 135), ("southwest", 225), ("NW", 315), ("190 deg", 190), ("12.5°", 12.5)],
)
def test_facing(written: str, degrees: float) -> None:
    assert loads(JOB.replace('facing = "south"', f'facing = "{written}"'), firm=FIRM).surface("front").facing == degrees


def test_zones_carry_their_base_and_the_rest_is_a_zone(good: Job) -> None:
    zones = {z.id: z for z in good.surface("front").zones}
    assert set(zones) == {"patch", "rest"}
    assert zones["rest"].outline is None
    assert zones["rest"].traits == {"dense", "joints flush"}
    patch = good.base("front", "patch")
    assert (patch.kind, patch.block, patch.joints, patch.out_of_plane) == ("lath over block", "dense", "flush", None)
    assert {(b.surface, b.zone) for b in good.bases} == {(s.id, z.id) for s in good.surfaces for z in s.zones}


def test_bare_lengths_with_units() -> None:
    bare = JOB.replace('length = "20\'"', "length = 20").replace("darby = 1\n", 'darby = 1\nunits = "ft"\n')
    assert loads(bare, firm=FIRM).surface("front").outline == loads(JOB, firm=FIRM).surface("front").outline
    metric = JOB.replace('length = "20\'"', "length = 6.25").replace("darby = 1\n", 'darby = 1\nunits = "m"\n')
    assert loads(metric, firm=FIRM).surface("front").outline[1].u == Fraction(25, 4)


def test_the_units_of_the_job_are_not_the_units_of_the_firm() -> None:
    job = JOB.replace("darby = 1\n", 'darby = 1\nunits = "m"\n')
    assert faults_of(job, firm=FIRM.replace('up_to = "6\'"', "up_to = 6")) == ["measure.no-unit"]
    feet = FIRM.replace('up_to = "6\'"', "up_to = 6").replace("darby_firm = 1\n", 'darby_firm = 1\nunits = "ft"\n')
    assert loads(job, firm=feet).firm.access[0].up_to == 6 * FT


# --- coats, orders, days, rules ---


def test_a_zones_word_goes_before_its_surfaces(good: Job) -> None:
    front = '[[coats.on]]\nsurface = "front"\nfinish = "dash"\nchoose = "two-coat"\n\n'
    job = loads(JOB.replace("[[ordered]]", front + "[[ordered]]"), firm=FIRM)
    patch, rest, side = (job.coats.wanted(*at) for at in (("front", "patch"), ("front", "rest"), ("side", "rest")))
    assert (patch.choose, patch.finish, patch.suction) == ("three-coat", "dash", "low")
    assert (rest.choose, rest.finish, rest.suction) == ("two-coat", "dash", None)
    assert (side.choose, side.finish, side.paint) == (None, "float", False)
    own = patch.coats[0]
    assert (own.coat, own.thickness, own.moist, own.wait) == ("scratch", Fraction(3, 8) * IN, None, 48 * HOUR)
    assert patch.cure == "ibc"


def test_coats_on_a_house_are_on_all_its_walls_but_a_walls_own_word_goes_before() -> None:
    on = '[[coats.on]]\nsurface = "shed"\nfinish = "dash"\npaint = true\n\n'
    on += '[[coats.on]]\nsurface = "shed-3"\nfinish = "lace"\n\n'
    coats = loads(JOB.replace("[[ordered]]", on + "[[ordered]]"), firm=FIRM).coats
    assert [(w.finish, w.paint) for w in (coats.wanted(f"shed-{n}", "rest") for n in (1, 2, 3, 4))] == [
        ("dash", True), ("dash", True), ("lace", True), ("dash", True),
    ]  # fmt: skip


def test_what_is_said_of_single_coats_goes_together() -> None:
    front = '[[coats.on]]\nsurface = "front"\nthickness = { scratch = "1/4 in", finish = "1/8 in" }\n\n'
    coats = loads(JOB.replace("[[ordered]]", front + "[[ordered]]"), firm=FIRM).coats.wanted("front", "patch").coats
    assert {c.coat: c.thickness for c in coats} == {"scratch": Fraction(3, 8) * IN, "finish": Fraction(1, 8) * IN}


def test_orders_and_days(good: Job) -> None:
    assert (good.ordered[0].item, good.ordered[0].amount, good.ordered[0].unit.name) == ("portland", 12, "bags")
    assert good.also[0].hours == 2 * HOUR
    assert (good.days.damp_by, good.days.week, good.days.holidays) == ("owner", 5, (date(2026, 3, 9),))
    assert good.price.stands_days == 30


def test_local_rules_rule_and_the_jobs_go_before_the_firms(good: Job) -> None:
    rule = good.rules[0]
    assert (rule.subject, rule.written, rule.standing, rule.source) == (
        "thickness.block.two-coat", "5/8 in", "common practice", "local",
    )  # fmt: skip
    assert rule.value == pytest.approx(float(Fraction(5, 8) * IN))
    assert rule.why == "the county asks for it"
    firms = FIRM + '\n[[rule]]\nsubject = "thickness.block.two-coat"\nvalue = "3/4 in"\nwhy = "we like it so"\n'
    firms += '[[rule]]\nsubject = "cure.moist"\nvalue = "72 h"\nwhy = "it is dry here"\n'
    rules = loads(JOB, firm=firms).rules
    assert [(r.subject, r.written) for r in rules] == [("thickness.block.two-coat", "5/8 in"), ("cure.moist", "72 h")]


def test_local_rules_are_what_the_book_takes(good: Job) -> None:
    from tests.job.conftest import small_book

    ruled = small_book().with_local(good.rules).rule("thickness.block.two-coat")
    assert (ruled.figure.written, ruled.why) == ("5/8 in", "local rule")


def test_a_rule_in_words_and_where_it_applies() -> None:
    text = JOB + '[[rule]]\nsubject = "prep.damp"\nvalue = "soaked"\nwhy = "old brick"\n'
    text += '[[rule]]\nsubject = "cure.moist"\nvalue = "96 h"\nwhy = "wind"\napplies = { coat = ["scratch"] }\n'
    words, hours = loads(text, firm=FIRM).rules[1:]
    assert (words.kind, words.written) == ("rule", "soaked")
    assert dict(hours.applies) == {"coat": frozenset({"scratch"})}


# --- the firm ---


def test_the_firm(good: Job) -> None:
    firm = good.firm
    assert firm.follow == (Follows("thickness", "c926"), Follows("cure", "ibc", "the county asks for it"))
    assert dict(firm.follows) == {"thickness": "c926", "cure": "ibc"}
    assert firm.measures.mixer == 9 * FT**3
    assert firm.measures.bucket == Fraction(7, 10) * FT**3
    assert firm.crew == (Crew("plasterer", 2, Decimal("34.00")),)
    assert firm.labor.burden == Share(Fraction(42, 100), "wage")
    assert firm.labor.day == 8 * HOUR
    pace = firm.pace_of("scratch")
    assert pace is not None
    assert pace.rate == 110 * FT**2 / HOUR
    assert firm.allow == (Allowance("spread", Fraction(1, 10)),)
    assert firm.money.profit == Profit("markup", Share(Fraction(12, 100), "cost and overhead"))
    assert firm.money.least_charge == Decimal("1450.00")
    assert [a.kind for a in firm.access] == ["ground", "scaffold"]


def test_mixes_bags_and_packages(good: Job) -> None:
    firm = good.firm
    base, finish = firm.mix("base"), firm.mix("finish")
    assert base is not None
    assert [base.part(m) for m in ("portland", "lime", "sand", "masonry cement")] == [1, Fraction(3, 4), 5, 0]
    assert finish is not None
    bag = firm.bag(str(finish.bagged))
    assert bag is not None
    assert (bag.weight, bag.water, bag.yields, bag.use_within) == (
        80 * LB, Fraction(3, 2) * GAL, Fraction(3, 4) * FT**3, 90 * 60,
    )  # fmt: skip
    cement, sand = firm.buy("portland"), firm.buy("sand")
    assert cement is not None
    assert (cement.package.written, cement.package.holds, cement.package.each) == ("94 lb bag", 94 * LB, "bag")
    assert sand is not None
    assert (sand.package.holds, sand.package.loose, sand.price) == (27 * FT**3, True, Decimal("46.00"))


def test_the_usual_spans(good: Job) -> None:
    price, bags, pace = good.firm.usual.price, good.firm.usual.bags, good.firm.usual.pace
    assert price is not None
    assert bags is not None
    assert pace is not None
    assert (price.low, price.high) == (8 / FT**2, 34 / FT**2)
    assert (bags.low * 100 * FT**2, bags.high * 100 * FT**2) == (6, 26)
    assert (pace.unit.from_si(pace.low), pace.unit.from_si(pace.high)) == (150, 900)


def test_the_job_may_differ_from_its_firm() -> None:
    over = '\n[firm.money]\noverhead = "30 % of cost"\n[[firm.buys]]\nitem = "sand"\nprice = "$50.00"\n'
    over += '[[firm.buys]]\nitem = "lime"\npackage = "50 lb bag"\nprice = "$14.20"\n'
    firm = loads(JOB + over, firm=FIRM).firm
    assert firm.money.overhead == Share(Fraction(3, 10), "cost")
    assert firm.money.least_charge == Decimal("1450.00")
    assert [(b.item, b.price) for b in firm.buys] == [
        ("portland", Decimal("16.80")), ("sand", Decimal("50.00")), ("lime", Decimal("14.20")),
    ]  # fmt: skip
    assert firm.buys[1].package.written == "cu yd"


def test_a_job_without_a_firm_loads_and_says_so() -> None:
    job = loads(JOB)
    assert not job.has_firm
    assert job.firm.buys == ()
    assert job.firm.crew == ()
    assert job.firm.measures.mixer is None
    assert job.system == "us"
    assert "job.assumed-no-firm" in {n.code for n in job.assumed}
    assert "job.assumed-no-firm" not in {n.code for n in loads(JOB, firm=FIRM).assumed}


def test_a_firm_within_the_job_alone() -> None:
    job = loads(JOB + '\n[firm]\nsystem = "metric"\n')
    assert (job.system, job.has_firm, job.firm.name) == ("metric", True, "")


NAMED = JOB.replace('name = "Wash house"', 'name = "Wash house"\nfirm = "our/firm.toml"')


def test_the_firm_file_stands_beside_the_job(tmp_path: Path) -> None:
    (tmp_path / "our").mkdir()
    (tmp_path / "our" / "firm.toml").write_text(FIRM, "utf-8")
    (tmp_path / "job.toml").write_text(NAMED, "utf-8")
    assert load(tmp_path / "job.toml").firm.name == "Nobody & Sons"
    assert loads(NAMED, folder=tmp_path).firm == loads(JOB, firm=FIRM).firm


def test_a_text_alone_opens_no_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "our").mkdir()
    (tmp_path / "our" / "firm.toml").write_text(FIRM, "utf-8")
    monkeypatch.chdir(tmp_path)
    with pytest.raises(JobError) as caught:
        loads(NAMED)
    assert [(f.code, f.place) for f in caught.value.faults] == [("job.no-firm-file", "job, firm")]


def test_a_firm_file_that_is_not_there_is_offered_another(tmp_path: Path) -> None:
    (tmp_path / "firm-2026.toml").write_text(FIRM, "utf-8")
    (tmp_path / "job.toml").write_text(NAMED.replace('block = "dense"', 'block = "dence"'), "utf-8")
    with pytest.raises(JobError) as caught:
        load(tmp_path / "job.toml")
    assert [(f.code, f.found, f.nearest) for f in caught.value.faults] == [
        ("job.no-firm-file", "our/firm.toml", "firm-2026.toml"),
        ("job.not-one-of", "dence", "dense"),
    ]


def test_faults_of_job_and_firm_show_together() -> None:
    found = faults_of(JOB.replace('block = "dense"', 'block = "dence"'), firm=FIRM.replace("people = 2", "people = 0"))
    assert found == ["job.not-one-of", "job.out-of-span"]
    assert faults_of(JOB.replace('"dense"', '"dence"'), firm="darby_firm = ") == ["job.not-toml", "job.not-one-of"]


def test_what_is_ordered_is_not_judged_by_a_firm_that_cannot_be_read() -> None:
    assert faults_of(JOB.replace('item = "portland"', 'item = "our-own-mix"'), firm="darby_firm = ") == ["job.not-toml"]


# --- what was assumed ---


def test_what_nobody_said_is_noted() -> None:
    text = """
darby = 1
[job]
name = "As little as will do"
as_of = 2026-03-02
[[wall]]
id = "wall"
length = "10'"
height = "8'"
base = "block"
left = "meets old work"
openings = ["window 2' x 2' at 4' up 3'"]
[[wall]]
id = "gable"
length = "10'"
height = "4'"
base = "frame"
base_edge = "roof line"
"""
    job = loads(text)
    assert {(n.code, n.at) for n in job.assumed} == {
        ("job.unsaid-facing", "wall"), ("job.unsaid-facing", "gable"), ("job.assumed-proud", "wall/left"),
        ("job.assumed-outside-corner", "wall/right"), ("job.assumed-outside-corner", "gable/left"),
        ("job.assumed-outside-corner", "gable/right"), ("job.assumed-base-edge", "wall"), ("job.assumed-top", "wall"),
        ("job.assumed-top", "gable"), ("job.assumed-foot", "gable"), ("job.assumed-no-reveal", "wall/window-1"),
        ("job.unsaid-block", "wall"), ("job.unsaid-joints", "wall"), ("job.unsaid-out-of-plane", "wall"),
        ("job.unsaid-sheathing", "gable"), ("job.unsaid-studs", "gable"), ("job.assumed-finish", "coats"),
        ("job.assumed-no-paint", "coats"), ("job.assumed-no-firm", "job"), ("job.assumed-upright", "job"),
    }  # fmt: skip
    assert {n.grade for n in job.assumed} == {"assumed"}


# --- the text itself ---


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(JobError) as caught:
        load(tmp_path / "none.toml")
    assert codes(caught.value) == ["job.no-file"]
    with pytest.raises(JobError) as caught:
        load(tmp_path)
    assert codes(caught.value) == ["job.no-file"]


def test_a_file_that_is_no_text(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(b'darby = 1\nname = "caf\xe9"\n')
    with pytest.raises(JobError) as caught:
        load(path)
    assert [(f.code, f.found) for f in caught.value.faults] == [("job.not-utf-8", "line 2")]


def test_a_byte_order_mark_is_nothing(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(b"\xef\xbb\xbf" + JOB.encode())
    assert load(path) == loads(JOB)


def test_a_text_over_the_limit_is_refused_unread(tmp_path: Path) -> None:
    from darby.job.loading import MOST_BYTES

    long = JOB + "#" * (MOST_BYTES - len(JOB.encode()) + 1)
    assert faults_of(long) == ["job.too-long"]
    path = tmp_path / "job.toml"
    path.write_text(long, "utf-8")
    with pytest.raises(JobError) as caught:
        load(path)
    assert codes(caught.value) == ["job.too-long"]
    assert loads(long[:-1]) == loads(JOB)


def test_depths_and_numbers_no_machine_holds() -> None:
    assert faults_of("a = " + "[" * 5000 + "]" * 5000) == ["job.too-deep"]
    assert faults_of("a = " + "[" * 30 + "]" * 30) == ["job.too-deep"]
    assert faults_of("darby = " + "9" * 5000) == ["job.not-toml"]
    assert faults_of("darby = 0x" + "f" * 5000) == ["job.version-newer"]
    assert faults_of(JOB.replace("built = 1990", "built = 0x" + "f" * 5000)) == ["job.out-of-span"]
    assert faults_of(JOB.replace('length = "20\'"', "length = 0x" + "f" * 5000)) == ["job.wrong-kind"]
    assert faults_of(JOB.replace('length = "20\'"', "length = nan")) == ["measure.not-text"]
    assert faults_of(JOB.replace('value = "5/8 in"', 'value = "1e999999999 in"')) == ["job.unreadable-figure"]


def test_no_walls() -> None:
    assert faults_of('darby = 1\n[job]\nname = "x"\nas_of = 2026-03-02\n') == ["job.no-walls"]


# --- the hash ---


def test_the_hash_is_of_the_meaning() -> None:
    job = loads(JOB, firm=FIRM)
    spelled = JOB.replace('length = "20\'"', 'length = "240 in"   # measured twice')
    spelled = spelled.replace('total = "7/8 in"', 'total = "0.875 in"')
    same = loads(spelled, firm=FIRM)
    assert same == job
    assert same.hash == job.hash
    assert len(job.hash) == 12


@pytest.mark.parametrize(
    ("old", "new"),
    [("length = \"20'\"", "length = \"20' 1/16\\\"\""), ("2026-03-02", "2026-03-03"), ("12 bags", "13 bags"),
     ('suction = "low"', 'suction = "high"'), ('name = "Wash house"', 'name = "Washhouse"')],
)  # fmt: skip
def test_another_meaning_is_another_hash(old: str, new: str) -> None:
    assert loads(JOB.replace(old, new), firm=FIRM).hash != loads(JOB, firm=FIRM).hash


def test_another_price_is_another_hash() -> None:
    assert loads(JOB, firm=FIRM.replace("$46.00", "$46.01")).hash != loads(JOB, firm=FIRM).hash


def test_the_hash_does_not_hang_on_the_run() -> None:
    """Sets have no order of their own: the hash of this job was written down by another process."""
    code = "from tests.job.documents import JOB; from darby.job import loads; "
    code += "print(loads(JOB.split('[[coats.on')[0]).hash)"
    first, second = (
        subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True,
                       cwd=Path(__file__).parents[2], env={"PYTHONHASHSEED": seed, "PYTHONPATH": "."}).stdout
        for seed in ("1", "2")
    )  # fmt: skip
    assert first == second


def test_looking_at_a_job_needs_nothing_heavy() -> None:
    code = "import darby.job, darby.job.model, darby.job.firm, sys; print('pydantic' in sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "False"


def test_jobs_can_be_keys(good: Job) -> None:
    assert len({good, loads(JOB, firm=FIRM)}) == 1
