"""All that stands on the plan seen from above: settlement, pressure on the foam, each load with what governs it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import ceil

import numpy as np
from numpy.typing import NDArray

from ..checks.bearing import Borne, Placed, Share, WholeFloor
from ..measure import say
from ..measure.table import System
from ..physics.plates.slab import Ring
from ..physics.plates.spread_out import SlabField
from . import colours
from .airs import bar_breadth, scale_bar
from .carried_field import KEY, LINES, Panel, box_of, clip, contours, ringed, samples, stipple, titled
from .carried_shares import BAR, LEAST, MOST, PITCH, bar, hatches
from .carried_words import floor_in_words, percent_used, worst_of_each, worst_place
from .lettering import CAPITAL, HEADING, LETTER, cut_to, wrapped
from .lettering import width as lettering
from .levels import levels, written
from .paper import BOLD, FINE, HAIR, HEAVY, INK, LINE, Box, Frame, letters, line, mm, picture, stroke
from .sheet_field import SheetField

TITLE = "All loads seen from above"
BETWEEN = 5.0  # mm from one plan to the other
HIGHEST = 66.0  # mm, one plan
FINE_STEP = 0.8  # mm, of the grid that is drawn
ROW = LETTER * 1.25  # mm
LEAST_MARK = 1.3  # mm, a load is drawn no smaller
OF_MANY = (60, 0.6)  # where so many stand, no smaller than that
NAMES, VALUES = 46.0, 62.0  # mm, before and behind the bars
MOST_BARS = 14  # loads with a bar; of more the worst
NOTE = (
    "Lines of equal value; the worst place ringed; denser dots press harder. Beside each load: its number, and how "
    "much is used of what governs it."
)


def carried_floor(floor: WholeFloor, loads: Sequence[Borne], system: System, *, width: float) -> str:
    """Settlement and pressure over the whole floor, and below them a bar for each load: what governs it.

    Parameters
    ----------
    floor : WholeFloor
        What is felt over the floor.
    loads : sequence of Borne
        Every load of the brief, for the bars.
    system : str
        "US" or "SI", in which values are written.
    width : float
        Breadth of the picture. [mm]

    Returns
    -------
    str
        An SVG document that stands alone. Each load is drawn where it stands, numbered, with the share of its limit
        that governs it; a bar past the notch has used up more than there is.
    """
    window = _window(floor)
    wide, stacked = _breadth(window, width)
    scale = min(wide / (window[1] - window[0]), HIGHEST / (window[3] - window[2]))
    head = wrapped(f"{floor.words}.", width)
    top = len(head) * ROW + HEADING * CAPITAL + 3.0 + ROW + 1.6
    first = Frame(0.4, top, window, scale)
    aside = Frame(first.left + max(wide, first.width) + BETWEEN, first.top, window, scale)
    second = Frame(first.left, first.bottom + ROW + 4.0, window, scale) if stacked else aside
    down = Panel(first, _laid(floor.soft, floor.soft.settlement * 1000.0, first, "mm", system), "mm")
    below = Panel(second, _laid(floor.stiff, floor.stiff.pressure / 1000.0, second, "kPa", system), "kPa")
    base, bar_wide = HEADING * CAPITAL + 1.0, bar_breadth(scale, system)
    found = worst_of_each(floor, loads)
    used = {number: share for number, _, share in found}
    body = [
        letters(0.0, base, cut_to(TITLE, width - bar_wide - 4.0, HEADING, 600), size=HEADING, weight=600),
        scale_bar(width - 0.4, base, scale, system),
        *(letters(0.0, base + 2.0 + (n + 1) * ROW, said) for n, said in enumerate(head)),
        *_down(down, floor, system),
        *_below(below, floor, used, system),
    ]
    foot = second.bottom + 4.0
    body += samples(floor.pressure / 1000.0, system, foot)
    joints = " Dashed: joints." if floor.joints else ""
    parts = " Thin: where the slab is thicker, or lies on something else." if floor.thicker else ""
    note = wrapped(f"{NOTE}{joints}{parts}", width - 0.8)
    body += [
        letters(0.4, foot + KEY[1] + (n + 1) * ROW, said, colour=colours.light()["note"]) for n, said in enumerate(note)
    ]
    start = foot + KEY[1] + len(note) * ROW + 6.5
    strip, high = _strip(found, start, width, system)
    return picture(
        wide=width,
        high=high,
        title=TITLE,
        description=floor_in_words(floor, loads, system),
        defs=[clip("down", first), clip("foam", second), *hatches(NAMES, start)],
        body=[*body, *strip],
    )


def _window(floor: WholeFloor) -> tuple[float, float, float, float]:
    corners = np.concatenate([np.asarray(ring, float) for ring in floor.outlines])
    (x0, y0), (x1, y1) = corners.min(axis=0), corners.max(axis=0)
    return float(x0), float(x1), float(y0), float(y1)


def _breadth(window: tuple[float, float, float, float], width: float) -> tuple[float, bool]:
    """Breadth of one plan, and whether the two stand below each other: whichever draws them larger. [mm]"""
    across, up = window[1] - window[0], window[3] - window[2]
    half = (width - BETWEEN) / 2.0 - 0.4
    beside, under = min(half / across, HIGHEST / up), min((width - 0.8) / across, HIGHEST / up)
    return (width - 0.8, True) if under > 1.3 * beside else (half, False)


def _laid(field: SlabField, values: NDArray[np.float32], frame: Frame, unit: str, system: System) -> SheetField:
    """A field on fine lines of the sheet, straight between its own, since joints step it."""
    x = np.linspace(frame.left, frame.right, ceil(frame.width / FINE_STEP) + 1)
    y = np.linspace(frame.top, frame.bottom, ceil(frame.height / FINE_STEP) + 1)
    across, up = frame.metres(x, y)
    rows = np.stack([np.interp(across, field.x, row) for row in values.astype(float)])
    laid = np.stack([np.interp(up[::-1], field.y, column) for column in rows.T], -1)
    return SheetField(x, y, say.number(1.0, unit, system) * laid[::-1])


def _down(panel: Panel, floor: WholeFloor, system: System) -> list[str]:
    largest = say.value(1000.0 * floor.settlement, "mm", system)
    marks, taken = _marks(floor, panel.frame, {})
    return [
        titled(panel.frame, f"Goes down up to {largest}{_each(panel, system)}"),
        f'<g clip-path="url(#down)">{"".join(contours(panel, taken))}</g>',
        *_built(floor, panel.frame),
        *marks,
    ]


def _below(panel: Panel, floor: WholeFloor, used: dict[str, Share], system: System) -> list[str]:
    frame = panel.frame
    row, column = worst_place(floor.stiff.pressure)
    x, y = float(frame.x(float(floor.stiff.x[column]))), float(frame.y(float(floor.stiff.y[row])))
    said = say.value(floor.pressure / 1000.0, "kPa", system)
    ring, box = ringed(x, y, said, frame)
    marks, taken = _marks(floor, frame, used, [box])
    bears = None if floor.bears is None else say.number(floor.bears / 1000.0, "kPa", system)
    exceeded = bears is not None and bears < float(np.nanmax(panel.field.degrees))
    what = "The ground" if floor.bears is None else "The foam"
    lined = "".join(contours(panel, [*taken, box], bears if exceeded else None))
    return [
        titled(frame, f"{what} feels up to {said}{_each(panel, system)}"),
        f'<g clip-path="url(#foam)">{stipple(panel)}{lined}</g>',
        *_built(floor, frame),
        *marks,
        ring,
    ]


def _each(panel: Panel, system: System) -> str:
    """What lies between one line and the next."""
    all_levels = levels(float(np.nanmax(panel.field.degrees)), LINES)
    if not all_levels:
        return ""
    return f", a line each {written(all_levels[0], all_levels)} {say.name(panel.unit, system)}"


def _built(floor: WholeFloor, frame: Frame) -> Iterator[str]:
    """The slab's free edges, its joints, and the parts in which it is otherwise."""
    for ring in floor.thicker:
        yield stroke(frame.path(ring, closed=True), HAIR, colour=colours.light()["note"])
    for joint in floor.joints:
        yield stroke(frame.path(joint, closed=False), LINE, extra=' stroke-dasharray="3 1.4"')
    for ring in floor.outlines:
        yield stroke(frame.path(ring, closed=True), HEAVY)


