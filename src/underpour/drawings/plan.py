"""The key plan: the floor seen from above, its sides with their lengths, and which edge lies where."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from ..measure import say
from ..measure.table import System
from ..outlines.floor import Floor, Obstacle, Stretch
from ..outlines.outline import Outline
from ..outlines.side import Side
from ..resolve import KeyPlan, PlanEdge, ResolvedLoad
from . import colours
from .airs import bar_breadth, scale_bar
from .lettering import CAPITAL, HEADING, LETTER, cut_to
from .lettering import width as lettering
from .paper import FINE, HAIR, HEAVY, INK, LINE, Box, Frame, letters, line, mm, picture, stroke

HEAD = 9.5  # mm, the heading
AROUND = 13.0  # mm beside the plan for letters
HIGHEST = 120.0  # mm, a plan across a page
RADIUS = 2.5  # mm, of a circled letter
OUT = 6.0  # mm from the edge to its letter
INWARDS = 1.6  # mm from a side to its number
CUT = 4.0  # mm that a section's line reaches into the floor
ROW = 5.6  # mm from line to line of the key below
SAMPLE = 14.0  # mm of an edge's line in the key
DASHES = ("", "4.2 1.4", "5 1.2 .1 1.2", ".1 1.4", "5 1.1 .1 1.1 .1 1.1", "2 1.4", "7 1.6 2 1.6")  # round ends
BETWEEN = 1.2  # mm from an edge's letter to its share
LEAST = 1.1  # mm, an obstacle or a load is drawn no smaller
SQUARE = 2.8  # mm from a load to the middle of its number


def key_plan(
    plan: KeyPlan,
    system: System,
    *,
    width: float,
    name: str = "Key plan",
    shares: Mapping[str, float] = MappingProxyType({}),
) -> str:
    """The floor seen from above.

    Parameters
    ----------
    plan : KeyPlan
        Floor and edges.
    system : str
        "US" or "SI", in which lengths are written.
    width : float
        Breadth of the picture. [mm]
    name : str
        Its heading.
    shares : mapping of str to float
        By letter each edge's part of the heat that all edges lose; it stands beside the letter and in the key. [0 to 1]

    Returns
    -------
    str
        An SVG document that stands alone. Each edge has its own line style, its letter in a circle at each stretch, and
        at its longest one the mark of the section: the line along which it is cut, and which way it looks.
    """
    styles = {edge.letter: _style(n) for n, edge in enumerate(plan.edges)}
    said = {letter: percent(share) for letter, share in shares.items()}
    frame = plan_frame(plan.floor, width)
    marks = list(edge_marks(plan, frame, said))
    over = max((max(-box.left, box.right - width) for _, boxes in marks for box in boxes), default=0.0)
    if over > 0.0:  # a long name beside the plan finds no room: the plan is drawn smaller
        frame = plan_frame(plan.floor, width, AROUND + over)
        marks = list(edge_marks(plan, frame, said))
    taken = [box for _, boxes in marks for box in boxes]
    below = frame.bottom + AROUND + ROW
    start = max(lettering(edge.letter, LETTER, 600) for edge in plan.edges) + 3.0
    rows = [
        _key(edge, styles[edge.letter], below + n * ROW, start, width, _words(edge, system, said))
        for n, edge in enumerate(plan.edges)
    ]
    foot = below + len(plan.edges) * ROW
    rows += [_load_row(load, foot + n * ROW, start, width) for n, load in enumerate(plan.loads)]
    foot += len(plan.loads) * ROW
    stands = [_stands(load, frame, taken) for load in plan.loads]
    base = HEADING * CAPITAL + 1.0
    bar = bar_breadth(frame.scale, system)
    body = [
        letters(0.0, base, cut_to(name, width - bar - 4.0, HEADING, 600), size=HEADING, weight=600),
        scale_bar(width - 0.4, base, frame.scale, system),
        f'<path d="{floor_path(plan.floor, frame)}" fill="{colours.light()["shade"]}" fill-rule="evenodd"/>',
        *(_void(hole, frame, n, taken) for n, hole in enumerate(plan.floor.holes, start=1)),
        *(standing(each, frame) for each in plan.floor.obstacles),
        *(_edge(plan.floor, edge, styles[edge.letter], frame) for edge in plan.edges),
        *_ends(plan, frame),
        *(drawn for drawn, _ in marks),
        *stands,
        *_numbers(plan.floor, frame, system, taken),
        *rows,
        letters(0.0, foot, _area(plan.floor, system)),
    ]
    defs = [
        f'<clipPath id="plan-hole-{n}"><path d="{_ring(hole, frame)}"/></clipPath>'
        for n, hole in enumerate(plan.floor.holes, start=1)
    ]
    return picture(
        wide=width,
        high=foot + 1.4,
        title=name,
        description=" ".join(
            [
                "The floor seen from above.",
                *(_said(edge, system, said) for edge in plan.edges),
                *(f"Load {load.number}: {_load_words(load)}." for load in plan.loads),
            ]
        ),
        defs=defs,
        body=body,
    )


def plan_frame(floor: Floor, wide: float, around: float = AROUND) -> Frame:
    """Where the floor is drawn on a sheet so wide, with so much beside it for letters. [mm]"""
    boxes = [side.box for side in floor.outline.sides]
    x0, x1 = min(box[0] for box in boxes), max(box[1] for box in boxes)
    y0, y1 = min(box[2] for box in boxes), max(box[3] for box in boxes)
    scale = min((wide - 2 * around) / (x1 - x0), HIGHEST / (y1 - y0))
    left = (wide - (x1 - x0) * scale) / 2.0
    return Frame(left, HEAD + AROUND, (x0, x1, y0, y1), scale)


def _style(n: int) -> str:
    """The dashes of the nth edge's line."""
    return DASHES[n % len(DASHES)]


