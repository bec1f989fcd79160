"""Bodies, spaces and choices of faces for tests of the physics: as little of a section as it asks for."""

from __future__ import annotations

from collections.abc import Callable
from types import SimpleNamespace

import numpy as np
from numpy.typing import NDArray

from underpour.physics.conduction.assemble import Faces
from underpour.physics.conduction.shapes import Films, Outline

PRESCRIBED = Films(1e-8, 1e-8, 1e-8)  # a surface held at the temperature of its air


def box(x0: float, x1: float, y0: float, y1: float) -> Outline:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def body(outline: Outline, conductivity: float, priority: int = 1, heat_capacity: float = 2.0e6) -> SimpleNamespace:
    return SimpleNamespace(outline=outline, conductivity=conductivity, heat_capacity=heat_capacity, priority=priority)


def space(where: str, outline: Outline) -> SimpleNamespace:
    return SimpleNamespace(where=where, outline=outline)


def of_space(number: int) -> Callable[[Faces], NDArray[np.bool_]]:
    """Every face of one space."""
    return lambda faces: faces.space == number
