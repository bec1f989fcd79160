"""Pictures of one section: with its temperatures at one moment, or plain for building."""

from __future__ import annotations

from zlib import crc32

from ..dossier import Answer
from ..measure import say
from ..measure.table import System
from ..sections.parts import Section
from .airs import bar_breadth, corner_mark, outdoors_name, room_name, room_words, scale_bar
from .facts import corner_temperature, corner_verdict, floor_limit, floor_words, loss_words, watched_words
from .floor_line import Strip, floor_line, shared_span
from .legend import FROST_WIDE, LEGEND_HIGH, frost_key, legend
from .lettering import CAPITAL, HEADING, LETTER, cut_to, wrapped
from .paper import FINE, Frame, letters, picture, stroke
from .scale import Scale
from .section import Drawn, bodies_alone, with_field, with_field_and_names
from .when import moment_words

WIDE = 170.0  # mm, a picture across a page
INSET = 0.3  # mm, so that the border keeps its breadth
HEAD = 8.5  # mm, the heading
STRIP = 19.0  # mm, the floor line
GAP = 4.0  # mm
LEADING = 1.25 * LETTER  # mm, from line to line


def section_picture(
    answer: Answer,
    edge: str,
    *,
    year_fraction: float,
    system: System,
    scale: Scale,
    width: float = WIDE,
    caption: str = "",
    named: bool = True,
) -> str:
    """One section with its temperatures at one moment of the year.

    Parameters
    ----------
    answer : Answer
        The alternative that is shown.
    edge : str
        Letter of the edge.
    year_fraction : float
        Moment of the year; ``month_middle(2)`` is the middle of February. [1]
    system : System
        "US" or "SI".
    scale : Scale
        The scale of everything that is shown beside it.
    width : float
        Breadth of the picture. [mm]
    caption : str
        A sentence below; the moment that is shown is always said after it.
    named : bool
        Whether materials and dimensions are written into the drawing; a small one has no room for them.

    Returns
    -------
    str
        An SVG document that stands alone.

    Raises
    ------
    KeyError
        The answer has no such edge.
    """
    section, field = answer.sections[edge], answer.fields[edge]
    frame = framed(section, INSET, HEAD, width - 2 * INSET)
    corner = corner_temperature(answer, edge, year_fraction)
    corner_said = say.value(corner, "degC", system)
    marks = [
        room_name(section, frame, room_words(field, "room", year_fraction, system)),
        outdoors_name(section, frame, room_words(field, "outdoors", year_fraction, system, section.beside)),
        corner_mark(section, frame, corner_said, *corner_verdict(answer, edge)),
    ]
    taken = tuple(box for _, boxes in marks for box in boxes)
    name = identity(answer.name, edge)
    draw = with_field_and_names if named else with_field
    drawn = draw(section, field, year_fraction, scale, frame, name, taken)
    limit = floor_limit(answer, edge, system)
    coldest = floor_words(answer, edge, year_fraction, system)
    span = shared_span([field], year_fraction, system, limit)
    strip = frame.bottom + GAP
    row = strip + STRIP + GAP
    below = row + LEGEND_HIGH + LETTER
    when = f"Temperatures in {moment_words(year_fraction)}, a year of mean weather."
    said = caption if moment_words(year_fraction) in caption else f"{caption} {when}".strip()
    title = f"Section {edge}, {answer.name}"
    foot, height = paragraph(said, 0.0, below, width)
    body = [
        heading(title, system, frame, width),
        drawn.body,
        border(frame),
        *(text for text, _ in marks),
        floor_line(field, year_fraction, span, Strip(frame, strip, STRIP, frame.x(section.floor[1])), limit, coldest),
        legend(scale, 0.4, row, width - FROST_WIDE),
        frost_key(scale, width - FROST_WIDE + 6.0, row),
        foot,
    ]
    described = (
        f"Cut through edge {edge}. {when} It is {corner_said} {watched_words(section)}. "
        f"{loss_words(answer, edge, system)} {caption}"
    )
    return picture(wide=width, high=height, title=title, description=described.strip(), defs=drawn.defs, body=body)


def plain_section(section: Section, system: System, *, width: float = WIDE, caption: str = "") -> str:
    """One section without temperatures: what is built, with names and dimensions.

    ``system`` is "US" or "SI" and sets the scale bar; ``width`` is in mm. Gives an SVG document that stands alone.
    """
    frame = framed(section, INSET, HEAD, width - 2 * INSET)
    marks = [room_name(section, frame, "room"), outdoors_name(section, frame, section.beside)]
    drawn: Drawn = bodies_alone(
        section, frame, identity(section.kind, section.edge), taken=tuple(box for _, boxes in marks for box in boxes)
    )
    title = f"Section {section.edge}"
    foot, height = paragraph(caption, 0.0, frame.bottom + LETTER + 2.0, width)
    body = [heading(title, system, frame, width), drawn.body, border(frame), *(text for text, _ in marks), foot]
    named = ", ".join(dict.fromkeys(part.label for part in section.parts))
    return picture(
        wide=width,
        high=height,
        title=title,
        description=f"Cut through edge {section.edge}, as it is built: {named}. {caption}".strip(),
        defs=drawn.defs,
        body=body,
    )


def framed(section: Section, left: float, top: float, wide: float) -> Frame:
    """The section's window at the true scale that fills this breadth. [mm]"""
    x0, x1, _, _ = section.window
    return Frame(left, top, section.window, wide / (x1 - x0))


def heading(words: str, system: System, frame: Frame, width: float) -> str:
    """The name of the drawing, and its scale bar at the right."""
    base = HEADING * CAPITAL + 1.0
    return letters(
        0.0, base, cut_to(words, width - bar_breadth(frame.scale, system) - 4.0, HEADING, 600), size=HEADING, weight=600
    ) + scale_bar(width - 0.4, base, frame.scale, system)


def border(frame: Frame) -> str:
    """The thin line around what is drawn."""
    return stroke(f"M{frame.left:.2f} {frame.top:.2f}h{frame.width:.2f}v{frame.height:.2f}h-{frame.width:.2f}z", FINE)


def paragraph(words: str, left: float, base: float, room: float) -> tuple[str, float]:
    """Words in lines from that base line on, and the height at which they end. [mm]"""
    lines = wrapped(words, room)
    drawn = "".join(letters(left, base + n * LEADING, said) for n, said in enumerate(lines))
    return drawn, base + max(len(lines) - 1, 0) * LEADING + 0.4 * LETTER


def identity(name: str, edge: str) -> str:
    """A word for the picture's own clips and patterns, so that two pictures on one page do not mix theirs."""
    return f"s{crc32(f'{edge} {name}'.encode()):08x}"
