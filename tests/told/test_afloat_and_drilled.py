"""What is told of water below a floor, of boards before the pour, and of holes for anchors."""

from __future__ import annotations

import pytest
from test_loads_answered import BRIEF, with_load

from underpour.brief import reads
from underpour.checks import bearing
from underpour.findings import Finding
from underpour.resolve import Resolved, resolve

FOAM = '{ board = "plain-25", thickness = "2 in" },'
THICK = '{ board = "plain-25", thickness = "6 in" },\n  { board = "plain-25", thickness = "4 in" },'
GROUND = 'ground = "silty-clay-moist"'


def resolved(text: str) -> Resolved:
    return resolve(reads(text).brief)


def wet(depth: str, more: str = "", level: str = "-8 in") -> str:
    """The floor's ground at ``level``, the water so deep below it."""
    return BRIEF.replace(GROUND, f'{GROUND}\nwater-table = "{depth}"\n{more}').replace('"-8 in"', f'"{level}"')


def uplift(text: str) -> Finding:
    return next(each for each in bearing.afloat(resolved(text)) if each.id == "bearing.uplift")


def boards(text: str) -> list[Finding]:
    return [each for each in bearing.afloat(resolved(text)) if each.id == "bearing.float"]


def test_water_that_stands_below_slab_and_foam_lifts_nothing() -> None:
    found = uplift(wet("9 ft"))
    assert (found.verdict, found.value) == ("meets", 0.0)
    assert "stands below slab and foam" in found.words


def test_water_lifts_by_its_height_above_the_underside_of_the_foam() -> None:
    """5 in of concrete weigh 2.993 kPa and 2 in of foam 0.01; ground 4 in below the floor, water at it: 3 in above."""
    found = uplift(wet("0 in", "waterproofed = true", "-4 in"))
    assert found.value == pytest.approx(3 * 0.0254 * 9.80665, rel=1e-6)
    assert found.limit == pytest.approx((2.993 + 0.0125) / 1.3, abs=0.005)
    assert found.verdict == "meets"


def test_thick_foam_below_a_thin_slab_floats() -> None:
    """10 in of foam: 11 in of water lift with 2.74 kPa what weighs 3.04, of which 2.34 counts."""
    thick = wet("0 in", "waterproofed = true", "-4 in").replace(FOAM, THICK)
    found = uplift(thick)
    assert found.value == pytest.approx(11 * 0.0254 * 9.80665, rel=1e-6)
    assert found.verdict == "falls short" and "tie or weigh it down" in found.words


def test_drains_are_believed_and_what_holds_without_them_is_said() -> None:
    drained = wet("0 in", "drained = true", "-4 in").replace(FOAM, THICK)
    found = uplift(drained)
    assert (found.verdict, found.value) == ("meets", 0.0)
    assert "were they blocked, they would float" in found.words


def test_the_european_factor_goes_with_the_european_method() -> None:
    text = wet("0 in", "waterproofed = true", "-4 in")
    by_en = uplift(text.replace("[floor]\n", '[floor]\nconcrete-method = "en-1990"\n'))
    practice = uplift(text)
    assert by_en.limit is not None and practice.limit is not None
    assert by_en.limit == pytest.approx(0.9 * 1.3 * practice.limit)
    assert any(each.source.startswith("EN 1997-1") for each in by_en.basis)


def test_nothing_is_said_of_lift_where_the_brief_says_nothing_of_water() -> None:
    assert not [each for each in bearing.afloat(resolved(BRIEF)) if each.id == "bearing.uplift"]


def test_boards_are_weighed_down_until_the_pour_by_what_they_displace() -> None:
    """2 in of some 25 kg/m³: 49.5 kg/m² in water, 121 in wet concrete."""
    (found,) = boards(BRIEF)
    assert found.verdict == "stated" and found.value == pytest.approx(0.0508 * 975.0 * 9.80665e-3, rel=0.01)
    assert "10 lb/ft² (50 kg/m²) must lie on them" in found.words or "10 lb/ft² (49 kg/m²)" in found.words
    assert "pour from the middle of boards outwards" in found.words
    two = boards(BRIEF.replace('thickness = "2 in" },\n', 'thickness = "4 in" },\n', 1))[0]
    assert two.value == pytest.approx(2.0 * found.value)
    assert not boards(BRIEF.replace('  { board = "plain-25", thickness = "2 in" },\n', ""))


LIFT = 'like = "lift-two-post"'


def holes(text: str) -> Finding:
    (found,) = (each for each in bearing.of_loads(resolved(text)) if each.id == "bearing.anchor-depth")
    return found


def test_holes_end_an_inch_and_a_quarter_above_the_underside() -> None:
    """5 in are 127 mm, less 30."""
    found = holes(with_load(f'{LIFT}\nanchor-depth = "3 3/4 in"'))
    assert found.verdict == "meets" and found.limit == pytest.approx(97.0)
    deep = holes(with_load(f'{LIFT}\nanchor-depth = "4 in"'))
    assert deep.verdict == "falls short" and "Shorter anchors, or a pad below it." in deep.words
    through = holes(with_load(f'{LIFT}\nanchor-depth = "5 1/4 in"'))
    assert "goes right through into what lies below" in through.words


