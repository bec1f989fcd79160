"""Paths as people write them, ``floor.build-up.2.thickness``, and as the file is walked, counted from nought."""

from __future__ import annotations

from collections.abc import Sequence

Path = tuple[str | int, ...]


def letter(index: int) -> str:
    """The letter of an edge by its order in the file: A, B, ... Z, AA, AB, ...

    >>> letter(0), letter(25), letter(26)
    ('A', 'Z', 'AA')
    """
    before, last = divmod(index, 26)
    return (letter(before - 1) if before else "") + chr(ord("A") + last)


def written(path: Path) -> str:
    """The path as the brief's own words: lists counted from 1, edges by their letter.

    >>> written(("edge", 0, "insulation", 1, "face"))
    'edge.A.insulation.2.face'
    """
    words = []
    for depth, step in enumerate(path):
        if isinstance(step, str):
            words.append(step)
        else:
            words.append(letter(step) if path[:depth] == ("edge",) else str(step + 1))
    return ".".join(words)


def walked(words: str, edge_names: Sequence[str | None] = ()) -> Path:
    """The path to walk for words such as ``edge.A.depth``, ``edge.door side.depth`` or ``edge.1.depth``.

    ``edge_names`` are the names of the edges in file order, None where an edge has none.

    >>> walked("edge.B.insulation.1", [None, "door side"])
    ('edge', 1, 'insulation', 0)
    >>> walked("edge.door side", [None, "door side"])
    ('edge', 1)

    What an alternative sets is a path itself and stays one key:

    >>> walked("alternative.1.set.floor.inside")
    ('alternative', 0, 'set', 'floor.inside')
    """
    path: list[str | int] = []
    steps = words.split(".")
    if steps[0] == "alternative" and steps[2:3] == ["set"] and len(steps) > 3:
        steps[3:] = [".".join(steps[3:])]
    for step in steps:
        if path == ["edge"] and (index := edge_index(step, edge_names)) is not None:
            path.append(index)
        else:
            path.append(int(step) - 1 if step.isdecimal() else step)
    return tuple(path)


def edge_index(word: str, edge_names: Sequence[str | None]) -> int | None:
    """Which edge a name or a letter means; None where it means none. A name goes before a letter."""
    if word in edge_names:
        return list(edge_names).index(word)
    letters = [letter(index) for index in range(len(edge_names))]
    return letters.index(word) if word in letters else None
