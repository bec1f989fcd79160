"""A user's own folder of fonts, for scripts that the bundled ones do not draw."""

from __future__ import annotations

import struct
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from ..mistakes import Mistake

SUFFIXES = (".ttf", ".otf", ".ttc", ".otc")
MOST = 200  # files looked at in one folder


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
    if not files:
        wrong, instead = "No font is in it.", f"Put font files there: {', '.join(SUFFIXES)}."
        raise Mistake(f"--fonts {folder}", "", wrong, instead)
    drawn = {path: _drawn(path) for path in files}
    damaged = [path.name for path in files if not drawn[path]]
    if damaged:
        wrong = f"No font can be read from {', '.join(damaged[:5])}{', and others' if damaged[5:] else ''}."
        raise Mistake(f"--fonts {folder}", "", wrong, "Take what is damaged out of the folder.")
    return Typefaces(str(place), _families(place), frozenset().union(*drawn.values()))


def _families(folder: Path) -> tuple[str, ...]:
    """Family names as the typesetter has them."""
    import typst

    found = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[folder]).fonts()
    return tuple(sorted({font.family for font in found}))


def _drawn(path: Path) -> frozenset[int]:
    """Code points that the fonts of a file draw; none where the file is no font or is damaged."""
    from fontTools.ttLib import TTCollection, TTFont, TTLibError  # type: ignore[import-untyped]

    try:
        content = path.read_bytes()
        several = content[:4] == b"ttcf"
        fonts = TTCollection(BytesIO(content)).fonts if several else [TTFont(BytesIO(content))]
        return frozenset().union(*(font.getBestCmap() or () for font in fonts))
    except (OSError, TTLibError, struct.error, AssertionError, LookupError, ValueError, EOFError):
        return frozenset()  # the library tells damage in all these ways