def test_a_lift_without_a_word_of_its_anchors_is_asked_for_them() -> None:
    found = holes(with_load(LIFT))
    assert (found.verdict, found.missing) == ("cannot tell", "load.1.anchor-depth")
    assert 'anchor-depth = "3 in"' in found.words
    assert holes(with_load(f'{LIFT}\nanchor-depth = "3 in"')).verdict == "meets"


def test_in_a_heated_slab_the_tubes_come_first() -> None:
    heated = with_load(f'{LIFT}\nanchor-depth = "3 in"') + '\n[tube]\nsize = "1/2 in"\n'
    found = holes(heated)
    assert (found.verdict, found.missing) == ("cannot tell", "tube.depth-from-top")
    assert "nobody drills before they are located" in found.words
    near = holes(f'{heated}depth-from-top = "2 in"\n')
    assert near.verdict == "falls short" and near.limit == pytest.approx(50.8 - 20.0)
    low = holes(f'{heated}depth-from-top = "4 1/4 in"\n')
    assert low.verdict == "meets" and "Have the tubes located all the same" in low.words


def test_a_pad_gives_room_to_drill() -> None:
    pad = 'pad = "4 ft x 4 ft"\npad-thickness = "12 in"\nanchor-depth = "6 in"'
    found = holes(with_load(f"{LIFT}\n{pad}"))
    assert found.verdict == "meets" and found.limit == pytest.approx(304.8 - 30.0)


def test_other_posts_are_told_only_where_holes_are_drilled() -> None:
    assert not [each for each in bearing.of_loads(resolved(BRIEF)) if each.id == "bearing.anchor-depth"]
    assert holes(BRIEF + 'anchor-depth = "3 in"\n').verdict == "meets"


def slides(text: str) -> Finding:
    (found,) = (each for each in bearing.of_loads(resolved(text)) if each.id == "bearing.sliding")
    return found


def test_how_a_slab_grips_on_its_film_is_tested_or_cannot_be_told() -> None:
    """40 by 36 ft less 16 by 8 ft: 1312 ft² of 5 in of concrete weigh 365 kN; 30 kN need a friction of 0.082."""
    pushed = BRIEF + 'sideways = "30 kN"\n'
    open_one = slides(pushed)
    assert (open_one.verdict, open_one.missing) == ("cannot tell", "floor.friction")
    assert "an engineer says" in open_one.words
    tested = slides(pushed.replace("[floor]\n", "[floor]\nfriction = 0.4\n"))
    assert tested.verdict == "meets" and tested.limit == pytest.approx(0.4 / 1.5)
    assert tested.value == pytest.approx(30.0 / (0.127 * 2403.0 * 9.80665e-3 * 1312 * 0.3048**2), rel=1e-4)
    assert slides(pushed.replace("[floor]\n", "[floor]\nfriction = 0.1\n")).verdict == "falls short"
    assert not [each for each in bearing.of_loads(resolved(BRIEF)) if each.id == "bearing.sliding"]


def test_every_push_counts_and_only_what_stands_for_good_all_over_the_floor_holds() -> None:
    """Two pushes of 30 kN; 125 lb/ft² are 5.985 kPa on the floor beside the slab's own 2.993 kPa, if they stand."""
    pushed = BRIEF.replace("[floor]\n", "[floor]\nfriction = 0.4\n") + 'sideways = "30 kN"\n'
    twice = (
        pushed + '\n[[load]]\nkind = "wheel"\nforce = "5000 lb"\ntyre = "100 psi"\nat = "middle"\nsideways = "30 kN"\n'
    )
    one = slides(pushed).value
    assert one is not None and slides(twice).value == pytest.approx(2.0 * one, rel=1e-9)
    goods = '\n[[load]]\nkind = "uniform"\npressure = "125 psf"\neverywhere = true\nhow-long = "{}"\n'
    assert slides(pushed + goods.format("passing")).value == pytest.approx(one, rel=1e-9)
    holds = slides(pushed + goods.format("standing")).value
    assert holds == pytest.approx(one * 2.993 / (2.993 + 5.985), rel=1e-3)


def test_water_lifts_from_where_the_ground_is_highest() -> None:
    """Water at the ground: 8 in below the floor at three sides, 4 in at the others, 3 in above where the foam ends."""
    text = wet("0 in", "waterproofed = true")
    low = text.replace('sides = "all"', "sides = [1, 2, 3]")
    edge = text[text.index("[[edge]]") : text.index("[[load]]")]
    high = edge.replace('sides = "all"', 'sides = "rest"').replace('"-8 in"', '"-4 in"')
    stepped = low.replace("[[load]]", high + "\n[[load]]", 1)
    assert uplift(text).value == 0.0
    assert uplift(stepped).value == pytest.approx(3 * 0.0254 * 9.80665, rel=1e-6)
    assert "edge B" in uplift(stepped).words
