"""Everything worked out for one brief, once, frozen. Page, terminal, papers and tables read the same one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from .findings import Assumed, Finding
from .laying.records import Confirmer, Point, Product, Unseen, Work
from .measure.table import System
from .physics.conduction.field import Field
from .sections.parts import Section

__all__ = ["Answer", "Assumed", "Dossier"]


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

    @property
    def as_briefed(self) -> Answer:
        return self.alternatives[0]
