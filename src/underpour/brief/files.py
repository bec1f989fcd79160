"""A brief's file as text, or why it cannot be read."""

from __future__ import annotations

from pathlib import Path

from ..mistakes import Mistake, nearest


def text_of(path: Path) -> str:
    """The text of a brief's file, its lines ended by one line feed.

    Raises
    ------
    Mistake
        A folder, a file that is not there, may not be read, or is not UTF-8 text.
    """
    try:
        folder = path.is_dir()
    except OSError as refused:  # a name longer than any file has
        raise _about(path, f"The file cannot be read: {(refused.strerror or '').lower()}.", "") from None
    if folder:
        inside = path / "brief.toml"
        hint = f"Write {inside}." if inside.is_file() else "Name the brief in it."
        raise _about(path, "This is a folder; a brief is a file.", hint)
    try:
        return path.read_text("utf-8-sig").replace("\r\n", "\n")
    except FileNotFoundError:
        near = nearest(path.name, _briefs_beside(path))
        hint = f"The nearest is {path.with_name(near[0])}." if near else ""
        raise _about(path, "There is no such file.", hint) from None
    except UnicodeDecodeError:
        raise _about(path, "This is not a text in UTF-8.", "A brief is plain text; save it as UTF-8.") from None
    except (OSError, ValueError) as refused:
        why = getattr(refused, "strerror", None) or str(refused)
        raise _about(path, f"The file cannot be read: {why.lower()}.", "") from None


def _about(path: Path, wrong: str, instead: str) -> Mistake:
    return Mistake("", "", wrong, instead, str(path))


def _briefs_beside(path: Path) -> list[str]:
    try:
        return [other.name for other in path.parent.glob("*.toml")]
    except OSError:
        return []
