"""A weather file read: its kind is seen in what it holds, whatever its name ends with."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from ..mistakes import Mistake
from . import epw, months, tmy3
from .limits import table
from .station import Station
from .text import READ, shown, text_of

_TITLE = 120  # letters of a station's name that are worth printing


def read(path: Path) -> Station:
    """The station that a weather file describes.

    A file is read once for as long as it does not change; a brief and its alternatives ask for it many times.

    Raises
    ------
    Mistake
        With the file, and the line where there is one: it is not there, is of another kind, is no whole year, holds
        what no air has been. The first thing that is wrong is told, with how often.
    """
    try:
        state = path.stat()
        stamp = (state.st_mtime_ns, state.st_size)
    except (OSError, ValueError):
        stamp = (0, 0)
    return _read(path, stamp)


@lru_cache(maxsize=16)
def _read(path: Path, stamp: tuple[int, int]) -> Station:
    text, notes = text_of(path)
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    file = path.name
    if epw.recognised(lines):
        station = epw.station(lines, file)
    elif tmy3.recognised(lines):
        station = tmy3.station(lines, file)
    elif months.normals_recognised(lines):
        station = months.normals(lines, file)
    elif months.table_recognised(lines):
        station = months.table(lines, file)
    else:
        raise _another(lines, text, file)
    return replace(station, title=shown(station.title, most=_TITLE), notes=(*station.notes, *notes))


def _another(lines: list[str], text: str, file: str) -> Mistake:
    head = "\n".join(lines[:3]).casefold()
    for kind in table()["other"]:
        if kind["has"].casefold() in head:
            wrong = f"This is {kind['what']}, which is not read."
            return Mistake("", "", wrong, f"{kind['instead']} {READ}", file)
    first = shown(text.strip().split("\n")[0])
    return Mistake("", "", f'It begins "{first}", as no weather file that is read here does.', READ, file, 1)
