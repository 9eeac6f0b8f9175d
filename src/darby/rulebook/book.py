"""The rule book: many voices on a subject, one ruling. Immutable; its version is the hash of its content."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from types import MappingProxyType

from darby.rulebook.model import STANDINGS, BookError, Figure, Ruled, Source, Why

LOCAL = Source("local", "Local rule", "the firm", "", "")
"""What stands as the source of a rule that a firm or a job lays on top."""

Place = tuple[tuple[str, str], ...]


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
        """``follows`` maps a subject prefix ("" = everywhere) to a voice; ``local`` rules lie on top.

        ``following`` and ``with_local`` make such a book from another and check what they are given.
        """
        self.figures: Mapping[str, Figure] = MappingProxyType({f.id: f for f in figures})
        self.local: tuple[Figure, ...] = tuple(local)
        self.sources: Mapping[str, Source] = MappingProxyType(dict(sources))
        self.follows: Mapping[str, str] = MappingProxyType(dict(follows))
        by_subject: dict[str, list[Figure]] = {}
        for figure in (*self.local, *self.figures.values()):
            by_subject.setdefault(figure.subject, []).append(figure)
        self._by_subject = {subject: tuple(voices) for subject, voices in by_subject.items()}
        self._ruled: dict[tuple[str, Place], Ruled] = {}

    @cached_property
    def version(self) -> str:
        """Twelve hex digits of the SHA-256 of everything in the book."""
        digest = hashlib.sha256(self._content.encode())
        for figure in self.local:
            digest.update(_line(figure).encode())
        digest.update(repr(sorted(self.follows.items())).encode())
        return digest.hexdigest()[:12]

    @cached_property
    def _content(self) -> str:
        """Hash of the published figures and their sources; the same for every book made from this one."""
        digest = hashlib.sha256()
        for figure in self.figures.values():
            digest.update(_line(figure).encode())
        for source in self.sources.values():
            digest.update(f"{source.id}|{source.title}|{source.publisher}|{source.year}|{source.address}\n".encode())
        return digest.hexdigest()

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Book) and (self is other or self.version == other.version)

    def __hash__(self) -> int:
        return hash(self.version)

    def __iter__(self) -> Iterator[Figure]:
        return iter(self.figures.values())

    def __getitem__(self, figure_id: str) -> Figure:
        """The figure with this id, published or local; KeyError if there is none."""
        for figure in self.local:
            if figure.id == figure_id:
                return figure
        return self.figures[figure_id]

    def subjects(self) -> tuple[str, ...]:
        """Every subject the book speaks on, in its order."""
        return tuple(self._by_subject)

    def voices(self, prefix: str = "") -> tuple[str, ...]:
        """The voices that say something on ``prefix`` or a subject below it ("" = anywhere)."""
        return tuple(dict.fromkeys(f.voice for f in self if f.voice and _below(f.subject, prefix)))

    def on(self, subject: str) -> tuple[Figure, ...]:
        """All figures on ``subject``, local ones first; empty if there are none."""
        return self._by_subject.get(subject, ())

    def source_of(self, figure: Figure) -> Source:
        """Where the figure stands; a local rule stands in the firm's or the job's own file."""
        return LOCAL if figure.why else self.sources[figure.source]

    # --- what a firm lays on top ---------------------------------------------------------------------

    def following(self, follows: Mapping[str, str]) -> Book:
        """This book with the voices a firm follows: ``{"": "ibc", "thickness": "c926"}``, longest subject first.

        Raises
        ------
        BookError
            for a subject the book does not know, or a voice that says nothing there; names those that do.
        """
        for prefix, voice in follows.items():
            if not any(_below(subject, prefix) for subject in self._by_subject):
                heads = dict.fromkeys(subject.partition(".")[0] for subject in self._by_subject)
                raise BookError(f"the book says nothing on {prefix!r}; it speaks on {', '.join(heads)}")
            there = self.voices(prefix)
            if voice not in there:
                names = ", ".join(there) or "no voice has a name there"
                raise BookError(f"{voice!r} says nothing on {prefix or 'any subject'!r}; there are: {names}")
        return self._with(follows=follows, local=self.local)

    def with_local(self, rows: Iterable[Figure]) -> Book:
        """This book with local rules on top, each with its why; a rule ousts every voice where it applies.

        Raises
        ------
        BookError
            for a rule without a why, on a subject the book does not know, or in another measure than the book's.
        """
        local = (*self.local, *rows)
        for figure in local:
            like = [f for f in self if f.subject == figure.subject]
            if not figure.why:
                raise BookError(f"{figure.id}: a local rule says why")
            if not like:
                raise BookError(f"{figure.id}: the book has no subject {figure.subject!r}")
            if all(f.unit.dim != figure.unit.dim for f in like):
                raise BookError(f"{figure.id}: {figure.written!r} is not measured as {like[0].written!r} is")
        return self._with(follows=self.follows, local=local)

    def _with(self, *, follows: Mapping[str, str], local: Sequence[Figure]) -> Book:
        book = Book(self.figures.values(), self.sources, follows=follows, local=local)
        book.__dict__["_content"] = self._content
        return book

    # --- rulings -------------------------------------------------------------------------------------

    def rule(self, subject: str, /, **where: str) -> Ruled:
        """The ruling on ``subject`` for a place described by ``where`` (base="block", coat="brown" ...).

        A figure that ``applies`` to some bases speaks only where the given base is one of them. A kind of place that
        is not given is not held against a figure, as long as that leaves nothing open: where two figures speak of
        different kinds of it (one of walls, one of ceilings), the place has to be given.

        Local rules rule first, then the voice the firm follows (on the longest subject where it speaks), then the
        book's order; but a figure from memory never rules while a better standing speaks.

        Raises
        ------
        KeyError
            no figure speaks on the subject for this place.
        BookError
            two local rules speak on it, or it depends on a kind of place that is not given.
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
        voices = [f for f in self._by_subject.get(subject, ()) if f.speaks_at(where)]
        if not voices:
            raise KeyError(f"no figure on {subject!r} for {dict(where)}")
        local = [f for f in voices if f.why]
        published = [f for f in voices if not f.why]
        if len(local) > 1:
            raise BookError(f"two local rules on {subject!r}: {', '.join(f.id for f in local)}")
        by_book = _first(published) if published else None
        followed, silent = self._followed(subject, published)
        figure = local[0] if local else followed or by_book
        assert figure is not None
        _refuse_open(figure, voices, where)
        others = tuple(f for f in voices if f is not figure)
        if local:
            return Ruled(figure, others, "local rule", followed or by_book, silent)
        if followed is not None:
            return Ruled(figure, others, "firm follows", by_book if by_book is not followed else None, silent)
        why: Why = "only voice" if not others else "book's order" if figure is voices[0] else "best standing"
        return Ruled(figure, others, why, silent=silent)

    def _followed(self, subject: str, voices: Sequence[Figure]) -> tuple[Figure | None, str]:
        """The figure of the voice set for the longest beginning of ``subject`` that speaks here; who is silent."""
        silent = ""
        parts = subject.split(".")
        for n in range(len(parts), -1, -1):
            voice = self.follows.get(".".join(parts[:n]), "")
            speaking = [f for f in voices if voice and f.voice == voice]
            if speaking:
                return _first(speaking), silent
            silent = silent or voice
        return None, silent


