"""A weather file as text, or why it cannot be one."""

from __future__ import annotations

from pathlib import Path

from ..mistakes import Mistake, nearest
from .limits import limit, table

READ = "Read are EPW, TMY3, monthly normals of the United States, and a table: month,temperature C."
LATIN = "The file is not written in UTF-8; it was taken as Latin-1, and a letter with an accent may be wrong."


def text_of(path: Path) -> tuple[str, tuple[str, ...]]:
    """The text of a file, and what to know of its letters.

    Raises
    ------
    Mistake
        No such file, a folder, too large, packed, or no text at all.
    """
    if path.is_dir():
        raise _about(path, "This is a folder; a weather file is wanted.", _files_in(path))
    try:
        if path.exists() and not path.is_file():
            raise _about(path, "This is not an ordinary file.", READ)
        if path.is_file() and path.stat().st_size > limit("largest-file"):
            million = path.stat().st_size / 1e6
            raise _about(path, f"{million:.0f} million bytes are too much for one year of one station.", READ)
        content = path.read_bytes()
    except (FileNotFoundError, NotADirectoryError):
        raise _about(path, "There is no such file.", _nearest_to(path)) from None
    except (OSError, ValueError) as refused:
        why = getattr(refused, "strerror", None) or str(refused)
        raise _about(path, f"The file cannot be read: {why.lower()}.", "") from None
    return _decoded(content, path)


def shown(words: str, most: int = 60) -> str:
    """Words of a file as they may be repeated: one line, nothing that a terminal would obey, not too long.

    >>> shown("cold or warm", most=4)
    'cold …'
    """
    plain = "".join(letter if letter.isprintable() else " " for letter in words).strip()
    return plain if len(plain) <= most else plain[:most].rstrip() + " …"


def _decoded(content: bytes, path: Path) -> tuple[str, tuple[str, ...]]:
    for kind in table()["packed"]:
        if content.startswith(bytes.fromhex(kind["begins"])):
            raise _about(path, f"This is {kind['what']}, not the text of a weather file.", kind["instead"])
    if not content.strip():
        raise _about(path, "The file is empty.", READ)
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        try:
            return content.decode("utf-16"), ()
        except UnicodeDecodeError:
            raise _about(path, "The file begins as UTF-16 and does not go on so.", "Save it as UTF-8.") from None
    if b"\0" in content:
        raise _about(path, "This is not a text.", READ)
    try:
        return content.decode("utf-8-sig"), ()
    except UnicodeDecodeError:
        return content.decode("latin-1"), (LATIN,)


def _about(path: Path, wrong: str, instead: str) -> Mistake:
    return Mistake("", "", wrong, instead, path.name)


def _nearest_to(path: Path) -> str:
    if not path.parent.is_dir():
        return f"There is no folder {path.parent} either; the path starts from the brief's folder."
    near = nearest(path.name, _names_in(path.parent))
    return f"The nearest is {near[0]}." if near else "The path starts from the brief's folder."


def _files_in(folder: Path) -> str:
    inside = [name for name in _names_in(folder) if name.lower().endswith((".epw", ".csv"))]
    return f"Name the file in it, such as {folder.name}/{inside[0]}." if inside else "Name the file in it."


def _names_in(folder: Path) -> list[str]:
    try:
        return sorted(other.name for other in folder.iterdir() if other.is_file())
    except OSError:
        return []
