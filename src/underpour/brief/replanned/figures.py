"""Figures of a plan: the words that stand for a length, and exactly how long it is."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ... import measure
from ..corners import LENGTH_OF_ONE, NUMBER, signed

OF_ONE = {unit: Fraction(str(metres)) for unit, metres in LENGTH_OF_ONE.items()}  # m, exact by definition
_INCH, _FOOT = OF_ONE["in"], OF_ONE["ft"]
_DECIMALS = {"m": 4, "ft": 3, "cm": 3, "in": 3, "mm": 2}  # that are still read with ease
_ROUNDED = {"m": 5, "ft": 5, "cm": 3, "in": 4, "mm": 2}  # of a figure that falls on no grid
_FINEST = 64  # parts of an inch on a tape
_DIGITS = 10  # of a metre: a sixty-fourth of an inch has nine


@dataclass(frozen=True, slots=True)
class Figure:
    """A length as it stands in the brief, bare in the plan's unit or with a unit of its own."""

    words: str
    metres: Fraction

    @property
    def bare(self) -> bool:
        return NUMBER.fullmatch(self.words) is not None


def figure(words: str, unit: str) -> Figure:
    """Words as typed; a bare number is in ``unit``. Raises Mistake where they are no length.

    >>> figure("12 ft 6 in", "m").metres == figure("12.5", "ft").metres
    True
    """
    words = words.strip()
    if NUMBER.fullmatch(words):
        return Figure(words, Fraction(words.replace("−", "-")) * OF_ONE[unit])
    return Figure(words, exact(signed(words, unit)))


def exact(metres: float) -> Fraction:
    """A length as the tape means it, without what binary numbers add. [m]"""
    return Fraction(f"{metres:.{_DIGITS}f}")


def step_words(typed: str, unit: str) -> Fraction:
    """The step of the snap: a bare number in ``unit``, or a length. [m] Raises Mistake where it is none."""
    if NUMBER.fullmatch(typed.strip()):
        return Fraction(typed.strip().replace("−", "-")) * OF_ONE[unit]
    return exact(measure.length(typed).si)


def written(metres: Fraction, unit: str) -> Figure:
    """A new figure for a corner, bare in ``unit`` where that is exact and short.

    Feet and inches or millimetres stand in where they are exact and decimals are not; what falls on no grid is rounded
    to some hundredths of a millimetre, and the figure is what its words say.

    >>> [written(Fraction(metres), unit).words for metres, unit in (("3.81", "ft"), ("3.8354", "ft"), ("1/3", "m"))]
    ['12.5', '12 ft 7 in', '0.33333']
    """
    in_unit = metres / OF_ONE[unit]
    if _short(in_unit, _DECIMALS[unit]):
        return Figure(_digits(in_unit, _DECIMALS[unit]), metres)
    return _on_a_tape(metres, unit) or _rounded(metres, unit)


def long_words(metres: Fraction, unit: str) -> Figure:
    """A new figure with its unit beside it, for lengths that stand alone.

    >>> long_words(Fraction("3.81"), "ft").words, long_words(Fraction("3.5"), "m").words
    ('12 ft 6 in', '3.5 m')
    """
    taped = _on_a_tape(metres, unit) if unit == "ft" else None
    if taped is not None:
        return taped
    found = written(metres, unit)
    return Figure(f"{found.words} {unit}", found.metres) if found.bare else found


def _on_a_tape(metres: Fraction, unit: str) -> Figure | None:
    """In feet, inches and parts of an inch, or in millimetres; None where neither is exact."""
    below, long = ("-" if metres < 0 else ""), abs(metres)
    parts = long / _INCH * _FINEST
    if unit in ("ft", "in") and parts.denominator == 1:
        feet, inches = divmod(long / _INCH, 12)
        whole, part = divmod(inches, 1)
        said = [f"{feet} ft"] if feet else []
        over = "-".join(filter(None, (str(whole) if whole or not part else "", str(part) if part else "")))
        said += [f"{over} in"] if inches or not feet else []
        return Figure(below + " ".join(said), metres)
    millimetres = long * 1000
    if _short(millimetres, 1):
        return Figure(f"{below}{_digits(millimetres, 1)} mm", metres)
    return None


def _rounded(metres: Fraction, unit: str) -> Figure:
    words = _digits(metres / OF_ONE[unit], _ROUNDED[unit])
    return Figure(words, Fraction(words) * OF_ONE[unit])


def _short(number: Fraction, decimals: int) -> bool:
    return bool((number * 10**decimals).denominator == 1)


def _digits(number: Fraction, decimals: int) -> str:
    """The number with so many decimals, those that are nought at its end left out."""
    scaled = round(number * 10**decimals)
    whole, part = divmod(abs(scaled), 10**decimals)
    tail = f"{part:0{decimals}d}".rstrip("0")
    return ("-" if scaled < 0 else "") + (f"{whole}.{tail}" if tail else str(whole))
