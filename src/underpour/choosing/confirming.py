"""Full answers of candidates, one at a time and each once; what one says of a part holds for all with that part."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from ..findings import Finding
from ..mistakes import Mistake, Mistakes
from ..trying import Named, Taken, with_change
from .bounds import PutAside
from .columns import Columns
from .heat import Name, name_of
from .wanted import Wanted

OF_THE_BOARD = "foam."  # how keys begin that ask for what a board's records do not say
STRIDES, HALVINGS = 8, 5  # where none of the first ways holds: how the others are walked
DOUBTED = 12  # whole answers at most of ways that seem to fall short
MORE_HELPS = ("heat.floor-coldest",)  # where people stay: more foam under the floor only ever warms it
ALIKE = 0.01  # share of a margin: two margins this near are the same whatever foam is taken


@dataclass(frozen=True)
class Full:
    """The full answer of one candidate; unbuildable where it has none."""

    findings: tuple[Finding, ...]
    unbuildable: str = ""

    @property
    def shorts(self) -> dict[Name, Finding]:
        return {name_of(each): each for each in self.findings if each.verdict == "falls short" and not each.accepted}

    def lacking(self, beyond: dict[Name, Finding]) -> dict[Name, Finding]:
        """What stands against it: what falls short, and what cannot be told because its own records do not say it.

        What the brief itself leaves open is open whichever is taken, and refuses nothing.
        """
        short = {name: each for name, each in self.shorts.items() if name not in beyond}
        untold = {name_of(each): each for each in self.findings if each.missing.startswith(OF_THE_BOARD)}
        return short | untold


@dataclass
class Answers:
    """Full answers by candidate, made when they are asked for."""

    wanted: Wanted
    columns: Columns
    taken: Taken
    on: Callable[[int], None] = lambda number: None  # told the number of each answer before it is made
    known: dict[tuple[int, int], Full] = field(default_factory=dict)

    def of(self, candidate: int) -> Full:
        return self.at(int(self.columns.floor[candidate]), int(self.columns.edge[candidate]))

    def at(self, floor: int, edge: int) -> Full:
        if (floor, edge) not in self.known:
            self.on(len(self.known) + 1)
            self.known[floor, edge] = self._made(floor, edge)
        return self.known[floor, edge]

    def _made(self, floor: int, edge: int) -> Full:
        try:
            resolved = self.wanted.with_these(self.wanted.floors[floor], self.wanted.edges[edge])
            return Full(tuple(with_change(self.taken, resolved).values()))
        except Mistakes as mistakes:
            return Full((), " ".join(f"{each.wrong} {each.instead}".strip() for each in mistakes))
        except Mistake as mistake:
            return Full((), f"{mistake.wrong} {mistake.instead}".strip())


def beyond_foam(answered: Sequence[Full]) -> dict[Name, Finding]:
    """What falls short in every one of these answers, as briefed, with least foam and with most: no foam mends it.

    By the same margin, or where more foam only ever helps: then what most does not mend, less does not either.
    """
    first, *others = [each.shorts for each in answered]
    found = {}
    for name, finding in first.items():
        margins = [each[name].margin for each in others if name in each]
        helped = finding.id in MORE_HELPS
        if len(margins) == len(others) and (helped or all(_alike(finding.margin, margin) for margin in margins)):
            found[name] = finding
    return found


def _alike(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is other
    return abs(one - other) <= ALIKE * max(abs(one), abs(other)) + 1e-12


def alike_in(finding: Finding, candidate: int, columns: Columns) -> NDArray[np.bool_] | None:
    """Which candidates a finding of one holds for as well, by what it rests on; None where for that one alone."""
    floor = any(path.startswith("floor.build-up") for path in finding.rests_on)
    edge = any(path.startswith("edge.") for path in finding.rests_on)
    if floor and not edge:
        return np.asarray(columns.floor == columns.floor[candidate])
    if edge and not floor:
        return np.asarray(columns.edge == columns.edge[candidate])
    return None


def first_serving(
    order: Iterable[int],
    answers: Answers,
    beyond: dict[Name, Finding],
    many: int,
    most: int,
    only: str = "",
) -> tuple[list[int], list[int], list[PutAside]]:
    """The first candidates that hold, those that fell out on the way, and what that put aside with them.

    Parameters
    ----------
    order : iterable of int
        Candidates, best first.
    many, most : int
        How many are wanted, and how many full answers are made for it at most.
    only : str
        How the ids begin that count; "" for all.
    """
    held: list[int] = []
    fell: list[int] = []
    aside: list[PutAside] = []
    gone = np.zeros(len(answers.columns), bool)
    made = 0
    for candidate in order:
        if gone[candidate]:
            continue
        full = answers.of(candidate)
        made += 1
        shorts = [each for each in full.lacking(beyond).values() if each.id.startswith(only)]
        if full.unbuildable or shorts:
            fell.append(candidate)
            for each in shorts:
                alike = alike_in(each, candidate, answers.columns)
                if alike is not None:
                    aside.append(PutAside(each, alike))
                    gone |= alike
        else:
            held.append(candidate)
        if len(held) == many or made == most:
            break
    return held, fell, aside


@dataclass(frozen=True)
class Held:
    """The first candidates that hold, in their order, and whether all before them was answered or refused."""

    held: tuple[int, ...]
    fell: tuple[int, ...]
    aside: tuple[PutAside, ...]
    sure: bool


def confirmed(
    order: Sequence[int],
    doubted: NDArray[np.bool_],
    answers: Answers,
    beyond: dict[Name, Finding],
    many: int,
    most: int,
) -> Held:
    """The first that hold, those that are doubted only as far as they rank before the first of the others.

    Where none of those holds, all are walked.
    """
    clear = [n for n in order if not doubted[n]]
    held, fell, aside = first_serving(clear, answers, beyond, many, most)
    if not held:
        return _walked(order, answers, beyond, many, most)
    before = [n for n in order[: order.index(held[0])] if doubted[n]]
    also, fallen, more = first_serving(before, answers, beyond, many, DOUBTED)
    place = {n: at for at, n in enumerate(order)}
    first = sorted([*held, *also], key=place.__getitem__)[:many]
    sure = len(also) == many or len(before) <= DOUBTED
    return Held(tuple(first), (*fell, *fallen), (*aside, *more), sure)


def _walked(order: Sequence[int], answers: Answers, beyond: dict[Name, Finding], many: int, most: int) -> Held:
    """The first that hold; where none of the first does, the way is walked in long steps, then halved back."""
    held, fell, aside = first_serving(order, answers, beyond, many, most)
    gone = np.zeros(len(answers.columns), bool)
    for each in aside:
        gone |= each.rows
    rest = [
        n for n in order if not gone[n] and (answers.columns.floor[n], answers.columns.edge[n]) not in answers.known
    ]
    if held or not rest:
        return Held(tuple(held), tuple(fell), tuple(aside), True)

    def holds(place: int) -> bool:
        full = answers.of(rest[place])
        return not full.unbuildable and not full.lacking(beyond)

    low, high = -1, None
    for place in dict.fromkeys(np.linspace(0, len(rest) - 1, STRIDES).round().astype(int).tolist()):
        if holds(place):
            high = place
            break
        low = place
        fell.append(rest[place])
    if high is None:
        return Held((), tuple(fell), tuple(aside), False)
    for _ in range(HALVINGS):
        if high - low < 2:
            break
        middle = (low + high) // 2
        low, high = (low, middle) if holds(middle) else (middle, high)
    further, more, also = first_serving(rest[high:], answers, beyond, many, most // 2)
    return Held(tuple(further), (*fell, *more), (*aside, *also), high - low < 2 and low < 0)


def findings_of(named: Named) -> Full:
    return Full(tuple(named.values()))
