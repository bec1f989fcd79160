"""Where a block's drawing comes to lie: moved, turned, mirrored, made larger, one in another."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, radians, sin

from ..outlines.side import Point, Side

ALIKE = 1e-9  # of its size, that a block may be larger one way than the other and still keep circles round


@dataclass(frozen=True, slots=True)
class Moved:
    """x' = xx x + xy y + x0, y' = yx x + yy y + y0."""

    xx: float = 1.0
    xy: float = 0.0
    yx: float = 0.0
    yy: float = 1.0
    x0: float = 0.0
    y0: float = 0.0

    def point(self, point: Point) -> Point:
        x, y = point
        return self.xx * x + self.xy * y + self.x0, self.yx * x + self.yy * y + self.y0

    def side(self, side: Side) -> Side:
        """The side where it comes to lie; an arc mirrored turns the other way. Arcs ask for `keeps_circles`.

        >>> mirrored = Moved(xx=-1.0)
        >>> mirrored.side(Side((0, 0), (8, 0), 0.5)).bulge
        -0.5
        """
        return Side(self.point(side.start), self.point(side.end), -side.bulge if self.mirrors else side.bulge)

    def after(self, first: Moved) -> Moved:
        """What ``first`` does and this after it.

        >>> turned(90.0).after(Moved(x0=2.0)).point((1.0, 0.0))[1]
        3.0
        """
        x0, y0 = self.point((first.x0, first.y0))
        return Moved(
            self.xx * first.xx + self.xy * first.yx,
            self.xx * first.xy + self.xy * first.yy,
            self.yx * first.xx + self.yy * first.yx,
            self.yx * first.xy + self.yy * first.yy,
            x0,
            y0,
        )

    @property
    def mirrors(self) -> bool:
        return self.xx * self.yy - self.xy * self.yx < 0.0

    @property
    def keeps_circles(self) -> bool:
        """Whether it makes everything larger by the same both ways, so that a circle stays one."""
        along, up = hypot(self.xx, self.yx), hypot(self.xy, self.yy)
        slant = abs(self.xx * self.xy + self.yx * self.yy)
        return abs(along - up) <= ALIKE * along and slant <= ALIKE * along * up

    @property
    def flattens(self) -> bool:
        """Whether nothing is left of an area."""
        return self.xx * self.yy == self.xy * self.yx


def turned(degrees: float) -> Moved:
    """Turned left about the origin; by quarters exactly."""
    quarters = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}
    angle = radians(degrees)
    c, s = quarters.get(degrees % 360.0, (cos(angle), sin(angle)))
    return Moved(c, -s, s, c)


SEEN_FROM_BELOW = Moved(xx=-1.0)  # what was drawn on a plane whose upright points down (extrusion 0, 0, -1)
