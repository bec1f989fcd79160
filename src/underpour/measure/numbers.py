"""Numbers as they are typed: 2, 2.5, 1/2, 3-1/2, 1e6; and those that are asked about."""

from __future__ import annotations

import re
from functools import cache

from ..mistakes import Mistake
from . import refusals

NUMBER = (
    r"(?:[0-9]+[ -]+[0-9]+/[0-9]+(?![0-9])|[0-9]+/[0-9]+(?![0-9])"
    r"|(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?)"
)


@cache
def _mixed() -> re.Pattern[str]:
    return re.compile(r"(?:([0-9]+)[ -]+)?([0-9]+)/([0-9]+)")


@cache
def _with_comma() -> re.Pattern[str]:
    return re.compile(r"[0-9][0-9.]*(?:,[0-9]+)+(?:\.[0-9]+)?")


@cache
def _with_space() -> re.Pattern[str]:
    return re.compile(r"(?<![0-9./])[0-9]{1,3}(?: [0-9]{3})+(?![0-9/])")


def number(text: str) -> float | None:
    """The value of a typed number; None where a fraction has nothing below its line or is more than one beside a whole.

    >>> number("3-1/2"), number("15/16"), number("1 3/2")
    (3.5, 0.9375, None)
    """
    mixed = _mixed().fullmatch(text)
    if not mixed:
        return float(text)
    whole, top, bottom = mixed.groups()
    if not float(bottom) or (whole and float(top) >= float(bottom)):
        return None
    return float(whole or 0) + float(top) / float(bottom)


def asked_about(typed: str, text: str) -> Mistake | None:
    """What to say of a number with a comma or a space in it; None where there is none."""
    found = _with_comma().search(text)
    if found:
        mended = [text.replace(found[0], number) for number in _without_comma(found[0])]
        return refusals.comma(typed, found[0], mended)
    found = _with_space().search(text)
    if found:
        return refusals.spaced(typed, found[0], text.replace(found[0], found[0].replace(" ", "")))
    return None


def _without_comma(number: str) -> list[str]:
    """The number as it could be meant: a decimal comma, or commas between thousands.

    >>> _without_comma("1,5"), _without_comma("1,200"), _without_comma("1,200.5"), _without_comma("1.200,5")
    (['1.5'], ['1200', '1.200'], ['1200.5'], ['1200.5'])
    """
    whole, *groups = number.split(",")
    rest = groups[-1].partition(".")
    if "." in whole:
        return [number.replace(".", "").replace(",", ".")]
    thousands = all(len(group.partition(".")[0]) == 3 for group in groups) and whole != "0"
    if len(groups) > 1 or rest[1]:
        return [number.replace(",", "")]
    return [number.replace(",", ""), f"{whole}.{rest[0]}"] if thousands else [f"{whole}.{rest[0]}"]
