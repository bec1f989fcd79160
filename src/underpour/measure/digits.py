"""Numbers as they are printed: a real minus sign, sensible digits, thin spaces between thousands."""

from __future__ import annotations

import math

THIN = "\u2009"
MINUS = "\u2212"
MOST_DECIMALS = 6


def fixed(number: float, decimals: int) -> str:
    """The number with this many decimals; one that rounds to nought has no sign.

    >>> fixed(-17.25, 1), fixed(-0.01, 1)
    ('−17.2', '0.0')
    """
    text = f"{abs(number):.{decimals}f}"
    whole, dot, rest = text.partition(".")
    if len(whole) > 4:
        whole = f"{int(whole):,}".replace(",", THIN)
    sign = MINUS if number < 0 and float(text) else ""
    return f"{sign}{whole}{dot}{rest}"


def figured(number: float, figures: int) -> str:
    """The number with at least this many figures, and never fewer than its whole part has.

    >>> figured(0.04567, 2), figured(12.345, 3), figured(1980.4, 3), figured(9.996, 3)
    ('0.046', '12.3', '1980', '10.0')
    """
    return fixed(number, places(number, figures))


def places(number: float, figures: int) -> int:
    """How many decimals show this many figures; none for what is nought in six of them.

    >>> places(0.04567, 2), places(1980.4, 3), places(9.996, 3), places(1e-9, 2)
    (3, 0, 1, 0)
    """
    if not round(number, MOST_DECIMALS):
        return 0
    wanted = _decimals(number, figures)
    return _decimals(round(number, wanted) or number, figures)  # 9.996 becomes 10.0 and needs one less


def _decimals(number: float, figures: int) -> int:
    return min(MOST_DECIMALS, max(0, figures - 1 - math.floor(math.log10(abs(number)))))
