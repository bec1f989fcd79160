"""One section on the sheet: tints, hatches, outlines, lines with their values, names, dimensions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from ..measure import say
from ..physics.conduction.field import Field
from ..sections.parts import Section
from . import bodies, colours, hatch
from .contours import Line, bands, drawn_lines, lines_at, where_each
from .dimensions import angle_arcs, dimension_lines
from .frost import FREEZING, frost_line
from .lanes import dotted
from .lettering import width
from .names import edge_names, floor_names
from .paper import HAIR, LINE, Box, Frame, Named
from .scale import Scale
from .sheet_field import SheetField, on_sheet
from .values import best_place, set_value, with_gap
from .visible import NOTHING, cut_outs, showing

OFF_BORDER = 3.5  # mm from the border of the drawing to a value
CROWDED = 0.6  # mm between lines below which only the heavy ones are drawn
NOTES_FROM_CORNER = 40.0  # mm into the room, where the line through the floor's layers stands
NOTES_AT_LEAST = 32.0  # mm into the room, clear of the corner's temperature


@dataclass(frozen=True, slots=True)
class Drawn:
    """A piece of a picture: what goes into the defs, and what is drawn."""

    defs: tuple[str, ...]
    body: str


@dataclass(frozen=True, slots=True)
class Lasting:
    """What of a section is the same all year, in the order in which it lies on the sheet."""

    clips: tuple[str, ...]  # for the defs, as the patterns
    patterns: tuple[str, ...]  # "" where a body bears none
    room: str  # the room's shade, below the tints
    hatches: str  # over the tints, below the lines
    outlines: str  # outlines, films and the ground, over the lines

    @property
    def defs(self) -> tuple[str, ...]:
        return (*self.clips, *self.patterns)


@dataclass(frozen=True, slots=True)
class Temperatures:
    """What of a section is one moment's."""

    tints: str  # to be clipped to the bodies
    lines: str  # to be clipped to the bodies
    values: str
    words: tuple[Box, ...]  # where they stand


def bodies_alone(
    section: Section,
    frame: Frame,
    prefix: str,
    *,
    taken: tuple[Box, ...] = (),
    column: float | None = None,
    layers: bool = True,
) -> Drawn:
    """The section without temperatures: hatches on paper white, names and dimensions.

    ``column`` is where on the sheet the line through the floor's layers stands, unless that is left to us. [mm]
    ``layers`` says whether the floor's layers are named.
    """
    leaf = colours.light()["leaf"]
    white = "".join(f'<path d="{frame.path(part.outline, closed=True)}" fill="{leaf}"/>' for part in section.parts)
    return _put_together(
        section, frame, prefix, under=white, over="", beside=_named(section, frame, taken, column, layers).drawn
    )


def with_field(
    section: Section,
    field: Field,
    year_fraction: float,
    scale: Scale,
    frame: Frame,
    prefix: str,
    taken: tuple[Box, ...],
    words: tuple[Box, ...] = (),
    lanes: Sequence[Line] = (),
) -> Drawn:
    """The section with its temperatures at one moment, without names.

    No value stands in ``taken``; lines leave a gap at ``words``. ``lanes`` are drawn over the lines.
    """
    drawn = temperatures(section, field, year_fraction, scale, frame, taken, words)
    return _put_together(
        section,
        frame,
        prefix,
        under=clipped(drawn.tints, prefix),
        over=clipped(drawn.lines + dotted(lanes, drawn.words), prefix),
        beside=drawn.values,
    )


def temperatures(
    section: Section,
    field: Field,
    year_fraction: float,
    scale: Scale,
    frame: Frame,
    taken: tuple[Box, ...],
    words: tuple[Box, ...] = (),
) -> Temperatures:
    """Tints, lines and values at one moment; no value stands in ``taken``, lines leave a gap at ``words``."""
    sheet = on_sheet(field, year_fraction, frame)
    return replace(_lined(section, sheet, scale, frame, taken, words), tints=bands(sheet, scale))


def with_sheet_field(
    section: Section, sheet: SheetField, scale: Scale, frame: Frame, prefix: str, taken: tuple[Box, ...] = ()
) -> Drawn:
    """The section with temperatures that are laid on the sheet already, without names."""
    drawn = _lined(section, sheet, scale, frame, taken, ())
    return _put_together(
        section,
        frame,
        prefix,
        under=clipped(bands(sheet, scale), prefix),
        over=clipped(drawn.lines, prefix),
        beside=drawn.values,
    )


def lines_alone(
    section: Section,
    field: Field,
    year_fraction: float,
    scale: Scale,
    frame: Frame,
    taken: tuple[Box, ...],
    words: tuple[Box, ...] = (),
) -> Temperatures:
    """The same without the tints, for one that paints them itself."""
    return _lined(section, on_sheet(field, year_fraction, frame), scale, frame, taken, words)


def clipped(drawn: str, prefix: str) -> str:
    """What is drawn, where there are bodies."""
    return f'<g clip-path="url(#{prefix}-solid)">{drawn}</g>'


def with_field_and_names(
    section: Section,
    field: Field,
    year_fraction: float,
    scale: Scale,
    frame: Frame,
    prefix: str,
    taken: tuple[Box, ...],
) -> Drawn:
    """The section with its temperatures, the names of its materials and its dimensions."""
    names = _named(section, frame, taken)
    drawn = with_field(section, field, year_fraction, scale, frame, prefix, (*taken, *names.taken), names.words)
    return Drawn(drawn.defs, drawn.body + names.drawn)