def _first(voices: Sequence[Figure]) -> Figure:
    """The book's first, but none from memory while a better standing speaks."""
    known = [f for f in voices if f.standing != STANDINGS[-1]]
    return known[0] if known else voices[0]


def _refuse_open(figure: Figure, voices: Sequence[Figure], where: Mapping[str, str]) -> None:
    """A figure for walls does not rule where nobody said that a wall is meant, and another speaks of ceilings."""
    for kind, allowed in figure.applies.items():
        if kind not in where and any(kind in f.applies and allowed.isdisjoint(f.applies[kind]) for f in voices):
            places = dict.fromkeys(place for f in voices for place in sorted(f.applies.get(kind, ())))
            raise BookError(f"{figure.subject}: it depends on the {kind}, which is not given ({', '.join(places)})")


def _below(subject: str, prefix: str) -> bool:
    return not prefix or subject == prefix or subject.startswith(f"{prefix}.")


def _line(figure: Figure) -> str:
    places = sorted((kind, sorted(allowed)) for kind, allowed in figure.applies.items())
    return (
        f"{figure.id}|{figure.subject}|{figure.kind}|{figure.written}|{figure.unit.name}|{figure.says}|{figure.source}|"
        f"{figure.where}|{figure.edition}|{figure.standing}|{figure.voice}|{figure.why}|{places}\n"
    )
