"""What a drawing is made of, once it is lines and arcs in the plan, in m."""

from __future__ import annotations

from dataclasses import dataclass

from ..outlines.outline import Outline
from ..outlines.side import Point, Side


@dataclass(frozen=True, slots=True)
class Origin:
    """Where something stands in the drawing."""

    layer: str
    handle: str  # the drawing's own number of it
    block: str = ""  # the block that it is drawn in; "" for none

    @property
    def words(self) -> str:
        """As it is told: "layer walls, handle 2F3, in block door"."""
        inside = f", in block {shown(self.block)}" if self.block else ""
        return f"layer {shown(self.layer)}, handle {self.handle}{inside}"


@dataclass(frozen=True, slots=True)
class Piece:
    """One line, arc, circle or polyline."""

    origin: Origin
    sides: tuple[Side, ...]
    closed: bool
    wide: bool = False  # a polyline that was given a breadth


@dataclass(frozen=True, slots=True)
class Ring:
    """Sides that close."""

    outline: Outline
    origin: Origin  # of its first piece
    joints: int = 0  # corners at which loose ends were brought together


@dataclass(frozen=True, slots=True)
class Unread:
    """A curve or body that is no line or arc in the plan."""

    what: str
    origin: Origin
    instead: str = "Draw it as lines and arcs of circles, or put it on another layer."


def shown(words: str, most: int = 60) -> str:
    """Words of a drawing as they may be repeated: one line, nothing that a terminal would obey, not too long.

    >>> shown("A-WALL\\x1b[2J", most=7)
    'A-WALL …'
    """
    plain = "".join(letter if letter.isprintable() else " " for letter in words).strip()
    return plain if len(plain) <= most else plain[:most].rstrip() + " …"


def place(point: Point, metres: float, unit: str) -> str:
    """A place in the drawing's own numbers.

    >>> place((1.5, 2.0), 0.001, "mm")
    '1500 2000 mm'
    """
    x, y = (number(each / metres, metres) for each in point)
    return f"{x} {y} {unit}"


def number(value: float, metres: float) -> str:
    """A number of the drawing to a tenth of a millimetre, without noughts behind.

    >>> number(12.50004, 1.0), number(-0.00001, 1.0)
    ('12.5', '0')
    """
    digits = 1 if metres < 0.005 else 2 if metres < 0.05 else 4
    said = f"{round(value, digits) + 0.0:.{digits}f}"
    return said.rstrip("0").rstrip(".")
