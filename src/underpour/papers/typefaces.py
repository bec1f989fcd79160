"""A user's own folder of fonts, for scripts that the bundled ones do not draw."""

from __future__ import annotations

import struct
from dataclasses import dataclass
from pathlib import Path

from ..mistakes import Mistake

SUFFIXES = (".ttf", ".otf", ".ttc", ".otc")
MOST = 200  # files looked at in one folder
LAST = 0x10FFFF  # of Unicode


@dataclass(frozen=True, slots=True)
class Typefaces:
    """The families of one folder, and the code points that they draw."""

    folder: str = ""
    families: tuple[str, ...] = ()
    drawn: frozenset[int] = frozenset()


def typefaces(folder: str) -> Typefaces:
    """The fonts of a folder.

    Raises
    ------
    Mistake
        No such folder, a file in its place, or no font in it that can be read.
    """
    place = Path(folder)
    if not place.is_dir():
        wrong = "That is a file; a folder is wanted." if place.exists() else "There is no such folder."
        raise Mistake(f"--fonts {folder}", "", wrong, "Name the folder that holds the font files.")
    files = sorted(path for path in place.rglob("*") if path.suffix.lower() in SUFFIXES and path.is_file())
    if len(files) > MOST:
        raise Mistake(
            f"--fonts {folder}",
            "",
            f"It holds {len(files)} fonts; {MOST} are looked at, at most.",
            "Put those that are needed into a folder of their own.",
        )
    drawn = {path: _drawn(path) for path in files}
    known = [path for path in files if drawn[path]]
    families = _families(place, known)
    if not known or not families:
        raise Mistake(
            f"--fonts {folder}",
            "",
            "No font that can be read is in it." if files else "No font is in it.",
            f"Put font files there: {', '.join(SUFFIXES)}.",
        )
    return Typefaces(str(place), families, frozenset().union(*(drawn[path] for path in known)))


def _families(folder: Path, known: list[Path]) -> tuple[str, ...]:
    """Family names as the typesetter has them, of the files whose letters are known."""
    import typst

    found = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[folder]).fonts()
    kept = {path.resolve() for path in known}
    return tuple(sorted({font.family for font in found if font.path and Path(font.path).resolve() in kept}))


def _drawn(path: Path) -> frozenset[int]:
    """Code points that the fonts of a file draw; none where the file is no font or is damaged."""
    try:
        content = path.read_bytes()
        starts = (0,)
        if content[:4] == b"ttcf":  # several fonts in one file
            count = struct.unpack_from(">I", content, 8)[0]
            starts = struct.unpack_from(f">{min(count, 64)}I", content, 12)
        return frozenset().union(*(_mapped(content, start) for start in starts))
    except (OSError, struct.error, ValueError):
        return frozenset()


def _mapped(content: bytes, start: int) -> set[int]:
    """Code points of one font's character map (the table "cmap" of OpenType: formats 4 and 12 of Unicode)."""
    tables = struct.unpack_from(">H", content, start + 4)[0]
    for n in range(tables):
        tag, _, at, _ = struct.unpack_from(">4sIII", content, start + 12 + 16 * n)
        if tag == b"cmap":
            break
    else:
        return set()
    points: set[int] = set()
    for n in range(struct.unpack_from(">H", content, at + 2)[0]):
        platform, encoding, away = struct.unpack_from(">HHI", content, at + 4 + 8 * n)
        if platform == 0 or (platform == 3 and encoding in (1, 10)):
            form = struct.unpack_from(">H", content, at + away)[0]
            points |= (
                _of_four(content, at + away) if form == 4 else _of_twelve(content, at + away) if form == 12 else set()
            )
    return points


def _of_four(content: bytes, at: int) -> set[int]:
    """Segments of 16-bit code points; a point that is mapped to glyph 0 is not drawn."""
    twice = struct.unpack_from(">H", content, at + 6)[0]
    count = twice // 2
    ends = struct.unpack_from(f">{count}H", content, at + 14)
    starts = struct.unpack_from(f">{count}H", content, at + 16 + twice)
    deltas = struct.unpack_from(f">{count}H", content, at + 16 + 2 * twice)
    ranges = struct.unpack_from(f">{count}H", content, at + 16 + 3 * twice)
    drawn: set[int] = set()
    for k in range(count):
        for point in range(starts[k], min(ends[k], 0xFFFE) + 1):
            glyph = point
            if ranges[k]:
                where = at + 16 + 3 * twice + 2 * k + ranges[k] + 2 * (point - starts[k])
                glyph = struct.unpack_from(">H", content, where)[0]
                if glyph == 0:
                    continue
            if (glyph + deltas[k]) & 0xFFFF:
                drawn.add(point)
    return drawn


def _of_twelve(content: bytes, at: int) -> set[int]:
    """Groups of 32-bit code points."""
    drawn: set[int] = set()
    before = -1
    for n in range(struct.unpack_from(">I", content, at + 12)[0]):
        first, last, glyph = struct.unpack_from(">III", content, at + 16 + 12 * n)
        if not before < first <= last <= LAST:
            raise ValueError("a damaged character map")
        before = last
        drawn |= set(range(first + (glyph == 0), last + 1))
    return drawn