def _put_together(section: Section, frame: Frame, prefix: str, *, under: str, over: str, beside: str) -> Drawn:
    same = lasting(section, frame, prefix)
    drawn = f'<g clip-path="url(#{prefix}-window)">{same.room}{under}{same.hatches}{over}{same.outlines}</g>'
    return Drawn(same.defs, drawn + beside)


def lasting(section: Section, frame: Frame, prefix: str) -> Lasting:
    """Clips and patterns, the room, hatches, outlines, films and the ground of a section."""
    patterns = bodies.patterns(section, frame, prefix)
    shade = colours.light()["shade"]
    room = "".join(
        f'<path d="{frame.path(air.outline, closed=True)}" fill="{shade}"/>'
        for air in section.airs
        if air.where == "room"
    )
    return Lasting(
        clips=tuple(cut_outs(section, frame, prefix)),
        patterns=tuple(patterns),
        room=room,
        hatches=bodies.hatches(section, frame, prefix, patterns),
        outlines=(
            f"{bodies.outlines(section, frame, prefix)}{bodies.films(section, frame)}"
            f"{bodies.ground_line(section, frame)}{bodies.water_line(section, frame)}"
        ),
    )


def _named(
    section: Section, frame: Frame, taken: tuple[Box, ...], column: float | None = None, layers: bool = True
) -> Named:
    """Names and dimensions, each set where the earlier ones leave room."""
    corner = frame.x(section.corner[0])
    widest = max(width(part.label) for part in section.parts)
    along = max(min(corner + NOTES_FROM_CORNER, frame.right - widest - 4.0), corner + NOTES_AT_LEAST)
    along = along if column is None else column
    floor, done = Named("", (), ()), [n for n, part in enumerate(section.parts) if part.path.startswith("floor.")]
    if layers:
        floor, done = floor_names(section, frame, along)
    sizes = dimension_lines(section, frame, (*taken, *floor.taken))
    turns = angle_arcs(section, frame, (*taken, *floor.taken, *sizes.taken))
    edge = edge_names(section, frame, done, (*taken, *floor.taken, *sizes.taken, *turns.taken), again=not layers)
    return Named(
        floor.drawn + sizes.drawn + turns.drawn + edge.drawn,
        (*floor.words, *sizes.words, *turns.words, *edge.words),
        (*floor.taken, *sizes.taken, *turns.taken, *edge.taken),
    )


def _lined(
    section: Section, sheet: SheetField, scale: Scale, frame: Frame, taken: tuple[Box, ...], words: tuple[Box, ...]
) -> Temperatures:
    """The lines of equal temperature, their values and where these stand."""
    step = scale.levels[1] - scale.levels[0]
    ground = np.array([bodies.is_ground(part) for part in section.parts] + [False])

    def body_at(x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.intp]:
        return np.where(_well_within(frame, x, y), showing(section.parts, *frame.metres(x, y)), NOTHING)

    def ground_at(x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.intp]:
        shown = body_at(x, y)
        return np.where(ground[shown], shown, NOTHING)

    def spacing_at(x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
        return step / np.maximum(sheet.steepness(x, y), 1e-9)

    def bears_ticks(foot: Line) -> NDArray[np.bool_]:
        shown = body_at(foot[:, 0], foot[:, 1])
        foam = np.array([hatch.is_foam(part.hatch) for part in section.parts] + [False])
        return ~foam[shown] & (spacing_at(foot[:, 0], foot[:, 1]) > 1.0)

    def heaves(at: Line) -> NDArray[np.bool_]:
        frozen = np.array([part.heaves for part in section.parts] + [False])
        return frozen[showing(section.parts, *frame.metres(at[:, 0], at[:, 1]))]

    drawn, values = [], []
    boxes = [*taken]
    freezing = round(say.number(FREEZING, "degC", scale.system))

    def gapped(lines: list[Line], said: str, weight: int) -> list[Line]:
        """The lines with a gap for their value, where there is room for it, and for the words that lie over them."""
        gaps = [*words]
        place = None
        if said:
            place = best_place(lines, said, spacing_at=spacing_at, body_at=ground_at, taken=boxes, weight=weight)
        if place:
            boxes.append(place.box)
            gaps.append(place.box)
            values.append(set_value(place, said, weight=weight))
        for gap in gaps:
            lines = [run for line in lines for run in with_gap(line, gap)]
        return lines

    frost = gapped(lines_at(sheet, FREEZING), f"{freezing} {say.name('degC', scale.system)}", 600)
    drawn.append(frost_line(frost, sheet, bears_ticks, heaves))
    marks = sorted(zip(scale.marks, scale.levels, strict=True), key=lambda m: not scale.is_heavy(m[0]))
    for mark, level in marks:
        if mark == freezing:
            continue
        heavy = scale.is_heavy(mark)
        bears = scale.bears_its_value(mark) and 2 * abs(mark - freezing) > scale.spacing
        said = str(mark).replace("-", "\u2212") if bears else ""
        lines = gapped(lines_at(sheet, level), said, 600 if heavy else 400)
        if not heavy:
            lines = where_each(lines, lambda x, y: spacing_at(x, y) > CROWDED)
        drawn.append(drawn_lines(lines, LINE if heavy else HAIR))
    return Temperatures("", "".join(drawn), "".join(values), tuple(boxes[len(taken) :]))


def _well_within(frame: Frame, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.bool_]:
    return (
        (x > frame.left + OFF_BORDER)
        & (x < frame.right - OFF_BORDER)
        & (y > frame.top + OFF_BORDER)
        & (y < frame.bottom - OFF_BORDER)
    )