def _data(side: Side, frame: Frame, *, first: bool = True) -> str:
    """Path data of a side: an arc stays an arc."""
    (x0, y0), (x1, y1) = side.start, side.end
    begin = f"M{mm(frame.x(x0))} {mm(frame.y(y0))}" if first else ""
    if not side.bulge:
        return f"{begin}L{mm(frame.x(x1))} {mm(frame.y(y1))}"
    r = mm(side.radius * frame.scale)
    # y runs down on the sheet, so what turns left in the plan turns left there when drawn with the flag at nought
    flags = f"{int(abs(side.bulge) > 1.0)} {int(side.bulge < 0.0)}"
    return f"{begin}A{r} {r} 0 {flags} {mm(frame.x(x1))} {mm(frame.y(y1))}"


def _ring(outline: Outline, frame: Frame) -> str:
    return "".join(_data(side, frame, first=n == 0) for n, side in enumerate(outline.sides)) + "z"


def floor_path(floor: Floor, frame: Frame) -> str:
    return "".join(_ring(ring, frame) for ring in floor.rings)


def _void(hole: Outline, frame: Frame, number: int, taken: Sequence[Box]) -> str:
    """A hole, crossed out as drawings cross out what is open, with its number where that finds room."""
    x0, x1, y0, y1 = _bounds(hole, frame)
    crossed = line(x0, y0, x1, y1, HAIR) + line(x0, y1, x1, y0, HAIR)
    x, y, said = (x0 + x1) / 2.0, (y0 + y1) / 2.0, f"hole {number}"
    clear, leaf, wide = "", colours.light()["leaf"], lettering(said) + 1.6
    place = Box(x - wide / 2, y - 2.2, x + wide / 2, y + 2.2)
    if _all_in(place, hole, frame) and not any(place.meets(other) for other in taken):
        clear = f'<rect x="{mm(x - wide / 2)}" y="{mm(y - 2.2)}" width="{mm(wide)}" height="4.4" fill="{leaf}"/>'
        clear += letters(x, y + 1.25, said, anchor="middle")
    return f'<g clip-path="url(#plan-hole-{number})">{crossed}</g>{clear}'


def _all_in(box: Box, ring: Outline | Floor, frame: Frame) -> bool:
    """Whether all corners of a place on the sheet lie in an outline or on the floor."""
    corners = ((x, y) for x in (box.left, box.right) for y in (box.top, box.bottom))
    return all(ring.holds(frame.metres(*corner)) for corner in corners)


def _bounds(outline: Outline, frame: Frame) -> tuple[float, float, float, float]:
    """Left, right, top and bottom on the sheet. [mm]"""
    boxes = [side.box for side in outline.sides]
    return (
        frame.x(min(box[0] for box in boxes)),
        frame.x(max(box[1] for box in boxes)),
        frame.y(max(box[3] for box in boxes)),
        frame.y(min(box[2] for box in boxes)),
    )


