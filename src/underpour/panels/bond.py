"""Offset rules: how each row's joints lie to those of the row before it, as crews lay by habit or by order."""

from __future__ import annotations

from collections.abc import Iterator

from .assemble import THIN, Rows, conflicts, starts
from .ground_plan import SAME
from .stock import Stock

PARTS = {"half": 2, "third": 3}
PLACES = 16  # of the first joint that are tried in a panel's length, beside those at the ends of long rows
LONG = 6  # rows whose ends are looked at

Order = tuple[int, bool, float]


def half_bond(rows: Rows, from_right: bool) -> list[float]:
    """The length of each strip's first piece where rows begin in turn with a whole panel and with half of one.

    Arguments
    ---------
    rows
        The floor's rows, cut for one direction and one offset.
    from_right
        Whether the crew begins at the right; then what is asked of the first piece is asked of the last. [m]
    """
    whole, found = rows.rules.length, []
    for number, strip in enumerate(rows.strips):
        first = whole / 2.0 if strip.row % 2 else whole
        start = (strip.length - first) % whole if from_right else first
        start = min(start if start > SAME else whole, strip.length)
        found.append(rows.pinned.get(number, rows.lined_up(number, start)))
    return found


def running(rows: Rows, parts: int, at: float) -> list[float]:
    """Starts of a running bond: all joints of a row on lines a panel apart, each row's lines so much further on.

    Arguments
    ---------
    rows
        The floor's rows.
    parts
        2 where joints lie half a panel from those of the next row, 3 where a third.
    at
        Where a joint of the lowest row lies, or would lie. [m]

    Returns
    -------
    list
        Length of the first piece of each strip. [m]
    """
    whole, step = rows.rules.length, step_of(rows.rules.length, rows.rules.pitch, parts)
    found = []
    for number, strip in enumerate(rows.strips):
        start = (at + strip.row % parts * step - strip.x0) % whole
        start = start if SAME < start < whole - SAME else whole
        found.append(strip.length if rows.in_one(number) else min(start, strip.length))
    return found


def step_of(length: float, pitch: float, parts: int) -> float:
    """How far joints of the next row lie on: part of a panel, on knobs where there are any. [m]

    >>> round(step_of(1.2192, 0.0762, 3), 4)  # 16 pitches: five of them
    0.381
    """
    return round(length / parts / pitch) * pitch if pitch else length / parts


def running_at(rows: Rows, parts: int) -> Iterator[float]:
    """Places for the first joint: those that spare a cut at an end of a long row, and even ones. [m]"""
    whole, pitch = rows.rules.length, rows.rules.pitch
    step = step_of(whole, pitch, parts)
    long = sorted(rows.strips, key=lambda strip: -strip.length)[:LONG]
    ends = (x - strip.row % parts * step for strip in long for x in (strip.x0, strip.x1))
    even = (rows.phase + whole * part / PLACES for part in range(PLACES))
    for at in dict.fromkeys(round(each % whole, 7) for each in (*ends, *even)):
        over = (at - rows.phase) % pitch if pitch else 0.0
        yield at - (0.0 if pitch and min(over, pitch - over) < 1e-6 else over)


def running_from(rows: Rows, parts: int) -> float:
    """The place that gives the corner where the crew begins the start that is pinned there. [m]"""
    (number, start), *_ = rows.pinned.items()
    strip = rows.strips[number]
    return strip.x0 + start - strip.row % parts * step_of(rows.rules.length, rows.rules.pitch, parts)


def chained(rows: Rows, from_right: bool, from_top: bool) -> list[float]:
    """What is cut from the end of one row begins the next, as far as stagger and least piece let it.

    Arguments
    ---------
    rows
        The floor's rows.
    from_right, from_top
        Where the crew begins. [m]

    Returns
    -------
    list
        Length of the first piece of each strip, counted from the left as always. [m]
    """
    rules, whole = rows.rules, rows.rules.length
    order = sorted(range(len(rows.strips)), key=lambda n: _from(rows, n, from_right, from_top))
    chosen = [0.0] * len(rows.strips)
    placed: dict[int, list[float]] = {}
    rest = whole
    for number in order:
        strip = rows.strips[number]
        before = placed.get(strip.row + (1 if from_top else -1), [])
        fresh = Stock(rules)
        may = [*starts(rows, number, fresh, before), *_of_rest(rows, number, rest, from_right)]

        def worse(start: float, number: int = number, before: list[float] = before, rest: float = rest) -> Order:
            first = _first(rows, number, start, from_right)
            short = _last(rows, number, start, from_right)
            held = min(first, whole), short
            too_short = sum(THIN < each < rules.least - SAME for each in held)
            return conflicts(rows, number, start, before) + too_short, first > rest + SAME, -first

        start = min(may, key=worse)
        last = _last(rows, number, start, from_right)
        left_over = whole - last - rules.kerf if last > THIN else whole
        rest = left_over if left_over >= rules.least else whole
        chosen[number] = start
        placed.setdefault(strip.row, []).extend(rows.joints(number, start))
    return chosen


def _from(rows: Rows, number: int, from_right: bool, from_top: bool) -> tuple[float, float]:
    strip = rows.strips[number]
    return -strip.row if from_top else strip.row, -strip.x1 if from_right else strip.x0


def _of_rest(rows: Rows, number: int, rest: float, from_right: bool) -> Iterator[float]:
    """The start with which the first piece, from wherever the crew begins, is the offcut."""
    strip, whole = rows.strips[number], rows.rules.length
    if number in rows.pinned or rows.in_one(number):
        return
    start = (strip.length - rest) % whole if from_right else min(rest, strip.length)
    yield rows.lined_up(number, start if start > SAME else whole)


def _first(rows: Rows, number: int, start: float, from_right: bool) -> float:
    strip, whole = rows.strips[number], rows.rules.length
    if not from_right or start >= strip.length - SAME:
        return start
    end = (strip.length - start) % whole
    return end if end > THIN else whole


def _last(rows: Rows, number: int, start: float, from_right: bool) -> float:
    strip, whole = rows.strips[number], rows.rules.length
    if start >= strip.length - SAME:
        return strip.length % whole
    if from_right:
        return start % whole
    end = (strip.length - start) % whole
    return end if end > THIN else 0.0
