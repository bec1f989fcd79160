"""The section that fills the sheet: what lasts, what the moment draws, what can be typed and dragged in it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from ...dossier import Answer
from ...drawings.airs import corner_mark, outdoors_name, room_name, room_words, scale_bar, words_that_fit_outdoors
from ...drawings.apart import apart_legend, apart_lines, apart_scale, difference
from ...drawings.apart import tints as apart_tints
from ...drawings.dimensions import angle_arcs, dimension_lines
from ...drawings.facts import corner_temperature, corner_verdict, floor_limit, floor_words, stilled
from ...drawings.floor_line import Strip, floor_line
from ...drawings.lanes import dotted, lane_lines, lanes_for, ways_of
from ...drawings.legend import LEGEND_HIGH, frost_key, legend
from ...drawings.lettering import LETTER
from ...drawings.names import edge_names
from ...drawings.one_section import border, identity
from ...drawings.paper import INK, Box, Frame, Named
from ...drawings.section import clipped, lasting, lines_alone
from ...drawings.visible import solid
from ...measure import say
from ...sections.parts import Section
from ..live import Told
from ..words import say as words
from .fields import Places
from .grips import grips
from .layers import rows
from .look import Look
from .reading import airs, bodies
from .temperatures import field_data, tints

INSET = 0.3  # mm, so that the border keeps its breadth
STRIP = 15.0  # mm, the floor line
GAP = 3.0  # mm
FROM_CORNER = 34.0  # mm into the room, where the rows of the floor's layers stand
NARROW = 120.0  # mm, a drawing on a telephone
LEGEND_WIDE = 110.0  # mm
TALLEST = 0.56  # of the breadth


def drawn(told: Told, look: Look, places: Places, *, names: bool) -> dict[str, Any]:
    """The section of the version and edge that are looked at. ``names`` says whether bodies are named anew."""
    answer = told.answer(look.alternative)
    letter = look.edge if look.edge in answer.sections else next(iter(answer.sections))
    judged, answer = answer, answer if look.month else stilled(answer, letter)
    section = _cropped(answer.sections[letter], look.wide)
    field = answer.fields[letter]
    frame = _frame(section, look.wide)
    when, system, scale = look.year_fraction, told.system, told.scale
    prefix = identity(answer.name, letter)
    corner = say.value(corner_temperature(answer, letter, when), "degC", system)
    marks = [
        room_name(section, frame, room_words(field, "room", when, system)),
        outdoors_name(section, frame, words_that_fit_outdoors(section, field, frame, when, system)),
        corner_mark(section, frame, corner, *corner_verdict(_of_moment(judged, look.month), letter)),
    ]
    taken = tuple(box for _, boxes in marks for box in boxes)
    along = min(frame.x(section.corner[0]) + FROM_CORNER, frame.x(section.corner[0]) + 0.45 * frame.width)
    listed = rows(places, section, frame, along)
    listed["inside"] = listed["inside"] and look.wide > NARROW
    if listed["inside"]:
        top, bottom = (listed["rows"][n]["base"] for n in (0, -1))
        taken = (*taken, Box(along - 1.0, top - 5.0, frame.right, bottom + 2.0))
    named = _named(section, frame, taken) if names else Named("", (), ())
    lines = lines_alone(section, field, when, scale, frame, (*taken, *named.taken), named.words)
    laned = look.lanes and not look.month
    lanes, lane_words = _lanes(told, answer, letter, section, frame) if laned else ([], "")
    head = words("sheet.section", edge=letter, kind=section.kind.replace("-", " "), name=answer.name)
    shown = {"field": field_data(judged.fields[letter]), "tints": tints(scale), "apart": ""}
    drawn_lines = clipped(lines.lines + dotted(lanes, lines.words), prefix) + lines.values
    other = next((each for each in told.answers if each.name == look.against and letter in each.fields), None)
    if other is not None and other.name != judged.name:
        shown, drawn_lines = _held_against(other, judged, letter, frame, prefix, told, look)
        head = words("sheet.against", section=head, name=other.name)
    same = lasting(section, frame, prefix)
    strip = Strip(frame, frame.bottom + GAP, STRIP, frame.x(section.floor[1]))
    limit = floor_limit(judged, letter, system)
    floor = floor_line(field, when, told.spans[letter], strip, limit, floor_words(answer, letter, when, system))
    foot = strip.top + STRIP + GAP + LETTER
    return {
        "edge": letter,
        "alternative": answer.name,
        "head": head,
        "label": f"{head}. {corner}.",
        "wide": round(max(frame.right + INSET, look.wide), 2),
        "high": round(foot + 1.0, 2),
        "frame": {name: round(getattr(frame, name), 4) for name in ("left", "top", "width", "height", "scale")},
        "window": [round(end, 5) for end in frame.window],
        "watched": [round(end, 5) for end in section.watched],
        "prefix": prefix,
        "solid": solid(section, frame),
        "air": "".join(frame.path(air.outline, closed=True) for air in section.airs),
        "rooms": [frame.path(air.outline, closed=True) for air in section.airs if air.where == "room"],
        **shown,
        "clips": "".join(same.clips),
        "patterns": [pattern for pattern in same.patterns if pattern],
        "hatches": same.hatches,
        "lines": drawn_lines,
        "outlines": same.outlines,
        "border": border(frame),
        "marks": "".join(said for said, _ in marks),
        "floor": floor,
        "bar": scale_bar(frame.right - INSET, foot, frame.scale, system),
        "names": named.drawn.replace(INK, "currentColor") if names else None,
        "lanes": lane_words,
        "layers": listed,
        "grips": grips(places, section, frame),
        "bodies": bodies(section),
        "airs": airs(section, field),
    }


def _held_against(
    other: Answer, judged: Answer, letter: str, frame: Frame, prefix: str, told: Told, look: Look
) -> tuple[dict[str, Any], str]:
    """How much warmer one version is than another: its field, its tints, its lines."""
    between = difference(judged.fields[letter], other.fields[letter])
    scale = apart_scale(between, told.system)
    lines, values = apart_lines(between, look.year_fraction if look.month else None, scale, frame)
    room = min(LEGEND_WIDE, look.wide - 2.0)
    ends = words("sheet.colder", name=other.name), words("sheet.warmer", name=other.name)
    row = apart_legend(scale, 0.3, 0.3, room + 40.0 if look.wide > NARROW else room, ends)
    shown = {
        "field": field_data(between),
        "tints": {"bounds": list(scale.bounds), "colours": list(apart_tints())},
        "apart": row,
    }
    return shown, clipped(lines, prefix) + values


def scale_row(told: Told, wide: float) -> dict[str, Any]:
    """The row of tints with what stands beside it, on the one scale of everything that is shown."""
    broad = min(LEGEND_WIDE, wide - 2.0)
    return {
        "wide": round(broad, 1),
        "high": LEGEND_HIGH + 0.6,
        "tints": legend(told.scale, 0.3, 0.3, broad),
        "frost": frost_key(told.scale, 0.3, 0.3),
    }


def _of_moment(answer: Answer, month: int) -> Answer:
    """The answer with the findings of that month alone; in the mean of the year with all of them."""
    if not month:
        return answer
    return replace(answer, findings=tuple(f for f in answer.findings if f.month in (None, month)))


def _cropped(section: Section, wide: float) -> Section:
    """A narrow page shows less of the floor and of the ground outside, not everything smaller."""
    if wide > NARROW:
        return section
    x0, x1, y0, y1 = section.window
    return replace(section, window=(max(x0, -0.9), min(x1, max(section.corner[0], 0.0) + 1.3), y0, y1))


def _frame(section: Section, wide: float) -> Frame:
    x0, x1, y0, y1 = section.window
    scale = (wide - 2 * INSET) / (x1 - x0)
    if wide > NARROW:
        scale = min(scale, TALLEST * wide / (y1 - y0))
    return Frame(INSET, INSET, section.window, scale)


def _named(section: Section, frame: Frame, taken: tuple[Box, ...]) -> Named:
    """Names of what stands at the edge, and dimensions; the floor's own layers have rows."""
    done = [n for n, part in enumerate(section.parts) if part.path.startswith("floor.")]
    sizes = dimension_lines(section, frame, taken)
    turns = angle_arcs(section, frame, (*taken, *sizes.taken))
    edge = edge_names(section, frame, done, (*taken, *sizes.taken, *turns.taken), again=False)
    return Named(
        sizes.drawn + turns.drawn + edge.drawn,
        (*sizes.words, *turns.words, *edge.words),
        (*sizes.taken, *turns.taken, *edge.taken),
    )


def _lanes(told: Told, answer: Answer, letter: str, section: Section, frame: Frame) -> tuple[list[Any], str]:
    """Lines along which heat flows in the mean of the year, and how much each lane carries."""
    having = [each for each in told.answers if letter in each.fields]
    ways = {each.name: ways_of(each.sections[letter], stilled(each, letter).fields[letter]) for each in having}
    lanes, here = lanes_for(ways.values(), told.system), ways[answer.name]
    return lane_lines(here, lanes, frame), f"{lanes.words} {lanes.told(here)}"
