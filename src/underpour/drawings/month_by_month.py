"""The floor month by month: twelve small floor lines for every alternative, on one scale, to be printed."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

import numpy as np

from ..dossier import Answer, Dossier
from ..measure import say
from ..measure.table import System
from . import colours
from .facts import corner_temperature, floor_limit, watched_words
from .floor_line import CAP, MARKS, Limit, Span, span_of_moments
from .lettering import CAPITAL, HEADING, LETTER, cut_to, width
from .one_section import GAP, WIDE, paragraph
from .paper import BOLD, FINE, HAIR, dot, letters, line, path, picture, stroke
from .scale import celsius, month_middle
from .wanted_columns import columns, columns_words, wanted_of
from .when import MONTHS

HIGH = 17.0  # mm, the floor lines
APART = 2.6  # mm between two months
START = 0.8  # mm, so that the first dot is whole
FOOT = 0.3048  # m
REACHES = {  # m of floor from the wall, in each month; the longest that every alternative has in its drawing
    "SI": (2.0, 1.5, 1.0, 0.5),
    "US": (6 * FOOT, 5 * FOOT, 4 * FOOT, 3 * FOOT, 2 * FOOT, FOOT),
}
MIDDLES = tuple(month_middle(month) for month in range(1, 13))


@dataclass(frozen=True, slots=True)
class _Shared:
    """What all alternatives have in common."""

    edge: str
    system: System
    span: Span
    limit: Limit | None
    reach: float  # m of floor from the wall
    wide: float  # mm
    most: float  # kWh, the largest month of harmful or useful heat


def month_by_month(dossier: Dossier, edge: str, *, wide: float = WIDE, only: Collection[str] = ()) -> str:
    """The surface of the floor along the way into the room, in the middle of every month.

    Parameters
    ----------
    dossier : Dossier
        All its alternatives that have this edge are shown, in its order.
    edge : str
        Letter of the edge.
    wide : float
        Breadth of the picture. [mm]
    only : collection of str
        Names of the alternatives that are drawn; all of them where none is named. The scale is that of all.

    Returns
    -------
    str
        An SVG document that stands alone.

    Raises
    ------
    KeyError
        No alternative has such an edge.
    """
    answers = [answer for answer in dossier.alternatives if edge in answer.fields]
    if not answers:
        raise KeyError(edge)
    fields = [answer.fields[edge] for answer in answers]
    limit = floor_limit(answers[0], edge, dossier.units)
    drawn_of_all = min(float(field.floor_x[-1] - field.floor_x[0]) for field in fields)
    reach = next((length for length in REACHES[dossier.units] if length <= drawn_of_all), drawn_of_all)
    span = span_of_moments(fields, MIDDLES, dossier.units, limit)
    most = max((wanted.most for answer in answers if (wanted := wanted_of(answer)) is not None), default=0.0)
    shared = _Shared(edge, dossier.units, span, limit, reach, wide, most)
    shown = [answer for answer in answers if not only or answer.name in only]
    title = f"Edge {edge}, month by month"
    base = HEADING * CAPITAL + 1.0
    body = [letters(0.0, base, cut_to(title, wide, HEADING, 600), size=HEADING, weight=600)]
    top = base + GAP
    for answer in shown:
        drawn, top = _row(answer, shared, top)
        body.append(drawn)
    words = f"{_read_as(answers[0], shared)} {columns_words(shown, dossier.units)}".strip()
    foot, high = paragraph(words, 0.0, top + LETTER, wide)
    said = " ".join(f"{answer.name}: {_turns(answer, edge, dossier.units)}." for answer in shown)
    return picture(wide=wide, high=high + 0.5, title=title, description=f"{said} {words}", defs=(), body=[*body, foot])


def _row(answer: Answer, shared: _Shared, top: float) -> tuple[str, float]:
    """One alternative: its name with its coldest and warmest month, twelve floor lines; and where it ends. [mm]"""
    base = top + LETTER
    turns = _turns(answer, shared.edge, shared.system)
    drawn = [letters(0.0, base, cut_to(answer.name, shared.wide - width(turns) - 6.0, LETTER, 600), weight=600)]
    drawn.append(letters(shared.wide, base, turns, anchor="end"))
    high = base + 3.0
    each = (shared.wide - MARKS - START) / 12.0

    def level(temperature: float) -> float:
        return high + HIGH * (1.0 - shared.span.height(temperature))

    rule, note = colours.light()["rule"], colours.light()["note"]
    end = START + 12.0 * each - APART
    for mark in shared.span.marks:
        y = level(celsius(mark, shared.system))
        unit = f" {say.name('degC', shared.system)}" if mark == shared.span.marks[-1] else ""
        said = str(mark).replace("-", "\u2212") + unit
        drawn.append(line(0.0, y, end, y, HAIR, colour=rule))
        drawn.append(letters(shared.wide, y + CAP / 2, said, anchor="end", colour=note))
    if shared.limit:
        y = level(shared.limit.temperature)
        drawn.append(line(0.0, y, end, y, FINE, extra=' stroke-dasharray="2.4 1.2"'))
    below = high + HIGH + CAP + 2.0
    field = answer.fields[shared.edge]
    into = field.floor_x.astype(float) - float(field.floor_x[0])
    for n, (name, middle) in enumerate(zip(MONTHS, MIDDLES, strict=True)):
        left = START + n * each
        seen = into < shared.reach - 1e-6
        degrees = field.floor_at(middle)
        at = np.r_[into[seen], shared.reach]
        run = np.r_[degrees[seen], np.interp(shared.reach, into, degrees)]
        x = left + at / shared.reach * (each - APART)
        heights = [level(float(t)) for t in run]
        drawn.append(stroke(path(zip(x, heights, strict=True), closed=False), BOLD) + dot(left, heights[0], 0.7))
        corner = corner_temperature(answer, shared.edge, middle)
        middle_x = left + (each - APART) / 2.0
        drawn.append(letters(middle_x, below, name[0], anchor="middle", weight=600))
        drawn.append(letters(middle_x, below + 1.2 * LETTER, _bare(corner, shared.system), anchor="middle"))
    ends = below + 1.2 * LETTER
    wanted = wanted_of(answer)
    if wanted is not None:
        middles = [START + n * each + (each - APART) / 2.0 for n in range(12)]
        heat, ends = columns(wanted, shared.most, middles, ends + 1.0, end)
        drawn.append(heat)
    return "".join(drawn), ends + GAP + 1.0


def _turns(answer: Answer, edge: str, system: System) -> str:
    """Coldest and warmest month of the place that is watched."""
    corner = [corner_temperature(answer, edge, middle) for middle in MIDDLES]
    cold, warm = int(np.argmin(corner)), int(np.argmax(corner))
    said = [say.value(corner[k], "degC", system) for k in (cold, warm)]
    return f"coldest {said[0]} in {MONTHS[cold]}, warmest {said[1]} in {MONTHS[warm]}"


def _read_as(answer: Answer, shared: _Shared) -> str:
    section = answer.sections[shared.edge]
    what = "ground under the slab" if section.outdoors else "floor"
    far = say.value(shared.reach, "m", shared.system)
    said = (
        f"Each line is the {what} from the edge, at its left, to {far} inwards, in the middle of the month, a year of "
        f"mean weather. The numbers are of the place {watched_words(section)}, in {say.name('degC', shared.system)}."
    )
    return f"{said} Dashed: {shared.limit.words}." if shared.limit else said


def _bare(temperature: float, system: System) -> str:
    """The number of a temperature as it is printed, without its unit."""
    return say.value(temperature, "degC", system).removesuffix(say.name("degC", system)).strip()
