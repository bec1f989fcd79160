"""Cases that a family's span cannot tell: solved wholly and said, or refused in words."""

import numpy as np
import pytest
from tests.families import FILMS, OF_FOAM, OF_SOIL, PACE, THICKNESS, Parameter, Varied, stem_wall

from underpour.physics.conduction.solve import Climate, solve
from underpour.physics.domain import OutOfDomain
from underpour.physics.reduced.answered import answered
from underpour.physics.reduced.reduced import reduced
from underpour.physics.reduced.stretch import Unstretched

TWO = Varied((THICKNESS,), (OF_FOAM,))


@pytest.fixture(scope="module")
def two():
    return reduced(stem_wall, TWO, FILMS, narrowed=1.0, on_finer=2, looked_at=500)


@pytest.fixture(scope="module")
def swinging():
    return reduced(stem_wall, Varied((), (OF_FOAM,), (), PACE), FILMS, narrowed=1.0, on_finer=1, looked_at=200)


def solved(thickness, foam):
    def cut():
        bodies, spaces = stem_wall([thickness])
        bodies[3].conductivity = foam
        return bodies, spaces

    films = dict(zip(("room", "outdoors"), FILMS, strict=True))
    return solve(*cut(), films, {"room": Climate(1.0), "outdoors": Climate(0.0)}).flow(lambda f: f.space == 0)


SOLVED_WHOLLY = [
    ((0.05, 0.035), ""),
    ((0.025, 0.045), ""),
    ((0.0, 0.035), "a thickness of zero is no stretch of the others"),
    ((0.3, 0.035), "foam under the slab lies outside of what the family was made for, 0.025 to 0.25"),
    ((0.05, 0.06), "conductivity of the foam lies outside of what the family was made for, 0.022 to 0.045"),
]


@pytest.mark.parametrize(("case", "why"), SOLVED_WHOLLY)
def test_a_case_outside_is_solved_wholly_and_said(two, case, why):
    given = answered(two, np.array([case]))
    assert given.why[0].startswith(why) and bool(given.why[0]) == bool(why)
    assert given.why[0] == "" or given.why[0].endswith("solved wholly")
    anew = solved(*case)
    assert abs(given.couplings[0, 0, 0] - anew.mean) <= given.within[0, 0, 0] + anew.within


def test_a_bound_that_is_too_wide_is_solved_wholly(two):
    given = answered(two, np.array([[0.05, 0.035]]), widest=1e-12)
    assert given.why == ("the bound is wider than wanted: solved wholly",)


REFUSED = [
    ((-0.01, 0.035), "foam under the slab must be nought or more, got -0.01"),
    ((0.05, 0.0), "conductivity of the foam must be above nought, got 0"),
    ((np.nan, 0.035), "foam under the slab must be a number, got nan"),
    ((0.05,), "a case of this family has 2 numbers, 1 were given"),
]


@pytest.mark.parametrize(("case", "words"), REFUSED)
def test_what_cannot_be_answered_is_refused_in_words(two, case, words):
    with pytest.raises(OutOfDomain) as refused:
        answered(two, np.array([case]))
    assert str(refused.value) == words


@pytest.mark.parametrize(("times", "said"), [(0.5, "0.5"), (365.0, "365")])
def test_a_swing_beyond_the_data_is_refused(swinging, times, said):
    with pytest.raises(OutOfDomain) as refused:
        answered(swinging, np.array([[0.035, times * PACE.low]]))
    assert str(refused.value) == (
        f"the air's swing of {said} times a year lies beyond the data of this family, 1 to 12 times a year; "
        "take a swing between these, or make the family for it"
    )


UNSTRETCHED = [
    (Parameter("foam", 0.0, 0.1), "a length of nought cannot be stretched"),
    (Parameter("foam", 0.05, 0.9), "lines do not move in proportion to a length"),  # past the stem's bottom
    (Parameter("foam", 0.05, 0.7), "lines meet or part: a stretch passes through zero"),  # level with it
]


@pytest.mark.parametrize(("thickness", "why"), UNSTRETCHED)
def test_sections_that_are_no_stretch_of_one_another_are_told_apart(thickness, why):
    with pytest.raises(Unstretched) as refused:
        reduced(stem_wall, Varied((thickness,), (OF_SOIL,)), FILMS)
    assert str(refused.value) == why


def test_every_case_at_an_end_is_inside(two):
    ends = np.array([[t, k] for t in (0.025, 0.25) for k in (0.022, 0.045)])
    assert answered(two, ends).why == ("",) * 4


def test_a_place_that_changes_its_body_is_no_stretch():
    """Lines as they should be, but the thicker foam lies where the slab's concrete was."""

    def swapped(lengths):
        bodies, spaces = stem_wall(lengths)
        if lengths[0] > 0.1:
            bodies[1].outline, bodies[3].outline = bodies[3].outline, bodies[1].outline
        return bodies, spaces

    with pytest.raises(Unstretched, match="a place changes from one body to another"):
        reduced(swapped, TWO, FILMS)
