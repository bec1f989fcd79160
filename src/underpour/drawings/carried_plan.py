"""A load on the slab seen from above: how far the floor goes down around it, and what the foam below feels."""

from __future__ import annotations

from math import ceil

import numpy as np
from numpy.typing import NDArray

from ..checks.bearing import Around, Borne
from ..measure import say
from ..measure.table import System
from . import colours
from .airs import bar_breadth, scale_bar
from .carried_field import (
    KEY,
    Panel,
    box_of,
    clip,
    contours,
    corners_of,
    free_edge,
    ringed,
    samples,
    stipple,
    titled,
)
from .carried_words import plan_in_words, worst_place
from .lettering import CAPITAL, HEADING, LETTER, cut_to, wrapped
from .paper import BOLD, HAIR, INK, Frame, letters, picture, stroke
from .sheet_field import SheetField

BETWEEN = 5.0  # mm from one plan to the other
HIGHEST = 62.0  # mm, one plan
FINE_STEP = 0.8  # mm, of the grid that is drawn
ROW = LETTER * 1.25  # mm
NOTE = "Lines of equal value; the worst place ringed; denser dots press harder."


def carried_plan(borne: Borne, system: System, *, width: float) -> str:
    """Settlement and pressure on the foam around one load, beside each other.

    Parameters
    ----------
    borne : Borne
        A load that has been worked out.
    system : str
        "US" or "SI", in which values are written.
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone. Settlement as contours; pressure as dots, denser is more, with contours of
        its own and the worst place ringed. The free edge of the slab is a heavy line.
    """
    around = borne.around
    assert around is not None
    window = _window(around)
    wide, stacked = _breadth(window, width)
    scale = min(wide / (window[1] - window[0]), HIGHEST / (window[3] - window[2]))
    head = _head(borne, width)
    top = len(head) * ROW + HEADING * CAPITAL + 3.0 + ROW + 1.6
    first = Frame(0.4, top, window, scale)
    second = Frame(first.left, first.bottom + ROW + 4.0, window, scale) if stacked else _beside(first, wide)
    down = Panel(first, _laid(around.soft.settlement * 1000.0, around, first, "mm", system), "mm")
    foam = Panel(second, _laid(around.stiff.pressure / 1000.0, around, second, "kPa", system), "kPa")
    base, bar = HEADING * CAPITAL + 1.0, bar_breadth(scale, system)
    body = [
        letters(
            0.0,
            base,
            cut_to(f"Load {borne.number} seen from above", width - bar - 4.0, HEADING, 600),
            size=HEADING,
            weight=600,
        ),
        scale_bar(width - 0.4, base, scale, system),
        *(letters(0.0, base + 2.0 + (n + 1) * ROW, said) for n, said in enumerate(head)),
        *_down(down, around, system),
        *_on_foam(foam, borne, around, system),
    ]
    foot = second.bottom + 4.0
    body += _key(around, system, foot, width - 0.8, limit=_limit(borne, foam, system))
    return picture(
        wide=width,
        high=foot + KEY[1] + 2.0 * ROW + 1.6,
        title=f"Load {borne.number} seen from above",
        description=plan_in_words(borne, system),
        defs=[clip("down", first), clip("foam", second)],
        body=body,
    )


def _head(borne: Borne, room: float) -> list[str]:
    where = f", {borne.where}" if borne.where else ""
    return wrapped(f"{borne.words}{where}.", room)


def _window(around: Around) -> tuple[float, float, float, float]:
    """What is shown: where the field is known. [m]"""
    x, y = around.stiff.x.astype(float), around.stiff.y.astype(float)
    soft_x, soft_y = around.soft.x.astype(float), around.soft.y.astype(float)
    # the stiffer bed has the smaller field; the softer one is cut to it
    return (
        float(max(x[0], soft_x[0])),
        float(min(x[-1], soft_x[-1])),
        float(max(y[0], soft_y[0])),
        float(min(y[-1], soft_y[-1])),
    )


