"""The editions in hand: those that come with the tool and a user's own files, and whose row stands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, fields
from functools import cache, cached_property

from ... import mistakes
from . import read
from .records import Edition, Row, Share, Standing


@dataclass(frozen=True, eq=False)
class Codes:
    """Editions and rows that a brief can be held to; ``own`` are the user's files."""

    own: tuple[tuple[Edition, tuple[Row, ...]], ...] = field(default=())

    def __getstate__(self) -> dict[str, object]:
        """What it was made of: what was read since is read anew in another process."""
        return {each.name: getattr(self, each.name) for each in fields(self)}

    @cached_property
    def editions(self) -> Mapping[str, Edition]:
        """By key: the tool's first, then the user's own."""
        return {**read.editions(), **{edition.key: edition for edition, _ in self.own}}

    @cached_property
    def _rows(self) -> Mapping[tuple[str, str], tuple[Row, ...]]:
        found: dict[tuple[str, str], tuple[Row, ...]] = {}
        for row in (*read.rows(), *(row for _, rows in self.own for row in rows)):
            found[row.edition, row.subject] = (*found.get((row.edition, row.subject), ()), row)
        return found

    def edition(self, key: str) -> Edition:
        """The edition of that key; one that is not known is a Mistake with the nearest.

        >>> Codes().edition("irc-2018").carries
        'iecc-2018-residential'
        """
        if key not in self.editions:
            listing = "All of them: underpour catalogue list codes"
            raise mistakes.unknown("", key, list(self.editions), "edition", listing)
        return self.editions[key]

    def rows(self, key: str, subject: str) -> tuple[Row, ...]:
        """The edition's own rows on a subject, in the order of the file."""
        return self._rows.get((key, subject), ())

    def chain(self, key: str) -> Iterator[Edition]:
        """The edition, what it carries, then what it amends, each with what that carries.

        >>> [each.key for each in Codes().chain("in-2020")]
        ['in-2020', 'irc-2018', 'iecc-2018-residential']
        """
        while key:
            edition = self.editions[key]
            yield edition
            if edition.carries:
                yield self.editions[edition.carries]
            key = edition.amends

    def amendments(self, key: str) -> tuple[Edition, ...]:
        """The user's files that amend an edition or what stands behind it, the newest first."""
        behind = {edition.key for edition in self.chain(key)}
        found = [edition for edition, _ in self.own if edition.amends in behind and edition.key != key]
        return tuple(sorted(found, key=lambda edition: edition.date, reverse=True))

    def standing(self, key: str, subject: str) -> Standing | None:
        """Whose rows stand for an edition on a subject; None where there are none anywhere.

        A local amendment stands where it is newer than the edition that the brief is held to; an older one gives way
        to it, and what is said tells so.
        """
        held = self.editions[key]
        aside = ""
        for local in self.amendments(key):
            rows = self.rows(local.key, subject)
            if rows and local.date >= held.date:
                said = f"{local.title} of {local.date} is newer than {held.title} of {held.date}, and stands here."
                return Standing(rows, local, held, said)
            if rows:
                said = f"{local.title} of {local.date} is older than {held.title} of {held.date}, and gives way to it."
                aside = f"{aside} {said}".strip()
        for edition in self.chain(key):
            rows = self.rows(edition.key, subject)
            if rows:
                own = edition.key in (key, held.carries)
                taken = "" if own else f"{held.title} was not found to change this; {edition.title} stands behind it."
                return Standing(rows, edition, held, f"{aside} {taken}".strip())
        return None

    def newest(self, subject: str) -> str:
        """The newest edition that has rows on a subject of its own, a user's own file before all others.

        >>> Codes().newest("f-factors")
        'ashrae-90-1-2019'
        """
        having = [self.editions[key] for key, about in self._rows if about == subject]
        return max(having, key=lambda edition: (edition.own, edition.date)).key

    def share(self, key: str) -> Share:
        """How the values of an edition, with what it carries, were seen."""
        edition = self.editions[key]
        rows = [row for (of, _), each in self._rows.items() if of in (key, edition.carries) for row in each]
        return Share(
            memory=sum(row.seen_of(ask) == "memory" for row in rows for ask in row.asks),
            all=sum(len(row.asks) for row in rows),
            doubtful=sum(len(row.asks) for row in rows if row.doubtful),
        )


@cache
def shipped() -> Codes:
    """The editions that come with the tool."""
    return Codes()
