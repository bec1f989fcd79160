"""Every kind of edge with foam at every face that it can have, one by one and all together."""

from functools import cache

import pytest

from sections_at_random import CLIMATES, FACES, FILMS, edge_of, floor_of, foam, piece, slice_of
from underpour.physics.conduction.solve import Climate, solve
from underpour.sections.build import section

ALL = "all together"
STEADY = {where: Climate(climate.mean) for where, climate in CLIMATES.items()}
FLOOR = floor_of(slice_of("concrete", 0.1, 1.7), foam(0.05), half_width=2.0)
# More than the bare edge loses, as a share of it, that is allowed with foam there: foam at a footing changes the heat
# of the room by next to nothing.
ALLOWED = {"footing-top": 1e-3, "footing-side": 1e-3, "below-footing": 1e-3}
TABLE = [(kind, face) for kind, faces in FACES.items() for face in (*faces, ALL)]


@cache
def heat(kind, faces):
    """Mean heat that the room gives to floor and wall. [W/m]"""
    made = section(FLOOR, edge_of(kind, tuple(piece(face) for face in faces)))
    solved = solve(made.parts, made.airs, FILMS, STEADY, tolerance=0.01, most_unknowns=20_000)
    return solved.flow(lambda faces: faces.space == 0).mean


@pytest.mark.parametrize(("kind", "face"), TABLE)
def test_foam_at_a_face_keeps_heat_in(kind, face):
    """No gap, no overlap, a finite flow, and less heat with the foam than without. Derived: foam conducts least."""
    with_foam, bare = heat(kind, FACES[kind] if face == ALL else (face,)), heat(kind, ())
    assert 0.0 < with_foam < bare * (1.0 + ALLOWED.get(face, 0.0))
