"""What pressure a loop takes at any flow, where the pump ends, and where it works on the coldest day."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ..checks.warm.seen import Heated, Pumped
from ..measure import say
from ..measure.table import System
from . import colours
from .heated_words import flow_in_words, flow_number, flow_unit, flow_words
from .lettering import CAPITAL, HEADING, LETTER
from .lettering import width as breadth
from .one_section import paragraph
from .paper import BOLD, FINE, HAIR, INK, letters, line, mm, path, picture, rectangle, stroke
from .ruled import CAP, ROW, Ruled, beside, decade, marks_across, marks_up, titled

TITLE = "Pressure of one loop, by the water that runs through it"
HIGH = 40.0  # mm, the curves
NAMES = 54.0  # mm at the right
MARKS = 15.0  # mm of that for the marks
BAND = 6.0  # mm, the kinds of flow above the curves
KINDS = ("in layers", "not sure", "in eddies")


def heated_flow(of: Heated, system: System, *, width: float) -> str:
    """The curve of one loop of a heated floor.

    Parameters
    ----------
    of : Heated
        A floor that water heats.
    system : str
        "US" or "SI", in which values are written.
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone. Where it is not sure how the water flows there are two curves, and dots
        between them; the greater one counts. The pump's pressure is a dashed line, the coldest day a ringed dot.
    """
    pumped = of.pumped
    assert pumped is not None
    drawn, high = flow_drawn(pumped, system, width=width)
    return picture(wide=width, high=high, title=TITLE, description=flow_in_words(pumped, system), defs=(), body=[drawn])


def flow_drawn(of: Pumped, system: System, *, width: float, name: str = "") -> tuple[str, float]:
    """What is drawn, and how high it is, for a page that has its own sheet [mm]; ``name`` is the version's."""
    base = HEADING * CAPITAL + 1.0
    top = base + 3.0 + BAND
    field = _field(of, system, top, width)
    losses, least, flows = (np.asarray(each, float) for each in (of.losses, of.least, of.flows))
    across = np.array([flow_number(flow, system) for flow in flows])
    upper, lower = (np.array([say.number(each, "kPa", system) for each in values]) for values in (losses, least))
    unit, most = say.name("kPa", system), say.number(of.most, "kPa", system)
    foot, high = paragraph(flow_in_words(of, system), 0.0, field.bottom + 3.0 * ROW, width)
    body = [
        letters(0.0, base, titled(TITLE, name), size=HEADING, weight=600),
        *_kinds(of, field, system),
        *marks_up(field, decade(0.0, field.up[1]), unit),
        *marks_across(field, f"{flow_unit(system)}, one loop"),
        _dots(field, across, lower, upper),
        line(field.left, field.y(most), field.right, field.y(most), FINE, extra=' stroke-dasharray="2.4 1.2"'),
        *_curves(of, field, across, lower, upper),
        *_working(of, field, system, across, upper),
        *_words(of, field, system, width),
        foot,
    ]
    return "".join(body), high + 1.0


def _field(of: Pumped, system: System, top: float, width: float) -> Ruled:
    reach = max(1.15 * of.most, 1.25 * of.loss)
    upper = decade(0.0, say.number(reach, "kPa", system))[-1]
    return Ruled(0.4, top, width - NAMES, HIGH, (0.0, flow_number(float(of.flows[-1]), system)), (0.0, upper))


def _kinds(of: Pumped, field: Ruled, system: System) -> Iterator[str]:
    """How the water flows, along the top: an upright where one kind ends and one where the other begins."""
    theme = colours.light()
    bounds = [field.left, *(field.x(flow_number(each, system)) for each in (of.layers_until, of.eddies_from))]
    bounds = [min(each, field.right) for each in (*bounds, field.right)]
    for at in bounds[1:-1]:
        if at < field.right:
            yield line(at, field.top - BAND + 1.0, at, field.bottom, FINE, colour=theme["frame"])
    for said, start, end in zip(KINDS, bounds, bounds[1:], strict=False):
        if end - start > breadth(said) + 1.0:
            yield letters((start + end) / 2.0, field.top - 2.0, said, anchor="middle", colour=theme["note"])


