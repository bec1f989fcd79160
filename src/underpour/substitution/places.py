"""Places of a brief as a reader says them."""

from __future__ import annotations

PLACES = {"build-up": "layer {}", "insulation": "foam {}", "shape": "drawn body {}"}


def place(path: str) -> str:
    """A place of the brief as a reader says it.

    >>> place("floor.build-up.2"), place("edge.A.insulation.1"), place("edge.door side.wall.2")
    ('floor, layer 2', 'edge A, foam 1', 'edge door side, wall, layer 2')
    """
    table, *further, kind, number = path.split(".")
    at = " ".join([table, *further])
    return f"{at}, {PLACES.get(kind, f'{kind}, layer {number}').format(number)}"
