"""Floors by chance, for the plans of panels: five of each kind in thirty seeds, sides 6 to 24 m."""

from random import Random

from underpour.outlines.floor import Floor
from underpour.outlines.outline import Outline, straight
from underpour.outlines.side import Side
from underpour.panels.panel import Rules

FOOT = 0.3048
PANELS = {
    "plain 4x8": Rules(8 * FOOT, 4 * FOOT),
    "interlocking 2x4": Rules(4 * FOOT, 2 * FOOT, interlock=True, stagger=0.2, least=0.2),
    "interlocking 4x4": Rules(4 * FOOT, 4 * FOOT, interlock=True, stagger=0.2, least=0.2),
}
KINDS = ("rectangle", "L", "U", "round", "skewed", "with holes")


def floor_of(seed):
    """Its kind, and the floor."""
    kind, chance = KINDS[(seed - 1) % len(KINDS)], Random(seed)
    a, b = chance.uniform(6, 24), chance.uniform(6, 24)
    return kind, {
        "rectangle": _rectangle,
        "L": _l_shaped,
        "U": _u_shaped,
        "round": _round,
        "skewed": _skewed,
        "with holes": _with_holes,
    }[kind](chance, a, b)


def _rectangle(_chance, a, b):
    return Floor(straight([(0, 0), (a, 0), (a, b), (0, b)]))


def _l_shaped(chance, a, b):
    c, d = a * chance.uniform(0.3, 0.7), b * chance.uniform(0.3, 0.7)
    return Floor(straight([(0, 0), (a, 0), (a, d), (c, d), (c, b), (0, b)]))


def _u_shaped(chance, a, b):
    c, e, d = a * chance.uniform(0.2, 0.4), a * chance.uniform(0.6, 0.8), b * chance.uniform(0.3, 0.6)
    return Floor(straight([(0, 0), (a, 0), (a, b), (e, b), (e, d), (c, d), (c, b), (0, b)]))


def _round(_chance, a, _b):
    r = a / 2
    return Floor(Outline((Side((-r, 0), (r, 0), 1.0), Side((r, 0), (-r, 0), 1.0))))


def _skewed(chance, a, b):
    def off(length):
        return length * chance.uniform(-0.15, 0.15)

    corners = [(off(a), off(b)), (a + off(a), off(b)), (a + off(a), b + off(b)), (off(a), b + off(b))]
    return Floor(straight(corners))


def _with_holes(chance, a, b):
    holes = []
    for k in range(3):
        w, h = chance.uniform(0.4, 2), chance.uniform(0.4, 2)
        x = a * (k + 0.2) / 3 + chance.uniform(0, max(a / 3 - w - 0.1 * a, 0.01))
        y = chance.uniform(0.5, b - h - 0.5)
        holes.append(straight([(x, y), (x + w, y), (x + w, y + h), (x, y + h)]))
    return Floor(straight([(0, 0), (a, 0), (a, b), (0, b)]), tuple(holes))
