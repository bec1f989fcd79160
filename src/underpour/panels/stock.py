"""What is left of cut panels, and where a piece is taken from: straight cuts through, as a hand saw makes them."""

from __future__ import annotations

from collections.abc import Iterator

from .ground_plan import SAME
from .panel import ABOVE, ALL_ROUND, BELOW, LEFT, RIGHT, Rules

Left = tuple[float, float, int, int, float, float]  # length, height, sides of the works, panel, u, v
Taken = tuple[int, float, float]  # panel, u, v


class Stock:
    """Offcuts at hand; a new panel is opened where none of them will do."""

    __slots__ = ("left", "opened", "rules")

    def __init__(self, rules: Rules, left: list[Left] | None = None, opened: int = 0) -> None:
        self.rules = rules
        self.left = left if left is not None else []
        self.opened = opened

    def copy(self) -> Stock:
        return Stock(self.rules, self.left[:], self.opened)

    def open(self, panels: int) -> None:
        """Panels that are laid whole."""
        self.opened += panels

    def take(self, length: float, height: float, meets: int, off: tuple[float, float] = (0.0, 0.0)) -> Taken:
        """The piece, cut from the offcut that it leaves the least of.

        Arguments
        ---------
        length, height
            Of the piece. [m]
        meets
            Its sides that meet another panel.
        off
            How far right of the pitch's lines and above them its corner lies, where there is a pitch. [m]
        """
        need = meets if self.rules.interlock else 0
        best, spare = -1, float("inf")
        pitch = self.rules.pitch
        for number, each in enumerate(self.left):
            long, high, sides, *_ = each
            if long >= length - SAME and high >= height - SAME and need & ~sides == 0:
                if pitch:
                    long, high, *_ = self._from_pitch(each, need, off)
                    if long < length - SAME or high < height - SAME:
                        continue
                over = long * high - length * height
                if over < spare - SAME:
                    best, spare = number, over
        if best < 0:
            self.opened += 1
            panel = self.rules.length, self.rules.width, ALL_ROUND, self.opened - 1, 0.0, 0.0
            return self._cut(self._from_pitch(panel, need, off), length, height, need)
        from_ = self.left[best]
        self.left[best] = self.left[-1]
        self.left.pop()
        return self._cut(self._from_pitch(from_, need, off), length, height, need)

    def _from_pitch(self, from_: Left, need: int, off: tuple[float, float]) -> Left:
        """What is left of an offcut for a piece that has to begin on a line of the pitch; works sides do."""
        pitch = self.rules.pitch
        if not pitch:
            return from_
        long, high, sides, panel, u, v = from_
        along = 0.0 if need & (LEFT | RIGHT) else _up_to(off[0] - u, pitch)
        across = 0.0 if need & (BELOW | ABOVE) else _up_to(off[1] - v, pitch)
        kept = sides & ~(LEFT if along else 0) & ~(BELOW if across else 0)
        return long - along, high - across, kept, panel, u + along, v + across

    def worth(self, share: float) -> float:
        """Area of the offcuts that can still be laid, each counted by a share that grows with its size. [m²]"""
        whole, least = self.rules.area, self.rules.least
        areas = [long * high for long, high, *_ in self.left if long >= least]
        return sum(area * (share + (1.0 - share) * area / whole) for area in areas)

    def _cut(self, from_: Left, length: float, height: float, need: int) -> Taken:
        long, high, sides, panel, u, v = from_
        lined = self.rules.pitch > 0.0  # then a piece that may lie anywhere begins where it was lined up
        to_right = _far(need, sides, RIGHT, LEFT) if need & (LEFT | RIGHT) or not lined else False
        on_top = _far(need, sides, ABOVE, BELOW) if need & (BELOW | ABOVE) or not lined else False
        self.left.extend(self._rest(from_, length, height, to_right, on_top))
        return panel, u + long - length if to_right else u, v + high - height if on_top else v

    def _rest(self, from_: Left, length: float, height: float, to_right: bool, on_top: bool) -> Iterator[Left]:
        """The one or two rectangles that stay, by the cut through that leaves the larger of them."""
        long, high, sides, panel, u, v = from_
        kerf = self.rules.kerf
        along, across = long - length - kerf, high - height - kerf
        end = sides & ~(RIGHT if to_right else LEFT)
        edge = sides & ~(ABOVE if on_top else BELOW)
        end_u = u if to_right else u + length + kerf
        edge_v = v if on_top else v + height + kerf
        if along * high >= long * across:  # the cut across the whole offcut comes first
            if along > SAME:
                yield along, high, end, panel, end_u, v
            if across > SAME:
                part = edge & ~(LEFT if to_right else RIGHT) if along + kerf > SAME else edge
                yield length, across, part, panel, u + long - length if to_right else u, edge_v
        else:
            if across > SAME:
                yield long, across, edge, panel, u, edge_v
            if along > SAME:
                part = end & ~(BELOW if on_top else ABOVE) if across + kerf > SAME else end
                yield along, height, part, panel, end_u, v + high - height if on_top else v


def _far(need: int, sides: int, far: int, near: int) -> bool:
    """Whether the piece lies at the far side: that is asked of it, or only the near one is worth keeping."""
    if need & (near | far):
        return not need & near
    return bool(sides & near) and not sides & far


def _up_to(distance: float, pitch: float) -> float:
    """On to the next line of the pitch. [m]"""
    rest = distance % pitch
    return 0.0 if min(rest, pitch - rest) < SAME * 10.0 else rest