def _dots(field: Ruled, across: np.ndarray, lower: np.ndarray, upper: np.ndarray) -> str:
    """Dots between the two curves where both may be."""
    data = []
    apart = np.nonzero(upper > lower * (1.0 + 1e-6))[0]
    if not len(apart):
        return ""
    start, end = field.x(float(across[apart[0]])), min(field.x(float(across[apart[-1]])), field.right)
    for n, x in enumerate(np.arange(start + 0.6, end, 1.2)):
        value = field.across[0] + (x - field.left) / field.wide * (field.across[1] - field.across[0])
        high, low = (float(np.interp(value, across, each)) for each in (upper, lower))
        for y in np.arange(field.y(min(high, field.up[1])) + 0.7 + 0.6 * (n % 2), field.y(low) - 0.4, 1.2):
            data.append(f"M{mm(x)} {mm(y)}h0")
    return f'<path d="{"".join(data)}" stroke="{INK}" stroke-width=".35" stroke-linecap="round"/>'


def _curves(of: Pumped, field: Ruled, across: np.ndarray, lower: np.ndarray, upper: np.ndarray) -> Iterator[str]:
    """The curve that counts, bold, in its three parts: it steps up where eddies may begin; the other one fine."""
    parts = (of.flows <= of.layers_until, (of.flows > of.layers_until) & (of.flows < of.eddies_from))
    for part in (*parts, of.flows >= of.eddies_from):
        yield stroke(path(field.points(across[part], upper[part]), closed=False), BOLD)
    unsure = (of.flows >= of.layers_until) & (of.flows < of.eddies_from)  # from where the two part
    yield stroke(path(field.points(across[unsure], lower[unsure]), closed=False), FINE)


def _working(of: Pumped, field: Ruled, system: System, across: np.ndarray, upper: np.ndarray) -> Iterator[str]:
    """The coldest day: a ringed dot, its flow and pressure as hairlines to both rules."""
    x, y = field.x(flow_number(of.flow, system)), field.y(say.number(of.loss, "kPa", system))
    theme = colours.light()
    yield line(x, y, x, field.bottom, HAIR, extra=' stroke-dasharray="0.6 0.9"')
    yield f'<circle cx="{mm(x)}" cy="{mm(y)}" r="2" fill="{theme["leaf"]}" stroke="{INK}" stroke-width="{BOLD:g}"/>'
    yield f'<circle cx="{mm(x)}" cy="{mm(y)}" r="0.8" fill="{INK}"/>'
    said = f"coldest day {flow_words(of.flow, system)}, {say.value(of.loss, 'kPa', system)}"
    room = breadth(said, LETTER, 600)
    left, base = x - 3.0 - room, max(y - 2.4, field.top + CAP + 0.5)
    if left < field.left + 1.0:  # at the right it keeps off the curve, which rises there
        left = x + 3.4
        end = field.across[0] + (left + room - field.left) / field.wide * (field.across[1] - field.across[0])
        over = field.y(float(np.interp(end, across, upper))) - 1.6
        base = over if over > field.top + CAP + 0.5 else min(y + CAP + 3.0, field.bottom - 1.0)
    yield rectangle(left - 0.5, base - CAP - 0.4, room + 1.0, CAP + 0.9, theme["leaf"])
    yield letters(left, base, said, weight=600)


def _words(of: Pumped, field: Ruled, system: System, width: float) -> Iterator[str]:
    """Right of the curves: the pump's pressure."""
    left = field.right + MARKS
    y = field.y(say.number(of.most, "kPa", system))
    said = f"{say.value(of.most, 'kPa', system)}, the pump's"
    yield from beside([(y, said, 600)], left, width - left, (field.top - ROW, field.bottom), field.right + MARKS - 2.0)
