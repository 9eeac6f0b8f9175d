"""What the air asks of a man with fresh plaster on the wall: warm enough, not too hot, damp enough.

A plain reading of published limits; the hours of a given day are another room's work.
"""

from __future__ import annotations

from darby.measure.limits import at_most
from darby.measure.units import unit
from darby.rulebook.book import Book
from darby.working.model import Note, Quantity, note


def care(book: Book, at: str, *, air_c: float, wind: float = 0.0, humidity: float | None = None) -> tuple[Note, ...]:
    """The cautions that this air calls for.

    Parameters
    ----------
    air_c
        air at the wall [deg C].
    wind
        at the wall [m/s].
    humidity
        0 to 1; None = not known.

    Sources: PCA on cold and on curing, IBC 2512.4, Building Enclosure on hot weather (``rulebook/curing.toml``).
    """
    notes: list[Note] = []
    cold, hold = book.number("cure.cold"), book.number("cure.hold-warm")
    still, windy, breeze = (book.number(f"cure.hot-{what}") for what in ("still", "windy", "wind"))
    air = Quantity(air_c, unit("deg F"))
    if not at_most(cold.number, air_c):
        notes.append(note("buildup.cold", "stop", at, rules=(cold.id, hold.id), air=air, least=cold, hold=hold))
    if not at_most(air_c, still.number):
        notes.append(note("buildup.hot", "caution", at, rules=(still.id,), air=air, limit=still))
    elif not at_most(air_c, windy.number) and not at_most(wind, breeze.number):
        blows = Quantity(wind, breeze.unit)
        notes.append(
            note(
                "buildup.hot-wind",
                "caution",
                at,
                rules=(windy.id, breeze.id),
                air=air,
                limit=windy,
                wind=blows,
                breeze=breeze,
            )
        )
    if humidity is not None:
        damp = book.number("cure.humidity")
        code = "buildup.damp-air" if not at_most(humidity, damp.number) else "buildup.dry-air"
        shown = Quantity(humidity, unit("%"))
        notes.append(note(code, "fact", at, rules=(damp.id,), humidity=shown, limit=damp))
    return tuple(notes)
