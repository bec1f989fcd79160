"""A floor's edge as a family: slab on foam on soil beside a stem wall; lengths, conductivities and films vary."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np

from underpour.physics.conduction.shapes import Films
from underpour.physics.reduced.family import Conducting, Filmed, Parameter, Varied
from underpour.physics.year import YEAR

FILMS = [Films(0.17, 0.13, 0.10), Films(0.04, 0.04, 0.04)]
SOIL, CONCRETE, FOAM, STEM_FOAM, FRAME = 0, (1, 2), 3, 4, 5

THICKNESS = Parameter("foam under the slab", 0.025, 0.25)
OF_FOAM = Conducting(Parameter("conductivity of the foam", 0.022, 0.045), (FOAM,))
OF_SOIL = Conducting(Parameter("conductivity of the soil", 0.5, 4.0), (SOIL,))
OF_CONCRETE = Conducting(Parameter("conductivity of the concrete", 1.2, 2.5), CONCRETE)
INSIDE = Filmed(Parameter("film inside", 4.0, 12.0), 0)
OUTSIDE = Filmed(Parameter("film outside", 10.0, 50.0), 1)
WIDTH, DEPTH = Parameter("half of the floor", 3.0, 8.0), Parameter("depth of the stem", 0.6, 1.2)
BESIDE = Parameter("foam at the stem", 0.025, 0.1)
PACE = Parameter("pace", 2.0 * np.pi / YEAR, 12.0 * 2.0 * np.pi / YEAR)

SIX = Varied((THICKNESS,), (OF_FOAM, OF_SOIL, OF_CONCRETE), (INSIDE, OUTSIDE))
SEVEN = Varied(SIX.lengths, SIX.conductivities, SIX.films, PACE)
NINE = Varied((THICKNESS, WIDTH, DEPTH, BESIDE), (OF_FOAM, OF_SOIL, OF_CONCRETE), (INSIDE, OUTSIDE))


def box(x0, x1, y0, y1):
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def body(outline, conductivity, capacity, priority):
    return SimpleNamespace(
        outline=outline, conductivity=conductivity, heat_capacity=capacity, priority=priority, path=""
    )


def stem_wall(lengths, conductivities=(0.035, 1.5, 1.7)):
    """Bodies and spaces for a foam's thickness, half a floor, a stem's depth and foam beside it, as far as given."""
    thick, half, deep, beside = (*lengths, *(0.06, 4.0, 0.8, 0.05)[len(lengths) :])
    foam, soil, concrete = conductivities
    bodies = [
        body(box(-20.0, half, -20.0, -0.05), soil, 2.5e6, 900),
        body(box(0.0, half, -0.1, 0.0), concrete, 2.0e6, 20),
        body(box(-0.2, 0.0, -deep, 0.3), concrete, 2.0e6, 30),
        body(box(0.0, half, -0.1 - thick, -0.1), foam, 4.0e4, 40),
        body(box(-0.2 - beside, -0.2, -deep, 0.3), 0.036, 4.0e4, 50),
    ]
    spaces = [
        SimpleNamespace(where="room", outline=box(0.0, half, 0.0, 0.3)),
        SimpleNamespace(where="outdoors", outline=box(-20.0, -0.2, -0.05, 0.3)),
    ]
    return bodies, spaces


def sized(case, varied):
    """One case as bodies, spaces and films for the full solve, with its swing left out."""
    lengths = case[: len(varied.lengths)]
    foam, soil, concrete, inside, outside = case[len(varied.lengths) : len(varied.lengths) + 5]
    bodies, spaces = stem_wall(lengths, (foam, soil, concrete))
    return bodies, spaces, {"room": Films(*[1 / inside] * 3), "outdoors": Films(*[1 / outside] * 3)}