def _marks(
    floor: WholeFloor, frame: Frame, used: dict[str, Share], taken: Sequence[Box] = ()
) -> tuple[list[str], list[Box]]:
    """Each load as it presses with its number, and with what is used where that is told; and the room they take."""
    drawn, boxes = [], list(taken)
    many, small = OF_MANY
    least = small if sum(len(each.rings) for each in floor.placed) > many else LEAST_MARK
    rings = [(each, [_at_least(ring, frame, least) for ring in each.rings]) for each in floor.placed]
    for _, places in rings:
        boxes += places
    for each, places in rings:
        drawn.append(_pressed(zip(each.rings, places, strict=True), frame, FINE if least == small else BOLD, least))
    for each, places in rings:
        share = used.get(each.number)
        place = _beside(each, places, share, frame, boxes)
        if place is not None:
            said, box = place
            boxes.append(box)
            drawn.append(said)
    return drawn, boxes


def _at_least(ring: Ring, frame: Frame, least: float) -> Box:
    box = box_of(ring, frame)
    wide, high = max(box.right - box.left, least) / 2.0, max(box.bottom - box.top, least) / 2.0
    x, y = (box.left + box.right) / 2.0, (box.top + box.bottom) / 2.0
    return Box(x - wide, y - high, x + wide, y + high)


