"""How soil gas is drawn off in every alternative: the pipe's way, and fan and floor or the twelve months beside it."""

from __future__ import annotations

from collections.abc import Mapping

from ..checks.soil_gas.drawn_off import DrawnOff
from ..measure.table import System
from . import colours
from .draught_strip import draught_rows, months_in_words
from .fan_curves import fan_in_words, fan_rows
from .lettering import LETTER
from .paper import HAIR, letters, line, mm, picture
from .pipe_route import route_in_words, route_rows

TITLE = "How soil gas is drawn off"
GAP = 5.0  # mm, between two drawings
NONE = "no pipe is laid"


def gas_pipes(alternatives: Mapping[str, DrawnOff | None], system: System, *, width: float) -> str:
    """The pipe of each alternative, one below the other.

    Parameters
    ----------
    alternatives : mapping of str to DrawnOff or None
        By its name; None where no pipe is laid.
    system : str
        "US" or "SI", in which values are written.
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone.
    """
    body, high = gas_rows(alternatives, system, width=width)
    said = " ".join(f"{name}: {gas_in_words(of, system)}." for name, of in alternatives.items())
    return picture(wide=width, high=high, title=TITLE, description=said, defs=(), body=[body])


def gas_in_words(of: DrawnOff | None, system: System) -> str:
    """What is drawn of one alternative, in words."""
    if of is None:
        return NONE
    words = [route_in_words(of.way, system)]
    words += [fan_in_words(of.fan_and_floor, system).removesuffix(".")] if of.fan_and_floor is not None else []
    words += [months_in_words(of.by_itself, system).removesuffix(".")] if of.by_itself is not None else []
    return ". ".join(words)


def gas_rows(alternatives: Mapping[str, DrawnOff | None], system: System, *, width: float) -> tuple[str, float]:
    """What is drawn in the picture, and how high it is, for a page that has its own sheet. [mm]"""
    rule = colours.light()["rule"]
    body, top = [], 0.0
    for name, of in alternatives.items():
        if len(alternatives) > 1:
            body.append(line(0.0, top + 0.4, width, top + 0.4, HAIR, colour=rule))
            said = f"{name[0].upper()}{name[1:]}" + (f": {NONE}" if of is None else "")
            body.append(letters(0.0, top + 1.3 * LETTER, said, weight=600))
            top += 2.0 * LETTER
        if of is None:
            continue
        drawn = [route_rows(of.way, system, width=width)]
        drawn += [fan_rows(of.fan_and_floor, system, width=width)] if of.fan_and_floor is not None else []
        drawn += [draught_rows(of.by_itself, system, width=width)] if of.by_itself is not None else []
        for rows, high in drawn:
            body.append(f'<g transform="translate(0 {mm(top)})">{rows}</g>')
            top += high + GAP
    return "".join(body), top
