"""The rule book: many voices on a subject, one ruling. Immutable; its version is the hash of its content."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property
from types import MappingProxyType

from darby.rulebook.model import STANDINGS, BookError, Figure, Ruled, Source


class Book:
    """Figures by id and subject, in the order the book gives them. Hashable by ``version``."""

    def __init__(
        self,
        figures: Iterable[Figure],
        sources: Mapping[str, Source],
        *,
        follows: Mapping[str, str] = MappingProxyType({}),
        local: Iterable[Figure] = (),
    ) -> None:
        """``follows`` maps a subject prefix ("" = everywhere) to a voice; ``local`` rules lie on top."""
        self.figures: Mapping[str, Figure] = MappingProxyType({f.id: f for f in figures})
        self.local: tuple[Figure, ...] = tuple(local)
        self.sources = MappingProxyType(dict(sources))
        self.follows = MappingProxyType(dict(follows))
        by_subject: dict[str, list[Figure]] = {}
        for figure in (*self.local, *self.figures.values()):
            by_subject.setdefault(figure.subject, []).append(figure)
        self._by_subject = {subject: tuple(voices) for subject, voices in by_subject.items()}
        self._ruled: dict[tuple[str, tuple[tuple[str, str], ...]], Ruled] = {}

    @cached_property
    def version(self) -> str:
        """Twelve hex digits of the SHA-256 of everything in the book."""
        digest = hashlib.sha256()
        for figure in (*self.local, *self.figures.values()):
            digest.update(
                f"{figure.id}|{figure.subject}|{figure.written}|{figure.unit.name}|{figure.standing}|{figure.source}|"
                f"{figure.voice}|{sorted((k, sorted(v)) for k, v in figure.applies.items())}\n".encode()
            )
        digest.update(repr(sorted(self.follows.items())).encode())
        return digest.hexdigest()[:12]

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Book) and (self is other or self.version == other.version)

    def __hash__(self) -> int:
        return hash(self.version)

    def __iter__(self) -> Iterator[Figure]:
        return iter(self.figures.values())

    def subjects(self) -> tuple[str, ...]:
        """Every subject the book speaks on, in its order."""
        return tuple(self._by_subject)

    def rule(self, subject: str, /, **where: str) -> Ruled:
        """The ruling on ``subject`` for a place described by ``where`` (base="block", coat="brown" ...).

        A figure that ``applies`` to some bases speaks only where the given base is one of them; where a
        kind of place is not given, it is not asked about. Local rules rule first, then the voice the firm
        follows, then the best standing, then the order of the book.

        Raises
        ------
        KeyError
            no figure speaks on the subject for this place.
        """
        key = (subject, tuple(sorted(where.items())))
        found = self._ruled.get(key)
        if found is None:
            found = self._ruled[key] = self._decide(subject, where)
        return found

    def number(self, subject: str, /, **where: str) -> Figure:
        """Short for ``rule(...).figure`` where the reader needs the number and its id."""
        return self.rule(subject, **where).figure

    def _decide(self, subject: str, where: Mapping[str, str]) -> Ruled:
        voices = [
            f
            for f in self._by_subject.get(subject, ())
            if all(where[k] in allowed for k, allowed in f.applies.items() if k in where)
        ]
        if not voices:
            raise KeyError(f"no figure on {subject!r} for {dict(where)}")
        local = [f for f in voices if f.why]
        if len(local) > 1:
            raise BookError(f"two local rules on {subject!r}: {', '.join(f.id for f in local)}")
        if local:
            return self._ruled_by(local[0], voices, "local rule")
        voice = self._followed(subject)
        followed = [f for f in voices if voice and f.voice == voice]
        if followed:
            return self._ruled_by(followed[0], voices, "firm follows")
        if len(voices) == 1:
            return Ruled(voices[0], (), "only voice")
        best = min(voices, key=lambda f: STANDINGS.index(f.standing))
        first = voices[0]
        if STANDINGS.index(first.standing) == STANDINGS.index(best.standing) or first.standing != "memory":
            return self._ruled_by(first, voices, "book's order")
        return self._ruled_by(best, voices, "best standing")

    def _followed(self, subject: str) -> str:
        """The voice set for the longest prefix of ``subject``."""
        parts = subject.split(".")
        for n in range(len(parts), -1, -1):
            voice = self.follows.get(".".join(parts[:n]))
            if voice is not None:
                return voice
        return ""

    @staticmethod
    def _ruled_by(figure: Figure, voices: list[Figure], why: str) -> Ruled:
        return Ruled(figure, tuple(f for f in voices if f is not figure), why)  # type: ignore[arg-type]
