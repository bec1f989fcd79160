"""Paths in a brief that count in a list, moved along when an entry is put in or taken out before them."""

from __future__ import annotations

import re
from typing import Any

from ..mistakes import Mistake
from .alternatives import edge_names
from .paths import Path, walked, written
from .typed import Typed

_QUOTED = re.compile(r"([\"'])((?:floor|edge|load|joint|tube|plan|site|stage|alternative)\.[^\"'\n]+)\1")


def renumbered(text: str, tree: Typed, wanted: Any, listed: Path, at: int, by: int) -> tuple[str, Any]:
    """The text, and its data, with every quoted path that counts in this list moved.

    Parameters
    ----------
    text : str
        The brief before the entry is put in or taken out.
    tree : Typed
        Its data.
    wanted : plain data
        What is to stand afterwards, but for those paths.
    listed : path
        The list.
    at : int
        Which entry is taken out, or before which one is put in.
    by : int
        -1 for taken out, 1 for put in.

    Raises
    ------
    Mistake
        An alternative, say, speaks of the very entry that is taken out; or edges are told by their letter.
    """
    names = edge_names(tree)
    moved: dict[str, str] = {}
    for _, words in _QUOTED.findall(text):
        path, steps = walked(words, names), words.split(".")
        depth = len(listed)
        if len(path) != len(steps) or path[:depth] != listed or len(path) <= depth:
            continue
        index = path[depth]
        if not isinstance(index, int) or index < at:
            continue
        if by < 0 and index == at and steps[depth].isdecimal():
            wrong = f"The brief speaks of it elsewhere, as {words}."
            raise Mistake(written((*listed, at)), "", wrong, "Take that out first.")
        if not steps[depth].isdecimal():
            wrong = f"The brief speaks of {words} elsewhere, by its letter."
            raise Mistake(
                written((*listed, at)), "", wrong, "Take that out first, or give the edges names and use them."
            )
        moved[words] = ".".join([*steps[:depth], str(index + 1 + by), *steps[depth + 1 :]])
    text = _QUOTED.sub(lambda found: f"{found[1]}{moved.get(found[2], found[2])}{found[1]}", text)
    return text, _told_anew(wanted, moved)


def _told_anew(held: Any, moved: dict[str, str]) -> Any:
    """The data with its paths moved, whether they are keys or words."""
    if isinstance(held, dict):
        return {moved.get(key, key): _told_anew(inner, moved) for key, inner in held.items()}
    if isinstance(held, list):
        return [_told_anew(inner, moved) for inner in held]
    return moved.get(held, held) if isinstance(held, str) else held
