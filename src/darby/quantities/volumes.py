"""Mortar of one surface: net area x nominal thickness first, then every allowance a line of its own, added."""

from __future__ import annotations

from darby.measure.units import unit
from darby.quantities.lines import share, total
from darby.quantities.model import (
    AllowanceLine,
    AllowanceName,
    Coat,
    CoatVolume,
    MixVolume,
    Volumes,
    VolumesAsk,
    Zone,
    ZoneArea,
)
from darby.quantities.openings import measured_area, opening_rule
from darby.rulebook import Book, Figure
from darby.working import Quantity, Working

DASH_BOND = "dash-bond"
Share = Quantity | Figure


def volumes(ask: VolumesAsk) -> tuple[Volumes, Working]:
    """Areas by the opening rule, and mortar per coat and zone [m3], of one surface.

    Every allowance is taken on the net volume of its coat and added; none lies inside another. Keys of lath and struck
    joints are filled by the first coat that is not a dash-bond. Uneven thickness: the coat that levels takes the
    larger of the firm's share and what its mean lies over nominal on this wall, never both; every other coat the
    share.

    Raises
    ------
    Unreadable
        openings larger than the wall, a custom nobody knows.
    """
    working = Working()
    rule = opening_rule(ask.book, ask.opening_rule)
    spread = share(working, ask.book, "allow.spread", ask.allow.spread, ask.surface)
    waste = share(working, ask.book, "allow.waste", ask.allow.waste, ask.surface)
    areas: list[ZoneArea] = []
    coats: list[CoatVolume] = []
    for zone in ask.zones:
        at = f"{ask.surface}/{zone.id}"
        m = measured_area(working, at, zone.gross, zone.openings, rule, count=ask.count, faces=ask.faces)
        depths = {c.id: Quantity(c.thickness, unit("in")) for c in zone.coats}
        weight = _weight(working, ask.book, at, list(depths.values()))
        areas.append(
            ZoneArea(
                zone.id,
                zone.base,
                m.gross,
                m.off,
                m.reveals,
                m.area,
                m.by_net,
                m.against_net,
                weight,
                zone.lathed,
                zone.studs,
                zone.sheathing,
                zone.paper,
                zone.bonding,
                zone.primer,
                zone.paint,
            )
        )
        levelling = _levelling(zone, depths)
        first = next((c.id for c in zone.coats if c.id != DASH_BOND), None)
        for coat in zone.coats:
            coats.append(
                _coat(
                    working,
                    ask.book,
                    at,
                    zone,
                    coat,
                    m.area,
                    depths[coat.id],
                    spread,
                    waste,
                    fills=coat.id == first,
                    levels=coat.id == levelling,
                )
            )
    if rule.voice != "net" and any(z.openings for z in ask.zones):
        more = total(
            working,
            f"{ask.surface}/area-against-net",
            "quantities.area-against-net",
            "sq ft",
            [a.against_net for a in areas],
        )
        working.note(
            "quantities.opening-rule-effect",
            "fact",
            ask.surface,
            rules=(rule.figure.id,),
            rule=f"quantities.opening-rule.{rule.voice}",
            more=more,
        )
    area = total(working, f"{ask.surface}/area-measured", "quantities.area-surface", "sq ft", [a.area for a in areas])
    by_mix = tuple(
        MixVolume(
            mix,
            total(
                working,
                f"{ask.surface}/mix/{mix}/volume",
                "quantities.volume-mix",
                "cu ft",
                [c.total for c in coats if c.mix == mix],
            ),
        )
        for mix in sorted({c.mix for c in coats})
    )
    return Volumes(ask.surface, rule.voice, rule.figure.id, area, tuple(areas), tuple(coats), by_mix), working


def keys_of_lath(working: Working, book: Book, key: str, area: Quantity) -> Quantity:
    """Mortar pushed through the mesh [m3]: the published allowance for metal lath, by area."""
    return working.step(
        key,
        "area * volume / each",
        "cu ft",
        "quantities.volume-keys",
        area=area,
        volume=book.number("lath.key.volume"),
        each=book.number("lath.key.area"),
    )


def struck_joints(working: Working, book: Book, key: str, area: Quantity, depth: Quantity | Figure) -> Quantity:
    """Mortar that fills struck joints [m3]: joint width x depth x length, from the face of one block with its joints.

    One block face with a bed joint and a head joint is ``long`` x ``high``; the joints in it are
    ``long + high - width`` long, so that the crossing counts once.
    """
    return working.step(
        key,
        "area * depth * width * (long + high - width) / (long * high)",
        "cu ft",
        "quantities.volume-joints",
        area=area,
        depth=depth,
        width=book.number("block.joint-width"),
        long=book.number("block.long"),
        high=book.number("block.high"),
    )


def _levelling(zone: Zone, depths: dict[str, Quantity]) -> str | None:
    """The coat that takes up an uneven base: the one that says so, else the thickest."""
    said = next((c.id for c in zone.coats if c.levels), None)
    if said is not None or not depths:
        return said
    return max(zone.coats, key=lambda c: float(depths[c.id])).id


