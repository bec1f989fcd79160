"""Where things lie, in words: faces, and levels above or below the top of the floor."""

from __future__ import annotations

from collections.abc import Sequence

from ..measure import say
from ..measure.table import System

SAME = 1e-6  # m
_FACES = {
    "outside": "outside the wall",
    "inside": "inside the wall",
    "slab-edge": "at the slab's edge",
    "footing-top": "on the footing",
    "footing-side": "beside the footing",
    "below-footing": "below the footing",
    "wing": "wing in the ground outside",
}


def face_words(face: str) -> str:
    """The face as a crew says it; one that has no words of its own by its name.

    >>> face_words("slab-edge"), face_words("below-footing")
    ("at the slab's edge", 'below the footing')
    """
    return _FACES.get(face, face.replace("-", " "))


def level(metres: float, system: System) -> str:
    """A level counted from the top of the floor.

    >>> from underpour.measure.digits import THIN
    >>> level(0.0, "US"), level(-0.254, "US").replace(THIN, " ")
    ('the top of the floor', '10 in (254 mm) below the top of the floor')
    """
    if abs(metres) < SAME:
        return "the top of the floor"
    side = "above" if metres > 0.0 else "below"
    return f"{say.both(abs(metres), 'm', system)} {side} the top of the floor"


def together(names: Sequence[str]) -> str:
    """Names in one breath.

    >>> together(["A"]), together(["A", "B"]), together(["A", "B", "C"])
    ('A', 'A and B', 'A, B and C')
    """
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
