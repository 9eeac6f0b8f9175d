"""Invented papers: firm, customer, prices, measurements and workings are made up to set every kind of paper once."""
# ruff: noqa: E501

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from darby.drawing import CUT_PAPER, Coat, Joint, cut_title, elevation, key, section, sheet_for, titled, to_svg
from darby.measure.surface import Surface
from darby.papers import (
    Alternative,
    BeadRow,
    Both,
    BothCaution,
    Caution,
    CrewCoat,
    CrewPaper,
    CrewPart,
    Cut,
    Firm,
    KeyItem,
    Ledger,
    LedgerRow,
    NoteRow,
    OrderPaper,
    OrderRow,
    Paper,
    Picture,
    Place,
    PriceRow,
    QuotePaper,
    RuleRow,
    SetBack,
    Stamp,
    Ticket,
    TicketPaper,
    TicketPart,
    WorkingGroup,
    WorkingLine,
    WorkingPaper,
    WorkingPart,
    WorkRow,
)
from darby.words import Language
from tests.drawing.walls import bay_south, crew_room, ft, parapet

FIRM = Firm("Three Coats & Daughters", "Exterior plaster, new and mended", "14 Kiln Lane, Alder Flat")
STAMP = Stamp("Alder Flat fire hall", "26-41", "3", "9f2c41d07ab3", "b51c09e2", "0.1.0", "September 30, 2026",
              1_790_726_400, invented=True)  # fmt: skip

JOINTS = (
    Joint("c", ((ft(8), ft(0)), (ft(8), ft(14))), "C"),
    Joint("e", ((ft(0), ft(0)), (ft(0), ft(9, 4))), "E", parting=True),
)
TWO = (Coat("base coat", ft(0, Fraction(3, 8))), Coat("finish", ft(0, Fraction(1, 8)), "finish"))
THREE = (Coat("scratch", ft(0, Fraction(3, 8))), Coat("brown", ft(0, Fraction(3, 8))), TWO[1])


def picture(
    surface: Surface, caption: str = "", language: Language = "en", high: float = 300, **extras: object
) -> Picture:
    marks = elevation(surface, language=language, **extras)  # type: ignore[arg-type]
    sheet = sheet_for(marks, 6.6 * 72, high)
    alt = titled(surface, language)
    items = tuple(KeyItem(e.svg, e.text) for e in key(marks, sheet, language))
    return Picture(to_svg(marks, sheet, title=alt), alt, caption, items)


def cut(base: str = "block", coats: tuple[Coat, ...] = TWO, **extras: object) -> Picture:
    marks = section(coats, base, **extras)  # type: ignore[arg-type]
    alt = cut_title(coats, base)
    return Picture(to_svg(marks, CUT_PAPER, title=alt), alt)