def standing(obstacle: Obstacle, frame: Frame) -> str:
    """What stands in the floor: a column or post filled, a pipe or drain open, a pit crossed; its name beside it."""
    x, y = frame.x(obstacle.at[0]), frame.y(obstacle.at[1])
    w, h = (max(size * frame.scale, LEAST) / 2.0 for size in obstacle.size)
    fill = INK if obstacle.kind in ("column", "post") else colours.light()["leaf"]
    style = f'fill="{fill}" stroke="{INK}" stroke-width="{FINE:g}"'
    if obstacle.circle:
        drawn = f'<ellipse cx="{mm(x)}" cy="{mm(y)}" rx="{mm(w)}" ry="{mm(h)}" {style}/>'
    else:
        drawn = f'<rect x="{mm(x - w)}" y="{mm(y - h)}" width="{mm(2 * w)}" height="{mm(2 * h)}" {style}/>'
    if obstacle.kind in ("pit", "drain"):
        reach = 0.7 if obstacle.circle else 1.0
        drawn += line(x - reach * w, y - reach * h, x + reach * w, y + reach * h, HAIR)
        drawn += line(x - reach * w, y + reach * h, x + reach * w, y - reach * h, HAIR)
    return drawn + letters(x + w + 1.2, y + 1.25, obstacle.kind)


def _edge(floor: Floor, edge: PlanEdge, dashes: str, frame: Frame) -> str:
    """All stretches of an edge in its line style; thin where it lies beside a heated room and is none."""
    data = "".join(_data(floor.part(stretch), frame) for stretch in edge.stretches)
    return _line(data, dashes, edge.beside)


def _line(data: str, dashes: str, beside: str) -> str:
    if beside == "heated":
        return stroke(data, HAIR)
    extra = f' stroke-linecap="round" stroke-dasharray="{dashes}"' if dashes else ""
    return stroke(data, HAIR) + stroke(data, HEAVY + 0.2, extra=extra)


def _ends(plan: KeyPlan, frame: Frame) -> Iterator[str]:
    """A stroke across the side where one edge ends and the next begins between two corners."""
    for edge in plan.edges:
        for stretch in edge.stretches:
            side = plan.floor.side(stretch.ring, stretch.side)
            for at in (stretch.start, stretch.end):
                if 0.0 < at < side.length:
                    x, y, nx, ny = _outwards(plan.floor, stretch.ring, side, at, frame)
                    yield line(x - 1.8 * nx, y - 1.8 * ny, x + 1.8 * nx, y + 1.8 * ny, LINE)


def _outwards(floor: Floor, ring: int, side: Side, at: float, frame: Frame) -> tuple[float, float, float, float]:
    """A place on a side on the sheet, and the way away from the floor there. [mm]"""
    (px, py), (dx, dy) = side.at(at), side.direction(at)
    left_is_floor = (floor.rings[ring].turned_area > 0.0) == (ring == 0)
    nx, ny = (dy, -dx) if left_is_floor else (-dy, dx)
    return frame.x(px), frame.y(py), nx, -ny


def edge_marks(plan: KeyPlan, frame: Frame, shares: Mapping[str, str]) -> Iterator[tuple[str, list[Box]]]:
    """The letters of every stretch, each in its circle, and the section's mark at the longest of each edge."""
    placed: list[Box] = []
    for edge in plan.edges:
        longest = max(edge.stretches, key=lambda stretch: stretch.length)
        for stretch in edge.stretches:
            if stretch is not longest and stretch.length * frame.scale < 4.0 * RADIUS:
                continue
            cut = stretch is longest and edge.beside != "heated"
            loses = shares.get(edge.letter, "") if cut else ""
            drawn, boxes = _mark(plan.floor, edge.letter, stretch, frame, cut=cut, placed=placed, loses=loses)
            if stretch is longest or not any(boxes[0].meets(other) for other in placed):
                placed += boxes
                yield drawn, boxes


