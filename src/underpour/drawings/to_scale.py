"""A section to a scale of building drawings, for those who build it: names, dimensions, no temperatures."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cache
from importlib.resources import files
from typing import Any

from ..measure import say
from ..measure.table import System
from ..sections.parts import Outline, Section
from .airs import bar_breadth, outdoors_name, room_name, scale_bar
from .bodies import is_ground
from .chains import END, Stretch, level, level_high, upright
from .lettering import CAPITAL, HEADING, cut_to
from .lettering import width as lettering
from .names import names_room
from .one_section import WIDE, border, identity
from .paper import FINE, HAIR, Frame, letters, line, picture
from .section import bodies_alone

HIGHEST = 175.0  # mm, a drawing with its dimensions
HEAD = 8.5  # mm, the heading
NARROW = 140.0  # mm; a narrower drawing has one chain at the left and none at the right
GUTTER = 19.5  # mm, one upright chain with its words
LINE_OFF = 3.8  # mm, from the drawing to the line of a chain
AROUND = 0.12  # m of ground drawn around what is built
OUTDOORS = 17.0  # mm beside the wall, for the name of what is there
FLOOR = 0.45  # m of floor drawn, at least
ABOVE = 0.25  # m of wall drawn above floor and ground, at least
NAMES_OFF = 3.0  # mm between the names of the layers and what stands beside and above them
SAME = 0.004  # m; levels nearer than that are one


@dataclass(frozen=True, slots=True)
class Scaled:
    """A drawing and the scale it is drawn to."""

    svg: str
    ratio: int  # 10 for 1:10
    words: str  # "1:10"


def scaled_section(section: Section, system: System, *, width: float = WIDE, height: float = HIGHEST) -> Scaled:
    """The cut through an edge at the largest scale of the trade that shows all of what is built at the edge.

    Parameters
    ----------
    section : Section
        What is drawn; its own window is not asked.
    system : "US" or "SI"
        Which scales, and which measures come first.
    width, height : float
        The room on paper, dimensions and heading included. [mm]

    Returns
    -------
    Scaled
        The drawing has exactly ``width`` millimetres and has to be printed at that size.
    """
    narrow = width < NARROW
    ups = _ups(section)[:1] if narrow else _ups(section)
    gutters = GUTTER * len(ups), 0.0 if narrow else GUTTER
    acrosses = _acrosses(section)
    foot = LINE_OFF + sum(level_high(_stretches(a, system, str)) + 1.0 for a in acrosses)
    room = width - sum(gutters) - 0.3, height - HEAD - foot
    outdoors = 0.0 if narrow else OUTDOORS
    row = next((r for r in _scales()[system] if _fits(section, r["ratio"], room, outdoors)), _scales()[system][-1])
    ratio, words = int(row["ratio"]), str(row["words"])
    frame = Frame(gutters[0], HEAD, _window(section, ratio, room, outdoors), 1000.0 / ratio)
    bare = replace(section, dimensions=())
    marks = [room_name(bare, frame, "room"), outdoors_name(bare, frame, _outdoors(section, frame))]
    prefix = identity(f"to scale {section.kind}", section.edge)
    drawn = bodies_alone(
        bare,
        frame,
        prefix,
        taken=tuple(box for _, boxes in marks for box in boxes),
        column=frame.x(_built(section)[1]) + NAMES_OFF,
    )
    body = [
        _heading(f"Section {section.edge}", words, system, frame, width),
        drawn.body,
        border(frame),
        *(text for text, _ in marks),
        _left(ups, frame, system),
        "" if narrow else _right(section, frame, system),
        _below(acrosses, frame, system, width),
    ]
    named = ", ".join(dict.fromkeys(part.label for part in section.parts))
    svg = picture(
        wide=width,
        high=frame.bottom + foot + 1.0,
        title=f"Section {section.edge}, scale {words}",
        description=f"Cut through edge {section.edge} to the scale {words}, with dimensions: {named}.",
        defs=drawn.defs,
        body=body,
    )
    return Scaled(svg, ratio, words)


@cache
def _scales() -> dict[str, list[dict[str, Any]]]:
    return tomllib.loads((files(__package__) / "scales.toml").read_text(encoding="utf-8"))


def _built(section: Section) -> tuple[float, float, float, float]:
    """x0, x1, y0, y1 around all that is built at the edge, and the floor's layers. [m]"""
    corners = [point for outline in _at_edge(section) for point in outline]
    layers = [y for part in section.parts if not is_ground(part) for _, y in part.outline]
    xs = [x for x, _ in corners] or [section.corner[0]]
    return min(xs), max(xs), min(layers), max(section.ground_level, 0.0)


def _at_edge(section: Section) -> list[Outline]:
    """Outlines of what is built at the edge: its bodies, and what a slab thickens by."""
    bodies = [part.outline for part in section.parts if part.path.startswith("edge") and not is_ground(part)]
    return bodies + [part.thickening for part in section.parts if part.thickening]


def _least(section: Section, ratio: int, outdoors: float) -> tuple[float, float, float, float]:
    """The window that has to be shown: what is built, some floor, and air for the names of the layers. [m]"""
    x0, x1, y0, y1 = _built(section)
    wide, high = names_room(section)
    right = max(x1 + (wide + NAMES_OFF) * ratio / 1000.0, section.corner[0] + FLOOR)
    left = min(x0 - AROUND, _outer_face(section) - outdoors * ratio / 1000.0)
    return left, min(right, section.extent[1]), y0 - AROUND, max(y1 + ABOVE, (high + NAMES_OFF) * ratio / 1000.0)


