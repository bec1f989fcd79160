"""What a choice hands on: a ranking, what was refused and by what, and what would let the second win."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from ..findings import Assumed, Basis, Finding
from ..measure import System

By = Literal["life-cycle cost", "first cost", "price of the foam", "foam", "carbon", "height"]
Word = Literal[
    "serves",
    "no foam under the middle",
    "no foam",
    "no foam is asked for",
    "no product can serve",
    "foam does not decide it",
    "not this tool",
]
Role = Literal[
    "recommended",
    "runner-up",
    "as briefed",
    "no foam",
    "cheapest that meets code",
    "least height",
    "least carbon",
    "least heat",
]


@dataclass(frozen=True, slots=True)
class Money:
    """An amount with its currency; ``day`` is that of the oldest price in it."""

    amount: float
    currency: str
    day: str


@dataclass(frozen=True, slots=True)
class Ranged:
    """A number between a plausible low and high."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Refusal:
    """One finding that refuses a candidate."""

    id: str  # "moisture.surface-factor"
    at: Mapping[str, str | float]
    title: str
    words: str
    value: float | None
    limit: float | None
    unit: str
    margin: float | None  # negative: by so much it falls short
    basis: Basis | None
    how: Literal["bound", "full answer"]
    sense: str = ""  # "at least", "at most"; "" without a limit


@dataclass(frozen=True, slots=True)
class Row:
    """One way to build it."""

    name: str  # "2 in Marlpit Plain 15 under the floor, 2 in at the slab's edge"
    floor: str  # foam under the floor in words; "no foam"
    edge: str
    film: str
    changes: tuple[tuple[str, object], ...]  # paths of the brief with what stands there: an alternative's ``set``
    roles: tuple[Role, ...]
    rank: int | None  # from 1 among those that serve; None where it does not or was not ranked
    foam: float  # m³, floor and edges
    thickness: float  # m of foam under the floor
    r_label: float  # m²·K/W under the floor
    r_in_place: float  # m²·K/W under the floor
    height: float  # m, of the build-up
    heat: float | None  # W, mean of the year through the floor; None under the sky
    heat_within: float | None  # W
    coldest: float | None  # degC, of the floor's coldest surface in winter
    first: Money | None  # None where a price is open
    life: Money | None  # first cost and the heat of the years, today's worth
    carbon: Ranged | None  # kgCO2e
    confirmed: bool  # whether a full answer stands behind it
    open: tuple[str, ...]  # ids that cannot be told
    refusals: tuple[Refusal, ...]  # what falls short with it, beside what falls short whichever is taken
    findings: tuple[Finding, ...] = ()  # of the full answer; empty where there is none
    energy: float | None = None  # kWh a year, in the months in which the room wants heat

    @property
    def serves(self) -> bool:
        return self.confirmed and not self.refusals


@dataclass(frozen=True, slots=True)
class Film:
    """A film of a line that would meet in this floor."""

    key: str
    label: str


@dataclass(frozen=True, slots=True)
class Bound:
    """One cheap check, and how many candidates it put aside before anything was solved for them."""

    id: str  # of the finding that would have refused them
    title: str
    words: str
    count: int


@dataclass(frozen=True, slots=True)
class Reason:
    """One finding with all that it refuses, folded."""

    id: str
    title: str
    aside: int  # ways that it put aside before anything was solved for them, each counted at its first reason
    answered: int  # of those that were answered wholly
    cheapest: str  # the name of the best of them
    first: Money | None  # what that costs
    refusal: Refusal  # of that one


@dataclass(frozen=True, slots=True)
class ToWin:
    """What would have to change for the runner-up to win."""

    what: Literal["price", "carbon", "thickness made", "limit", "measure"]
    words: str
    path: str  # what to change: "catalogue.plain-15.made.2 in.price", "floor.available-depth"
    now: float
    then: float
    unit: str


@dataclass(frozen=True, slots=True)
class Choice:
    """The whole answer to: what do you recommend, and why not the cheaper one?"""

    title: str
    place: str
    use: str
    system: System
    version: str
    word: Word
    says: tuple[str, ...]  # sentences, the recommendation first
    by: By
    by_words: str  # why it is ranked so, and what is open
    rows: tuple[Row, ...]  # those that serve, best first; then what the table always holds
    refused: tuple[Row, ...]  # the first of them, each with what refuses it
    front: tuple[Row, ...]  # what nothing beats in cost, heat and carbon together; not all of it confirmed
    to_win: tuple[ToWin, ...]
    bounds: tuple[Bound, ...]
    candidates: int
    put_aside: int  # by bounds
    answered: int  # wholly
    beyond: tuple[Refusal, ...]  # what falls short whichever is taken
    open: tuple[tuple[str, str], ...]  # id and the one key, of what cannot be told with the recommendation
    searched: tuple[str, ...]  # what was allowed to vary and what was kept, in words
    assumed: tuple[Assumed, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    sure: bool = True  # whether every way that ranks before the recommended one was answered or put aside
    reasons: tuple[Reason, ...] = ()  # what refuses, what puts most aside first
    film_open: str = ""  # what is open about the film as briefed, and its verdict; "" where nothing is
    films: tuple[Film, ...] = ()  # that would settle it

    @property
    def serves(self) -> bool:
        """Whether something holds in all that is checked."""
        best = self.recommended
        return best is not None and not self.beyond and self.word != "not this tool"

    def with_role(self, role: Role) -> Row | None:
        return next((row for row in (*self.rows, *self.refused) if role in row.roles), None)

    @property
    def recommended(self) -> Row | None:
        return self.with_role("recommended")

    @property
    def runner_up(self) -> Row | None:
        return self.with_role("runner-up")
