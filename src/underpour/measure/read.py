"""From typed words to one number in SI: the one place where units are converted on the way in."""

from __future__ import annotations

import re
from functools import cache

from ..mistakes import Mistake
from . import refusals
from .feet import inches
from .measured import Measure
from .numbers import NUMBER, asked_about, number
from .table import Kind, System, Unit, table
from .words import LONGEST, plain


@cache
def _parts() -> re.Pattern[str]:
    return re.compile(
        rf"(?:(?P<letters>RSI|USI|R|U) ?[-=:]? ?(?=[0-9.]))?(?P<sign>[-+]?) ?(?P<number>{NUMBER})(?P<unit>.*)",
        re.IGNORECASE,
    )


def read(typed: str, kind_name: str, system: System = "US") -> Measure:
    """The measure of this kind; a `Mistake` where the words do not say one, or one that cannot be.

    ``system`` says what a bare R or U means.
    """
    kind = table().kinds[kind_name]
    si, _ = amount(typed, kind, system)
    low, high = _limits(kind)
    if si < 0.0 == low:
        raise refusals.below_zero(typed, kind)
    if si == 0.0 and kind.above_zero:
        raise refusals.zero(typed, kind)
    if not low <= si <= high:
        raise refusals.outside(typed, "too little" if si < low else "too much", kind)
    return Measure(si, typed.strip())


def amount(typed: str, kind: Kind, system: System) -> tuple[float, Unit]:
    """The number in the unit that the kind is kept in, and the unit that was typed. No range is held against it."""
    text = plain(typed)
    if not text:
        raise refusals.nothing(typed, kind)
    if len(text) > LONGEST:
        raise refusals.unread(f"{typed.strip()[:LONGEST]}…", kind)
    asked = asked_about(typed, text)
    if asked:
        raise asked
    sign = -1.0 if text.startswith("-") else 1.0
    in_inches = inches(typed, text.lstrip("+-").lstrip(), kind)
    if in_inches is not None:
        return _converted(sign * in_inches, _wanted(typed, "", table().find("in"), kind))
    parts = _parts().fullmatch(text)
    if not parts:
        raise refusals.how_many(typed, kind) if table().find(text) else refusals.unread(typed, kind)
    value = number(parts["number"])
    if value is None:
        raise refusals.unread(typed, kind)
    written = parts["sign"].strip("+") + parts["number"]
    words = parts["unit"].strip().removeprefix("-").strip()
    unit = _unit(typed, (parts["letters"] or "").upper(), written, words, kind, system)
    if (parts["letters"] or "").upper() == "R" and not words and system == "SI" and value > kind.bare_r_asked_above:
        raise refusals.bare_r(typed, written, value * table().unit("h·ft²·°F/Btu", "resistance").si)
    return _converted(-value if parts["sign"] == "-" else value, unit)


def _unit(typed: str, letters: str, written: str, words: str, kind: Kind, system: System) -> Unit:
    """The unit that was meant, by its letters (R, RSI, U) or its words."""
    if letters and not words:
        meant, by_system = table().letters[letters]
        return _wanted(typed, written, (table().unit(by_system[system], meant),), kind)
    degrees = words == "°" or words.casefold().rstrip(".") in ("deg", "degree", "degrees")
    if degrees and kind.like == "angle":
        return table().unit("deg", "angle")
    if degrees or not words:
        raise refusals.of_what(typed, written, kind, _fitting(written, kind, system))
    each = words.casefold().removeprefix("per ") if words.casefold().startswith("per ") else words.removeprefix("/")
    per = each != words and letters
    found = table().find(f"{letters}/{each.strip()}" if per else words)
    if not found and not re.fullmatch(r"[^0-9]+([234][^0-9]*)*", words):
        raise refusals.unread(typed, kind)
    if not found:
        raise refusals.no_such_unit(typed, written, f"{letters}{words}" if per else words, kind)
    if letters and not per:
        _agree(typed, letters, written, found)
    return _wanted(typed, written, found, kind)


def _agree(typed: str, letters: str, written: str, found: tuple[Unit, ...]) -> None:
    """Letters and words must say the same kind, and metric letters metric words."""
    kinds = table().kinds
    meant, _ = table().letters[letters]
    if not any(unit.kind.startswith(meant) for unit in found):
        raise refusals.letters_of_another(typed, letters, kinds[meant], found[0].name, kinds[found[0].kind])
    if letters.endswith("SI") and found[0].system != "SI":
        raise refusals.metric_letters(typed, letters, found[0].name, written)


def _wanted(typed: str, written: str, found: tuple[Unit, ...], kind: Kind) -> Unit:
    """The one of the units of this spelling that measures what is wanted."""
    for unit in found:
        if unit.kind == kind.like:
            return unit
    if kind.name == "temperature-difference" and found[0].name == "°C":
        raise refusals.celsius(typed, written)
    raise refusals.other_kind(typed, table().kinds[found[0].kind], kind)


def _converted(value: float, unit: Unit) -> tuple[float, Unit]:
    return (value - unit.zero) * unit.si, unit


def _fitting(written: str, kind: Kind, system: System) -> list[str]:
    """A bare number with each of the kind's usual units, where what it says then lies in the kind's range.

    120 of a room is 120 F and never 120 C; 0.4 of humidity is a share, so that 40 % is meant.
    """
    plain_number = number(written.lstrip("+-"))
    if kind.write == "{} %" and plain_number is not None and 0.0 < plain_number < 1.0:
        written = f"{100.0 * plain_number:g}"
    first, *others = kind.write.split(" or ")
    each = [first.format(written), *(re.sub(r"-?\d+(\.\d+)?", written, other, count=1) for other in others)]
    return [words for words in each if _lies_within(words, kind, system)]


def _lies_within(words: str, kind: Kind, system: System) -> bool:
    low, high = _limits(kind)
    try:
        return low <= amount(words, kind, system)[0] <= high
    except Mistake:  # R10 in a metric brief
        return False


@cache
def _limits(kind: Kind) -> tuple[float, float]:
    low, high = (amount(end, kind, "SI")[0] for end in kind.range)
    return low, high
