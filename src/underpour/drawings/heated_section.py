"""The floor cut across its tubes on the coldest day: temperatures to scale, its surface above them as a line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..checks.warm.seen import Heated
from ..measure import say
from ..measure.table import System
from . import colours, hatch
from .airs import bar_breadth, scale_bar
from .chains import Stretch, level, level_high
from .contours import bands, drawn_lines, lines_at
from .heated_words import section_in_words
from .legend import LEGEND_HIGH, legend
from .lettering import CAPITAL, HEADING, LETTER, cut_to
from .lettering import width as breadth
from .one_section import identity, paragraph
from .paper import BOLD, FINE, HAIR, HEAVY, INK, LINE, Box, Frame, letters, line, mm, path, picture, rectangle, stroke
from .ruled import CAP, ROW, Ruled, beside, decade, marks_up
from .scale import Scale, celsius, scale_of_range
from .sheet_field import SheetField, carried
from .values import best_place, set_value, with_gap

NAMES = 58.0  # mm at the right, for the layers' names and the limits
HIGHEST = 78.0  # mm, the floor
SURFACE = 26.0  # mm, the line of the surface
AIR = 7.0  # mm of room drawn above the floor
GROUND = 4.0  # mm of ground drawn below it
BELOW_FOAM = 0.06  # m: of what lies further below the lowest foam nothing is drawn
SAME = 1e-6  # m
TUBES = 2, 5  # drawn, at least and at most
LARGEST = 1e3 / 1.5  # mm for each metre: thin floors are drawn no larger
MARKS = 13.0  # mm right of the surface's line, for its marks


@dataclass(frozen=True, slots=True)
class Laid:
    """Where the floor lies on the sheet."""

    frame: Frame
    tubes: int

    def middle(self, n: int, of: Heated) -> float:
        """Across, of a tube. [mm]"""
        return float(self.frame.x((n + 0.5) * of.spacing))


def shared_scale(versions: tuple[Heated, ...], system: System) -> Scale:
    """One temperature scale for several floors."""
    ends = [
        (float(np.nanmin(each.around.degrees)), max(float(np.nanmax(each.around.degrees)), each.water))
        for each in versions
    ]
    return scale_of_range(min(low for low, _ in ends), max(high for _, high in ends), system)


def heated_section(of: Heated, system: System, *, width: float, scale: Scale | None = None, name: str = "") -> str:
    """The floor between its tubes with its temperatures, on the coldest day.

    Parameters
    ----------
    of : Heated
        A heated floor that has been worked out.
    system : str
        "US" or "SI", in which values are written.
    width : float
        Breadth of the picture. [mm]
    scale : Scale, optional
        The temperature scale of everything that is shown beside it; its own unless given.
    name : str
        Of the version, where several are shown.

    Returns
    -------
    str
        An SVG document that stands alone. Floor and tubes are to one scale both ways; above them is the surface's
        temperature on the same horizontal scale, with what it is held to as a dashed line.
    """
    drawn = section_drawn(of, system, width=width, scale=scale, name=name)
    return picture(
        wide=width,
        high=drawn.high,
        title=_title(of, name),
        description=section_in_words(of, system),
        defs=drawn.defs,
        body=[drawn.around, drawn.field],
    )


@dataclass(frozen=True, slots=True)
class Drawn:
    """The parts of the picture, for a page that has its own sheet."""

    field: str  # what lies in the floor: it keeps its ink in every theme
    around: str  # all that stands around it
    defs: tuple[str, ...]
    high: float  # mm


def section_drawn(
    of: Heated, system: System, *, width: float, scale: Scale | None, name: str, told: bool = True
) -> Drawn:
    """The same in its parts [mm], with what it shows ``told`` in words below it or not."""
    scale = scale or shared_scale((of,), system)
    base = HEADING * CAPITAL + 1.0
    top = base + 5.0
    laid = _laid(of, width, top + SURFACE + 3.0)
    frame = laid.frame
    prefix = identity(f"heated {name}", "")
    title = cut_to(_title(of, name), width - bar_breadth(frame.scale, system) - 4.0, HEADING, 600)
    floor, defs = _floor(of, laid, scale, prefix)
    chain = _spacing(of, laid, system)
    under = frame.bottom + GROUND + 2.0
    row = under + level_high(chain) + 2.0
    below = row + LEGEND_HIGH
    said, high = paragraph(section_in_words(of, system), 0.0, below + LETTER + 0.5, width) if told else ("", below)
    middles = [laid.middle(n, of) for n in (0, 1)]
    around = [
        letters(0.0, base, title, size=HEADING, weight=600),
        scale_bar(width - 0.4, base, frame.scale, system),
        *_surface(of, laid, top, system, width),
        rectangle(frame.left, frame.top, frame.width, frame.y(0.0) - frame.top, colours.light()["shade"]),
        *_named(of, laid, width, system),
        *(_ground(frame) if _whole(of) else ()),
        *(line(x, frame.bottom, x, under, HAIR) for x in middles),
        level(chain, under, (frame.left, frame.right)),
        legend(scale, 0.4, row, width - 20.0),
        said,
    ]
    down = [line(x, frame.y(-of.axis), x, frame.bottom, HAIR) for x in middles]
    reach = laid.middle(laid.tubes - 1, of)
    beside_it = line(reach, frame.y(-of.axis), frame.right, frame.y(-of.axis), HAIR)
    return Drawn("".join([floor[0], *down, beside_it, *floor[1:]]), "".join(around), tuple(defs), high + 1.0)


def _title(of: Heated, name: str) -> str:
    between = "Between two cables" if of.electric else "Between two tubes"
    return f"{name[0].upper()}{name[1:]}, {between.lower()}" if name else f"{between}, on the coldest day"


def _laid(of: Heated, width: float, top: float) -> Laid:
    """The largest scale at which two tubes and the floor as deep as it is shown fit."""
    room = width - NAMES - 0.4
    scale = min(HIGHEST / _shown(of), room / (TUBES[0] * of.spacing), LARGEST)
    tubes = min(max(int(room / (of.spacing * scale) + 1e-9), TUBES[0]), TUBES[1])
    window = (0.0, tubes * of.spacing, -_shown(of), AIR / scale)
    return Laid(Frame(0.4, top, window, scale), tubes)


def _shown(of: Heated) -> float:
    """How deep the drawing goes: a little below the lowest foam, or as deep as the floor. [m]"""
    bottoms = np.cumsum([layer.thickness for layer in of.layers])
    foam = [bottom for layer, bottom in zip(of.layers, bottoms, strict=True) if hatch.is_foam(layer.hatch)]
    return float(min(bottoms[-1], max(foam) + BELOW_FOAM if foam else bottoms[-1]))


def _whole(of: Heated) -> bool:
    return _shown(of) > sum(layer.thickness for layer in of.layers) - 1e-9


def _sheet(of: Heated, laid: Laid) -> SheetField:
    """The half that was worked out, turned over and over until it fills the frame."""
    around = of.around
    x, degrees = around.x.astype(float), carried(around.degrees.astype(float), 40)
    over, back = np.r_[x, of.spacing - x[-2::-1]][:-1], np.c_[degrees, degrees[:, -2::-1]][:, :-1]
    whole_x = np.concatenate([over + (n - 0.5) * of.spacing for n in range(laid.tubes + 1)])
    whole = np.concatenate([back] * (laid.tubes + 1), axis=1)
    keep = (whole_x >= -SAME) & (whole_x <= laid.tubes * of.spacing + SAME)
    y = laid.frame.y(around.y.astype(float))[::-1]
    return SheetField(laid.frame.x(whole_x[keep]), y, whole[::-1][:, keep])


def _floor(of: Heated, laid: Laid, scale: Scale, prefix: str) -> tuple[list[str], list[str]]:
    """Tints, patterns and lines; values, outlines and tubes; and the patterns for the defs."""
    frame, field = laid.frame, _sheet(of, laid)
    theme = colours.light()
    defs, y, hatches = [_clip(frame, prefix)], 0.0, []
    for n, layer in enumerate(of.layers):
        top, high = float(frame.y(y)), layer.thickness * frame.scale
        y -= layer.thickness
        if not high or top >= frame.bottom:
            continue
        fill = hatch.pattern(layer.hatch, f"{prefix}-{n}", (frame.left + frame.right) / 2, top + high / 2, high)
        if fill:
            defs.append(fill)
            hatches.append(rectangle(frame.left, top, frame.width, high, f"url(#{prefix}-{n})"))
    lines, values = _lines(of, laid, field, scale)
    radius = max(of.outside / 2.0 * frame.scale, 0.7)
    tubes = [
        f'<circle cx="{mm(laid.middle(n, of))}" cy="{mm(frame.y(-of.axis))}" r="{mm(radius)}" fill="{theme["leaf"]}" '
        f'stroke="{INK}" stroke-width="{BOLD:g}"/>'
        for n in range(laid.tubes)
    ]
    inside = "".join([bands(field, scale), *hatches, lines, *_outlines(of, frame)])
    return [f'<g clip-path="url(#{prefix}-floor)">{inside}</g>', *values, *_ends_of(of, frame), *tubes], defs


def _clip(frame: Frame, prefix: str) -> str:
    top = frame.y(0.0)
    box = f'x="{mm(frame.left)}" y="{mm(top - 0.5)}" width="{mm(frame.width)}" height="{mm(frame.bottom - top + 0.6)}"'
    return f'<clipPath id="{prefix}-floor"><rect {box}/></clipPath>'


def _lines(of: Heated, laid: Laid, field: SheetField, scale: Scale) -> tuple[str, list[str]]:
    """The lines of equal temperature, and the values that are set into those that have room."""
    frame = laid.frame
    step = scale.levels[1] - scale.levels[0]
    bottoms = -np.cumsum([layer.thickness for layer in of.layers])
    clear = of.outside / 2.0 + 1.5 / frame.scale

    def body_at(x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.intp]:
        across, up = frame.metres(x, y)
        away = np.hypot(across % of.spacing - of.spacing / 2.0, up + of.axis)
        inside = (up < 0.0) & (up > frame.window[2]) & (x > frame.left + 1.0) & (x < frame.right - 1.0) & (away > clear)
        return np.where(inside, np.searchsorted(-bottoms, -up), -1)

    def spacing_at(x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
        return step / np.maximum(field.steepness(x, y), 1e-9)

    taken: list[Box] = []
    drawn, values = "", []
    for mark in scale.marks[1:-1]:
        lines = lines_at(field, celsius(mark, scale.system))
        if not lines:
            continue
        heavy, words = scale.is_heavy(mark), str(mark).replace("-", "\u2212")
        weight = 600 if heavy else 400
        place = None
        if scale.bears_its_value(mark):
            place = best_place(lines, words, spacing_at=spacing_at, body_at=body_at, taken=taken, weight=weight)
        if place is None:
            drawn += drawn_lines(lines, LINE if heavy else HAIR)
            continue
        taken.append(place.box)
        lines = [part for each in lines for part in with_gap(each, place.box)]
        drawn += drawn_lines(lines, LINE if heavy else HAIR)
        values.append(set_value(place, words, weight))
    return drawn, values


def _outlines(of: Heated, frame: Frame) -> Iterator[str]:
    y, above = 0.0, ""
    for layer in of.layers:
        at = frame.y(y)
        if not layer.thickness:
            yield line(frame.left, at, frame.right, at, HEAVY, extra=' stroke-dasharray="5 1.2"')
            continue
        solid = "concrete" in (layer.hatch, above) or "screed" in (layer.hatch, above)
        yield line(frame.left, at, frame.right, at, BOLD if solid or y == 0.0 else FINE)
        y, above = y - layer.thickness, layer.hatch


def _ends_of(of: Heated, frame: Frame) -> Iterator[str]:
    """Where the drawing ends and the floor goes on, hairlines; below the whole floor its underside."""
    for x in (frame.left, frame.right):
        yield line(x, frame.y(0.0), x, frame.bottom, HAIR)
    extra = "" if _whole(of) else ' stroke-dasharray="2.4 1.2"'
    yield line(frame.left, frame.bottom, frame.right, frame.bottom, FINE if _whole(of) else HAIR, extra=extra)


def _ground(frame: Frame) -> Iterator[str]:
    strokes = [
        f"M{mm(start + 0.75 * k)} {mm(frame.bottom + 0.5)}l1.2 1.3"
        for start in np.arange(frame.left + 0.8, frame.right - 3.4, 4.6)
        for k in range(3)
    ]
    yield stroke("".join(strokes), HAIR)


def _named(of: Heated, laid: Laid, width: float, system: System) -> Iterator[str]:
    """Layers, tube and room at the right."""
    frame, y, rows = laid.frame, 0.0, []
    for layer in of.layers:
        top, bottom = float(frame.y(y)), min(float(frame.y(y - layer.thickness)), frame.bottom)
        if top < frame.bottom - 0.1 or (layer.thickness == 0.0 and top <= frame.bottom):
            rows.append(((top + bottom) / 2.0, layer.words, 400))
        y -= layer.thickness
    warm = say.value(of.water, "degC", system)
    rows.append((float(frame.y(-of.axis)) - 0.01, f"{'cable' if of.electric else 'water'} {warm}", 600))
    rows.append(((frame.top + float(frame.y(0.0))) / 2.0, f"room {say.value(of.room, 'degC', system)}", 400))
    left = frame.right + 4.0
    yield from beside(rows, left, width - left, (frame.top, frame.bottom + 2.0 * ROW), frame.right)


def _surface(of: Heated, laid: Laid, top: float, system: System, width: float) -> Iterator[str]:
    """The surface's temperature along the floor, its warmest and coolest place, what it is held to."""
    frame, unit = laid.frame, say.name("degC", system)
    shown = [of.room, of.coolest, of.warmest, *(each for each in (of.limit, of.at_edge) if each is not None)]
    low, high = (say.number(each, "degC", system) for each in (min(shown), max(shown)))
    values = decade(low, high, 4)
    field = Ruled(frame.left, top, frame.width, SURFACE, (0.0, laid.tubes * of.spacing), (values[0], values[-1]))

    def level_of(temperature: float) -> float:
        return field.y(say.number(temperature, "degC", system))

    yield from marks_up(field, values, unit)
    limits = []
    if of.limit is not None:
        limits.append((level_of(of.limit), f"{say.value(of.limit, 'degC', system)}, held to", 600))
        yield line(field.left, limits[0][0], field.right, limits[0][0], FINE, extra=' stroke-dasharray="2.4 1.2"')
    if of.at_edge is not None and of.at_edge > (of.limit or 0.0):
        at = level_of(of.at_edge)
        limits.append((at, f"{say.value(of.at_edge, 'degC', system)}, strip along walls", 400))
        yield line(field.left, at, field.right, at, HAIR, extra=' stroke-dasharray="0.6 1.2"')
    left = field.right + MARKS
    rows = [*limits, (level_of(of.mean), f"{say.value(of.mean, 'degC', system)} on the mean", 400)]
    yield from beside(rows, left, width - left, (top - 2.0, top + SURFACE + 2.0), field.right + MARKS - 2.0)
    yield stroke(path(_along(of, laid, level_of), closed=False), BOLD)
    yield from _ends(of, laid, level_of, system)


