"""A choice as text for the terminal: what to take, what comes next, what refuses the rest."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from .paragraphs import block, columns, hung

if TYPE_CHECKING:
    from ..choosing import Choice, Refusal, Row
    from ..measure.table import System

NUMBER, WIDE = 3, 12
REFUSED, REASONS = 6, 3  # ways that are refused, and reasons of each
SHOWN = 5  # of those that serve; all ten are in the JSON


def choice_text(choice: Choice, width: int) -> str:
    """A choice in lines of at most ``width`` columns; the count stands last."""
    system = choice.system
    lines = [
        *hung(f"What to use: {choice.title}", width),
        *hung(", ".join(filter(None, [choice.use, choice.place])), width),
        "",
        *(line for words in choice.says for line in hung(words, width)),
        "",
        *hung(choice.by_words, width),
        "",
        *_table(choice, width),
        "",
        *block(
            "Refused, and by what", (line for row in choice.refused[:REFUSED] for line in _refused(row, system, width))
        ),
        *block("What would let another win", (line for each in choice.to_win for line in hung(each.words, width, 2))),
        *block("Nothing beats these in cost, heat and carbon together", _front(choice, width)),
        *block(
            "Cannot be told yet",
            (line for id, key in choice.open for line in hung(f"{id}: type {key} in the brief.", width, 2)),
        ),
        *block("What was tried", (line for words in choice.searched for line in hung(words, width, 2))),
        *hung(_counted(choice), width),
        "",
        *(line for words in choice.cautions[:1] for line in hung(f"Mind: {words}", width)),
    ]
    return "\n".join(lines) + "\n"


def _table(choice: Choice, width: int) -> Iterator[str]:
    life = any(row.life is not None for row in choice.rows)
    heads = ["loses", "first cost", *(["all years"] if life else []), "carbon"]
    widths = [NUMBER, width - NUMBER - 2 - len(heads) * (WIDE + 2), *[WIDE] * len(heads)]
    yield from columns(["", "", *heads], widths)
    for row in choice.rows:
        if row.rank is None or row.rank <= SHOWN or row.roles:
            yield from columns([str(row.rank or ""), _named(row), *_numbers(row, choice.system, life)], widths)


def _named(row: Row) -> str:
    roles = [role for role in row.roles if role not in ("recommended", "runner-up") and role != row.name]
    said = f"{row.name} ({', '.join(roles)})" if roles else row.name
    if row.refusals:
        said += f": falls short, {', '.join(dict.fromkeys(each.id for each in row.refusals))}"
    return said


def _numbers(row: Row, system: System, life: bool) -> list[str]:
    from ..measure import say

    return [
        "" if row.heat is None else say.value(row.heat, "W", system),
        "" if row.first is None else f"{row.first.amount:,.0f} {row.first.currency}",
        *(["" if row.life is None else f"{row.life.amount:,.0f} {row.life.currency}"] if life else []),
        "" if row.carbon is None else f"{row.carbon.value:,.0f} kgCO2e",
    ]


def _refused(row: Row, system: System, width: int) -> Iterator[str]:
    cost = "" if row.first is None else f", {row.first.amount:,.0f} {row.first.currency}"
    yield from hung(f"{row.name}{cost}", width, 2)
    first = {each.id: each for each in reversed(row.refusals)}
    for each in list(reversed(first.values()))[:REASONS]:
        yield from hung(_why(each, system), width, 4)


def _why(refusal: Refusal, system: System) -> str:
    from .spoken import measured

    said = refusal.title
    if refusal.value is not None and refusal.limit is not None:
        value, limit = (measured(each, refusal.unit, system) for each in (refusal.value, refusal.limit))
        said += f": {value} where {limit} is the limit"
    return f"{said} ({refusal.id})."


def _front(choice: Choice, width: int) -> Iterator[str]:
    for row in choice.front:
        told = "" if row.confirmed else " (not answered wholly)"
        yield from hung(f"{', '.join(filter(None, _numbers(row, choice.system, False)))}: {row.name}{told}", width, 2)


def _counted(choice: Choice) -> str:
    by = "; ".join(f"{each.count:,} by {each.id}" for each in choice.bounds)
    said = f"{choice.candidates:,} ways were looked at"
    said += f", {choice.put_aside:,} put aside by what is cheap to check ({by})" if by else ""
    return f"{said}; {choice.answered} were answered wholly."
