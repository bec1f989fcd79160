"""All alternatives side by side on one temperature scale: which floor is warm, at a glance."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace

from ..dossier import Answer, Dossier
from ..measure import say
from ..measure.table import System
from .airs import corner_mark, outdoors_name, room_name, room_words, scale_bar, words_that_fit_outdoors
from .facts import corner_temperature, corner_verdict, floor_limit, floor_words, loss_words, stilled, watched_words
from .floor_line import Limit, Span, Strip, floor_line, shared_span
from .lanes import Lanes, Ways, lane_lines, lanes_for, ways_of
from .legend import FROST_HIGH, LEGEND_HIGH, frost_key, key, legend, materials
from .lettering import CAPITAL, HEADING, LETTER, cut_to, wrapped
from .one_section import GAP, INSET, WIDE, border, identity, paragraph
from .paper import Frame, letters, picture
from .scale import Scale, shared_scale
from .section import with_field
from .when import moment_words

BETWEEN = 6.0  # mm between two drawings
STRIP = 15.0  # mm, the floor line


@dataclass(frozen=True, slots=True)
class _Shared:
    """What all drawings of a comparison have in common."""

    edge: str
    year_fraction: float
    system: System
    scale: Scale
    span: Span
    window: tuple[float, float, float, float]
    limit: Limit | None
    when: str  # which moment it is, in a sentence
    lanes: Lanes | None
    ways: Mapping[str, Ways]  # of each alternative by its name, where lanes are drawn
    flows: Mapping[str, str]  # what each one loses then in words, where that is no finding


def comparison(
    dossier: Dossier, edge: str, *, year_fraction: float, width: float = WIDE, only: Collection[str] = ()
) -> str:
    """The section of every alternative at one edge and one moment, on one scale, in one picture.

    Parameters
    ----------
    dossier : Dossier
        All its alternatives that have this edge are shown, in its order.
    edge : str
        Letter of the edge.
    year_fraction : float
        Moment of the year; ``month_middle(2)`` is the middle of February. [1]
    width : float
        Breadth of the picture, two drawings wide. [mm]
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
    answers = _with_edge(dossier, edge)
    when = f"Temperatures in {moment_words(year_fraction)}, a year of mean weather."
    return _side_by_side(answers, _shared(answers, edge, year_fraction, dossier.units, when), width, only)


def comparison_with_lanes(dossier: Dossier, edge: str, *, width: float = WIDE, only: Collection[str] = ()) -> str:
    """The same in the mean of the year, with the ways that heat takes as dotted lines of equal flow.

    Only in a mean of the year does as much heat leave the ground as enters it; in a month there are no such lines.

    Parameters
    ----------
    dossier, edge, width, only
        As for ``comparison``. Each lane carries the same in all alternatives.

    Returns
    -------
    str
        An SVG document that stands alone.

    Raises
    ------
    KeyError
        No alternative has such an edge.
    """
    answers = [stilled(answer, edge) for answer in _with_edge(dossier, edge)]
    shared = _shared(answers, edge, 0.0, dossier.units, "Temperatures in the mean of the year.")
    ways = {answer.name: ways_of(answer.sections[edge], answer.fields[edge]) for answer in answers}
    laned = replace(shared, lanes=lanes_for(ways.values(), dossier.units), ways=ways)
    return _side_by_side(answers, laned, width, only)


def comparison_at_hour(dossier: Dossier, edge: str, *, width: float = WIDE) -> str:
    """The same at the hour of the weather file that the dossier was asked for.

    Parameters
    ----------
    dossier, edge, width
        As for ``comparison``; every alternative holds that hour.

    Returns
    -------
    str
        An SVG document that stands alone.

    Raises
    ------
    KeyError
        No alternative has such an edge.
    """
    answers, flows, when = [], {}, ""
    for answer in _with_edge(dossier, edge):
        hour = answer.hour
        assert hour is not None
        answers.append(replace(answer, fields={**answer.fields, edge: hour.fields[edge]}, findings=()))
        does = "takes in" if hour.flow < 0.0 else "loses"
        through = hour.through.removeprefix("the ").capitalize()
        does = does if through == "Floor" else {"takes in": "take in", "loses": "lose"}[does]
        flows[answer.name] = f"{through} {does} {say.value(abs(hour.flow), 'W', dossier.units)}."
        outdoors = say.value(hour.outdoors, "degC", dossier.units)
        when = when or f"Temperatures on {hour.words} of the weather file, outdoors then at {outdoors}."
    return _side_by_side(answers, replace(_shared(answers, edge, 0.0, dossier.units, when), flows=flows), width, ())


def _with_edge(dossier: Dossier, edge: str) -> list[Answer]:
    answers = [answer for answer in dossier.alternatives if edge in answer.fields]
    if not answers:
        raise KeyError(edge)
    return answers


def _side_by_side(answers: list[Answer], shared: _Shared, width: float, only: Collection[str]) -> str:
    edge = shared.edge
    answers = [answer for answer in answers if not only or answer.name in only]
    column = (width - BETWEEN) / 2
    head = 2 + max(len(wrapped(answer.name, column, HEADING, 600)) for answer in answers)
    defs: list[str] = []
    body: list[str] = []
    top, bottoms = 0.0, [0.0, 0.0]
    for n, answer in enumerate(answers):
        left = (n % 2) * (column + BETWEEN)
        top = max(bottoms) if n % 2 == 0 else top
        panel_defs, panel, bottom = _panel(answer, shared, left, top, column, head)
        defs += panel_defs
        body.append(panel)
        bottoms[n % 2] = bottom + GAP
    beside = len(answers) % 2 == 1 and len(answers) > 1
    left, room, top = (column + BETWEEN, column, bottoms[1]) if beside else (0.0, width, max(bottoms))
    foot_defs, foot, end = _foot(answers, shared, left, top, room)
    return picture(
        wide=width,
        high=max(end, *bottoms) + 0.5,
        title=f"Edge {edge}: {', '.join(answer.name for answer in answers)}",
        description=" ".join(_words(answers, shared)),
        defs=[*defs, *foot_defs],
        body=[*body, foot],
    )