def quote() -> QuotePaper:
    return QuotePaper(
        FIRM, STAMP, "A price for plastering the fire hall", "the Alder Flat Volunteer Fire Company",
        "the fire hall, 2 Mill Road, Alder Flat", "Price stands until October 30, 2026",
        "We will plaster the outside of the new engine bay, the crew room and the roof parapet, and part the new work from "
        "your old office so that each may move without cracking the other. It takes three weeks of good weather, most of "
        "it waiting while the plaster is kept damp.",
        (
            WorkRow((Place("Engine bay, south wall", "158"), Place("Engine bay, east wall", "408"),
                     Place("Engine bay, north wall", "341")), "Two coats, 1/2 in., float finish", "Bare block drinks and holds plaster."),
            WorkRow((Place("its south hollow", "69"),), "Lath, then the same two coats", "Past 5/8 in. it should hang on lath.",
                    "Common practice, no source."),
            WorkRow((Place("Crew room, wood", "254"),), "Paper, lath, three coats, 7/8 in.", "Wood holds nothing and must stay dry."),
            WorkRow((Place("Parapet, block", "90"),), "Two coats, 5/8 in.", "As the bay. Your roofer caps the top."),
        ),
        (
            PriceRow("Engine bay, three block walls, two coats", "907 sq ft", "$10,480.00"),
            PriceRow("Lath on the hollow, south wall", "69 sq ft", "$620.00"),
            PriceRow("Crew room: paper, lath, three coats", "254 sq ft", "$5,310.00"),
            PriceRow("Parapet, two coats", "90 sq ft", "$1,390.00"),
            PriceRow("Parting from the old office: beads, rod, sealant", "9 ft 4 in.", "$340.00"),
            PriceRow("Scaffold, covers, washing down", "", "$1,960.00"),
        ),
        "$20,100.00",
        "Paid in three: $6,700.00 when the scaffold is up, $6,700.00 when all base coats are on, $6,700.00 at hand-over.",
        elevations=(
            picture(bay_south(), "Engine bay from the south, 3/16 in. to the foot.", joints=JOINTS,
                    names={"edge-6": "your office", "door": "door"}),
        ),
        abreast=1,
        cuts=(
            Cut(cut(), "Drawn full size.", "This is what goes on plain block: one base coat that fills and trues, one finish "
                "coat that you will see. Under half an inch the mortar joints are likely to show."),
        ),
        alternatives=(
            Alternative("Dash finish on the engine bay, thrown to match your office", "add $1,240.00"),
            Alternative("Kept damp seven days in place of two, against hairlines", "add $380.00"),
            Alternative("Leave the parapet out", "less $1,390.00"),
        ),
        not_included=(
            "Paint, and testing the old office’s paint for lead", "Mending block, roof edges, caps and flashings",
            "Taking down lamps, signs and hoses", "The building permit",
            "Work behind the old office, which cannot be reached",
        ),
        expect=(
            "Fine hairlines at the corners of doors. They are not faults.",
            "After rain the block joints may show darker for some hours.",
            "Plaster dries unevenly in tone. Sun and weeks even it out.",
            "Paint when a test shows the wall under pH 10 and dry, not after a number of days.",
        ),
        cautions=(
            Caution("Frost.", "Fresh plaster must stay at 40 °F or warmer. If October turns cold we cover the walls or wait, "
                    "at no charge. A dry, mild week cannot be promised."),
        ),
    )  # fmt: skip


def long_quote() -> QuotePaper:
    """Many walls and long words: what a template has to bear."""
    one = quote()
    return replace(
        one,
        title="Un precio para aplanar el cuartel de bomberos y todo lo que está junto a él, por los cuatro lados",
        language="es",
        work=one.work * 6,
        prices=one.prices * 5,
        elevations=(
            picture(bay_south(), "South wall, 3/32 in. to the foot.", high=150),
            picture(crew_room(), "Crew room.", high=120),
            picture(parapet(), "Parapet, as wide as half a sheet holds."),
        ),
        abreast=2,
        cuts=(*one.cuts, Cut(cut("frame", THREE), "On the frame.", "Paper, lath and three coats. " * 6)),
        cautions=one.cautions * 3,
        not_included=(*one.not_included * 2,),
    )


def order(priced: bool = True) -> OrderPaper:
    rows = (
        OrderRow("26", "bags", "Portland cement, Type I/II", "94 lb bag", "45.7 bags", "20 bags", "$16.80", "$436.80"),
        OrderRow("21", "bags", "Hydrated lime, Type S", "50 lb bag", "20.6 bags", "", "$14.20", "$298.20"),
        OrderRow("7 1/2", "cu yd", "Plaster sand, washed", "", "7.32 cu yd (10.3 tons)", "", "$46.00", "$345.00"),
        OrderRow(
            "22",
            "sheets",
            "Self-furring diamond lath, 3.4 lb",
            "27 × 97 in. sheet",
            "21.4 sheets",
            "",
            "$14.75",
            "$324.50",
        ),
        OrderRow("14", "pieces", "Casing bead, 1/2 in. ground", "10 ft piece", "133 ft", "", "$7.40", "$103.60"),
        OrderRow("0", "pieces", "Corner bead", "10 ft piece", "18 ft", "2 pieces", "$8.60", "$0.00"),
    )
    if not priced:
        rows = tuple(replace(row, price="", sum="") for row in rows)
    return OrderPaper(
        FIRM, STAMP, "Order for the fire hall", "Alder Flat Building Supply", "2 Mill Road, Alder Flat, by the engine bay",
        rows, "$1,508.10" if priced else "",
        notes=("Sand: 10.3 tons or 7 1/2 cu yd, damp as delivered. Say which you weigh.",),
        cautions=(Caution("Wet cement burns.", "Gloves, long sleeves and glasses; wash at once what it touches."),),
    )  # fmt: skip


