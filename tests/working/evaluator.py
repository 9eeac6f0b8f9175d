"""A pocket calculator that reads a printed line: numbers count, unit words are struck out.

It knows nothing of darby: own tokenizer, own grammar, exact arithmetic on the printed numbers.

    line   := group " = " result [" = " feet-and-inches]
    group  := "the greater of" list | "the lesser of" list | sum ["rounded up"]
    list   := sum {", " sum} " and " sum
    sum    := term {(" + " | " − ") term}
    term   := factor {(" × " | " / ") factor}
    factor := atom [" ^ " whole]
    atom   := "(" group ")" | number [unit words]
    number := ["-"] ["$"] (digits ["." digits] | [digits " "] digits "/" digits), commas between thousands

Operators have a space on both sides; a stroke without spaces belongs to a fraction or to a unit. "Rounded up"
forgives one part in a thousand million, as a float that came out as 20.000000000000004 is twenty.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction

TOKEN = re.compile(
    r"""\s*(?:
    (?P<words>the\ greater\ of|the\ lesser\ of|rounded\ up|and\b)
  | (?P<op>[+−×^(),/])
  | (?P<number>-?\$?(?:\d+\ \d+/\d+|\d+/\d+|(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?))
    )""",
    re.VERBOSE,
)
LABEL = re.compile(r"[^(),]*?(?= [×/+−^] |[(),]| and | rounded up|$)")
"""Unit words: all up to the next sign."""


class Unreadable(ValueError):
    """The line does not follow the grammar."""


def tokens(text: str) -> list[tuple[str, str]]:
    found: list[tuple[str, str]] = []
    at = 0
    while at < len(text):
        match = TOKEN.match(text, at)
        if match is None or match.end() == at:
            raise Unreadable(f"{text!r} at {at}: {text[at:]!r}")
        kind = match.lastgroup or ""
        found.append((kind, match[kind]))
        at = match.end()
        if kind == "number":
            label = LABEL.match(text, at)
            if label is None or re.search(r"[0-9×−^+=]", label[0]):
                raise Unreadable(f"{text!r}: a number stands beside another, or an unknown sign")
            at = label.end()
    return found


def number(text: str) -> Fraction:
    sign = -1 if text.startswith("-") else 1
    parts = text.lstrip("-").replace("$", "").replace(",", "").split()
    return sign * sum((Fraction(part) for part in parts), Fraction(0))


class _Reader:
    def __init__(self, found: list[tuple[str, str]]) -> None:
        self.found, self.at = found, 0

    def peek(self) -> str:
        return self.found[self.at][1] if self.at < len(self.found) else ""

    def take(self, *texts: str) -> str:
        if self.peek() in texts:
            self.at += 1
            return self.found[self.at - 1][1]
        return ""

    def group(self) -> Fraction:
        which = self.take("the greater of", "the lesser of")
        if which:
            several = [self.sum()]
            while self.take(","):
                several.append(self.sum())
            if not self.take("and"):
                raise Unreadable(f"no 'and' at {self.at}")
            several.append(self.sum())
            return max(several) if which == "the greater of" else min(several)
        value = self.sum()
        if self.take("rounded up"):
            return Fraction(math.ceil(value - max(abs(value), Fraction(1)) / 10**9))
        return value

    def sum(self) -> Fraction:
        value = self.term()
        while sign := self.take("+", "−"):
            value += self.term() if sign == "+" else -self.term()
        return value

    def term(self) -> Fraction:
        value = self.factor()
        while sign := self.take("×", "/"):
            other = self.factor()
            value = value * other if sign == "×" else value / other
        return value

    def factor(self) -> Fraction:
        value = self.atom()
        if self.take("^"):
            value = value ** int(self.atom())
        return value

    def atom(self) -> Fraction:
        if self.take("("):
            value = self.group()
            if not self.take(")"):
                raise Unreadable(f"no closing at {self.at}")
            return value
        if self.at < len(self.found) and self.found[self.at][0] == "number":
            self.at += 1
            return number(self.found[self.at - 1][1])
        raise Unreadable(f"no number at {self.at} of {self.found}")


def evaluate(text: str) -> Fraction:
    """The left side, reckoned."""
    reader = _Reader(tokens(text))
    value = reader.group()
    if reader.at != len(reader.found):
        raise Unreadable(f"{text!r}: {reader.found[reader.at :]} is left over")
    return value


def says(value: Fraction, result: str) -> bool:
    """Whether ``value`` is printed as ``result``: rounded half up at its last digit; a fraction within a thousandth."""
    printed = TOKEN.match(result)
    if printed is None or not printed["number"]:
        raise Unreadable(f"{result!r} begins with no number")
    text = printed["number"]
    if "/" in text:
        return abs(value - number(text)) <= Fraction(1, 1000)
    scale = 10 ** len(text.partition(".")[2])
    count = math.floor(abs(value) * scale + Fraction(1, 2))
    return Fraction(count if value >= 0 else -count, scale) == number(text)


def true(line: str) -> bool:
    """Whether the printed line gives its printed result to the last digit (feet and inches: to 1/32 in. of it)."""
    left, result, *again = line.split(" = ")
    value = evaluate(left)
    if not says(value, result):
        return False
    for text in again:
        read = re.fullmatch(r"(-?)(?:(\d+)')? ?(?:([\d /]+)\")?", text)
        if read is None:
            raise Unreadable(f"{text!r} is not feet and inches")
        size = int(read[2] or 0) + number(read[3] or "0") / 12
        shown = TOKEN.match(result)["number"]  # type: ignore[index]
        if abs(number(shown) - (-size if read[1] else size)) > Fraction(1, 32 * 12) + Fraction(1, 200):
            return False
    return True
