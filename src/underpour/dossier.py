"""Everything worked out for one brief, once, frozen. Page, terminal, papers and tables read the same one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from .brief.tables.handover import Handover
from .checks.bearing import Borne, WholeFloor
from .checks.damp_seen import Through
from .checks.frozen import Wintered
from .checks.soil_gas.drawn_off import DrawnOff
from .checks.soil_gas.suction import Suction
from .checks.warm.seen import Heated
from .findings import Assumed, Finding
from .laying.records import Confirmer, Point, Product, Unseen, Work
from .measure.table import System
from .physics.conduction.field import Field
from .resolve import KeyPlan
from .sections.parts import Section

if TYPE_CHECKING:  # what prices and takes off is not loaded where the brief has no [money]
    from .costing.records import Costed

__all__ = ["Answer", "Assumed", "Dossier"]


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that was otherwise in the last revision, in words."""

    what: str  # "floor.build-up.2.thickness", or the title of a finding with which one it is
    was: str  # "2 in"; "" where it was not there
    now: str  # "3 in"; "" where it is gone
    by: str = ""  # how far a number moved: "0.8 °F (0.4 K)"


@dataclass(frozen=True, slots=True)
class Moved:
    """What moved against the last revision."""

    since: str  # its letter; "" for the first issue
    version: str  # of the program that made it
    typed: tuple[Change, ...]  # of the brief as typed
    assumed: tuple[Change, ...]  # of what nobody typed: values taken, and what was known of the data
    findings: Mapping[tuple[str, frozenset[tuple[str, str | float]]], Change]  # by id and instance


@dataclass(frozen=True)
class Hour:
    """One hour of the weather file's year that was asked for."""

    words: str  # "6 September, 22:00"
    outdoors: float  # degC
    flow: float  # W out of the room, through the floor and a basement's wall
    through: str  # "the floor", or "floor and wall"
    fields: Mapping[str, Field]  # by the edge's letter; they stand still


@dataclass(frozen=True)
class Answer:
    """What holds for one alternative; "as briefed" is the brief itself."""

    name: str
    summary: tuple[str, ...]  # what is proposed, one line a layer or edge, as typed with the other system beside it
    sections: Mapping[str, Section]  # by the edge's letter
    fields: Mapping[str, Field]  # by the edge's letter, with the heat-loss film
    findings: tuple[Finding, ...]
    products: tuple[Product, ...] = ()  # the board of the floor first
    sequence: tuple[Work, ...] = ()
    inspection: tuple[Point, ...] = ()
    unseen: tuple[Unseen, ...] = ()  # findings that no point of the inspection bears on, and why
    confirmers: tuple[Confirmer, ...] = ()
    plan: KeyPlan | None = None  # the floor seen from above
    size: str = ""  # "298 m² (3208 ft²), with 74.00 m (243 ft) of edge that faces outdoors"
    hour: Hour | None = None  # where one was asked for
    vapour: tuple[Through, ...] = ()  # through the floor, in its middle first; () for a slab outdoors
    borne: tuple[Borne, ...] = ()  # what stands or rolls on the slab, with what is felt around it
    floor_borne: WholeFloor | None = None  # all that stands at places of the plan together, over the whole floor
    wintered: tuple[Wintered, ...] = ()  # each edge through each winter, where frost is asked about
    suction: Suction | None = None  # below the floor, where a fan draws
    heated: Heated | None = None  # tubes or cables in the floor
    costed: Costed | None = None  # money and carbon, where the brief has [money]
    drawn_off: DrawnOff | None = None  # the soil-gas pipe's way, and what draws in it

    def find(self, id: str, **at: object) -> Finding:
        """The one finding with this id whose ``at`` holds the given words; KeyError where not exactly one does."""
        found = [f for f in self.findings if f.id == id and all(f.at.get(k) == v for k, v in at.items())]
        if len(found) != 1:
            raise KeyError(f"{len(found)} findings are {id} at {at}")
        return found[0]


@dataclass(frozen=True)
class Dossier:
    """One brief answered."""

    brief_text: str
    title: str
    use: str
    units: System  # the one that is printed first
    place: str  # "Minneapolis, MN (45.0 N, 93.3 W, 256 m)"
    version: str
    editions: tuple[str, ...]
    credits: tuple[str, ...]
    notes: tuple[str, ...]  # what to know of the data here
    cautions: tuple[str, ...]
    assumed: tuple[Assumed, ...]
    alternatives: tuple[Answer, ...]  # as briefed first
    handover: Handover = field(default_factory=Handover)  # what stands on the first sheet of a submittal
    moved: Moved | None = None  # against the last revision, where one was named

    @property
    def as_briefed(self) -> Answer:
        return self.alternatives[0]
