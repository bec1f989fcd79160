"""What a file is, looked at before the library for drawings sees it."""

from __future__ import annotations

import re
from pathlib import Path

from ..mistakes import Mistake, nearest
from .limits import limit, table

DXF = "A drawing in DXF is wanted, saved as text."
_NOT_DRAWN = rb"(?!ENDSEC|EOF|BLOCK|ENDBLK|VERTEX|SEQEND)"
_NAMED = re.compile(rb"(?m)^[ \t]*0[ \t]*\r?\n[ \t]*" + _NOT_DRAWN + rb"(?:3D)?[A-Z][A-Z0-9_]+[ \t]*\r?$")
_UNIT = re.compile(rb"(?m)^[ \t]*9[ \t]*\r?\n[ \t]*\$INSUNITS[ \t]*\r?\n[ \t]*70[ \t]*\r?\n[ \t]*(\d{1,4})[ \t]*\r?$")
_SECTION = re.compile(rb"(?m)^[ \t]*2[ \t]*\r?\n[ \t]*(ENTITIES|BLOCKS|OBJECTS)[ \t]*\r?$")


def looked_at(path: Path) -> int:
    """The unit that a drawing's header names ($INSUNITS); 0 where it names none.

    It is read here since the library for drawings takes metres where a header is missing, and does not say so.

    Raises
    ------
    Mistake
        The file is not there, is no drawing in text, or holds more than is read.
    """
    if path.is_dir():
        raise Mistake("", "", "This is a folder; a drawing is wanted.", _drawings_in(path))
    try:
        if path.exists() and not path.is_file():
            raise Mistake("", "", "This is not an ordinary file.", DXF)
        size = path.stat().st_size
        if size > limit("largest-file"):
            most = limit("largest-file") / 1e6
            wrong = f"{size / 1e6:.0f} million bytes are too much: at most {most:.0f} million are read."
            raise Mistake("", "", wrong, "Save what encloses the floor as a drawing of its own.")
        content = path.read_bytes()
    except (FileNotFoundError, NotADirectoryError):
        raise Mistake("", "", "There is no such file.", _nearest_to(path)) from None
    except (OSError, ValueError) as refused:
        why = getattr(refused, "strerror", None) or str(refused)
        raise Mistake(
            "", "", f"The file cannot be read: {why.lower()}.", "Open it to yourself, then try again."
        ) from None
    _is_drawing(content)
    things = _things_in(content)
    if things > limit("most-things"):
        wrong = f"The drawing holds {things:,} lines, texts and the like; at most {limit('most-things'):,.0f} are read."
        raise Mistake("", "", wrong, "Save what encloses the floor as a drawing of its own.")
    unit = _UNIT.search(content)
    return int(unit[1]) if unit else 0


def _is_drawing(content: bytes) -> None:
    bare = content.removeprefix(b"\xef\xbb\xbf").lstrip()
    for kind in table()["begins"]:
        if bare.startswith(bytes.fromhex(kind["with"])):
            raise Mistake("", "", kind["wrong"], kind["instead"])
    if not bare:
        raise Mistake("", "", "The file is empty.", DXF)
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise Mistake("", "", "The file is written in UTF-16, which no drawing is.", DXF)
    if b"\0" in content:
        raise Mistake("", "", "This is not a text.", DXF)
    if not re.match(rb"(999[ \t]*\r?\n[^\n]*\n[ \t]*)*0[ \t]*\r?\n[ \t]*SECTION", bare):
        first = bare.split(b"\n")[0].decode("utf-8", "replace")[:40]
        plain = "".join(letter if letter.isprintable() else " " for letter in first).strip()
        raise Mistake("", "", f'It begins "{plain}", as no drawing in DXF does.', DXF)
    if not re.search(rb"(?m)^[ \t]*EOF[ \t]*\r?$", content[-200:]):
        raise Mistake("", "", "The drawing breaks off: its end is missing.", "Save or send it once more.")


def _things_in(content: bytes) -> int:
    """How many things stand in the drawing and in its blocks."""
    sections = [(found[1], found.end()) for found in _SECTION.finditer(content)]
    ends = [start for _, start in sections[1:]] + [len(content)]
    drawn = ((start, end) for (name, start), end in zip(sections, ends, strict=True) if name != b"OBJECTS")
    return sum(len(_NAMED.findall(content, start, end)) for start, end in drawn)


def _nearest_to(path: Path) -> str:
    if not path.parent.is_dir():
        return f"There is no folder {path.parent} either; the path starts from the brief's folder."
    near = nearest(path.name, _names_in(path.parent))
    return f"The nearest is {near[0]}." if near else "The path starts from the brief's folder."


def _drawings_in(folder: Path) -> str:
    inside = [name for name in _names_in(folder) if name.lower().endswith(".dxf")]
    return f"Name the file in it, such as {folder.name}/{inside[0]}." if inside else "Name the file in it."


def _names_in(folder: Path) -> list[str]:
    try:
        return sorted(other.name for other in folder.iterdir() if other.is_file())
    except OSError:
        return []
