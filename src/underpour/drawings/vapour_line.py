"""Vapour down through the layers in the month that decides: a stepped line, and the most that air there can hold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..checks.damp_seen import Passed, Through
from ..measure import say
from ..measure.table import System
from . import colours, hatch
from .damp_words import line_in_words, where_words
from .lettering import CAPITAL, HEADING, LETTER, cut_to, width, wrapped
from .paper import BOLD, FINE, HAIR, HEAVY, INK, Frame, letters, line, mm, path, picture, rectangle, stroke
from .water_lines import PITCH
from .when import MONTHS

BODY = 26.0  # mm, the layers
NAMES = 62.0  # mm, at the right
LEAST, MOST = 7.0, 17.0  # mm, how high a layer is drawn
PER_METRE = 90.0  # mm
AIR, GROUND = 7.0, 7.0  # mm of room above and ground below
LEAD = LETTER * 1.25  # mm
STEPS = 24  # levels between two interfaces at which the two lines are compared
WATER = 0.02  # kg/m²: less is drawn as none
MARKS = (1.0, 2.0, 5.0)


def vapour_line(of: Through, system: System, *, width: float) -> str:
    """The layers, the vapour in them, and what their air can hold, in the month in which most water lies there.

    Parameters
    ----------
    of : Through
        Vapour at one place of the floor.
    system : str
        "US" or "SI", in which values are written.
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone. The bold line is the vapour, the dashed one the most that the air can hold;
        where vapour would be more than that, water lines fill the space. Heights of layers are not to scale.
    """
    theme = colours.light()
    m = of.decides - 1
    levels = _levels(of.layers)
    held, here, free = of.saturated[m], of.pressure[m], of.unhindered[m]
    left, right = BODY + 6.0, width - NAMES
    largest = max([*held, *free])
    name = f"Vapour through the floor in {MONTHS[m]}"
    base = HEADING * CAPITAL + 1.0
    body = [letters(0.0, base, name, size=HEADING, weight=600)]
    body.append(letters(width, base, where_words(of), anchor="end", colour=theme["note"]))
    top = base + 3.0
    frame = Frame(0.0, top, (0.0, 1.0, 0.0, 1.0), 1.0)
    low = top + AIR + levels[-1] + GROUND

    def x(pressure: float) -> float:
        return left + pressure / (1.04 * largest) * (right - left)

    def y(level: float) -> float:
        return frame.top + AIR + level

    for mark, said in _marks(largest, system):
        body.append(line(x(mark), top, x(mark), low, HAIR, colour=theme["rule"]))
        body.append(letters(x(mark), low + LEAD, said, anchor="middle", colour=theme["note"]))
    drawn, defs = _layers(of.layers, levels, y, right, width)
    body += drawn
    body += _ends(top, low, y(levels[-1]), right)
    body.append(_condensing(levels, held, free, x, y))
    points = [(x(here[0]), top), *((x(p), y(level)) for p, level in zip(here, levels, strict=True)), (x(here[-1]), low)]
    limit = [(x(held[0]), top), *((x(p), y(level)) for p, level in zip(held, levels, strict=True)), (x(held[-1]), low)]
    body.append(stroke(path(limit, closed=False), FINE, extra=' stroke-dasharray="2.4 1.2"'))
    body.append(stroke(path(points, closed=False), HEAVY))
    for n, level in enumerate(levels):
        if of.water[m][n] > WATER:
            said = f"{say.value(of.water[m][n], 'mm', system)} of water"
            body += _wet(x(here[n]), y(level), said, right)
    words = _read_as(of)
    high = low + LEAD + 2.0
    for said in wrapped(words, width):
        high += LEAD
        body.append(letters(0.0, high, said))
    return picture(
        wide=width,
        high=high + 1.5,
        title=name,
        description=f"{line_in_words(of, system)} {words}",
        defs=defs,
        body=body,
    )


def _levels(layers: Sequence[Passed]) -> list[float]:
    """How far each interface lies below the top of the floor on the sheet. [mm]"""
    depths = [0.0]
    for layer in layers:
        depths.append(depths[-1] + min(max(layer.thickness * PER_METRE, LEAST), MOST))
    return depths


def _layers(
    layers: Sequence[Passed], levels: Sequence[float], y: object, right: float, wide: float
) -> tuple[list[str], list[str]]:
    """The layers with their hatches at the left, their lines across the chart, their names at the right."""
    assert callable(y)
    drawn, defs = [], []
    for n, layer in enumerate(layers):
        above, below = y(levels[n]), y(levels[n + 1])
        fill = (
            ""
            if layer.film
            else hatch.pattern(layer.hatch, f"damp-{n}", BODY / 2.0, (above + below) / 2, below - above)
        )
        if fill:
            defs.append(fill)
            drawn.append(rectangle(0.0, above, BODY, below - above, f"url(#damp-{n})"))
        if layer.film:
            middle = (above + below) / 2.0
            drawn.append(line(0.0, middle, BODY, middle, HEAVY, extra=' stroke-dasharray="5 1.2"'))
        drawn.append(line(0.0, above, right, above, HAIR if n else BOLD))
        said = wrapped(layer.words, wide - right - 3.0)[:2]
        base = (above + below) / 2.0 + LETTER * CAPITAL / 2.0 - (len(said) - 1) * 0.5 * 0.9 * LEAD
        high = below - above
        said = said if high > 1.8 * LEAD or len(said) == 1 else [cut_to(layer.words, wide - right - 3.0)]
        base = (above + below) / 2.0 + LETTER * CAPITAL / 2.0 - (len(said) - 1) * 0.45 * LEAD
        for k, words in enumerate(said):
            drawn.append(letters(right + 3.0, base + 0.9 * LEAD * k, words))
    last = y(levels[-1])
    drawn.append(line(0.0, last, right, last, BOLD))
    return drawn, defs


def _ends(top: float, low: float, ground: float, right: float) -> Iterator[str]:
    """Room and ground, named."""
    note = colours.light()["note"]
    yield letters(0.0, top + AIR - 2.2, "room", colour=note)
    yield letters(right + 3.0, ground + GROUND - 2.0, "ground, saturated", colour=note)
    for start in (1.0, 10.0, 19.0):
        yield stroke("".join(f"M{mm(start + 0.9 * k)} {mm(ground + 1.0)}l1.4 1.6" for k in range(3)), HAIR)


def _condensing(levels: Sequence[float], held: Sequence[float], free: Sequence[float], x: object, y: object) -> str:
    """Water lines between the most that the air can hold and the vapour that would be there."""
    assert callable(x) and callable(y)
    data, pitch = [], PITCH[4]
    level = levels[0] + pitch / 2.0
    while level < levels[-1]:
        most, vapour = _at(level, levels, held), _at(level, levels, free)
        if vapour > most * 1.0005:
            data.append(f"M{mm(x(most))} {mm(y(level))}H{mm(x(vapour))}")
        level += pitch
    return f'<path d="{"".join(data)}" fill="none" stroke="{INK}" stroke-width="{FINE:g}"/>' if data else ""


def _at(level: float, levels: Sequence[float], values: Sequence[float]) -> float:
    """Between two interfaces on a straight line."""
    n = next(k for k in range(1, len(levels)) if level <= levels[k])
    share = (level - levels[n - 1]) / (levels[n] - levels[n - 1])
    return values[n - 1] + share * (values[n] - values[n - 1])


def _wet(x: float, y: float, said: str, right: float) -> Iterator[str]:
    """Water that lies at an interface: three shortening level lines below a small open triangle, and how much."""
    strokes = "".join(f"M{mm(x - half)} {mm(y + 0.7 * k)}H{mm(x + half)}" for k, half in enumerate((2.4, 1.6, 0.8)))
    leaf = colours.light()["leaf"]
    triangle = f"M{mm(x - 1.2)} {mm(y - 2.4)}h2.4l-1.2 2z"
    mark = f'<path d="{triangle}" fill="{leaf}" stroke="{INK}" stroke-width="{FINE:g}"/>'
    room = width(said, weight=600)
    start = x - 4.0 - room if x + 4.0 + room > right else x + 4.0
    yield stroke(strokes, FINE) + mark
    yield rectangle(start - 0.6, y - LETTER * CAPITAL / 2 - 0.5, room + 1.2, LETTER * CAPITAL + 1.0, leaf)
    yield letters(start, y + LETTER * CAPITAL / 2, said, weight=600)


def _marks(largest: float, system: System) -> Iterator[tuple[float, str]]:
    """Pressures to be marked with their words, four to six of them, in round steps of the system's unit. [Pa]"""
    one = say.number(1.0, "Pa", system)
    whole = largest * one
    power = 10.0 ** (len(f"{int(whole)}") - 1 if whole >= 1.0 else 0) / 10.0
    step = next(f * p for p in (power, 10.0 * power) for f in MARKS if whole / (f * p) <= 6.0)
    for n in range(int(whole / step) + 1):
        number = f"{n * step:.4g}"
        yield n * step / one, f"{number} {say.name('Pa', system)}" if n == int(whole / step) else number


def _read_as(of: Through) -> str:
    """What is drawn, and what it says."""
    wet = max(of.water[of.decides - 1])
    reach = "" if of.told else " The humidity outdoors is not told: taken is one end of what it may be."
    if wet > WATER:
        found = "Where they meet water gathers; the month with most of it is drawn."
    elif any(max(month) > 0.0 for month in of.water):
        found = "Where they meet, less water gathers than counts; the month with most of it is drawn."
    else:
        found = "They meet nowhere in the floor in any month; the month in which they come nearest is drawn."
    return (
        f"Bold: pressure of the vapour. Dashed: saturation, the most that the air there can hold. {found} "
        f"Heights of layers are not to scale.{reach}"
    )
