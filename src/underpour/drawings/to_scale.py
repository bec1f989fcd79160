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
from ..sections.parts import Outline, Part, Section
from .airs import bar_breadth, outdoors_name, room_name, scale_bar
from .bodies import is_ground
from .chains import END, LEADING, Stretch, level, level_high, upright
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
MOST = 9  # faces in one chain
SAME = 0.004  # m; levels nearer than that are one


@dataclass(frozen=True, slots=True)
class Scaled:
    """A drawing and the scale it is drawn to."""

    svg: str
    ratio: int  # 10 for 1:10
    words: str  # "1:10"


@dataclass(frozen=True, slots=True)
class Row:
    """One chain below the drawing: what it goes along, and the faces that it goes from and to."""

    name: str
    places: list[float]  # m
    whole: bool = False  # whether its name says from the first face to the last


def scaled_section(
    section: Section, system: System, *, width: float = WIDE, height: float = HIGHEST, layers: bool = True
) -> Scaled:
    """The cut through an edge at the largest scale of the trade that shows all of what is built at the edge.

    Parameters
    ----------
    section : Section
        What is drawn; its own window is not asked.
    system : "US" or "SI"
        Which scales, and which measures come first.
    width, height : float
        The room on paper, dimensions and heading included. [mm]
    layers : bool
        Whether the floor's layers are named; without their names the same height shows the edge larger.

    Returns
    -------
    Scaled
        The drawing has exactly ``width`` millimetres and has to be printed at that size.
    """
    narrow = width < NARROW
    ups = [_outside(section)] if narrow else _ups(section)
    gutters = GUTTER * len(ups), 0.0 if narrow else GUTTER
    rows = _rows(section)
    foot = LINE_OFF + sum(level_high(_stretches(row.places, system, str)) + 1.0 for row in rows)
    room = width - sum(gutters) - 0.3, height - HEAD - foot
    outdoors = 0.0 if narrow else OUTDOORS
    row = next(
        (r for r in _scales()[system] if _fits(section, r["ratio"], room, outdoors, layers)), _scales()[system][-1]
    )
    ratio, words = int(row["ratio"]), str(row["words"])
    frame = Frame(gutters[0], HEAD, _window(section, ratio, room, outdoors, layers), 1000.0 / ratio)
    bare = replace(section, dimensions=())
    marks = [room_name(bare, frame, "room"), outdoors_name(bare, frame, _outdoors(section, frame))]
    prefix = identity(f"to scale {section.kind}", section.edge)
    drawn = bodies_alone(
        bare,
        frame,
        prefix,
        taken=tuple(box for _, boxes in marks for box in boxes),
        column=frame.x(_built(section)[1]) + NAMES_OFF,
        layers=layers,
    )
    body = [
        _heading(f"Section {section.edge}", words, system, frame, width),
        drawn.body,
        border(frame),
        *(text for text, _ in marks),
        _left(ups, frame, system),
        "" if narrow else _right(section, frame, system),
        _below(rows, frame, system, width),
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


def _least(section: Section, ratio: int, outdoors: float, layers: bool) -> tuple[float, float, float, float]:
    """The window that has to be shown: what is built, some floor, and air for the names of the layers. [m]"""
    x0, x1, y0, y1 = _built(section)
    wide, high = names_room(section) if layers else (0.0, 0.0)
    right = max(x1 + (wide + NAMES_OFF) * ratio / 1000.0, section.corner[0] + FLOOR)
    left = min(x0 - AROUND, _outer_face(section) - outdoors * ratio / 1000.0)
    return left, min(right, section.extent[1]), y0 - AROUND, max(y1 + ABOVE, (high + NAMES_OFF) * ratio / 1000.0)


def _outer_face(section: Section) -> float:
    """Outer face of what stands above the ground. [m]"""
    standing = [each for each in _at_edge(section) if max(y for _, y in each) > max(section.ground_level, 0.0)]
    return min((x for each in standing for x, _ in each), default=section.corner[0])


def _outdoors(section: Section, frame: Frame) -> str:
    """The name of what lies outside, where there is room for it beside the wall."""
    return section.beside if frame.x(_outer_face(section)) - frame.left > lettering(section.beside) + 2.0 else ""


def _fits(section: Section, ratio: int, room: tuple[float, float], outdoors: float, layers: bool) -> bool:
    x0, x1, y0, y1 = _least(section, ratio, outdoors, layers)
    return (x1 - x0) * 1000.0 / ratio <= room[0] and (y1 - y0) * 1000.0 / ratio <= room[1]


def _window(
    section: Section, ratio: int, room: tuple[float, float], outdoors: float, layers: bool
) -> tuple[float, float, float, float]:
    """What is shown: as wide as the paper lets it be, a quarter of the spare room outdoors, the rest of it floor."""
    x0, x1, y0, y1 = _least(section, ratio, outdoors, layers)
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


def _outside(section: Section) -> list[float]:
    """Levels of the one chain of a narrow drawing: ground, floor, foot, and where foam outside ends below ground."""
    main = _ups(section)[0]
    outside = [p for p in _foams(section) if max(x for x, _ in p.outline) < section.corner[0] - SAME]
    ends = [min(y for _, y in part.outline) for part in outside]
    return _distinct([*main, *(y for y in ends if y < section.ground_level)])


def _foams(section: Section) -> list[Part]:
    return [part for part in section.parts if _kind(part) == "insulation"]


def _kind(part: Part) -> str:
    """What a body at the edge is, as its path says: "footing", "wall", "above", "insulation"; "" for others."""
    return "" if is_ground(part) or not part.path.startswith("edge.") else part.path.split(".")[2]


def _rows(section: Section) -> list[Row]:
    """The chains below, one for what stands above the floor, one for the wall with its foam, one for the footing.

    Each goes along bodies that lie beside each other, so that its numbers may be added. Foam that lies flat has a chain
    of its own. An edge with neither wall nor footing has its faces in one chain, and the whole of it in another.
    """
    kinds = {kind: [p for p in section.parts if _kind(p) == kind] for kind in ("above", "ledge", "wall", "footing")}
    groups = {"above": kinds["above"] + kinds["ledge"], "wall": [*kinds["wall"]], "footing": [*kinds["footing"]]}
    flat, others = [], []
    for foam in _foams(section):
        x0, x1, y0, y1 = _around([foam])
        beside = next((g for g in ("wall", "footing", "above") if _beside(foam, groups[g])), "")
        if x1 - x0 > y1 - y0:
            flat.append(foam)
        elif beside:
            groups[beside].append(foam)
        else:
            others.append(foam)
    known = {id(part) for those in (*groups.values(), flat, others) for part in those}
    drawn = [p.outline for p in section.parts if _kind(p) and id(p) not in known]
    edge = [*drawn, *(p.outline for p in others), *(p.thickening for p in section.parts if p.thickening)]
    rows = [Row(name, _faces([part.outline for part in parts])) for name, parts in groups.items()]
    if kinds["footing"]:  # with the wall that stands on it
        stands = _faces([part.outline for part in kinds["wall"]])
        rows[2] = Row("footing", _distinct([*rows[2].places, *stands]), whole=True)
    rows += [Row("edge", _faces(edge)), *(Row("foam", _faces([foam.outline])) for foam in flat)]
    rows = _joined([row for row in rows if 2 <= len(row.places) <= MOST])
    if len(rows) == 1 and len(rows[0].places) > 2:
        return [Row("", rows[0].places), Row("", [rows[0].places[0], rows[0].places[-1]])]
    return rows if len(rows) > 1 else [replace(row, name="", whole=False) for row in rows]


def _beside(foam: Part, group: Sequence[Part]) -> bool:
    """Whether foam stands beside a body: at one height with it."""
    _, _, y0, y1 = _around([foam])
    return any(min(y1, top) - max(y0, low) > SAME for _, _, low, top in (_around([part]) for part in group))


def _around(parts: Sequence[Part]) -> tuple[float, float, float, float]:
    """x0, x1, y0, y1 around bodies. [m]"""
    xs, ys = ([point[n] for part in parts for point in part.outline] for n in (0, 1))
    return min(xs), max(xs), min(ys), max(ys)


def _faces(outlines: Iterable[Outline]) -> list[float]:
    return _distinct([x for outline in outlines for x, _ in outline])


def _joined(rows: Sequence[Row]) -> list[Row]:
    """Rows with the same faces as one row of both names."""
    joined: list[Row] = []
    for row in rows:
        same = next((n for n, other in enumerate(joined) if other.places == row.places), None)
        if same is None:
            joined.append(row)
        else:
            names = dict.fromkeys((*joined[same].name.split(", "), row.name))
            joined[same] = Row(", ".join(names), row.places, joined[same].whole or row.whole)
    return joined


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


def _below(rows: Sequence[Row], frame: Frame, system: System, width: float) -> str:
    drawn = []
    y = frame.bottom + LINE_OFF
    for row in rows:
        stretches = _stretches(_shown(row.places, frame.window[0], frame.window[1]), system, frame.x)
        said = [row.name, *_said(row.places[-1] - row.places[0], system)] if row.whole else [row.name]
        beside = max(map(lettering, said)) + 2.0 if row.name else 0.0
        drawn += [letters(0.0, y + 0.9 + n * LEADING, words) for n, words in enumerate(said) if words]
        drawn.append(level(stretches, y, (beside, width)))
        y += level_high(stretches) + 1.0
    return "".join(drawn)


def _heading(title: str, words: str, system: System, frame: Frame, width: float) -> str:
    """The drawing's name, its scale in words, and a bar that stays true when the sheet is copied smaller."""
    base = HEADING * CAPITAL + 1.0
    said = f"{title}, scale {words}"
    return letters(
        0.0, base, cut_to(said, width - bar_breadth(frame.scale, system) - 4.0, HEADING, 600), size=HEADING, weight=600
    ) + scale_bar(width - 0.4, base, frame.scale, system)