def _along(of: Heated, laid: Laid, level_of: object) -> list[tuple[float, float]]:
    assert callable(level_of)
    x, told = of.around.along.astype(float), of.around.surface.astype(float)
    points = []
    for n in range(laid.tubes):
        middle = (n + 0.5) * of.spacing
        points += [(float(laid.frame.x(middle - a)), level_of(b)) for a, b in zip(x[::-1], told[::-1], strict=True)]
        points += [(float(laid.frame.x(middle + a)), level_of(b)) for a, b in zip(x[1:], told[1:], strict=True)]
    return points


def _ends(of: Heated, laid: Laid, level_of: object, system: System) -> Iterator[str]:
    """The warmest place above the first tube and the coolest before the last, each with its temperature."""
    assert callable(level_of)
    frame = laid.frame
    above = "above a cable" if of.electric else "above a tube"
    places = (
        (laid.middle(0, of), of.warmest, above, -2.0),
        (float(frame.x((laid.tubes - 1) * of.spacing)), of.coolest, "between", CAP + 2.0),
    )
    leaf = colours.light()["leaf"]
    for x, temperature, where, off in places:
        y = level_of(temperature)
        said = f"{say.value(temperature, 'degC', system)} {where}"
        half = breadth(said, LETTER, 600) / 2.0
        at = min(max(x, frame.left + half + 0.5), frame.right - half - 0.5)
        base = y + off
        yield rectangle(at - half - 0.4, base - CAP - 0.3, 2.0 * half + 0.8, CAP + 0.8, leaf)
        yield letters(at, base, said, anchor="middle", weight=600)
        yield f'<circle cx="{mm(x)}" cy="{mm(y)}" r="0.8" fill="{INK}"/>'


def _spacing(of: Heated, laid: Laid, system: System) -> list[Stretch]:
    """The dimension from the first tube to the second."""
    own, _, other = say.both(of.spacing, "m", system).partition(" (")
    return [Stretch(laid.middle(0, of), laid.middle(1, of), (f"{own} ({other}" if other else own,))]
