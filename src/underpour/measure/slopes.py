"""Slopes: the angle of a sloped face from the level."""

from __future__ import annotations

from ..mistakes import Mistake
from .measured import Measure
from .read import read

LEAST = 15.0  # degrees; a flatter face is no slope that anyone forms


def slope(typed: str) -> Measure:
    """The angle of a sloped face from the level, 15 to 90 degrees. [deg]

    A ratio is sent back: some write the height first, others the length.

    >>> slope("45 deg").si, slope("60°").si
    (45.0, 60.0)
    """
    said = typed.strip()
    if ":" in said:
        wrong = f"{said} is a ratio; some write the height first and others the length."
        raise Mistake("", f'"{said}"', wrong, 'Write the angle from the level: slope = "45 deg" for one to one.')
    angle = read(typed, "angle")
    if angle.si < LEAST:
        wrong = f"{said} from the level is too flat for the side of a thickening."
        raise Mistake("", f'"{said}"', wrong, f"Write {LEAST:.0f} deg to 90 deg; 45 deg is usual.")
    return angle