def crew() -> CrewPaper:
    damp = Both("Keep damp 48 h. Then wait till day 7.", "Curar húmedo 48 h. Luego esperar al día 7.")
    coats = (
        CrewCoat(Both("Base coat", "capa base"), "3/8 in.", Both("to the grounds", "a las maestras"),
                 Both("Mix B: 1 portland, 3/4 lime, 5 sand", "Mezcla B: 1 cemento, 3/4 cal, 5 arena"),
                 Both("Rod it to the grounds.", "Pásele la regla."), damp),
        CrewCoat(Both("Finish, float", "acabado, flota"), "1/8 in.", Both(""),
                 Both("Bagged float finish, 1.5 gal water", "Acabado en saco, 1.5 galones de agua"), Both(""),
                 Both("Keep damp 24 h. Paint only after the pH test.", "Curar húmedo 24 h. Pintar sólo tras la prueba de pH."),
                 Both("Common practice, no source.", "Costumbre del oficio, sin fuente.")),
    )  # fmt: skip
    return CrewPaper(
        FIRM, STAMP, "Crew sheet: engine bay, south wall",
        Both("Engine bay, south wall", "nave, pared sur"), Both("184 sq ft to plaster", "184 pies² por aplanar"),
        (
            CrewPart(
                Both("Plain block", "bloque pelón"),
                (
                    Both("Knock off fins and mortar. Wash; let it drain.", "Quite rebabas y mortero. Lave; deje escurrir."),
                    Both("Wet it the evening before; damp, not shining, when you start.",
                         "Moje la tarde anterior; húmedo, sin brillo, al empezar."),
                ),
                coats,
            ),
            CrewPart(
                Both("The hollow by the small door", "el hueco junto a la puerta chica"),
                (Both("Hang lath first: 8 fasteners a sq yd, laps 1 in.", "Primero la malla: 8 fijadores por yd², traslape 1 in."),),
                (replace(coats[0], thickness="13/16 in."), coats[1]),
            ),
        ),
        picture=picture(bay_south(), "3/16 in. to the foot, seen from outside. 3/16 de pulgada por pie, vista de afuera.",
                        joints=JOINTS, names={"hollow": "the hollow by the small door", "edge-6": "old office, dash finish"}),
        cut=replace(cut(total=True), caption="Drawn full size. Tamaño real."),
        beads=(
            BeadRow(Both("Left, at the old office", "izquierda, con la oficina vieja"),
                    Both("Casing bead, rod, sealant", "perfil terminal, cordón, sellador"), "9′-4″", "1/2",
                    Both("up to the office's roof", "hasta el techo de la oficina")),
            BeadRow(Both("Right corner", "esquina derecha"), Both("Corner bead", "esquinero"), "12′-0″", "1/2"),
            BeadRow(Both("Foot", "pie"), Both("None: plaster stops on the apron", "nada: termina en la banqueta"), "9′-0″"),
        ),
        set_back=(SetBack(Both("Tell the mason", "Dígale al albañil"), Both("3/8 in. back", "3/8 pulg. para atrás"),
                          Both("Set the new block back 3/8 in. from the old face, so that the new face meets it.",
                               "Meta el bloque nuevo 3/8 in. atrás del paño viejo, para que el paño nuevo le llegue.")),),
        cautions=(
            BothCaution(Both("Wet cement burns.", "El cemento mojado quema."),
                        Both("Gloves and glasses. Wash at once.", "Guantes y lentes. Lávese luego.")),
            BothCaution(Both("Silica dust.", "Polvo de sílice."),
                        Both("No dry cutting or sweeping.", "No corte ni barra en seco.")),
        ),
        notes=(Both("Stop only at a joint, a corner or the door. Never mid-wall.",
                    "Pare sólo en junta, esquina o puerta. Nunca a media pared."),),
    )  # fmt: skip


