"""Files that commands write: replaced whole, or left as they were."""

from __future__ import annotations

import contextlib
import os
import shutil
from pathlib import Path

from ..mistakes import Mistake

LONGEST = 200  # bytes of a file's name: a disk takes 255, and what is written beside it first has a longer one


def target(typed: str, suffix: str | tuple[str, ...], brief: str | None, option: str = "-o ") -> Path:
    """The file to be written, refused before any work where it can be seen that it cannot be.

    Parameters
    ----------
    typed : str
        The path as the user wrote it.
    suffix : str or tuple of str
        How the file's name has to end: ".pdf", or one of ".svg" and ".html".
    brief : str or None
        Path of the brief, which is never written over; None where there is none yet.
    option : str
        What stands before the path on the command line.

    Raises
    ------
    Mistake
        A folder stands there, the folder it would stand in is missing or shut, the name ends otherwise.
    """
    at = f"{option}{typed}"
    path = Path(os.path.realpath(typed))
    if len(os.fsencode(path.name)) > LONGEST:
        raise _cannot(f"{option}{typed[:60]}…", "That name is too long.", f"Write {LONGEST} letters at most.")
    ends = (suffix,) if isinstance(suffix, str) else suffix
    if path.is_dir():
        raise _cannot(
            at, "That is a folder; a file is wanted.", f"Write a name in it: {Path(typed) / ('slab' + ends[0])}"
        )
    if path.suffix.lower() not in ends:
        kinds = " or ".join(end[1:].upper() for end in ends)
        raise _cannot(at, f"What is written here is {kinds}.", f"End the name with {' or '.join(ends)}.")
    if brief is not None and path == Path(os.path.realpath(brief)):
        raise _cannot(at, "That is the brief itself.", "Write to another name.")
    if path.parent.exists() and not path.parent.is_dir():
        raise _cannot(at, f"{Path(typed).parent} is a file, not a folder.", "Write to another folder.")
    if not path.parent.exists():
        raise _cannot(at, f"There is no folder {Path(typed).parent}.", "Make it first, or write to another folder.")
    if path.exists() and not path.is_file():
        raise _cannot(at, "That is not an ordinary file.", "Write to another name.")
    if not os.access(path.parent, os.W_OK) or (path.exists() and not os.access(path, os.W_OK)):
        raise _cannot(at, "Nothing may be written there.", "Write to another folder.")
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
        raise _cannot(
            f"-o {typed}", f"It could not be written: {cause.strerror}.", "Write to another folder."
        ) from None
    finally:
        with contextlib.suppress(OSError):
            beside.unlink(missing_ok=True)


def write_new(path: Path, content: bytes, typed: str) -> None:
    """Put the content into a file that does not stand yet, in one stroke: written beside first, then given its name.

    Raises
    ------
    Mistake
        A file stands there, even one that came this moment, or the system refuses. Nothing is left behind then.
    """
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        beside.write_bytes(content)
        _name_once(beside, path)
    except FileExistsError:
        raise _cannot(typed, "There is such a file, and it stays as it is.", "Write to another name.") from None
    except OSError as cause:
        raise _cannot(typed, f"It could not be written: {cause.strerror}.", "Write to another folder.") from None
    finally:
        with contextlib.suppress(OSError):
            beside.unlink(missing_ok=True)


def _name_once(beside: Path, path: Path) -> None:
    """Give a finished file its name; FileExistsError where the name is taken."""
    try:
        os.link(beside, path)
    except FileExistsError:
        raise
    except OSError:  # a disk without hard links
        with path.open("xb") as made:
            made.write(beside.read_bytes())


def _cannot(at: str, wrong: str, instead: str) -> Mistake:
    return Mistake(at, "", wrong, instead)