def _breadth(window: tuple[float, float, float, float], width: float) -> tuple[float, bool]:
    """Breadth of one plan, and whether the two stand below each other: whichever draws them larger. [mm]"""
    across, up = window[1] - window[0], window[3] - window[2]
    half = (width - BETWEEN) / 2.0 - 0.4
    beside, below = min(half / across, HIGHEST / up), min((width - 0.8) / across, HIGHEST / up)
    return (width - 0.8, True) if below > 1.6 * beside else (half, False)


def _beside(first: Frame, wide: float) -> Frame:
    return Frame(first.left + max(wide, first.width) + BETWEEN, first.top, first.window, first.scale)


def _laid(values: NDArray[np.float32], around: Around, frame: Frame, unit: str, system: System) -> SheetField:
    """A field on fine lines of the sheet, in the reader's unit; smooth between its own lines."""
    field = around.soft if unit == "mm" else around.stiff
    x = np.linspace(frame.left, frame.right, ceil(frame.width / FINE_STEP) + 1)
    y = np.linspace(frame.top, frame.bottom, ceil(frame.height / FINE_STEP) + 1)
    across, up = frame.metres(x, y)
    return SheetField(x, y, say.number(1.0, unit, system) * field.between(values, across, up[::-1])[::-1])


def _down(panel: Panel, around: Around, system: System) -> list[str]:
    largest = say.value(1000.0 * around.settlement, "mm", system)
    taken = [box_of(ring, panel.frame) for ring in around.patches]
    return [
        titled(panel.frame, f"How far the floor goes down: up to {largest}"),
        f'<g clip-path="url(#down)">{"".join(contours(panel, taken))}</g>',
        *_marks(around, panel.frame),
    ]


def _on_foam(panel: Panel, borne: Borne, around: Around, system: System) -> list[str]:
    row, column = worst_place(around.stiff.pressure)
    x = float(panel.frame.x(float(around.stiff.x[column])))
    y = float(panel.frame.y(float(around.stiff.y[row])))
    what = "the foam" if any(share.part == "foam" for share in borne.alone) else "the ground"
    taken = [box_of(ring, panel.frame) for ring in around.patches]
    said = say.value(around.pressure / 1000.0, "kPa", system)
    ring, box = ringed(x, y, said, panel.frame)
    taken.append(box)
    dots = stipple(panel)
    lined = contours(panel, taken, _limit(borne, panel, system))
    return [
        titled(panel.frame, f"What {what} below feels: up to {said}"),
        f'<g clip-path="url(#foam)">{dots}{"".join(lined)}</g>',
        *_marks(around, panel.frame),
        ring,
    ]


def _limit(borne: Borne, panel: Panel, system: System) -> float | None:
    """What the foam bears in the reader's unit, where the picture has a place that feels as much."""
    foam = next((share for share in borne.alone if share.part == "foam"), None)
    if foam is None:
        return None
    bears = say.number(foam.bears / 1000.0, "kPa", system)
    return bears if bears < float(np.nanmax(panel.field.degrees)) else None


def _marks(around: Around, frame: Frame) -> list[str]:
    """Each patch of load as it presses, and the slab's free edge."""
    leaf = colours.light()["leaf"]
    drawn = [
        f'<path d="{frame.path(ring, closed=True)}" fill="{leaf}" fill-opacity="0.55" stroke="{INK}" '
        f'stroke-width="{BOLD:g}"/>'
        for ring in around.patches
    ]
    drawn.append(stroke(frame.path(corners_of(frame), closed=True), HAIR, colour=colours.light()["rule"]))
    return drawn + [free_edge(ring, frame) for ring in around.edges]


def _key(around: Around, system: System, top: float, room: float, *, limit: float | None) -> list[str]:
    """How dense the dots are for what pressure, and what the lines mean."""
    drawn = list(samples(around.pressure / 1000.0, system, top))
    heavy = ["the slab's free edge"] if around.edges else []
    if limit is not None:
        heavy.append(f"what the foam bears: {limit:.3g} {say.name('kPa', system)}, exceeded here")
    note = f"{NOTE} Heavy: {', and '.join(heavy)}." if heavy else NOTE
    drawn += [
        letters(0.4, top + KEY[1] + (n + 1) * ROW, said, colour=colours.light()["note"])
        for n, said in enumerate(wrapped(note, room))
    ]
    return drawn
