"""Sections of all alternatives at one edge, month by month: what stays on the sheet and what each moment draws anew."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..dossier import Answer, Dossier
from ..measure import say
from ..measure.table import System
from .airs import corner_mark, outdoors_name, room_name, room_words, scale_bar, words_that_fit_outdoors
from .compare import lesson
from .facts import corner_temperature, corner_verdict, floor_limit, floor_words, freezing_words, stilled
from .floor_line import Limit, Span, Strip, floor_line, span_of_moments
from .lettering import LETTER
from .one_section import GAP, INSET, border, identity
from .paper import Frame
from .scale import Scale, month_middle, scale_of_moments
from .section import Lasting, lasting, temperatures
from .when import MONTHS

PANEL = 86.0  # mm, one section: its letters come out 14 px high on the narrowest screen
STRIP = 17.0  # mm, the floor line
Window = tuple[float, float, float, float]  # x0, x1, y0, y1 in m


@dataclass(frozen=True, slots=True)
class Moment:
    """A moment that can be shown: the middle of a month, or the mean of the year."""

    month: int | None  # 1 to 12; None for the mean of the year
    letter: str  # on the month strip: "J"; empty for the mean
    name: str  # "January", "mean of the year"
    words: str  # "in the middle of January"
    cosine: float  # a temperature is mean + cosine * swing.real - sine * swing.imag
    sine: float

    @property
    def year_fraction(self) -> float:
        return month_middle(self.month) if self.month else 0.0


@dataclass(frozen=True, slots=True)
class Layers:
    """What one moment draws into a section, each piece at its own depth."""

    tints: str  # clipped to the bodies, below the hatches
    lines: str  # clipped to the bodies, over the hatches
    values: str  # set into gaps of the lines
    marks: str  # room, outdoors and the corner, named in the air
    floor: str  # the floor line below the section


@dataclass(frozen=True, slots=True)
class Through:
    """One section through the year."""

    prefix: str  # of its clips: ``prefix``-solid for bodies, ``prefix``-window for the whole
    frame: Frame  # of this section; its window is what was worked out
    lasting: Lasting
    border: str
    bar: str  # the scale bar, below the floor line
    layers: tuple[Layers, ...]  # one a moment


@dataclass(frozen=True, slots=True)
class Compared:
    """All alternatives that have one edge, through the year, at one place on sheets of one size."""

    wide: float  # mm
    high: float  # mm
    window: Window
    answers: tuple[Answer, ...]
    sections: tuple[Through, ...]  # as ``answers``
    lessons: tuple[str, ...]  # one a moment: which corner is warm and which is cold


def moments() -> tuple[Moment, ...]:
    """The twelve months, then the mean of the year.

    >>> [moment.letter for moment in moments()][:3], moments()[12].words
    (['J', 'F', 'M'], 'in the mean of the year')
    """
    turns = [2 * np.pi * month_middle(month) for month in range(1, 13)]
    months = [
        Moment(n, name[0], name, f"in the middle of {name}", float(np.cos(turn)), float(np.sin(turn)))
        for n, (name, turn) in enumerate(zip(MONTHS, turns, strict=True), 1)
    ]
    return (*months, Moment(None, "", "mean of the year", "in the mean of the year", 0.0, 0.0))


def year_scale(dossier: Dossier) -> Scale:
    """The one scale of every edge, alternative and moment of a dossier."""
    fields = [field for answer in dossier.alternatives for field in answer.fields.values()]
    return scale_of_moments(fields, [m.year_fraction for m in moments() if m.month], dossier.units)


def through_the_year(dossier: Dossier, edge: str, scale: Scale) -> Compared:
    """Every alternative at one edge, at all moments, on the scale that is handed in.

    Raises
    ------
    KeyError
        No alternative has such an edge.
    """
    answers = tuple(answer for answer in dossier.alternatives if edge in answer.fields)
    if not answers:
        raise KeyError(edge)
    system, shown = dossier.units, moments()
    fields = [answer.fields[edge] for answer in answers]
    limit = floor_limit(answers[0], edge, system)
    span = span_of_moments(fields, [m.year_fraction for m in shown if m.month], system, limit)
    x0, x1, y0, y1 = zip(*(answer.sections[edge].window for answer in answers), strict=True)
    window = min(x0), max(x1), min(y0), max(y1)
    whole = Frame(INSET, INSET, window, (PANEL - 2 * INSET) / (window[1] - window[0]))
    high = whole.bottom + GAP + STRIP + GAP + LETTER
    calm = [stilled(answer, edge) for answer in answers]
    return Compared(
        wide=PANEL,
        high=high,
        window=window,
        answers=answers,
        sections=tuple(_through(answer, edge, whole, scale, span, limit, shown) for answer in answers),
        lessons=tuple(lesson(list(answers) if m.month else calm, edge, m.year_fraction, system) for m in shown),
    )


def _through(
    answer: Answer, edge: str, whole: Frame, scale: Scale, span: Span, limit: Limit | None, shown: Sequence[Moment]
) -> Through:
    section = answer.sections[edge]
    frame = whole.within(section.window)
    prefix = identity(answer.name, edge)
    strip = Strip(frame, whole.bottom + GAP, STRIP, frame.x(section.floor[1]))
    still = stilled(answer, edge)
    return Through(
        prefix=prefix,
        frame=frame,
        lasting=lasting(section, frame, prefix),
        border=border(frame),
        bar=scale_bar(whole.right - INSET, strip.top + STRIP + GAP + LETTER, whole.scale, scale.system),
        layers=tuple(
            _layers(answer if moment.month else still, edge, moment, frame, strip, scale, span, limit)
            for moment in shown
        ),
    )


def _layers(
    answer: Answer,
    edge: str,
    moment: Moment,
    frame: Frame,
    strip: Strip,
    scale: Scale,
    span: Span,
    limit: Limit | None,
) -> Layers:
    section, field, when, system = answer.sections[edge], answer.fields[edge], moment.year_fraction, scale.system
    marks = [
        room_name(section, frame, room_words(field, "room", when, system)),
        outdoors_name(section, frame, words_that_fit_outdoors(section, field, frame, when, system)),
        corner_mark(section, frame, *_corner(answer, edge, moment, system)),
    ]
    taken = tuple(box for _, boxes in marks for box in boxes)
    drawn = temperatures(section, field, when, scale, frame, taken)
    coldest = floor_words(answer, edge, when, system)
    return Layers(
        tints=drawn.tints,
        lines=drawn.lines,
        values=drawn.values,
        marks="".join(words for words, _ in marks),
        floor=floor_line(field, when, span, strip, limit, coldest),
    )


def _corner(answer: Answer, edge: str, moment: Moment, system: System) -> tuple[str, str, str]:
    """The corner's temperature, and in the month that decides it what falls short there, with the colour for it.

    Outdoors each moment says for itself whether it freezes: alternatives differ in the month that decides.
    """
    corner = corner_temperature(answer, edge, moment.year_fraction)
    said = say.value(corner, "degC", system)
    if answer.sections[edge].outdoors:
        return said, *freezing_words(corner)
    of_now = tuple(finding for finding in answer.findings if finding.month == moment.month)
    return said, *corner_verdict(replace(answer, findings=of_now), edge)
