"""Panels with knobs or channels: all on one grid, and channels followed on foot through a net of points."""

from collections import deque
from dataclasses import replace
from math import ceil

import pytest
from plans_of_floors import PANELS, floor_of

from underpour.outlines.floor import Floor, Obstacle
from underpour.outlines.outline import straight
from underpour.panels.channels import Barrier, Channels, lanes, reach
from underpour.panels.panel import Rules
from underpour.panels.proof import faults
from underpour.panels.recut import recut
from underpour.panels.search import Wanted, fewest_panels, improving

INCH = 0.0254
TUBE = Rules(48 * INCH, 24 * INCH, interlock=True, stagger=0.2, least=0.2, pitch=3 * INCH)
GAS = Rules(48 * INCH, 48 * INCH, interlock=True, stagger=0.2, least=0.2, pitch=4 * INCH)
BOTH = Channels(4 * INCH, 1.625 * INCH, both_ways=True)
ALONG = Channels(4 * INCH, 1.625 * INCH, both_ways=False)
FEW_CUTS = 300


@pytest.mark.parametrize("rules", [TUBE, GAS, replace(TUBE, interlock=False)], ids=["tube", "channels", "tube, square"])
@pytest.mark.parametrize("seed", [2, 4, 5, 6])
def test_all_pieces_of_a_tube_panel_stand_on_one_grid(seed, rules):
    """Whatever a piece is cut from: x0 - u and y0 - v are whole pitches off those of the first, 3 and 4 in."""
    kind, floor = floor_of(seed)
    found = fewest_panels(floor, rules, cuts=FEW_CUTS)
    layout = found.layout()
    assert faults(floor, layout) == []
    first = layout.pieces[0]
    for piece in layout.pieces:
        for off in (piece.x0 - piece.u - first.x0 + first.u, piece.y0 - piece.v - first.y0 + first.v):
            assert abs(off / rules.pitch - round(off / rules.pitch)) < 1e-5, kind
    free = fewest_panels(floor, replace(rules, pitch=0.0), cuts=FEW_CUTS)
    assert free.panels * 0.98 <= found.panels <= free.panels * 1.06 + 2


def test_a_piece_that_stands_off_the_pitch_is_told():
    _, floor = floor_of(2)
    layout = fewest_panels(floor, TUBE, cuts=FEW_CUTS).layout()
    part = next(piece for piece in layout.pieces if piece.length < TUBE.length - 0.1)
    rest = [piece for piece in layout.pieces if piece is not part]
    for moved in (replace(part, u=part.u + 0.01), replace(part, v=part.v + 0.01)):
        wrong = replace(layout, pieces=(*rest, moved))
        assert any("off the pitch" in fault for fault in faults(floor, wrong))


@pytest.mark.parametrize("bond", ["", "chain", "half", "third"])
@pytest.mark.parametrize("rules", [TUBE, GAS], ids=["tube", "channels"])
def test_every_bond_from_a_corner_keeps_the_pitch(rules, bond):
    _, floor = floor_of(2)
    corner = floor.outline.corners[1]
    *_, found = improving(floor, rules, Wanted((), corner, bond), FEW_CUTS)
    told = [fault for fault in faults(floor, found.layout()) if "next row" not in fault]
    assert told == []


def test_the_plain_panels_of_other_tests_have_no_pitch():
    assert {rules.pitch for rules in PANELS.values()} == {0.0}