def _mark(
    floor: Floor, letter: str, stretch: Stretch, frame: Frame, *, cut: bool, placed: Sequence[Box], loses: str
) -> tuple[str, list[Box]]:
    side = floor.side(stretch.ring, stretch.side)
    named = lettering(letter, LETTER, 600)
    wide = named + (BETWEEN + lettering(loses) if loses else 0.0)
    half = max(RADIUS, wide / 2.0 + 1.1)
    offered = []
    for share in (0.5, 0.35, 0.65, 0.2, 0.8):
        x, y, nx, ny = _outwards(floor, stretch.ring, side, stretch.start + share * stretch.length, frame)
        out = OUT + (half - RADIUS) * abs(nx)
        cx, cy = x + out * nx, y + out * ny
        offered.append((x, y, nx, ny, cx, cy, Box(cx - half, cy - RADIUS, cx + half, cy + RADIUS)))
    x, y, nx, ny, cx, cy, box = next(
        (place for place in offered if not any(place[-1].meets(other) for other in placed)), offered[0]
    )
    drawn, boxes = "", [box]
    if cut:
        near = RADIUS if abs(ny) > abs(nx) else half
        ends = (cx - near * nx, x - CUT * nx), (cy - near * ny, y - CUT * ny)
        drawn += line(ends[0][0], ends[1][0], ends[0][1], ends[1][1], LINE)
        boxes.append(Box(min(ends[0]) - 0.4, min(ends[1]) - 0.4, max(ends[0]) + 0.4, max(ends[1]) + 0.4))
        drawn += _looks(cx, cy, nx, ny, half)
    leaf = colours.light()["leaf"]
    drawn += (
        f'<rect x="{mm(cx - half)}" y="{mm(cy - RADIUS)}" width="{mm(2 * half)}" height="{mm(2 * RADIUS)}" '
        f'rx="{mm(RADIUS)}" fill="{leaf}" stroke="{INK}" stroke-width="{LINE:g}"/>'
    )
    if not loses:
        return drawn + letters(cx, cy + 1.25, letter, weight=600, anchor="middle"), boxes
    left = cx - wide / 2.0
    drawn += letters(left, cy + 1.25, letter, weight=600)
    return drawn + letters(left + named + BETWEEN, cy + 1.25, loses), boxes


def _looks(x: float, y: float, nx: float, ny: float, half: float) -> str:
    """The filled arrowhead beside a section's letter: with the floor on the right, as the section is drawn."""
    tx, ty = -ny, nx  # along the side, so that who looks that way has the floor on the right
    reach = half if abs(tx) > abs(ty) else RADIUS
    tip = x + (reach + 1.7) * tx, y + (reach + 1.7) * ty
    left, right = ((x + s * 1.5 * nx + reach * 0.4 * tx, y + s * 1.5 * ny + reach * 0.4 * ty) for s in (1.0, -1.0))
    points = " ".join(f"{mm(px)},{mm(py)}" for px, py in (tip, left, right))
    return f'<polygon points="{points}" fill="{INK}"/>'


def _numbers(floor: Floor, frame: Frame, system: System, taken: Sequence[Box]) -> Iterator[str]:
    """The number of each side with its length, on the floor beside it; the number alone where no more finds room."""
    placed = [*taken, *(box_of(obstacle, frame) for obstacle in floor.obstacles)]
    for ring, outline in enumerate(floor.rings):
        for number, side in enumerate(outline.sides, start=1):
            words = f"{ring}.{number}" if ring else str(number)
            for said in (f"{words}: {say.value(side.length, 'm', system)}", words):
                found = _clear_place(floor, ring, side, said, frame, placed)
                if found is not None:
                    x, base, box = found
                    placed.append(box)
                    yield letters(x, base, said, colour=colours.light()["note"])
                    break


def _clear_place(
    floor: Floor, ring: int, side: Side, said: str, frame: Frame, placed: Sequence[Box]
) -> tuple[float, float, Box] | None:
    wide, high = lettering(said), LETTER * CAPITAL
    if wide > max(side.length * frame.scale, 3.0) and ":" in said:
        return None
    for share in (0.5, 0.35, 0.65, 0.22, 0.78):
        x, y, nx, ny = _outwards(floor, ring, side, share * side.length, frame)
        # the nearest corner of the words lies so far inside of the side
        cx = x - nx * (INWARDS + wide / 2.0 * abs(nx) + high / 2.0 * abs(ny))
        cy = y - ny * (INWARDS + wide / 2.0 * abs(nx) + high / 2.0 * abs(ny))
        box = Box(cx - wide / 2 - 0.4, cy - high / 2 - 0.4, cx + wide / 2 + 0.4, cy + high / 2 + 0.4)
        if _all_in(box, floor, frame) and not any(box.meets(other) for other in placed):
            return cx - wide / 2, cy + high / 2, box
    return None


def box_of(obstacle: Obstacle, frame: Frame) -> Box:
    """What an obstacle takes on the sheet with its name."""
    x, y = frame.x(obstacle.at[0]), frame.y(obstacle.at[1])
    w, h = (max(size * frame.scale, LEAST) / 2.0 for size in obstacle.size)
    return Box(x - w, y - max(h, 1.6), x + w + 1.2 + lettering(obstacle.kind), y + max(h, 1.6))


