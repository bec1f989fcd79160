"""Foam at the edges rolled out: areas round corners by rectangles, and the strips' plans looked at from outside."""

from pathlib import Path

import pytest

from underpour.brief import read
from underpour.panels.proof import faults
from underpour.resolve import resolve
from underpour.takeoff.edges import edge_foam, laid_strip
from underpour.takeoff.strips import strips

EXAMPLES = Path(__file__).parents[2] / "examples"
FOOT = 0.3048
RAFT = (EXAMPLES / "raft-in-maine" / "brief.toml").read_text(encoding="utf-8")
TYPED = 'outline = ["0 0", "36 0", "36 26", "0 26"]'
WING = '  { board = "c578-v", thickness = "2 in", face = "wing", out = "48 in", at = "14 in" },\n'
OUT = 4 * FOOT
BOARD = 4 / 12 * FOOT


def of(tmp_path, text):
    (tmp_path / "brief.toml").write_text(text[: text.index("[[alternative]]")], encoding="utf-8")
    return resolve(read(tmp_path / "brief.toml").brief)


def area(resolved, face, letter="A"):
    found = [each for each in strips(resolved) if each.piece.face == face and each.edge.letter == letter]
    return sum(each.length * each.height for each in found)


def standing(resolved):
    return sum(each.thickness for each in resolved.edges[0].above)


def test_a_wing_round_a_rectangle_is_what_lies_between_two_rectangles(tmp_path):
    """Derived: (a + 2q)(b + 2q) - (a + 2p)(b + 2p), p to the foam's outer face, q four feet further."""
    resolved = of(tmp_path, RAFT)
    p = standing(resolved) + BOARD
    q = p + OUT
    a, b = 36 * FOOT, 26 * FOOT
    between = (a + 2 * q) * (b + 2 * q) - (a + 2 * p) * (b + 2 * p)
    assert area(resolved, "wing") == pytest.approx(between, rel=1e-12)


def test_a_wing_round_an_l_gains_five_corners_and_loses_one(tmp_path):
    """Derived: length times width, and four squares more in all: (q² - p²) at each corner out, as much less in."""
    resolved = of(tmp_path, RAFT.replace(TYPED, 'outline = ["0 0", "36 0", "36 14", "20 14", "20 26", "0 26"]'))
    p = standing(resolved) + BOARD
    q = p + OUT
    assert area(resolved, "wing") == pytest.approx(124 * FOOT * (q - p) + 4 * (q * q - p * p), rel=1e-12)


def test_a_wing_round_a_round_floor_is_a_ring(tmp_path):
    """Derived: pi (q² - p²) beyond a circle 30 ft across."""
    resolved = of(tmp_path, RAFT.replace(TYPED, 'outline = ["0 0 bulge 1", "30 0 bulge 1"]'))
    p = 15 * FOOT + standing(resolved) + BOARD
    q = p + OUT
    assert area(resolved, "wing") == pytest.approx(3.141592653589793 * (q * q - p * p), rel=1e-12)


def test_foam_on_the_slab_s_edge_covers_the_ring_that_it_stands_in(tmp_path):
    """Derived: its plan area over its thickness is its length: boards butt at corners, each covers its own."""
    resolved = of(tmp_path, RAFT)
    p = standing(resolved)
    a, b = 36 * FOOT, 26 * FOOT
    ring = (a + 2 * (p + BOARD)) * (b + 2 * (p + BOARD)) - (a + 2 * p) * (b + 2 * p)
    (strip,) = [each for each in strips(resolved) if each.piece.face == "slab-edge"]
    assert strip.length == pytest.approx(ring / BOARD, rel=1e-12)
    assert strip.height == pytest.approx((6 + 8) / 12 * FOOT)  # concrete and both boards


def test_a_wing_along_one_side_ends_in_line_with_its_neighbours_walls(tmp_path):
    """Derived: 36 ft and a wall's thickness at each end, times four feet."""
    both = RAFT.replace(WING, "").replace('sides      = "all"', 'sides      = "rest"')
    own = RAFT[RAFT.index("[[edge]]") : RAFT.index("[[alternative]]")].replace('"all"', "[1]")
    resolved = of(tmp_path, both.replace("[[alternative]]", f"{own}\n[[alternative]]", 1))
    (winged,) = [each.letter for each in resolved.edges if any(piece.face == "wing" for piece in each.pieces)]
    long = 36 * FOOT + 2 * standing(resolved)
    assert area(resolved, "wing", winged) == pytest.approx(long * OUT, rel=1e-12)


@pytest.mark.parametrize(
    "name", ["raft-in-maine", "court-and-bay-house", "footing-on-foam", "walk-or-drive", "warm-basement"]
)
def test_the_plan_of_every_strip_holds_when_it_is_looked_at_from_outside(name):
    reading = read(EXAMPLES / name / "brief.toml")
    resolved = resolve(reading.brief, products=reading.products)
    rolled = list(strips(resolved))
    items = list(edge_foam(resolved, lambda _words, _done: None))
    assert len(rolled) == len(items) > 0
    for strip, item in zip(rolled, items, strict=True):
        layout = laid_strip(resolved, strip).layout()
        assert faults(strip.floor, layout) == []
        assert (layout.panels, layout.area) == (item.count, pytest.approx(item.net, rel=1e-9))
