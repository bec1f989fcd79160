"""What the tables of codes hand out: editions, rows, and what stands of them for one subject."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass

from ...findings import Basis, Seen, Sense
from ...measure import Measure
from ..zones import is_marine

BESIDE = " (energy code: "  # before the clause as the carried code numbers it
STOPS = ("slab-bottom", "footing-top", "footing-bottom")  # levels at which foam down an edge may stop


@dataclass(frozen=True, slots=True)
class Edition:
    """One edition of one code, a county's own amendments, or somebody's house rules."""

    key: str  # "irc-2018"; a file's name without its ending
    title: str
    publisher: str
    country: str  # two letters; "" anywhere
    state: str
    date: datetime.date
    dated: str  # what that day is, and how it was seen
    covers: str
    carries: str = ""  # the edition whose rows it prints as its own chapter
    amends: str = ""  # the edition whose rows stand where it has none
    clause_of: tuple[tuple[str, str], ...] = ()  # how clauses of what it carries are numbered in it
    zones: str = ""  # the list of climate zones that its tables go by
    map: str = ""  # the zone map that goes with it
    performance: str = ""  # where it says how a whole building may be held to it instead
    needs: tuple[str, ...] = ()  # the subjects that such a document speaks of
    file: str = ""  # where it stands, if it is a user's own

    @property
    def own(self) -> bool:
        """Whether it is a file of the user's: local amendments, or house rules."""
        return bool(self.file)


@dataclass(frozen=True, slots=True)
class Ask:
    """A quantity that a row may ask for."""

    key: str
    title: str
    unit: str  # one of findings.UNITS where it is compared
    sense: Sense
    compared: bool  # whether a finding holds a floor to it
    reads: str  # the reader of its measure


@dataclass(frozen=True, slots=True)
class Row:
    """What one edition asks on one subject, and when."""

    edition: str
    subject: str
    clause: str
    asks: Mapping[str, Measure]  # by the name of the quantity, as printed
    seen: Seen
    path: str  # "catalogue.code.iecc-2018-residential.slab-edge.3"
    by: str = ""  # where it was seen
    doubtful: str = ""  # why it is not sure; "" where it is
    note: str = ""
    place: str = ""  # "edge", "under", ...
    route: str = ""  # "" the R-value route
    from_memory: tuple[str, ...] = ()  # what of it is remembered, where the rest was seen
    zones: tuple[str, ...] = ()  # () everywhere
    when: tuple[str, ...] = ()
    unless: tuple[str, ...] = ()
    less_below_grade: Measure | None = None
    edge_stops: str = ""  # where the edge's foam may stop above its depth, one of STOPS; "" nowhere

    def seen_of(self, ask: str) -> Seen:
        """How this very value was seen."""
        return "memory" if ask in self.from_memory else self.seen

    @property
    def line(self) -> str:
        """The line of its table that it is: "zone 6", "zones 7, 8"; "" where it is for every zone."""
        return f"zone{'s' if len(self.zones) > 1 else ''} {', '.join(self.zones)}" if self.zones else ""

    def zone_fits(self, zone: str) -> bool:
        """Whether the row is for that zone: "6" is for 6A and 6B; a zone without its letter is taken as not marine.

        >>> row = Row("x", "slab-edge", "", {}, "memory", "", zones=("4A", "4B", "5"))
        >>> row.zone_fits("5B"), row.zone_fits("4"), row.zone_fits("4C")
        (True, True, False)
        """
        return not self.zones or any(
            zone == each or zone[:1] == each or (zone == each[:1] and not is_marine(each)) for each in self.zones
        )


@dataclass(frozen=True, slots=True)
class Subject:
    """One subject of the tables: when its rows can apply at all, and what is wise where they ask for nothing."""

    key: str
    when: tuple[str, ...]
    advised: str


@dataclass(frozen=True, slots=True)
class Standing:
    """The rows that stand for an edition on one subject, whose they are, and why."""

    rows: tuple[Row, ...]
    edition: Edition  # whose rows they are
    held: Edition  # the edition that was asked for
    said: str  # "" where the rows are the edition's own

    def clause(self, row: Row) -> str:
        """The clause as the edition asked for numbers it."""
        own = row.clause
        for theirs, ours in self.held.clause_of if self.held.carries == row.edition else ():
            own = own.replace(theirs, ours)
        line = f"{own}, {row.line}" if row.zones else own
        return line if own == row.clause else f"{line}{BESIDE}{row.clause})"

    def basis(self, row: Row, ask: str) -> Basis:
        """The row as the source of one of its values."""
        carried = self.held.carries == row.edition
        title = (self.held if carried else self.edition).title
        return Basis(title, self.clause(row), row.seen_of(ask), row.doubtful)


@dataclass(frozen=True, slots=True)
class Share:
    """How the values of an edition were seen."""

    memory: int
    all: int
    doubtful: int