def lesson(answers: list[Answer], edge: str, year_fraction: float, system: System) -> str:
    """Which floor is warm at the place that is watched and which is cold, in words."""
    place = watched_words(answers[0].sections[edge])
    ranked = sorted(answers, key=lambda answer: corner_temperature(answer, edge, year_fraction))
    said = [say.value(corner_temperature(answer, edge, year_fraction), "degC", system) for answer in ranked]
    if len(ranked) == 1 or said[0] == said[-1]:
        return f"{place.capitalize()} it is {said[-1]}."
    return f"Warmest {place}: {ranked[-1].name}, {said[-1]}. Coldest there: {ranked[0].name}, {said[0]}."


def _words(answers: list[Answer], shared: _Shared) -> list[str]:
    """What is read once: the lesson, the moment, what a lane carries."""
    said = [lesson(answers, shared.edge, shared.year_fraction, shared.system), shared.when]
    if shared.lanes:
        beyond = any(not shared.ways[answer.name].whole for answer in answers)
        said.append(shared.lanes.words)
        said += ["The floor goes on beyond the drawing, with more lanes."] if beyond else []
    return said


def _shared(answers: list[Answer], edge: str, year_fraction: float, system: System, when: str) -> _Shared:
    fields = [answer.fields[edge] for answer in answers]
    windows = [answer.sections[edge].window for answer in answers]
    limit = floor_limit(answers[0], edge, system)
    x0, x1, y0, y1 = zip(*windows, strict=True)
    return _Shared(
        edge,
        year_fraction,
        system,
        shared_scale(fields, year_fraction, system),
        shared_span(fields, year_fraction, system, limit),
        (min(x0), max(x1), min(y0), max(y1)),
        limit,
        when,
        None,
        {},
        {},
    )


def _panel(
    answer: Answer, shared: _Shared, left: float, top: float, wide: float, head: int
) -> tuple[tuple[str, ...], str, float]:
    """One alternative: name, what matters, drawing, floor line; and where it ends. [mm]"""
    section, field = answer.sections[shared.edge], answer.fields[shared.edge]
    corner = say.value(corner_temperature(answer, shared.edge, shared.year_fraction), "degC", shared.system)
    base = top + HEADING * CAPITAL + 1.0
    names = wrapped(answer.name, wide, HEADING, 600)
    body = [letters(left, base + n * 1.2 * HEADING, said, size=HEADING, weight=600) for n, said in enumerate(names)]
    base += (head - 3) * 1.2 * HEADING + 1.35 * LETTER
    place = "Under the slab's edge" if section.outdoors else "Corner"
    ways = shared.ways.get(answer.name)
    loses = shared.flows.get(answer.name) or loss_words(answer, shared.edge, shared.system)
    loses = f"{shared.lanes.told(ways)}." if shared.lanes and ways else loses
    facts = f"{place} {corner}. {loses}".strip()
    body.append(letters(left, base, cut_to(facts, wide)))
    room = wide - 2 * INSET
    frame = Frame(left + INSET, base + 2.0, shared.window, room / (shared.window[1] - shared.window[0]))
    below = frame.bottom + GAP
    frame = frame.within(section.window)
    marks = [
        room_name(section, frame, room_words(field, "room", shared.year_fraction, shared.system)),
        outdoors_name(
            section, frame, words_that_fit_outdoors(section, field, frame, shared.year_fraction, shared.system)
        ),
        corner_mark(section, frame, corner, *corner_verdict(answer, shared.edge)),
    ]
    taken = tuple(box for _, boxes in marks for box in boxes)
    prefix = identity(answer.name, shared.edge)
    lanes = lane_lines(ways, shared.lanes, frame) if shared.lanes and ways else []
    drawn = with_field(section, field, shared.year_fraction, shared.scale, frame, prefix, taken, lanes=lanes)
    body += [drawn.body, border(frame), *(text for text, _ in marks)]
    coldest = floor_words(answer, shared.edge, shared.year_fraction, shared.system)
    strip = Strip(frame, below, STRIP, frame.x(section.floor[1]))
    body.append(floor_line(field, shared.year_fraction, shared.span, strip, shared.limit, coldest))
    return drawn.defs, "".join(body), below + STRIP + 2.0


def _foot(answers: list[Answer], shared: _Shared, left: float, top: float, room: float) -> tuple[list[str], str, float]:
    """What is read once: the lesson, the moment, the legend, the materials, the scale bar; and where it ends. [mm]"""
    drawn, end = paragraph(" ".join(_words(answers, shared)), left, top + LETTER, room)
    row = end + GAP
    tints = legend(shared.scale, left + 0.4, row, room - 1.0)
    row += LEGEND_HIGH + GAP
    frost = frost_key(shared.scale, left + 0.4, row)
    row += FROST_HIGH if frost else 0.0
    rows = materials(answer.sections[shared.edge] for answer in answers)
    defs, swatches, high = key(rows, left + 0.4, row, room, identity("key", shared.edge))
    metre = (room if room < WIDE / 1.5 else (room - BETWEEN) / 2) / (shared.window[1] - shared.window[0])
    base = row + high + LETTER
    bar = scale_bar(left + room - 0.4, base, metre, shared.system)
    return defs, drawn + tints + frost + swatches + bar, base + 1.0
