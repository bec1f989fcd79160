"""What everything that is shown side by side has in common: windows, one scale, the range of the floor line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...dossier import Answer
from ...drawings.facts import floor_limit
from ...drawings.floor_line import Span, span_of_moments
from ...drawings.scale import Scale, scale_of_moments
from ...drawings.through_the_year import moments
from ...measure import System
from ...sections.parts import Section

BROAD = 2.0  # breadth of a window over its height: a sheet lies broad, and the floor goes on to the right
Window = tuple[float, float, float, float]  # x0, x1, y0, y1 in m


def broad(windows: Mapping[str, Window], sections: Sequence[Section]) -> dict[str, Window]:
    """The windows as broad as the desk shows them, as far as each of the sections was worked out."""
    wide = {}
    for letter, (x0, x1, y0, y1) in windows.items():
        ends = [section.extent[1] for section in sections if section.edge == letter]
        wide[letter] = x0, max(x1, min([x0 + BROAD * (y1 - y0), *ends])), y0, y1
    return wide


def scale_of(answers: Sequence[Answer], system: System) -> Scale:
    """One scale for every edge, version and month."""
    fields = [field for answer in answers for field in answer.fields.values()]
    return scale_of_moments(fields, [m.year_fraction for m in moments() if m.month], system)


def spans_of(answers: Sequence[Answer], system: System) -> dict[str, Span]:
    """The floor line's range for each edge, one for all versions and months."""
    year = [m.year_fraction for m in moments() if m.month]
    spans = {}
    for letter in dict.fromkeys(letter for answer in answers for letter in answer.fields):
        having = [answer for answer in answers if letter in answer.fields]
        limit = floor_limit(having[0], letter, system)
        spans[letter] = span_of_moments([answer.fields[letter] for answer in having], year, system, limit)
    return spans
