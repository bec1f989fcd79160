"""Frost at one edge: the section with the 0 °C line at its deepest, and beside it the front through the winter."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from ..checks.frozen import Wintered
from ..dossier import Answer
from ..measure.table import System
from .airs import bar_breadth, scale_bar
from .frost_front import Span, front_drawn, span_of
from .frost_words import OPEN_GROUND, PLACES, STAGES, depth_words, frost_in_words, stop_words, worst_place, worst_winter
from .legend import FROST_HIGH, LEGEND_HIGH, frost_key, legend
from .lettering import CAPITAL, HEADING, LETTER, cut_to
from .one_section import INSET, border, framed, identity, paragraph
from .paper import letters, picture
from .scale import Scale, scale_of_range
from .section import with_sheet_field
from .sheet_field import laid

BETWEEN = 7.0  # mm
SHARE = 0.46  # of the breadth, for the section
GAP = 4.0  # mm
BELOW = (0.2, 1.6)  # m that is shown below the frost of open ground, and how deep that is followed at most
SAID = (
    "Left: the frost line when it is deepest in the worst stage. Right: how deep it lies day by day, in a winter of "
    "the index that is reckoned with; a dot where a stage of the works begins."
)


def has_frost(answers: Sequence[Answer], edge: str) -> list[Answer]:
    """Those of the alternatives whose edge was taken through a winter."""
    return [answer for answer in answers if any(each.edge == edge for each in answer.wintered)]


def frost_winter(answers: Sequence[Answer], edge: str, system: System, *, width: float) -> str:
    """One edge through its winters, each alternative below the one before, on one scale.

    Parameters
    ----------
    answers : sequence of Answer
        Those that are drawn; at least one of them was taken through a winter at this edge.
    edge : str
        Letter of the edge.
    system : str
        "US" or "SI".
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone.

    Raises
    ------
    KeyError
        No winter is told of this edge.
    """
    body, defs, high = frost_drawn(answers, edge, system, width=width)
    title = f"Frost at edge {edge}"
    shown = has_frost(answers, edge)
    said = " ".join(f"{a.name[:1].upper()}{a.name[1:]}. {frost_in_words(_of(a, edge), system)}" for a in shown)
    return picture(wide=width, high=high, title=title, description=said, defs=defs, body=[body])


def frost_drawn(
    answers: Sequence[Answer], edge: str, system: System, *, width: float
) -> tuple[str, tuple[str, ...], float]:
    """What is drawn, what it needs in the defs, and how high it is. [mm]"""
    shown = {answer.name: _of(answer, edge) for answer in has_frost(answers, edge)}
    if not shown:
        raise KeyError(edge)
    places = {name: worst_place(winters) for name, winters in shown.items()}
    place = places[next(iter(shown))]
    scale = _scale(shown, place, answers, edge, system)
    span = span_of([each for winters in shown.values() for each in winters], place)
    base = HEADING * CAPITAL + 1.0
    title = f"Frost at edge {edge}, at {PLACES[place]}"
    room = width * SHARE
    body: list[str] = []
    defs: list[str] = []
    top = base + 3.0
    bar = 0.0
    for answer in answers:
        if answer.name not in shown:
            continue
        drawn, needs, end, bar = _row(answer, shown[answer.name], place, scale, (top, room, width), span, system)
        body.append(drawn)
        defs += needs
        top = end + GAP
    head = letters(
        0.0, base, cut_to(title, width - bar_breadth(bar, system) - 4.0, HEADING, 600), size=HEADING, weight=600
    )
    stop = next(iter(shown.values()))[0].reaches[place].stop
    limit = f" Long dashes and notch: {stop_words(place, stop, system)}." if stop > 0.0 else ""
    tints = legend(scale, INSET, top, room - 2 * INSET)
    key = frost_key(scale, INSET, top + LEGEND_HIGH + 2.0)
    foot, high = paragraph(f"{SAID}{limit}", room + BETWEEN, top + 2.4, width - room - BETWEEN)
    body += [head, scale_bar(width - 0.4, base, bar, system), tints, key, foot]
    return "".join(body), tuple(defs), max(high, top + LEGEND_HIGH + 2.0 + (FROST_HIGH if key else 0.0)) + 0.5


def _of(answer: Answer, edge: str) -> list[Wintered]:
    return [each for each in answer.wintered if each.edge == edge]


def _window(answer: Answer, edge: str) -> tuple[float, float, float, float]:
    """What is seen of the section, down to below the frost of open ground."""
    section = answer.sections[edge]
    x0, x1, y0, y1 = section.window
    below, most = BELOW
    deep = max(each.reaches[OPEN_GROUND].deepest for each in _of(answer, edge))
    return x0, x1, max(min(y0, section.ground_level - min(deep, most) - below), section.extent[2]), y1


def _scale(
    shown: Mapping[str, list[Wintered]], place: str, answers: Sequence[Answer], edge: str, system: System
) -> Scale:
    """From the coldest to the warmest that the windows of all show."""
    low, high = [0.0], [0.0]
    windows = {answer.name: _window(answer, edge) for answer in answers if answer.name in shown}
    for name, winters in shown.items():
        each = worst_winter(winters, place)
        x0, x1, y0, y1 = windows[name]
        seen = each.field[np.ix_((each.y >= y0) & (each.y <= y1), (each.x >= x0) & (each.x <= x1))]
        low.append(float(np.nanmin(seen)))
        high.append(float(np.nanmax(seen)))
    return scale_of_range(min(low), max(high), system)


def _row(
    answer: Answer,
    winters: list[Wintered],
    place: str,
    scale: Scale,
    box: tuple[float, float, float],
    span: Span,
    system: System,
) -> tuple[str, tuple[str, ...], float, float]:
    """One alternative: its section and its front; what it needs, where it ends, and the drawing's scale. [mm]"""
    top, room, width = box
    edge = winters[0].edge
    worst = worst_winter(winters, place)
    depth = depth_words(worst.reaches[place].deepest, system)
    base = top + LETTER
    name = f"{answer.name[:1].upper()}{answer.name[1:]}"
    body = [letters(0.0, base, cut_to(name, room, LETTER, 600), weight=600)]
    told = f"{STAGES[worst.stage]}: {depth}" if depth != "none" else "no frost comes there in any stage"
    body.append(letters(0.0, base + 1.25 * LETTER, cut_to(told, room)))
    section = replace(answer.sections[edge], window=_window(answer, edge))
    frame = framed(section, INSET, base + 1.25 * LETTER + 2.0, room - 2 * INSET)
    sheet = laid(worst.x, worst.y, worst.field, frame)
    drawn = with_sheet_field(section, sheet, scale, frame, identity(f"frost {answer.name}", edge))
    body += [drawn.body, border(frame)]
    front, end = front_drawn(winters, place, span, (room + BETWEEN, base + 2.4, width - room - BETWEEN), system)
    body.append(front)
    return "".join(body), drawn.defs, max(frame.bottom, end), frame.scale