def on_foot(floor, layout, channels, pits, barriers=(), fine=6):
    """Pieces that somebody comes to who walks along channels from the pits, a sixth of a pitch at a step."""
    pitch, half = channels.pitch, channels.width / 2
    step = pitch / fine
    xs = [p.x0 for p in layout.pieces] + [p.x1 for p in layout.pieces]
    ys = [p.y0 for p in layout.pieces] + [p.y1 for p in layout.pieces]
    first = ((min(xs) - layout.phase) // pitch, (min(ys) - layout.offset) // pitch)
    count = [ceil((max(each) - min(each)) / step) + 2 * fine for each in (xs, ys)]

    def lies(i, j):
        x = layout.phase + first[0] * pitch + (i + 0.5) * step
        y = layout.offset + first[1] * pitch + (j + 0.5) * step
        return x, y

    def in_channel(i, j):
        x, y = lies(i, j)
        up, right = (y - layout.offset) % pitch - pitch / 2, (x - layout.phase) % pitch - pitch / 2
        along = abs(up) < half and clear((x, y - up - 0.99 * half), (x, y - up), (x, y - up + 0.99 * half))
        sides = (x - right - 0.99 * half, y), (x - right, y), (x - right + 0.99 * half, y)
        return along or (channels.both_ways and abs(right) < half and clear(*sides))

    def clear(*points):
        return all(
            floor.holds(point)
            and not any(each.outline.holds(point) for each in floor.obstacles)
            and not any(each.holds(point) for each in barriers)
            for point in map(layout.on_plan, points)
        )

    free = {(i, j) for i in range(count[0]) for j in range(count[1]) if in_channel(i, j)}
    waiting = deque()
    for at, width in pits:
        for i, j in free:
            x, y = layout.on_plan(lies(i, j))
            if abs(x - at[0]) < width / 2 and abs(y - at[1]) < width / 2:
                waiting.append((i, j))
    seen = set(waiting)
    while waiting:
        i, j = waiting.popleft()
        for near in ((i + 1, j), (i - 1, j), (i, j + 1), (i, j - 1)):
            if near in free and near not in seen:
                seen.add(near)
                waiting.append(near)
    walked = [lies(i, j) for i, j in seen]
    return {p for p in layout.pieces if any(p.x0 < x < p.x1 and p.y0 < y < p.y1 for x, y in walked)}


HALL = straight([(0, 0), (9, 0), (9, 6), (0, 6)])
WAISTED = straight(
    [(0, 0), (9, 0), (9, 6), (5, 6), (5, 0.06), (4.2, 0.06), (4.2, 6), (0, 6)]
)  # joined by 60 mm of floor
STANDS = (Obstacle("pit", (2.0, 3.0), (1.0, 1.0), False), Obstacle("column", (6.5, 3.0), (0.4, 0.4), True))
MIDDLE = straight([(4.3, -0.1), (4.9, -0.1), (4.9, 6.1), (4.3, 6.1)])


@pytest.mark.parametrize("channels", [BOTH, ALONG], ids=["both ways", "along"])
@pytest.mark.parametrize(
    ("outline", "stands", "barriers"),
    [(HALL, (), ()), (HALL, STANDS, ()), (WAISTED, (), ()), (HALL, (), (Barrier((4.6, 0), (4.6, 6), 0.6),))],
    ids=["hall", "with pit and column", "waisted", "with a footing"],
)
def test_channels_reach_the_panels_that_somebody_comes_to_on_foot(outline, stands, barriers, channels):
    floor = Floor(outline, (), stands)
    layout = fewest_panels(floor, GAS, angles=[0.0], cuts=300).layout()
    pits = [((7.2, 1.5), 0.5)]
    told = reach(floor, layout, channels, pits, barriers)
    walked = on_foot(floor, layout, channels, pits, [MIDDLE] * len(barriers))
    assert set(layout.pieces) - set(told.missed) == walked
    assert told.dry == ()
    assert 0.0 < told.reached <= told.length
    whole = channels.both_ways and outline is HALL and not barriers
    assert (not told.missed) == whole


def test_lengths_of_channels_counted_by_hand():
    """9 by 6 m at a pitch of 4 in: 59 or 88 channels of whole length, those cut at an edge left out."""
    floor = Floor(HALL)
    layout = fewest_panels(floor, GAS, angles=[0.0], cuts=300).layout()
    every = lanes(floor, layout, BOTH)
    for along, long, across in ((True, 9.0, 6.0), (False, 6.0, 9.0)):
        own = [lane for lane in every if lane.along is along]
        assert len(own) in (int(across / BOTH.pitch), int(across / BOTH.pitch) + 1)
        assert all(lane.length == pytest.approx(long) for lane in own)
    told = reach(floor, layout, BOTH)
    assert (told.nets, told.reached) == (1, pytest.approx(told.length))


def test_a_pipe_through_a_footing_joins_what_it_parts():
    floor = Floor(HALL)
    layout = fewest_panels(floor, GAS, angles=[0.0], cuts=300).layout()
    pits = [((7.2, 1.5), 0.5)]
    parted = reach(floor, layout, BOTH, pits, [Barrier((4.6, 0), (4.6, 6), 0.6)])
    piped = reach(floor, layout, BOTH, pits, [Barrier((4.6, 0), (4.6, 6), 0.6, ((4.6, 3.0),))])
    assert (parted.nets, piped.nets) == (2, 1)
    assert parted.reached < 0.6 * parted.length
    assert piped.reached == pytest.approx(piped.length)
    assert piped.missed == ()


def test_a_pit_that_meets_no_channel_is_told():
    floor = Floor(HALL)
    layout = fewest_panels(floor, GAS, angles=[0.0], cuts=300).layout()
    lane = next(each for each in lanes(floor, layout, BOTH) if each.along and each.at > 1.0)
    across = next(each for each in lanes(floor, layout, BOTH) if not each.along and each.at > 1.0)
    foot = (across.at + BOTH.pitch / 2, lane.at + BOTH.pitch / 2)  # between channels, on a foot
    told = reach(floor, layout, BOTH, [(foot, 0.02)])
    assert told.dry == (foot,)
    assert len(told.missed) == len(layout.pieces)


def test_channels_of_a_plan_without_pitch_are_not_followed():
    floor = Floor(HALL)
    layout = fewest_panels(floor, replace(GAS, pitch=0.0), angles=[0.0], cuts=300).layout()
    with pytest.raises(ValueError, match="not lined up"):
        lanes(floor, layout, BOTH)


def test_the_rest_of_a_plan_cut_again_keeps_the_pitch():
    """Pieces of the later rows, cut anew from whole panels, stand on the same grid as before."""
    _, floor = floor_of(2)
    layout = fewest_panels(floor, TUBE, cuts=FEW_CUTS).layout()
    later = [piece for piece in layout.pieces if piece.row > 3]
    _, again, _ = recut(later, TUBE, [], (layout.phase, layout.offset))
    for piece in again:
        for off in (piece.x0 - piece.u - layout.phase, piece.y0 - piece.v - layout.offset):
            assert abs(off / TUBE.pitch - round(off / TUBE.pitch)) < 1e-5
