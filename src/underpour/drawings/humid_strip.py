"""Humidity month by month: a row of twelve cells for each place, filled with level water lines."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from ..findings import Finding
from ..measure import say
from ..measure.table import System
from . import colours
from .damp_words import humid_places, humidity_in_words, place_words
from .lettering import CAPITAL, HEADING, LETTER, cut_to, width, wrapped
from .paper import BOLD, FINE, HAIR, INK, letters, line, mm, picture
from .water_lines import FROM, density, filled, lines
from .when import MONTHS

NAME = 52.0  # mm, names of the places
LIMIT = 18.0  # mm, what each is held to
CELL = 7.6  # mm high: the number, and the water below it
WATER = 3.6  # mm, of that the water
ROW = 9.2  # mm, from row to row
LEAD = LETTER * 1.25  # mm
TITLE = "How humid it is, month by month"


def humid_strip(alternatives: Mapping[str, Sequence[Finding]], system: System, *, width: float) -> str:
    """The humidity at every place that is told, in every month, with the limit that it is held to.

    Parameters
    ----------
    alternatives : mapping of str to sequence of Finding
        The findings of each version by its name; those of humidity with twelve months are drawn.
    system : str
        "US" or "SI", in which places are written.
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone. The closer the lines the more humid; a month above its limit has a bold
        frame and its number in the colour of what falls short. A place that cannot be told has dotted cells.
    """
    body, high = humid_rows(alternatives, system, width=width)
    told = {name: humid_places(found) for name, found in alternatives.items()}
    said = " ".join(
        (f"{name[0].upper()}{name[1:]}: " if len(told) > 1 else "") + humidity_in_words(found, system)
        for name, found in told.items()
    )
    return picture(wide=width, high=high, title=TITLE, description=said, defs=(), body=[body])


def humid_rows(alternatives: Mapping[str, Sequence[Finding]], system: System, *, width: float) -> tuple[str, float]:
    """What is drawn in the picture, and how high it is, for a page that has its own sheet. [mm]"""
    told = {name: humid_places(found) for name, found in alternatives.items()}
    theme = colours.light()
    each = (width - NAME - LIMIT) / 12.0
    top = HEADING * CAPITAL + 1.0
    body = [letters(0.0, top, TITLE, size=HEADING, weight=600)]
    top += 3.0
    for name, found in told.items():
        if len(told) > 1:
            top += LEAD
            body.append(line(0.0, top - LEAD + 0.4, width, top - LEAD + 0.4, HAIR, colour=theme["rule"]))
            body.append(letters(0.0, top, f"{name[0].upper()}{name[1:]}", weight=600))
        top += LEAD
        for n, month in enumerate(MONTHS):
            body.append(letters(NAME + (n + 0.5) * each, top, month[0], anchor="middle", weight=600))
        body.append(letters(width, top, "at most", anchor="end", colour=theme["note"]))
        top += 1.4
        for finding in found:
            body += _row(finding, top, each, width, system)
            top += ROW
        if not found:
            body.append(letters(NAME, top + LETTER, "nothing is told of its air", colour=theme["note"]))
            top += ROW
        top += 1.0
    foot, top = _key(top + 0.6)
    return "\n".join([*body, *foot]), top + 1.0


def _row(finding: Finding, top: float, each: float, wide: float, system: System) -> Iterator[str]:
    """One place: its name, twelve cells, its limit."""
    theme = colours.light()
    said = wrapped(place_words(finding, system), NAME - 2.0)
    said = [*said[:1], cut_to(" ".join(said[1:]), NAME - 2.0)] if len(said) > 1 else said
    base = top + CELL / 2.0 + LETTER * CAPITAL / 2.0 - (len(said) - 1) * LEAD * 0.46
    for n, words in enumerate(said):
        yield letters(0.0, base + n * LEAD * 0.92, words)
    data, numbers, frames = [], [], []
    for n in range(12):
        left = NAME + n * each
        box = (left + 0.25, top, left + each - 0.25, top + CELL)
        if finding.months is None:
            frames.append(_frame(box, FINE, theme["tell"], ' stroke-dasharray="0.4 1.1" stroke-linecap="round"'))
            continue
        humidity = finding.months[n]
        over = finding.limit is not None and humidity > finding.limit
        data.append(filled((box[0] + 0.5, box[3] - WATER, box[2] - 0.5, box[3] - 0.4), density(humidity)))
        frames.append(_frame(box, BOLD if over else HAIR, INK if over else theme["frame"], ""))
        colour, weight = (theme["short"], 600) if over else (INK, 400)
        at = top + 0.7 + LETTER * CAPITAL
        numbers.append(letters(left + each / 2.0, at, f"{humidity:.0f}", anchor="middle", weight=weight, colour=colour))
    yield lines(data)
    yield from frames
    yield from numbers
    held = "cannot tell" if finding.months is None else ""
    if finding.limit is not None:
        held = say.value(finding.limit, "%", system)
    colour = theme["tell"] if finding.months is None else theme["ink"]
    yield letters(wide, top + CELL / 2.0 + LETTER * CAPITAL / 2.0, held, anchor="end", colour=colour)


def _frame(box: tuple[float, float, float, float], pen: float, colour: str, extra: str) -> str:
    left, top, right, bottom = box
    return (
        f'<rect x="{mm(left)}" y="{mm(top)}" width="{mm(right - left)}" height="{mm(bottom - top)}" fill="none" '
        f'stroke="{colour}" stroke-width="{pen:g}"{extra}/>'
    )


def _key(top: float) -> tuple[list[str], float]:
    """The five densities with what each stands for, and where the key ends. [mm]"""
    theme = colours.light()
    ends = [*(f"{each:.0f}" for each in FROM[1:]), ""]
    drawn, x = [], 0.3
    for n, until in enumerate(ends):
        box = (x, top, x + 8.0, top + WATER + 0.8)
        drawn += [
            lines([filled((x + 0.5, top + 0.8, x + 7.5, top + WATER + 0.4), n)]),
            _frame(box, HAIR, theme["frame"], ""),
        ]
        words = f"below {until} %" if n == 0 else f"from {FROM[n]:.0f} %"
        base = top + WATER / 2.0 + 0.4 + LETTER * CAPITAL / 2.0
        drawn.append(letters(x + 9.0, base, words, colour=theme["note"]))
        x += 9.0 + width(words) + 3.0
    drawn += [_frame((x, top, x + 8.0, top + WATER + 0.8), BOLD, INK, "")]
    drawn.append(
        letters(x + 9.0, top + WATER / 2.0 + 0.4 + LETTER * CAPITAL / 2.0, "above its limit", colour=theme["note"])
    )
    return drawn, top + WATER + 0.8
