"""A choice in words: what is recommended, why the second is second, what refuses the others. Desk and papers say it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ..choosing.winning import told_apart
from ..findings import Finding
from ..measure import say
from ..measure.table import System
from .instance import instance

if TYPE_CHECKING:
    from ..choosing import Choice, Money, Refusal, Row
    from ..choosing.records import By

SHOWN = 5  # of those that serve
INSTEAD = 2  # other products in the place of the recommended one
IN_TABLE = {  # what a role of the table is called
    "recommended": "recommended",
    "runner-up": "runner-up",
    "as briefed": "as briefed",
    "no foam": "bare slab",
}

MORE: dict[By, tuple[str, str]] = {  # what the second does more of, by what is ranked; and where it does as much
    "life-cycle cost": ("costs more over its life", "costs as much over its life"),
    "first cost": ("costs more", "costs as much"),
    "price of the foam": ("its foam costs more", "its foam costs as much"),
    "foam": ("takes more foam", "takes as much foam"),
    "carbon": ("brings more carbon", "brings as much carbon"),
    "height": ("is higher", "is as high"),
}


def recommended(choice: Choice) -> dict[str, Any]:
    """Everything that a sheet says of a choice, as text ready to read."""
    system, best, second = choice.system, choice.recommended, choice.runner_up
    return {
        "says": list(choice.says),
        "by": choice.by_words,
        "proposed": _as_proposed(best),
        "best": "" if best is None else best.name,
        "second": None
        if best is None or second is None
        else {"name": _sentence(second.name), "why": _why_second(choice, best, second)},
        "to_win": [_sentence(each.words) for each in choice.to_win],
        "columns": _columns(choice),
        "rows": [
            {"rank": str(row.rank or ""), "name": _named(row), "cells": _cells(row, choice)}
            for row in choice.rows
            if row.rank is None or row.rank <= SHOWN or row.roles
        ],
        "refused": refused(choice),
        "bounds": bounds(choice),
        "whichever": [reason(each, system) for each in choice.beyond],
        "open": [{"id": id, "key": key} for id, key in choice.open],
        "instead": _instead(choice),
        "searched": list(choice.searched),
        "safety": safety(choice),
    }


def safety(choice: Choice) -> str:
    """What is said beside every recommendation."""
    return choice.cautions[0] if choice.cautions else ""


def refused(choice: Choice) -> list[dict[str, Any]]:
    """What was refused, each once, with every finding that refuses it; one that does so at several places once.

    Ways that the same findings refuse as one before them are counted under it, but for those that everybody looks for,
    such as no foam. A finding's own words stand where it refuses first.
    """
    short = [row for row in choice.rows if row.refusals and row.rank is None]
    named: dict[str, tuple[Row, dict[str, Refusal]]] = {}
    for row in (*short, *choice.refused):
        _, whole = named.setdefault(row.name, (row, {}))
        for each in row.refusals:
            whole.setdefault(each.id, each)
    folded: dict[tuple[str, ...], list[tuple[Row, dict[str, Refusal]]]] = {}
    for name, (row, whole) in named.items():
        folded.setdefault((name,) if row in short else tuple(sorted(whole)), []).append((row, whole))
    told: set[str] = set()
    found = []
    for (row, whole), *others in folded.values():
        said = [reason(each, choice.system, words=each.id not in told) for each in whole.values()]
        told |= set(whole)
        more = _more(len(others))
        found.append({"name": _named(row, alone=True), "cost": money(row.first), "reasons": said, "more": more})
    return found


def _more(others: int) -> str:
    """
    >>> _more(1), _more(0)
    ('The same refuses 1 more way that was looked at closely.', '')
    """
    if not others:
        return ""
    ways = "1 more way that was" if others == 1 else f"{others} more ways that were"
    return f"The same refuses {ways} looked at closely."


def reason(refusal: Refusal, system: System, *, words: bool = True) -> dict[str, str]:
    """One finding that refuses: its title and place, its numbers, its words where they are wanted, its id."""
    of = Finding(refusal.id, refusal.title, refusal.value, refusal.unit, at=refusal.at)
    numbers = ""
    if refusal.value is not None and refusal.limit is not None and refusal.unit != "count":
        value, limit = told_apart(refusal.value, refusal.limit, refusal.unit, system)
        numbers = f"{value}, {refusal.sense} {limit}" if refusal.sense else f"{value}, where {limit} is the limit"
    return {
        "id": refusal.id,
        "key": "|".join([refusal.id, *(f"{name}={refusal.at[name]}" for name in sorted(refusal.at))]),
        "title": refusal.title,
        "where": instance(of, system),
        "numbers": numbers,
        "words": refusal.words if words else "",
    }


def bounds(choice: Choice) -> str:
    """How many ways were looked at, and what put most of them aside, in one line."""
    said = f"{choice.candidates:,} ways were looked at"
    if choice.bounds:
        by = "; ".join(f"{each.count:,} by {each.id}" for each in choice.bounds)
        said += f", {choice.put_aside:,} put aside by what is quick to check: {by}"
    return f"{said}. {choice.answered:,} were answered wholly."


def money(of: Money | None) -> str:
    """An amount with its currency; "" where a price is open."""
    return "" if of is None else f"{of.amount:,.0f} {of.currency}"


def _named(row: Row, *, alone: bool = False) -> str:
    roles = [IN_TABLE.get(role, role) for role in row.roles if role not in ("as briefed" if alone else "", row.name)]
    roles = [role for role in roles if role != row.name]
    return f"{row.name} ({', '.join(roles)})" if roles else row.name


def _sentence(words: str) -> str:
    """Words as a sentence begins."""
    return f"{words[:1].upper()}{words[1:]}"


def _columns(choice: Choice) -> list[str]:
    """Headings of the numbers that some row has."""
    there = [*choice.rows]
    heads = []
    if any(row.first is not None for row in there):
        heads.append("price of the foam" if choice.by == "price of the foam" else "first cost")
    if any(row.life is not None for row in there):
        heads.append("over its life")
    if any(row.carbon is not None for row in there):
        heads.append("carbon")
    if any(row.heat is not None for row in there):
        heads.append("loses, mean of the year")
    return [*heads, "build-up"]


def _cells(row: Row, choice: Choice) -> list[str]:
    system = choice.system
    told = {
        "price of the foam": money(row.first),
        "first cost": money(row.first),
        "over its life": money(row.life),
        "carbon": "" if row.carbon is None else f"{row.carbon.value:,.0f} kgCO2e",
        "loses, mean of the year": "" if row.heat is None else say.value(row.heat, "W", system),
        "build-up": say.value(row.height, "m", system),
    }
    return [told[head] for head in _columns(choice)]


def _as_proposed(best: Row | None) -> str:
    """Whether the submittal proposes what is recommended."""
    if best is None:
        return ""
    if not best.changes or "as briefed" in best.roles:
        return "What this submittal proposes is what is recommended."
    return (
        "What this submittal proposes is the brief as it was typed: another way to build it than is recommended here."
    )


def _why_second(choice: Choice, best: Row, second: Row) -> str:
    """The quantity that ranks, of both."""
    first, other = _ranking(best, choice), _ranking(second, choice)
    if not first or not other:
        return ""
    more, as_much = MORE[choice.by]
    if first == other:
        return f"It meets as well, and {as_much}: {other}. Between equals the order of the product lines decides."
    return f"It meets as well, and {more}: {other} against {first}."


def _ranking(row: Row, choice: Choice) -> str:
    system = choice.system
    return {
        "life-cycle cost": lambda: money(row.life),
        "first cost": lambda: money(row.first),
        "price of the foam": lambda: money(row.first),
        "foam": lambda: say.both(row.foam, "m³", system),
        "carbon": lambda: "" if row.carbon is None else f"{row.carbon.value:,.0f} kgCO2e",
        "height": lambda: say.both(row.height, "m", system),
    }[choice.by]()


def _instead(choice: Choice) -> dict[str, Any] | None:
    """The best of other products beside what is recommended, number by number; None where there is no other."""
    best = choice.recommended
    if best is None or not _boards(best):
        return None
    taken = set(_boards(best))
    others: list[Row] = []
    for row in choice.rows:
        boards = set(_boards(row))
        if row.rank is not None and boards and not taken & boards and len(others) < INSTEAD:
            others.append(row)
            taken |= boards
    if not others:
        return None
    told = [_cells(row, choice) for row in (best, *others)]
    rows = [[head, *cells] for head, *cells in zip(_columns(choice), *told, strict=True)]
    if best.coldest is not None:
        cold = ["" if row.coldest is None else say.value(row.coldest, "degC", choice.system) for row in (best, *others)]
        rows.append(["coldest place of the floor in winter", *cold])
    return {"names": [best.name, *(f"{row.name} (number {row.rank})" for row in others)], "rows": rows}


def _boards(row: Row) -> list[str]:
    """The products that a row lays, in the order of the brief."""
    lists = [value for _, value in row.changes if isinstance(value, list | tuple)]
    named = [str(each["board"]) for listed in lists for each in listed if isinstance(each, dict) and "board" in each]
    return list(dict.fromkeys(named))