def _outer_face(section: Section) -> float:
    """Outer face of what stands above the ground. [m]"""
    standing = [each for each in _at_edge(section) if max(y for _, y in each) > max(section.ground_level, 0.0)]
    return min((x for each in standing for x, _ in each), default=section.corner[0])


def _outdoors(section: Section, frame: Frame) -> str:
    """The name of what lies outside, where there is room for it beside the wall."""
    return "outdoors" if frame.x(_outer_face(section)) - frame.left > lettering("outdoors") + 2.0 else ""


def _fits(section: Section, ratio: int, room: tuple[float, float], outdoors: float) -> bool:
    x0, x1, y0, y1 = _least(section, ratio, outdoors)
    return (x1 - x0) * 1000.0 / ratio <= room[0] and (y1 - y0) * 1000.0 / ratio <= room[1]


def _window(
    section: Section, ratio: int, room: tuple[float, float], outdoors: float
) -> tuple[float, float, float, float]:
    """What is shown: as wide as the paper lets it be, a quarter of the spare room outdoors, the rest of it floor."""
    x0, x1, y0, y1 = _least(section, ratio, outdoors)
    wide, high = room[0] * ratio / 1000.0, room[1] * ratio / 1000.0
    spare = max(wide - (x1 - x0), 0.0)
    left = max(x0 - 0.25 * spare, section.extent[0])
    bottom = max(y0, y1 - high)  # a section too tall for any scale loses its foot
    return left, min(left + wide, section.extent[1]), bottom, y1


def _ups(section: Section) -> list[list[float]]:
    """Levels of the chains at the left, the outer one first: ground, floor, foot; then all ends of what is built."""
    _, _, foot, _ = _built(section)
    ends = [y for outline in _at_edge(section) for _, y in outline if y <= max(section.ground_level, 0.0) + SAME]
    main = _distinct([section.ground_level, 0.0, min([foot, *ends])])
    fine = _distinct([*main, *ends])
    return [main] if len(fine) == len(main) or len(fine) > 9 else [main, fine]


def _acrosses(section: Section) -> list[list[float]]:
    """Faces of the chains below: each face of what is built at the edge, and the whole of it."""
    faces = _distinct([x for outline in _at_edge(section) for x, _ in outline])
    if len(faces) < 2:
        return []
    return [faces, [faces[0], faces[-1]]] if 2 < len(faces) <= 9 else [[faces[0], faces[-1]]]


def _distinct(places: Iterable[float]) -> list[float]:
    kept: list[float] = []
    for place in sorted(places):
        if not kept or place - kept[-1] > SAME:
            kept.append(place)
    return kept


def _stretches(places: Sequence[float], system: System, on_sheet: Any) -> list[Stretch]:
    """Dimensions between neighbouring places (m), where ``on_sheet`` puts a place on the sheet."""
    at = [on_sheet(place) if on_sheet is not str else 0.0 for place in places]
    return [
        Stretch(min(a, b), max(a, b), _said(abs(q - p), system))
        for p, q, a, b in zip(places, places[1:], at, at[1:], strict=False)
    ]


def _said(metres: float, system: System) -> tuple[str, ...]:
    own, _, other = say.both(metres, "m", system).partition(" (")
    return (own, f"({other}") if other else (own,)


def _shown(places: Sequence[float], low: float, high: float) -> list[float]:
    return [place for place in places if low - SAME <= place <= high + SAME]


def _left(ups: Sequence[Sequence[float]], frame: Frame, system: System) -> str:
    drawn = []
    for n, places in enumerate(ups):
        x = frame.left - LINE_OFF - GUTTER * (len(ups) - 1 - n)
        shown = _shown(places, frame.window[2], frame.window[3])
        stretches = _stretches(shown, system, frame.y)
        drawn += [line(x - END, frame.y(y), frame.left - 1.0, frame.y(y), HAIR) for y in (shown if n == 0 else ())]
        drawn.append(upright(stretches, x, (frame.top, frame.bottom), left=True))
    return "".join(drawn)


def _right(section: Section, frame: Frame, system: System) -> str:
    """The whole build-up, each of its layers ticked; their thicknesses stand with their names."""
    layers = [part for part in section.parts if part.path.startswith("floor.") and not is_ground(part)]
    levels = _distinct(y for part in layers for x, y in part.outline if x == section.extent[1])
    if len(levels) < 2:
        return ""
    x = frame.right + LINE_OFF
    ticks = [line(x - END, frame.y(y) + END, x + END, frame.y(y) - END, FINE) for y in levels[1:-1]]
    ends = [line(frame.right + 1.0, frame.y(y), x + END, frame.y(y), HAIR) for y in levels]
    whole = _stretches([levels[0], levels[-1]], system, frame.y)
    return "".join([*ticks, *ends, upright(whole, x, (frame.top, frame.bottom), left=False)])


def _below(acrosses: Sequence[Sequence[float]], frame: Frame, system: System, width: float) -> str:
    drawn = []
    y = frame.bottom + LINE_OFF
    for places in acrosses:
        stretches = _stretches(_shown(places, frame.window[0], frame.window[1]), system, frame.x)
        drawn.append(level(stretches, y, (0.0, width)))
        y += level_high(stretches) + 1.0
    return "".join(drawn)


def _heading(title: str, words: str, system: System, frame: Frame, width: float) -> str:
    """The drawing's name, its scale in words, and a bar that stays true when the sheet is copied smaller."""
    base = HEADING * CAPITAL + 1.0
    said = f"{title}, scale {words}"
    return letters(
        0.0, base, cut_to(said, width - bar_breadth(frame.scale, system) - 4.0, HEADING, 600), size=HEADING, weight=600
    ) + scale_bar(width - 0.4, base, frame.scale, system)
