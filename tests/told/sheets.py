"""The sheets of a PDF, read by another program than the one that set them: where each letter stands, in millimetres."""

from __future__ import annotations

import ctypes
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

import pypdfium2
import pypdfium2.raw as raw

POINT = 25.4 / 72.0  # mm
SIDE = 20.0  # mm, margin at the left and right
TOP, FOOT = 9.0, 9.0  # mm, free of every letter, the words over a draft and the strip included
MARK = (9.0, 18.5)  # mm from the left edge, where the mark of a revision stands
TOUCH = 0.3  # of the smaller of two letters, from which they count as lying on each other
JOINED = 2  # letters after each other that may share their ink: fi, ff, 7.
CELL = 5.0  # mm


@dataclass(frozen=True)
class Letter:
    """One letter's ink. [mm from the sheet's upper left corner]"""

    sign: str
    place: int  # in the order of reading
    left: float
    top: float
    right: float
    bottom: float

    @property
    def area(self) -> float:
        return max(self.right - self.left, 0.01) * max(self.bottom - self.top, 0.01)

    def shared(self, other: Letter) -> float:
        wide = min(self.right, other.right) - max(self.left, other.left)
        high = min(self.bottom, other.bottom) - max(self.top, other.top)
        return max(wide, 0.0) * max(high, 0.0)


@dataclass(frozen=True)
class Sheet:
    """One page: its size and its letters, spaces left out. [mm]"""

    wide: float
    high: float
    letters: tuple[Letter, ...]

    def off_the_margins(self) -> list[Letter]:
        return [one for one in self.letters if not (self._between_sides(one) and TOP < one.top < self._foot(one))]

    def _between_sides(self, one: Letter) -> bool:
        return _is_mark(one) or (one.left > SIDE - 0.4 and one.right < self.wide - SIDE + 0.4)

    def _foot(self, one: Letter) -> float:
        return self.high - FOOT - (one.bottom - one.top)

    def on_each_other(self) -> list[tuple[Letter, Letter]]:
        cells: dict[tuple[int, int], list[Letter]] = defaultdict(list)
        found = []
        for one in self.letters:
            near = {(int(x // CELL), int(y // CELL)) for x in (one.left, one.right) for y in (one.top, one.bottom)}
            others = {id(other): other for cell in near for other in cells[cell]}
            found += [
                (one, other)
                for other in others.values()
                if one.place - other.place > JOINED and one.shared(other) > TOUCH * min(one.area, other.area)
            ]
            for cell in near:
                cells[cell].append(one)
        return found


def _is_mark(one: Letter) -> bool:
    return MARK[0] < one.left and one.right < MARK[1]


def sheets(pdf: bytes) -> Iterator[Sheet]:
    with pypdfium2.PdfDocument(pdf) as document:
        for page in document:
            wide, high = page.get_size()
            text = page.get_textpage()
            yield Sheet(wide * POINT, high * POINT, tuple(_letters(text, high)))
            text.close()
            page.close()


def words(pdf: bytes) -> str:
    """All text of a PDF, sheet by sheet."""
    with pypdfium2.PdfDocument(pdf) as document:
        return "\n".join(page.get_textpage().get_text_range() for page in document)


def _letters(text: pypdfium2.PdfTextPage, high: float) -> Iterator[Letter]:
    left, right, bottom, top = (ctypes.c_double() for _ in range(4))
    for n in range(text.count_chars()):
        sign = chr(raw.FPDFText_GetUnicode(text, n))
        if sign.isspace() or not sign.isprintable() or raw.FPDFText_IsGenerated(text, n) == 1:
            continue
        if raw.FPDFText_GetCharBox(text, n, left, right, bottom, top):
            box = left.value, high - top.value, right.value, high - bottom.value
            yield Letter(sign, n, *(edge * POINT for edge in box))
