"""A choice in the words of an adviser: the thing first, the number, what to do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..findings import Finding
from ..measure import say
from ..resolve import Resolved
from .heat import Name
from .records import By, Choice, Row, Word
from .wanted import EdgeFoam, FloorFoam

SAFETY = (
    "A recommendation is not a design. The local code and whoever is licensed to sign for structure, frost, fire and "
    "soil gas decide."
)


def named(floor: FloorFoam, edge: EdgeFoam) -> str:
    """A candidate in one line."""
    if floor.board is None and not any(pieces for _, pieces in edge.insulation):
        return "no foam"
    under = f"{floor.words} under the floor" if floor.board else "no foam under the floor"
    of = f" of {edge.board.label}" if edge.board is not None and floor.board is None else ""
    thick, _, where = edge.words.partition(") ") if edge.board else (edge.words, "", "")
    return f"{under}, {thick}){of} {where}" if edge.board else f"{under}, {edge.words}"


def word(resolved: Resolved, rows: Sequence[Row], beyond: dict[Name, Finding]) -> Word:
    """The verdict in one word or a few."""
    if not resolved.outdoors and not resolved.use.cold_floor and resolved.ground_mean <= 0.0 < resolved.room.mean:
        return "not this tool"
    best = next((row for row in rows if "recommended" in row.roles), None)
    if best is None:
        return "no product can serve"
    if beyond:
        return "foam does not decide it"
    if best.foam == 0.0:
        return "no foam" if (best.heat or 0.0) <= 0.0 else "no foam is asked for"
    return "no foam under the middle" if best.thickness == 0.0 else "serves"


def by_words(by: By, currency: str, day: str) -> str:
    if by == "price of the foam":
        return (
            f"Ranked by the price of the foam alone, in {currency} by the products' records of {day} or later. Labour, "
            "delivery and what heat costs are open: type them in [money]."
        )
    return "Ranked by how little foam meets everything that is held. Prices are open: the records have none."


def says(choice: Choice, resolved: Resolved) -> Iterator[str]:
    """The recommendation, why, and why not the cheaper one."""
    best = choice.recommended
    if choice.word == "not this tool":
        mean = say.both(resolved.ground_mean, "degC", resolved.system)
        yield (
            f"Not a question for this tool: the mean of the year is {mean}, so the ground may be frozen all year and "
            "settles where a warm floor thaws it. Ask a geotechnical engineer who knows frozen ground before anything "
            "is chosen."
        )
        return
    if best is None:
        yield "No product of the lines in hand can serve here."
        nearest = min(choice.refused, key=lambda row: (not row.confirmed, len(row.refusals)), default=None)
        if nearest is not None:
            lacks = "; ".join(dict.fromkeys(each.title for each in nearest.refusals))
            yield f"The nearest is {nearest.name}. What falls short: {lacks}."
        return
    yield f"Take {best.name}." if best.foam else "Take no foam."
    second = choice.runner_up
    if second is not None:
        yield f"Next comes {second.name}."
    for each in choice.beyond:
        yield f"Whichever is taken: {each.title} falls short. {each.words}"
