"""The year as one picture that turns by itself: twelve months of every alternative, drawn over one another."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ..dossier import Dossier
from .legend import FROST_HIGH, LEGEND_HIGH, frost_key, key, legend, materials
from .lettering import CAPITAL, HEADING, LETTER, cut_to, wrapped
from .one_section import GAP, LEADING, identity
from .paper import HEAVY, letters, line, mm, picture
from .scale import Scale
from .section import clipped
from .through_the_year import PANEL, Compared, Layers, Through, through_the_year, year_scale
from .when import MONTHS

BETWEEN = 6.0  # mm between two drawings
WIDE = 2 * PANEL + BETWEEN
STAYS = 1.5  # s, a month
LETTERS_APART = 5.2  # mm, on the strip of months
HIDDEN = ' visibility="hidden"'  # for viewers that know no animation
UNDER = 1.5  # mm below a letter, the line that says which month it is


def turning_year(dossier: Dossier, edge: str, *, first: int) -> str:
    """The section of every alternative at one edge, month after month, with the floor line below each.

    It turns without any script. Where it cannot turn, is printed, or the reader asked for less motion, it stands still
    in the month that is named first; pointing at it holds the month.

    Parameters
    ----------
    dossier : Dossier
        All its alternatives that have this edge are shown, on one scale for the whole year.
    edge : str
        Letter of the edge.
    first : int
        The month that it begins with and that stays where nothing turns: the coldest. 1 to 12. [1]

    Returns
    -------
    str
        An SVG document that stands alone.

    Raises
    ------
    KeyError
        No alternative has such an edge.
    """
    scale = year_scale(dossier)
    shown = through_the_year(dossier, edge, scale)
    head = HEADING * CAPITAL + 2 * UNDER + 2.0
    names = [wrapped(answer.name, PANEL, HEADING, 600) for answer in shown.answers]
    named = max(len(lines) for lines in names) * 1.2 * HEADING + 1.0
    body = [_strip(edge, first)]
    defs: list[str] = [_style(first)]
    for n, (through, lines) in enumerate(zip(shown.sections, names, strict=True)):
        left, top = _seat(n, head, named + shown.high + GAP)
        defs += through.lasting.defs
        title = "".join(
            letters(0.0, (k + 0.8) * 1.2 * HEADING, said, size=HEADING, weight=600) for k, said in enumerate(lines)
        )
        drawn = f'<g transform="translate(0 {mm(named)})">{_panel(through, first)}</g>'
        body.append(f'<g transform="translate({mm(left)} {mm(top)})">{title}{drawn}</g>')
    beside = len(shown.answers) % 2 == 1 and len(shown.answers) > 1
    left, top = _seat(len(shown.answers), head, named + shown.high + GAP)
    room = PANEL if beside else WIDE
    foot_defs, foot, end = _foot(shown, edge, scale, (left, top + (named if beside else 0.0), room), first)
    below = _seat(len(shown.answers) + (len(shown.answers) % 2), head, named + shown.high + GAP)[1]
    return picture(
        wide=WIDE,
        high=max(end, below),
        title=f"Edge {edge} through the year: {', '.join(answer.name for answer in shown.answers)}",
        description=f"Temperatures month by month, a year of mean weather. In {MONTHS[first - 1]}: "
        f"{shown.lessons[first - 1]}",
        defs=[*defs, *foot_defs],
        body=[*body, foot],
    )


def _seat(n: int, head: float, high: float) -> tuple[float, float]:
    """Where the nth drawing begins, two in a row. [mm]"""
    return (n % 2) * (PANEL + BETWEEN), head + (n // 2) * high


def _style(first: int) -> str:
    """How the months follow each other. Only what may move moves."""
    delays = "".join(f".m{month}{{animation-delay:{mm((month - first) % 12 * STAYS)}s}}" for month in range(1, 13))
    return (
        "<style>@keyframes month{0%{visibility:visible}8.3333%,to{visibility:hidden}}"
        "@media screen and (prefers-reduced-motion:no-preference){"
        f".m{{animation:month {12 * STAYS:g}s step-end infinite}}"
        f"{delays}svg:hover .m{{animation-play-state:paused}}}}</style>"
    )


def _turning(pieces: Iterable[str], first: int) -> str:
    """One piece for each month, of which one is seen at a time."""
    return "".join(
        f'<g class="m m{month}"{"" if month == first else HIDDEN}>{piece}</g>' for month, piece in enumerate(pieces, 1)
    )


def _strip(edge: str, first: int) -> str:
    """The name of the picture, the month that is shown, and the twelve letters with a line under one of them."""
    base = HEADING * CAPITAL + 1.0
    start = WIDE - 11.5 * LETTERS_APART
    still = "".join(letters(start + n * LETTERS_APART, base, name[0], anchor="middle") for n, name in enumerate(MONTHS))

    def now(n: int) -> str:
        x = start + n * LETTERS_APART
        under = line(x - 1.6, base + UNDER, x + 1.6, base + UNDER, HEAVY)
        return letters(PANEL + BETWEEN, base, MONTHS[n], size=HEADING, weight=600) + under

    name = letters(0.0, base, cut_to(f"Edge {edge} through the year", PANEL, HEADING, 600), size=HEADING, weight=600)
    return name + still + _turning((now(n) for n in range(12)), first)


def _panel(through: Through, first: int) -> str:
    """One section and its floor line, its months over one another, each piece at its own depth."""
    months: Sequence[Layers] = through.layers[:12]
    prefix, same = through.prefix, through.lasting
    tints = _turning((clipped(layers.tints, prefix) for layers in months), first)
    lines = _turning((clipped(layers.lines, prefix) for layers in months), first)
    words = _turning((layers.values + layers.marks + layers.floor for layers in months), first)
    drawn = f'<g clip-path="url(#{prefix}-window)">{same.room}{tints}{same.hatches}{lines}{same.outlines}</g>'
    return drawn + words + through.border + through.bar


def _foot(
    shown: Compared, edge: str, scale: Scale, place: tuple[float, float, float], first: int
) -> tuple[list[str], str, float]:
    """The lesson of each month, and what is read once: the legend and the materials; and where it ends. [mm]

    ``place`` is left, top and the room. [mm]
    """
    left, top, room = place
    told = [wrapped(lesson, room) for lesson in shown.lessons[:12]]
    lessons = _turning(
        ("".join(letters(left, top + LETTER + k * LEADING, said) for k, said in enumerate(lines)) for lines in told),
        first,
    )
    row = top + LETTER + max(len(lines) for lines in told) * LEADING
    drawn = lessons + legend(scale, left + 0.4, row, room - 1.0)
    row += LEGEND_HIGH + GAP
    frost = frost_key(scale, left + 0.4, row)
    row += FROST_HIGH if frost else 0.0
    rows = materials(answer.sections[edge] for answer in shown.answers)
    defs, swatches, high = key(rows, left + 0.4, row, room, identity("key", edge))
    said = "Temperatures in a year of mean weather. Point at the picture to hold a month."
    below = wrapped(said, room)
    base = row + high + LETTER
    words = "".join(letters(left, base + k * LEADING, part) for k, part in enumerate(below))
    return defs, drawn + frost + swatches + words, base + (len(below) - 1) * LEADING + 1.5
