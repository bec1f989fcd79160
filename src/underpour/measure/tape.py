"""Lengths as they are read off a tape: 2 in, 4 ft 3½ in; 51 mm, 2.10 m."""

from __future__ import annotations

from .digits import MINUS, THIN, figured, fixed
from .table import table

_GLYPHS = {2: "¼", 4: "½", 6: "¾", 1: "⅛", 3: "⅜", 5: "⅝", 7: "⅞"}
_STILL_IN_INCHES = 24.0  # below this, a length is said in inches alone


def us(metres: float) -> str:
    """Feet and inches where the length falls on a sixteenth, decimals of an inch or a foot where it does not.

    >>> us(0.0508).replace(THIN, " "), us(1.3081).replace(THIN, " "), us(0.06).replace(THIN, " ")
    ('2 in', '4 ft 3½ in', '2.36 in')
    """
    inches = abs(metres) / table().unit("in", "length").si
    sixteenths = round(inches * 16)
    if abs(inches * 16 - sixteenths) > 1e-6:
        return _decimal(metres)
    sign = MINUS if metres < 0 and sixteenths else ""
    feet, over = divmod(sixteenths, 12 * 16) if inches >= _STILL_IN_INCHES else (0, sixteenths)
    said = [f"{fixed(feet, 0)}{THIN}ft"] if feet else []
    said += [f"{_whole_and_part(over)}{THIN}in"] if over or not feet else []
    return sign + " ".join(said)


def si(metres: float) -> str:
    """Millimetres below a metre, metres from there on.

    >>> si(0.0508).replace(THIN, " "), si(2.1).replace(THIN, " "), si(0.000381).replace(THIN, " ")
    ('51 mm', '2.10 m', '0.38 mm')
    """
    millimetres = metres * 1000
    if abs(round(millimetres)) < 1000:
        return f"{figured(millimetres, 2)}{THIN}mm"
    return f"{fixed(metres, 2)}{THIN}m"


def _whole_and_part(sixteenths: int) -> str:
    whole, part = divmod(sixteenths, 16)
    if not part:
        return str(whole)
    if part % 2 == 0:
        return f"{whole or ''}{_GLYPHS[part // 2]}"
    return f"{whole}-{part}/16" if whole else f"{part}/16"


def _decimal(metres: float) -> str:
    inches = metres / table().unit("in", "length").si
    if abs(inches) >= _STILL_IN_INCHES:
        return f"{figured(metres / table().unit('ft', 'length').si, 3)}{THIN}ft"
    # A rule shows hundredths of an inch; what is thinner, such as film, is said in two figures.
    digits = figured(inches, 2) if abs(inches) < 0.1 else fixed(inches, 2 if abs(inches) < 10 else 1)
    return f"{digits}{THIN}in"
