"""From text to a fraction, the one way there is."""

from __future__ import annotations

from quicktions import Fraction


def fraction_of(text: str) -> Fraction:
    """``"3"``, ``"3.25"``, ``"13/4"`` or ``"1e-3"`` as a fraction.

    quicktions (up to 1.24 at least) writes a text of one sign into a byte that the whole interpreter shares, after
    which ``b"\\0"`` is ``b"3"`` everywhere: it never gets one. Its stub in ``typings`` takes no text, so that the type
    check finds every other way in; ``tests/conftest.py`` looks at the byte after each test.

    Raises
    ------
    ValueError
        if it is no number.
    ZeroDivisionError
        for a denominator of nought.
    """
    return Fraction(text.rjust(2))  # type: ignore[call-overload,no-any-return]