def _pressed(places: Iterable[tuple[Ring, Box]], frame: Frame, pen: float, least: float) -> str:
    """All patches of one load, small upright ones as large as they are seen."""
    data = []
    for ring, box in places:
        wide, high = box.right - box.left, box.bottom - box.top
        if min(wide, high) <= least and len(ring) == 4 and _upright(ring):
            data.append(f"M{mm(box.left)} {mm(box.top)}h{mm(wide)}v{mm(high)}h{mm(-wide)}z")
        else:
            data.append(frame.path(ring, closed=True))
    leaf = colours.light()["leaf"]
    style = f'fill="{leaf}" fill-opacity="0.35" stroke="{INK}" stroke-width="{pen:g}"'
    return f'<path d="{"".join(data)}" {style}/>'


def _upright(ring: Ring) -> bool:
    return len({round(x, 6) for x, _ in ring}) == 2 and len({round(y, 6) for _, y in ring}) == 2


def _beside(
    each: Placed, places: Sequence[Box], share: Share | None, frame: Frame, taken: Sequence[Box]
) -> tuple[str, Box] | None:
    """The number of a load, and what it uses, beside it where that finds room; None where not even the number does."""
    offered = [each.number] if share is None else [f"{each.number}: {percent_used(share)}", each.number]
    over = share is not None and share.used > 1.0
    ink = colours.light()["short"] if over else INK
    high = LETTER * CAPITAL
    for said in offered:
        wide = lettering(said, weight=600)
        for box in places:
            x, y = (box.left + box.right) / 2.0, (box.top + box.bottom) / 2.0
            for left, base in (
                (box.right + 0.9, y + high / 2.0),
                (box.left - 0.9 - wide, y + high / 2.0),
                (x - wide / 2.0, box.top - 0.9),
                (x - wide / 2.0, box.bottom + 0.9 + high),
                (box.right + 0.9, box.top - 0.4),
                (box.right + 0.9, box.bottom + high + 0.4),
                (box.left - 0.9 - wide, box.top - 0.4),
                (box.left - 0.9 - wide, box.bottom + high + 0.4),
            ):
                place = Box(left - 0.3, base - high - 0.3, left + wide + 0.3, base + 0.4)
                inside = frame.left < place.left and place.right < frame.right
                inside = inside and frame.top < place.top and place.bottom < frame.bottom
                if inside and not any(place.meets(other) for other in taken):
                    return _clear(place) + letters(left, base, said, weight=600, colour=ink), place
    return None


def _clear(box: Box) -> str:
    leaf = colours.light()["leaf"]
    return (
        f'<rect x="{mm(box.left)}" y="{mm(box.top)}" width="{mm(box.right - box.left)}" '
        f'height="{mm(box.bottom - box.top)}" fill="{leaf}" fill-opacity="0.85"/>'
    )


def _strip(
    found: Sequence[tuple[str, str, Share]], top: float, width: float, system: System
) -> tuple[list[str], float]:
    """A bar for each load, the worst first: what governs it, and how much of that is used; and where it ends. [mm]"""
    shown = found[:MOST_BARS]
    left, right = NAMES, width - VALUES
    longest = max((share.used * 1.05 for _, _, share in shown), default=0.0)
    one = (right - left) / min(max(LEAST, longest), MOST)
    drawn = [letters(0.0, top, "What governs each load", weight=600)]
    y = top + 2.0
    for _, name, share in shown:
        said = cut_to(f"{name[0].upper()}{name[1:]}: {share.part}", NAMES - 2.0)
        drawn += bar(share, said, (left, right, one), y, system)
        y += PITCH
    drawn.append(line(left + one, top + 1.2, left + one, y - PITCH + BAR + 0.8, BOLD))
    y += LETTER * CAPITAL - 1.0
    drawn.append(letters(left + one, y, "all of it", anchor="middle", colour=colours.light()["note"]))
    if len(found) > len(shown):
        more = f"{len(found) - len(shown)} more use less than these."
        y += ROW
        drawn.append(letters(0.0, y, more, colour=colours.light()["note"]))
    return drawn, y + 1.6