def _coat(
    working: Working,
    book: Book,
    at: str,
    zone: Zone,
    coat: Coat,
    area: Quantity,
    thickness: Quantity,
    spread: Share,
    waste: Share,
    *,
    fills: bool,
    levels: bool,
) -> CoatVolume:
    key = f"{at}/{coat.id}"
    net = working.step(
        f"{key}/volume-net", "area * thickness", "cu ft", "quantities.volume-net", area=area, thickness=thickness
    )
    added: list[tuple[AllowanceName, Quantity]] = []
    if fills and zone.lathed:
        added.append(("keys", keys_of_lath(working, book, f"{key}/volume-keys", area)))
        working.note("quantities.keys-from-gypsum", "assumed", at, rules=(book.number("lath.key.volume").id,))
    elif fills and zone.struck:
        figure = book.number("block.joint-depth")
        depth: Quantity | Figure = figure if zone.joint_depth is None else Quantity(zone.joint_depth, unit("in"))
        if zone.joint_depth is None:
            working.note("quantities.assumed.joint-depth", "assumed", at, rules=(figure.id,), depth=figure)
        added.append(("joints", struck_joints(working, book, f"{key}/volume-joints", area, depth)))
    added.append(("spread", _spread(working, key, at, zone, coat, area, net, spread, levels=levels)))
    added.append(
        (
            "waste",
            working.step(
                f"{key}/volume-waste", "net * waste", "cu ft", "quantities.volume-waste", net=net, waste=waste
            ),
        )
    )
    lines = tuple(
        AllowanceLine(name, volume, _part_of(working, f"{key}/volume-{name}-share", volume, net))
        for name, volume in added
    )
    whole = working.step(
        f"{key}/volume",
        " + ".join(["net", *(name for name, _ in added)]),
        "cu ft",
        "quantities.volume",
        rules=(),
        net=net,
        **{str(n): q for n, q in added},
    )
    return CoatVolume(zone.id, coat.id, coat.mix, area, thickness, net, lines, whole)


def _spread(
    working: Working,
    key: str,
    at: str,
    zone: Zone,
    coat: Coat,
    area: Quantity,
    net: Quantity,
    spread: Share,
    *,
    levels: bool,
) -> Quantity:
    """Uneven thickness, one of two ways, never both: what this wall shows, or the firm's usual share of the net volume.

    Between the highest spot and the deepest hollow a face runs through every depth; spread out evenly, its mean is
    half way. So the coat that levels lies (least + most) / 2 thick on the average, and the line is what that is over
    nominal. Where only the base was measured, d out of plane, nominal is taken to hold at the high spots: d / 2 over.
    Where this is less than the share, the share stands: it also pays for what the trowel leaves.
    """
    usual = spread.number if isinstance(spread, Figure) else float(spread)
    shown = unit("in")
    nominal = Quantity(coat.thickness, shown)
    if levels:
        if coat.least is not None and coat.most is not None:
            over = (float(coat.least) + float(coat.most)) / 2 - float(nominal)
            given = {"least": Quantity(coat.least, shown), "most": Quantity(coat.most, shown), "nominal": nominal}
            formula, says = "area * ((least + most) / 2 - nominal)", "quantities.volume-spread-mean"
        else:
            over = float(zone.out_of_plane or 0) / 2
            given = {"out_of_plane": Quantity(zone.out_of_plane or 0, shown)}
            formula, says = "area * out_of_plane / 2", "quantities.volume-spread-measured"
        if over > usual * float(nominal):
            working.note(
                "quantities.spread-measured",
                "fact",
                f"{at}/{coat.id}",
                over=Quantity(over, shown),
                usual=Quantity(usual, unit("%")),
            )
            return working.step(f"{key}/volume-spread", formula, "cu ft", says, rules=(), area=area, **given)
    return working.step(
        f"{key}/volume-spread", "net * spread", "cu ft", "quantities.volume-spread", net=net, spread=spread
    )


def _part_of(working: Working, key: str, volume: Quantity, net: Quantity) -> Quantity:
    if not net.value:
        return Quantity(0, unit("%"))
    return working.step(key, "volume / net", "%", "quantities.share-of-net", volume=volume, net=net)


def _weight(working: Working, book: Book, at: str, depths: list[Quantity]) -> Quantity | None:
    """What the plaster of a zone weighs [kg/m2]; None where nothing goes on."""
    if not depths:
        return None
    thickness = total(working, f"{at}/thickness-all-coats", "quantities.thickness-all-coats", "in", depths)
    return weight(working, book, f"{at}/weight", thickness)


def weight(working: Working, book: Book, key: str, thickness: Quantity) -> Quantity:
    """What plaster of this thickness weighs on the wall, set [kg/m2]. Lath adds a little."""
    return working.step(
        key,
        "thickness * density",
        "lb/sq ft",
        "quantities.weight",
        thickness=thickness,
        density=book.number("thickness.weight"),
    )
