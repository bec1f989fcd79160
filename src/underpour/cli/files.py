"""Files that commands write: replaced whole, or left as they were."""

from __future__ import annotations

import contextlib
import os
import shutil
from pathlib import Path

from ..mistakes import Mistake


def target(typed: str, suffix: str | tuple[str, ...], brief: str) -> Path:
    """The file to be written, refused before any work where it can be seen that it cannot be.

    Parameters
    ----------
    typed : str
        The path as the user wrote it.
    suffix : str or tuple of str
        How the file's name has to end: ".pdf", or one of ".svg" and ".html".
    brief : str
        Path of the brief, which is never written over.

    Raises
    ------
    Mistake
        A folder stands there, the folder it would stand in is missing or shut, the name ends otherwise.
    """
    path = Path(os.path.realpath(typed))
    ends = (suffix,) if isinstance(suffix, str) else suffix
    if path.is_dir():
        raise _cannot(
            typed, "That is a folder; a file is wanted.", f"Write a name in it: {Path(typed) / ('slab' + ends[0])}"
        )
    if path.suffix.lower() not in ends:
        kinds = " or ".join(end[1:].upper() for end in ends)
        raise _cannot(typed, f"What is written here is {kinds}.", f"End the name with {' or '.join(ends)}.")
    if path == Path(os.path.realpath(brief)):
        raise _cannot(typed, "That is the brief itself.", "Write to another name.")
    if path.parent.exists() and not path.parent.is_dir():
        raise _cannot(typed, f"{Path(typed).parent} is a file, not a folder.", "Write to another folder.")
    if not path.parent.exists():
        raise _cannot(typed, f"There is no folder {Path(typed).parent}.", "Make it first, or write to another folder.")
    if path.exists() and not path.is_file():
        raise _cannot(typed, "That is not an ordinary file.", "Write to another name.")
    if not os.access(path.parent, os.W_OK) or (path.exists() and not os.access(path, os.W_OK)):
        raise _cannot(typed, "Nothing may be written there.", "Write to another folder.")
    return path


def replace_whole(path: Path, content: bytes, typed: str) -> None:
    """Put the content where ``path`` is, in one stroke: written beside first, then moved over.

    Raises
    ------
    Mistake
        The system refuses (full, shut, gone). Nothing is left behind then and an older file still stands.
    """
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        beside.write_bytes(content)
        if path.exists():
            shutil.copymode(path, beside)
        beside.replace(path)
    except OSError as cause:
        raise _cannot(typed, f"It could not be written: {cause.strerror}.", "Write to another folder.") from None
    finally:
        with contextlib.suppress(OSError):
            beside.unlink(missing_ok=True)


def _cannot(typed: str, wrong: str, instead: str) -> Mistake:
    return Mistake(f"-o {typed}", "", wrong, instead)
