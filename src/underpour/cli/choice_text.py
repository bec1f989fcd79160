"""A choice as text for the terminal: what to take, what comes next, what refuses the rest. All of it is in the JSON."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from ..choosing.wanted import NAMED
from .paragraphs import block, columns, hung

if TYPE_CHECKING:
    from ..choosing import Choice, Reason, Row
    from ..measure.table import System

INDENT, WIDE = 3, 12
SHOWN = 5  # of those that serve, of reasons, of the front
INVENTED = "(invented)"


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
        *block("What refuses the others", (line for each in _reasons(choice) for line in _reason(each, system, width))),
        *block(
            "What would let another win", (line for each in choice.to_win[:2] for line in hung(each.words, width, 2))
        ),
        *block("Nothing beats these in cost, heat and carbon together", _front(choice, width)),
        *block(
            "Cannot be told yet",
            (line for id, key in choice.open for line in hung(f"{id}: type {key} in the brief.", width, 2)),
        ),
        *(line for words in choice.searched if not words.startswith(NAMED) for line in hung(words, width)),
        *hung(_counted(choice), width),
        *(hung("The products are those of an invented maker.", width) if INVENTED in _all_names(choice) else []),
        "",
        *(line for words in choice.cautions[:1] for line in hung(f"Mind: {words}", width)),
    ]
    return "\n".join(lines) + "\n"


def _all_names(choice: Choice) -> str:
    return " ".join(row.name for row in choice.rows)


def _table(choice: Choice, width: int) -> Iterator[str]:
    """Two lines a way: its numbers, then where its foam lies."""
    life = any(row.life is not None for row in choice.rows)
    heads = ["loses", "first cost", *(["all years"] if life else []), "carbon"]
    widths = [width - len(heads) * (WIDE + 2), *[WIDE] * len(heads)]
    yield from columns(["", *heads], widths)
    for row in choice.rows:
        if row.rank is None or row.rank <= SHOWN or row.roles:
            yield from columns([_rank(row), *_numbers(row, choice.system, life)], widths)
            if row.name not in row.roles:
                yield from hung(_short(row.name), width, INDENT)
            elif row.name != row.floor:
                yield from hung(f"{_short(row.floor)} under the floor, {_short(row.edge)} at the edge", width, INDENT)
            if row.refusals:
                short = ", ".join(dict.fromkeys(each.id for each in row.refusals))
                yield from hung(f"falls short: {short}", width, INDENT)


def _rank(row: Row) -> str:
    roles = [role for role in row.roles if role not in ("recommended", "runner-up")]
    return "  ".join(filter(None, [str(row.rank or ""), ", ".join(roles)]))


def _short(words: str) -> str:
    """A part without the other system's numbers and without what is said of all products.

    >>> _short("2 in (51 mm) of Marlpit Plain 15 (invented)")
    '2 in of Marlpit Plain 15'
    """
    return re.sub(r"\s*\([^)]*\)", "", words)


def _numbers(row: Row, system: System, life: bool) -> list[str]:
    from ..measure import say

    return [
        "" if row.heat is None else say.value(row.heat, "W", system),
        "" if row.first is None else f"{row.first.amount:,.0f} {row.first.currency}",
        *(["" if row.life is None else f"{row.life.amount:,.0f} {row.life.currency}"] if life else []),
        "" if row.carbon is None else f"{row.carbon.value:,.0f} kgCO2e",
    ]


def _reasons(choice: Choice) -> tuple[Reason, ...]:
    return choice.reasons[:SHOWN]


def _reason(reason: Reason, system: System, width: int) -> list[str]:
    from ..choosing.winning import told_apart

    why, many = reason.refusal, []
    many += [f"{reason.aside:,} before anything was solved for them"] if reason.aside else []
    many += [f"{reason.answered} of those that were answered"] if reason.answered else []
    cost = "" if reason.first is None else f", {reason.first.amount:,.0f} {reason.first.currency}"
    held = ""
    if why.value is not None and why.limit is not None and why.unit not in ("count", "money"):
        value, limit = told_apart(why.value, why.limit, why.unit, system)
        held = f": {value} where {why.sense} {limit} is wanted"
    at = f", edge {why.at['edge']}" if "edge" in why.at else ""
    said = f"{reason.id}, {', '.join(many) or 'beside others'}. {reason.title}{at}"
    return hung(f"{said}. The cheapest is {_short(reason.cheapest)}{cost}{held}.", width, 2)


def _front(choice: Choice, width: int) -> Iterator[str]:
    step = max(1, -(-len(choice.front) // SHOWN))
    for row in choice.front[::step]:
        numbers = ", ".join(filter(None, _numbers(row, choice.system, False)))
        yield from hung(f"{numbers}: {_short(row.name)}", width, 2)


def _counted(choice: Choice) -> str:
    by = "; ".join(f"{each.count:,} by {each.id}" for each in choice.bounds[:SHOWN])
    said = f"{choice.candidates:,} ways were looked at"
    said += f", {choice.put_aside:,} put aside by what is cheap to check ({by})" if by else ""
    return f"{said}; {choice.answered} were answered wholly."
