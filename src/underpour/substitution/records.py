"""What a substitution hands on."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from ..catalogue.records import Board
from ..findings import Basis, Finding
from ..measure import System


@dataclass(frozen=True, slots=True)
class Exchange:
    """One place of the brief in which the board stands, and what would stand there."""

    path: str  # "floor.build-up.2"
    before: str  # thickness as typed; "" for a body that the user drew
    after: str
    r_before: float | None  # m²·K/W as labelled; None for a body
    r_after: float | None


@dataclass(frozen=True, slots=True)
class Change:
    """One property of both products. A number is None where there is no record."""

    name: str
    unit: str  # "" where words are compared
    before: float | str | None
    after: float | str | None


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why a product cannot serve."""

    what: str  # "class", "labelled R", "moisture.mould"
    words: str
    basis: Basis | None = None


@dataclass(frozen=True, slots=True)
class Substitute:
    """One product held against what the board is asked for."""

    board: Board
    exchanges: tuple[Exchange, ...]  # empty where a place was left without
    changes: tuple[Change, ...]
    refusals: tuple[Refusal, ...]
    findings: tuple[Finding, ...]  # of the whole brief with it; empty where it was refused before that was worked out

    @property
    def serves(self) -> bool:
        return not self.refusals


@dataclass(frozen=True, slots=True)
class Substitution:
    """A board of a brief, and every product in hand that might stand in its place."""

    title: str
    place: str
    use: str
    system: System
    day: datetime.date  # that certificates are held to
    board: Board
    where: tuple[str, ...]  # its places in the brief
    classes: tuple[str, ...]  # that are asked for
    needs: tuple[str, ...]  # what else is asked for, in words
    findings: tuple[Finding, ...]  # of the brief as briefed
    substitutes: tuple[Substitute, ...]  # those that serve first
    notes: tuple[str, ...]
    cautions: tuple[str, ...]

    @property
    def serving(self) -> tuple[Substitute, ...]:
        return tuple(each for each in self.substitutes if each.serves)

    @property
    def refused(self) -> tuple[Substitute, ...]:
        return tuple(each for each in self.substitutes if not each.serves)
