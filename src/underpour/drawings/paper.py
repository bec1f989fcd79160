"""The sheet: millimetres, pens, letters, and the frame that puts a section's metres onto it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any
from xml.sax.saxutils import escape, quoteattr

from . import colours
from .lettering import LETTER, width

HAIR, FINE, LINE, BOLD, HEAVY = 0.18, 0.25, 0.35, 0.5, 0.7  # pens, mm
# A typesetter may file the first family under the second.
FAMILY = "Sofia Sans Condensed, Sofia Sans, Noto Sans Math, sans-serif"
INK = "#182A2E"  # inside a field lines and letters keep this ink in every theme


@dataclass(frozen=True, slots=True)
class Frame:
    """Where the window of a section lies on the sheet, at one scale both ways."""

    left: float  # mm
    top: float  # mm
    window: tuple[float, float, float, float]  # x0, x1, y0, y1 in m
    scale: float  # mm on paper for each metre

    @property
    def width(self) -> float:
        return (self.window[1] - self.window[0]) * self.scale

    @property
    def height(self) -> float:
        return (self.window[3] - self.window[2]) * self.scale

    @property
    def right(self) -> float:
        return self.left + self.width

    @property
    def bottom(self) -> float:
        return self.top + self.height

    def x(self, metres: Any) -> Any:
        return self.left + (metres - self.window[0]) * self.scale

    def y(self, metres: Any) -> Any:
        return self.top + (self.window[3] - metres) * self.scale

    def metres(self, x: Any, y: Any) -> tuple[Any, Any]:
        """The point of the section under a point of the sheet."""
        return self.window[0] + (x - self.left) / self.scale, self.window[3] - (y - self.top) / self.scale

    def within(self, window: tuple[float, float, float, float]) -> Frame:
        """The part of the frame that shows a smaller window, at its place on the sheet."""
        x0, x1, y0, y1 = self.window
        kept = max(x0, window[0]), min(x1, window[1]), max(y0, window[2]), min(y1, window[3])
        return Frame(self.x(kept[0]), self.y(kept[3]), kept, self.scale)

    def path(self, outline: Iterable[tuple[float, float]], *, closed: bool) -> str:
        return path(((self.x(x), self.y(y)) for x, y in outline), closed=closed)


@dataclass(frozen=True, slots=True)
class Box:
    """A place on the sheet that is taken by letters. [mm]"""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        return not (
            self.right <= other.left or other.right <= self.left or self.bottom <= other.top or other.bottom <= self.top
        )


@dataclass(frozen=True, slots=True)
class Named:
    """Words set on the sheet with the lines that belong to them, and the room they take."""

    drawn: str
    words: tuple[Box, ...]  # the letters
    taken: tuple[Box, ...]  # letters and lines


def mm(value: float) -> str:
    """A length as written into the picture: hundredths of a millimetre, no idle noughts."""
    return f"{round(100 * float(value)) / 100:g}"


def path(points: Iterable[tuple[float, float]], *, closed: bool) -> str:
    """Path data through points of the sheet, in steps of a hundredth of a millimetre. [mm]"""
    words: list[str] = []
    last = (0, 0)
    for k, (x, y) in enumerate(points):
        here = (round(100 * float(x)), round(100 * float(y)))
        if k == 0:
            words.append(f"M{here[0] / 100:g} {here[1] / 100:g}")
        elif here != last:
            words.append(f"l{(here[0] - last[0]) / 100:g} {(here[1] - last[1]) / 100:g}")
        last = here
    return "".join(words) + ("z" if closed else "")


def stroke(data: str, pen: float = HAIR, *, colour: str = INK, extra: str = "") -> str:
    return f'<path d="{data}" fill="none" stroke="{colour}" stroke-width="{pen:g}"{extra}/>'


def line(x0: float, y0: float, x1: float, y1: float, pen: float = HAIR, *, colour: str = INK, extra: str = "") -> str:
    return stroke(f"M{mm(x0)} {mm(y0)}L{mm(x1)} {mm(y1)}", pen, colour=colour, extra=extra)


def rectangle(x: float, y: float, wide: float, high: float, fill: str) -> str:
    return f'<rect x="{mm(x)}" y="{mm(y)}" width="{mm(wide)}" height="{mm(high)}" fill="{fill}"/>'


def dot(x: float, y: float, radius: float = 0.5) -> str:
    return f'<circle cx="{mm(x)}" cy="{mm(y)}" r="{radius:g}" fill="{INK}"/>'


def letters(
    x: float,
    y: float,
    words: str,
    *,
    size: float = LETTER,
    weight: int = 400,
    anchor: str = "start",
    colour: str = INK,
    turned: bool = False,
) -> str:
    """Words with their base line at x, y. [mm]

    Their width is written beside them, so that a viewer without the drawing letter fits its own into the same room.
    """
    words = plain(words)
    if not words.strip():
        return ""
    turn = f' transform="rotate(-90 {mm(x)} {mm(y)})"' if turned else ""
    heavy = ' font-weight="600"' if weight >= 600 else ""
    middle = f' text-anchor="{anchor}"' if anchor != "start" else ""
    fit = f' textLength="{mm(width(words, size, weight))}" lengthAdjust="spacingAndGlyphs"'
    return (
        f'<text x="{mm(x)}" y="{mm(y)}" font-size="{size:.2f}"{heavy}{middle} fill="{colour}"{fit}{turn}>'
        f"{escape(words)}</text>"
    )


def plain(words: str) -> str:
    """Words on one line with spaces that the drawing letter has; signs that no document may hold are left out."""
    spaced = "".join("\u00a0" if c in "\u2009\u202f" else " " if c.isspace() else c for c in words)
    return "".join(c for c in spaced if c.isprintable() or c == "\u00a0")


def picture(*, wide: float, high: float, title: str, description: str, defs: Iterable[str], body: Iterable[str]) -> str:
    """A whole picture of that many millimetres, on the paper's white."""
    leaf = colours.light()["leaf"]
    inner = "\n".join(part for part in body if part)
    patterns = "\n".join(part for part in defs if part)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{mm(wide)}mm" height="{mm(high)}mm" '
        f'viewBox="0 0 {mm(wide)} {mm(high)}" role="img" aria-label={quoteattr(plain(title))} '
        f'font-family="{FAMILY}" font-stretch="condensed" stroke-linejoin="round">\n'
        f"<title>{escape(plain(title))}</title>\n<desc>{escape(plain(description))}</desc>\n"
        f"<defs>\n{patterns}\n</defs>\n{rectangle(0, 0, wide, high, leaf)}\n{inner}\n</svg>\n"
    )