def tickets() -> TicketPaper:
    burns = BothCaution(Both("Wet cement burns.", "El cemento mojado quema."),
                        Both("Gloves and glasses.", "Guantes y lentes."))  # fmt: skip
    base = Ticket(
        Both("Base coat", "capa base"), Both("Engine bay and parapet", "nave y pretil"),
        Both("makes 9.1 cu ft", "rinde 9.1 pies³"), Both("7 and a part", "7 y una parte"), 8,
        (
            TicketPart(Both("Portland", "cemento"), Both("bags of 94 lb", "sacos de 94 lb"), "2", 2),
            TicketPart(Both("Lime, Type S", "cal tipo S"), Both("bags of 50 lb", "sacos de 50 lb"), "1 1/2", 1, True),
            TicketPart(Both("Damp sand", "arena húmeda"), Both("struck buckets", "cubetas rasas"), "17", 17),
            TicketPart(Both("Water", "agua"), Both("gallons, by feel", "galones, al tacto"), "9 to 11",
                       note=Both("Hold back the last two.", "Guarde los últimos dos.")),
        ),
        Both("Last part batch: 1 bag, 3/4 bag lime, 8 1/2 buckets.", "Última parte: 1 saco, 3/4 saco de cal, 8 1/2 cubetas."),
        (Both("No water once it stiffens.", "Sin agua ya que endurezca."),), (burns,),
    )  # fmt: skip
    finish = Ticket(
        Both("Float finish, bagged", "acabado en saco"), Both("Everywhere", "en todas partes"),
        Both("makes 3.0 cu ft", "rinde 3.0 pies³"), Both("5", "5"), 5,
        (
            TicketPart(Both("Float finish", "acabado"), Both("bags of 80 lb", "sacos de 80 lb"), "4", 4),
            TicketPart(Both("Water", "agua"), Both("gallons", "galones"), "6", 6),
        ),
        notes=(Both("Use within 90 min.", "Úsese en 90 min."),), cautions=(burns,),
    )  # fmt: skip
    return TicketPaper(FIRM, STAMP, "Batch tickets: fire hall", (base, finish))


def working(lines: int = 24) -> WorkingPaper:
    return WorkingPaper(
        FIRM, STAMP, "The working: fire hall",
        groups=(
            WorkingGroup("Engine bay, south wall", tuple(
                WorkingPart(f"Coat {part}", tuple(
                    WorkingLine(f"Net volume, coat {n}", "189 sq ft × 1/2 in. ÷ 12 = 7.88 cu ft",
                                ("thickness.block.two-coat.c926",) if n % 3 == 0 else ())
                    for n in range(part * 12, part * 12 + 12)))
                for part in range(lines // 12))),
            WorkingGroup("Whole job", (
                WorkingPart("", (WorkingLine("Portland", "45.7 bags − 20 bags = 25.7 bags, 26 bags whole"),)),)),
        ),
        rules=(
            RuleRow("thickness.block.two-coat.c926", "Total of two coats on unit masonry", "1/2 in.",
                    "Plaster bureau, answer on thickness, 2019", "second-hand", where="table 1"),
            RuleRow("allow.waste.local", "Left in the box and on the ground", "8 %", "This firm, its own jobs", "trial",
                    "Weighed over eleven jobs."),
        ),
        ledgers=(
            Ledger("Engine bay, south wall", (LedgerRow("To plaster", "184.0 sq ft"), LedgerRow("Base coat", "8.60 cu ft", True)),
                   ("The work on the walls sets this price.",)),
        ),
        stops=(NoteRow("Crew room", "The sheathing was not named: wood, gypsum or foam?"),),
        cautions=(NoteRow("Engine bay, south wall", "Past 5/8 in. the plaster should hang on lath.", ("grounds.limit.lath",)),),
        assumed=(NoteRow("Job", "Damp sand takes 25 % more room than dry.", ("allow.bulking",)),),
        facts=(NoteRow("Parapet", "Lightweight block drinks more: less lime holds it."),),
        pictures=(picture(bay_south(), "3/16 in. to the foot.", joints=JOINTS),),
    )  # fmt: skip


def everything() -> dict[str, Paper]:
    """One set, as a job hands it out."""
    return {
        "quote.pdf": quote(),
        "order-alder-flat-building-supply.pdf": order(),
        "crew-bay-south.pdf": crew(),
        "tickets.pdf": tickets(),
        "working.pdf": working(),
    }


def odd() -> dict[str, Paper]:
    """Papers at their limits: long, empty, one language."""
    bare = CrewPaper(FIRM, replace(STAMP, invented=False), "Crew sheet: wall", Both("Garden wall"), Both("360 sq ft"), (),
                     languages=("es",))  # fmt: skip
    return {
        "long-quote.pdf": long_quote(),
        "order-unpriced.pdf": order(priced=False),
        "long-working.pdf": working(300),
        "bare-crew.pdf": bare,
        "bare-working.pdf": WorkingPaper(FIRM, STAMP, "Nothing yet", groups=()),
    }
