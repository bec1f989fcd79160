"""Which edge takes which side of the outline: every side has exactly one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..mistakes import Mistake
from .kinds import Sides
from .model import Brief
from .paths import letter


def sides_of_edges(brief: Brief) -> tuple[tuple[int, ...], ...]:
    """For each edge in file order the numbers of its sides, by the typed corners; the brief has been read."""
    return tuple(_taken([edge.sides for edge in brief.edge], len(brief.plan.corners)))


def _taken(claims: Sequence[Sides | None], count: int) -> list[tuple[int, ...]]:
    every = range(1, count + 1)
    named = {side for sides in claims if isinstance(sides, tuple) for side in sides}
    rest = tuple(side for side in every if side not in named)
    words = {"all": tuple(every), "rest": rest, None: ()}
    return [sides if isinstance(sides, tuple) else words[sides] for sides in claims]


def unclear_sides(claims: Sequence[Sides | None], count: int) -> Iterator[Mistake]:
    """What is wrong with the edges' claims.

    Parameters
    ----------
    claims : list of "all", "rest", tuple of int, or None
        In file order; None where a claim could not be read, so that no side is called unclaimed.
    count : int
        How many sides the outline has.
    """
    owner: dict[int, int] = {}
    for index, (sides, claim) in enumerate(zip(_taken(claims, count), claims, strict=True)):
        at = f"edge.{letter(index)}.sides"
        beyond = [side for side in sides if not 1 <= side <= count]
        if beyond:
            wrong = f"The outline has {count} sides; there is no {_sides(beyond)}."
            yield Mistake(at, "", wrong, "Side 1 runs from corner 1 to corner 2.")
        twice = sorted({side for side in sides if side in owner or sides.count(side) > 1} - set(beyond))
        first = owner.get(twice[0], index) if twice else index
        if first != index and claims[first] == "all":
            wrong = f"Edge {letter(first)} takes all sides; nothing is left for edge {letter(index)}."
            yield Mistake(at, "", wrong, "Name the sides of each.")
        elif first != index and claim == claims[first] == "rest":
            yield Mistake(at, "", f"Edge {letter(first)} takes the rest already.", "Name the sides of one of the two.")
        elif twice:
            others = sorted({letter(owner.get(side, index)) for side in twice})
            wrong = f"{_sides(twice).capitalize()} {_belongs(twice)} to edge {' and '.join(others)} already."
            yield Mistake(at, "", wrong, "Every side has exactly one edge.")
        elif claim == "rest" and not sides:
            yield Mistake(
                at,
                "",
                "Nothing is left here: the other edges take all sides.",
                "Take this edge out, or a side from another.",
            )
        for side in sides:
            owner.setdefault(side, index)
    left = [side for side in range(1, count + 1) if side not in owner]
    if left and claims and None not in claims:
        wrong = f"No edge takes {_sides(left)}."
        instead = (
            'Add them to an edge, or write sides = "rest" in one.'
            if len(left) > 1
            else 'Add it to an edge, or write sides = "rest" in one.'
        )
        yield Mistake("edge", "", wrong, instead)


def _sides(numbers: Sequence[int]) -> str:
    words = [str(number) for number in numbers]
    if len(words) == 1:
        return f"side {words[0]}"
    return f"sides {', '.join(words[:-1])} and {words[-1]}"


def _belongs(numbers: Sequence[int]) -> str:
    return "belongs" if len(numbers) == 1 else "belong"
