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
    "below-slope": "below the slope",
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


def reach(low: float, high: float, system: System, to_the_wall_top: bool = False) -> str:
    """From where to where something goes, downwards; the floor is named once.

    >>> from underpour.measure.digits import THIN
    >>> reach(-0.254, 0.0, "US").replace(THIN, " ")
    'from the top of the floor down to 10 in (254 mm) below it'
    >>> reach(-1.5, -0.5, "SI").replace(THIN, " ")
    'from 500 mm (19.7 in) down to 1.50 m (4.92 ft) below the top of the floor'
    >>> reach(0.0, 1.0, "SI", to_the_wall_top=True)
    'from the top of the wall down to the top of the floor'
    """
    start = "the top of the wall" if to_the_wall_top else level(high, system)
    end = level(low, system)
    if start.endswith("the top of the floor") and end != "the top of the floor":
        if high * low > SAME * SAME:
            start = say.both(abs(high), "m", system)
        else:
            end = end.replace("the top of the floor", "it")
    return f"from {start} down to {end}"


def together(names: Sequence[str]) -> str:
    """Names in one breath.

    >>> together(["A"]), together(["A", "B"]), together(["A", "B", "C"])
    ('A', 'A and B', 'A, B and C')
    """
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