def _key(edge: PlanEdge, dashes: str, base: float, start: float, wide: float, words: str) -> str:
    """One line below the plan: the edge's letter, its line, what it is."""
    named = letters(0.0, base, edge.letter, weight=600)
    sample = _line(f"M{mm(start)} {mm(base - 1.2)}h{SAMPLE:g}", dashes, edge.beside)
    left = start + SAMPLE + 3.0
    return named + sample + letters(left, base, cut_to(words, wide - left))


def _stands(load: ResolvedLoad, frame: Frame, taken: list[Box]) -> str:
    """A load where it stands: each patch filled, its number in a square beside the first with room for it."""
    if load.at is None or not load.patches:
        return ""
    (x0, y0), drawn, beside = load.at, "", []
    for patch in load.patches:
        xs, ys = ([frame.x(x0 + x) for x, _ in patch.outline], [frame.y(y0 + y) for _, y in patch.outline])
        x, y = (min(xs) + max(xs)) / 2.0, (min(ys) + max(ys)) / 2.0
        w, h = max(max(xs) - min(xs), LEAST) / 2.0, max(max(ys) - min(ys), LEAST) / 2.0
        drawn += f'<rect x="{mm(x - w)}" y="{mm(y - h)}" width="{mm(2 * w)}" height="{mm(2 * h)}" fill="{INK}"/>'
        taken.append(Box(x - w, y - h, x + w, y + h))
        beside += [(x + w + SQUARE, y), (x, y - h - SQUARE), (x, y + h + SQUARE), (x - w - SQUARE, y)]
    half = max(lettering(load.number, LETTER, 600) / 2.0 + 0.8, 1.8)
    boxes = [Box(x - half, y - 1.8, x + half, y + 1.8) for x, y in beside]
    box = next((each for each in boxes if not any(each.meets(other) for other in taken)), boxes[0])
    taken.append(box)
    leaf, left, wide = colours.light()["leaf"], box.left, 2.0 * half
    drawn += f'<rect x="{mm(left)}" y="{mm(box.top)}" width="{mm(wide)}" height="3.6" fill="{leaf}" stroke="{INK}" '
    drawn += f'stroke-width="{FINE:g}"/>'
    return drawn + letters(left + half, box.top + 3.0, load.number, anchor="middle", weight=600)


def _load_row(load: ResolvedLoad, base: float, start: float, wide: float) -> str:
    """One line below the plan: the load's number in its square, what it is and where."""
    half = max(lettering(load.number, LETTER, 600) / 2.0 + 0.8, 1.8)
    square = f'<rect x="0.2" y="{mm(base - 3.0)}" width="{mm(2 * half)}" height="3.6" fill="none" stroke="{INK}" '
    square += f'stroke-width="{FINE:g}"/>' + letters(0.2 + half, base, load.number, anchor="middle", weight=600)
    left = max(start, 2 * half + 2.0)
    return square + letters(left, base, cut_to(_load_words(load), wide - left))


def _load_words(load: ResolvedLoad) -> str:
    if load.before_pour:
        return f"on the bare foam, before the pour: {load.words[0].lower()}{load.words[1:]}"
    return load.words if load.place == "everywhere" else f"{load.words}, {load.where}"


def percent(share: float) -> str:
    """A share of the heat in words: "31 %".

    >>> percent(0.3149), percent(0.004)
    ('31 %', 'less than 1 %')
    """
    return f"{100.0 * share:.0f} %" if share >= 0.01 else "less than 1 %"


def _words(edge: PlanEdge, system: System, shares: Mapping[str, str]) -> str:
    kind, long = edge.kind.replace("-", " "), say.both(edge.length, "m", system)
    beside = {
        "outdoors": "",
        "heated": ", beside a heated room: no edge",
        "unheated": ", beside an unheated space",
    }.get(edge.beside, ", beside other air")
    share = f", {shares[edge.letter]} of the heat that is lost" if edge.letter in shares else ""
    return f"{kind}, {long}{beside}{share}"


def _said(edge: PlanEdge, system: System, shares: Mapping[str, str]) -> str:
    return f"Edge {edge.letter}: {_words(edge, system, shares)}."


def _area(floor: Floor, system: System) -> str:
    area = f"Floor {say.both(floor.area, 'm²', system)}"
    off = sum(hole.area for hole in floor.holes)
    return f"{area}, {say.both(off, 'm²', system)} of holes taken off." if floor.holes else f"{area}."
