"""What is told of loads on the slab: both methods, what governs, and what is asked for where something is missing."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from underpour import catalogue
from underpour.ask import asked
from underpour.brief import reads
from underpour.checks import bearing
from underpour.cli import main
from underpour.findings import Finding
from underpour.resolve import Resolved, resolve

PSI = 6.894757  # kPa
BRIEF = """\
[project]
title = "Boat workshop, north shore"
use = "workshop"
units = "US"

[site]
place = "Duluth, MN"
ground = "silty-clay-moist"
humidity = ["72 %"]

[plan]
outline = ["0 0", "40 0", "40 28", "24 28", "24 36", "0 36"]
unit = "ft"

[floor]
inside = "68 F"
build-up = [
  { concrete = "5 in" },
  { board = "plain-25", thickness = "2 in" },
  { vapour-retarder = "film-15-mil" },
  { gravel = "4 in" },
]

[[edge]]
sides = "all"
kind = "frost-wall"
depth = "60 in"
ground = "-8 in"
insulation = [{ board = "plain-15", thickness = "2 in", face = "outside", down = "48 in" }]

[[load]]
kind = "rack-post"
force = "6500 lb"
plate = "6 in x 6 in"
"""
PLATE = 'plate = "6 in x 6 in"'


def with_load(load: str, text: str = BRIEF) -> str:
    return text[: text.index("[[load]]")] + f"[[load]]\n{load}\n"


def resolved(text: str) -> Resolved:
    return resolve(reads(text).brief)


def findings(text: str) -> list[Finding]:
    return list(bearing.of_loads(resolved(text)))


def one(text: str, id: str, method: str = "plate") -> Finding:
    (found,) = (each for each in findings(text) if each.id == id and each.at.get("method") == method)
    return found


def value(text: str, id: str, method: str = "plate") -> float:
    found = one(text, id, method).value
    assert found is not None
    return found


def test_a_rack_post_presses_little_on_the_foam_while_the_concrete_is_near_its_first_crack() -> None:
    """6500 lb on 6 in by 6 in, 5 in of concrete, 2 in of foam: 1.2 psi by the plate, 25 psi by 45 degrees."""
    foam = one(BRIEF, "bearing.foam-long")
    assert value(BRIEF, "bearing.foam-long") / PSI == pytest.approx(1.2, abs=0.05)
    assert value(BRIEF, "bearing.foam-long", "spread-45") / PSI == pytest.approx(25.4, abs=0.05)
    assert foam.verdict == "meets"
    assert "The foam is not the problem: the concrete governs." in foam.words
    assert "because that knows nothing of how stiff the slab is" in foam.words
    bent = one(BRIEF, "bearing.bending")
    assert bent.verdict == "falls short" and bent.value is not None and bent.limit is not None
    assert 0.75 < bent.value / (1.7 * bent.limit) < 0.9  # of what cracks it
    assert "The foam is not the problem: the concrete governs." in bent.words
    assert "stronger foam would not help" in bent.words


def test_without_its_plate_it_cannot_be_told_and_the_plate_is_asked_first() -> None:
    bare = BRIEF.replace(PLATE, "")
    for found in findings(bare):
        assert (found.verdict, found.missing) == ("cannot tell", "load.1.plate")
        assert PLATE in found.words
    questions = asked(reads(bare)).questions
    assert questions[0].about.path == "load.1.plate"
    assert len(questions[0].turns) == 4
    assert questions[0].line.startswith("plate = ")


def test_the_line_that_is_asked_for_can_be_typed_and_turns_the_verdict() -> None:
    bare = BRIEF.replace(PLATE, "")
    line = asked(reads(bare)).questions[0].line
    assert [each.verdict for each in findings(f"{bare}\n{line}\n")[:1]] == ["meets"]


def test_a_missing_tyre_pressure_is_asked_for() -> None:
    axle = with_load('kind = "axle"\nforce = "12000 lb"')
    assert {each.missing for each in findings(axle)} == {"load.1.tyre"}
    assert asked(reads(axle)).questions[0].about.path == "load.1.tyre"
    typed = findings(f'{axle}tyre = "100 psi"\n')
    assert typed and not any(each.missing for each in typed)


def test_foam_of_which_nobody_knows_how_stiff_it_is_cannot_be_told_until_that_is_typed() -> None:
    board = next(each.key for each in catalogue.shipped_products().boards() if each.material == "cellular glass")
    text = BRIEF.replace('board = "plain-25", thickness = "2 in"', f'board = "{board}", thickness = "3 in"')
    missing = {each.missing for each in findings(text)}
    assert missing == {f"foam.modulus.{board}"}
    typed = text.replace("[[load]]", f'[foam]\nmodulus = {{ {board} = "15000 psi" }}\n\n[[load]]')
    told = {each.missing for each in findings(typed)}
    assert told == {"", f"foam.modulus-for-good.{board}"}
    both = typed.replace("modulus = {", f'modulus-for-good = {{ {board} = "9000 psi" }}\nmodulus = {{')
    assert {each.missing for each in findings(both)} == {""}


KINDS = {
    "wheel and axle categories": ("light-vehicle-en", "middle-vehicle-en", "forklift-fl1", "forklift-fl6"),
    "forklifts by capacity": ("forklift-1", "forklift-2", "forklift-3", "forklift-4", "forklift-5", "forklift-6"),
    "rack posts": ("rack-post", "shelf-post"),
    "stationary loads": ("light-storage", "heavy-storage", "light-making", "heavy-making", "machine-foot"),
    "wall loads": ("partition", "block-wall", "bearing-wall"),
    "vehicles": ("car", "pickup", "tractor", "lorry", "cars-parked", "car-jack"),
    "vehicle lifts": ("lift-two-post", "lift-four-post"),
    "fire engines": ("fire-truck", "fire-aerial", "outrigger"),
    "aircraft": ("aircraft-light", "aircraft-12500", "aircraft-jet"),
    "animals": ("horse", "cow", "cattle-close", "pigs-close"),
    "tanks": ("water-tank", "oil-tank", "water-foot"),
    "hot tubs": ("hot-tub",),
    "pools": ("pool-above-ground",),
    "masonry heaters": ("masonry-heater", "masonry-chimney"),
    "mobile racking": ("mobile-rack-wheel",),
    "before the slab": ("crew", "mixer-truck", "power-buggy", "barrow", "screed-machine", "pump-outrigger"),
}


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_usual_load_is_there_with_a_source_or_as_practice(kind: str) -> None:
    """Those that are walked through an answer by the test below; what each presses with says where it is from."""
    known = {each.key: each for each in catalogue.named_loads()}
    for key in KINDS[kind]:
        load = known[key]
        presses = [each for each in (load.force, load.pressure, load.line_force) if each is not None]
        assert presses and all(each.where for each in presses)
        assert {each.seen for each in presses} <= {"document", "quoted", "memory", "practice", "derived"}


@pytest.mark.parametrize("key", [each.key for each in catalogue.named_loads()])
def test_every_usual_load_is_answered(key: str) -> None:
    named = catalogue.named_load(key)
    anchored = 'anchor-depth = "3 in"' if named.kind == "lift" else ""
    found = findings(with_load(f'like = "{key}"\n{anchored}'))
    assert found and not any(each.missing for each in found)
    ids = [each.id for each in found]
    if named.kind == "before-pour":
        assert ids == ["bearing.foam-short"]
        return
    first = "bearing.foam-long" if named.standing else "bearing.foam-short"
    assert ids[0] == first and found[0].limit is not None and found[0].value is not None and found[0].value > 0.0
    assert {"bearing.soil", "bearing.bending", "bearing.settlement"} <= set(ids)
    assert all(each.basis and each.steps for each in found if each.verdict != "does not apply")


def test_what_nobody_typed_is_listed_with_its_range() -> None:
    taken = {each.path: each for each in resolved(with_load('like = "forklift-2"')).assumed}
    for path in ("load.1.force", "load.1.tyre", "load.1.track", "site.subgrade-modulus", "site.soil-bearing"):
        each = taken[path]
        assert isinstance(each.value, float) and isinstance(each.low, float) and isinstance(each.high, float)
        assert each.low <= each.value <= each.high and each.low < each.high
    assert taken["floor.concrete-class"].value == pytest.approx(27579.0)
    assert {"load.1.at", "load.1.how-long", "site.base"} <= set(taken)
    assert not any(
        each.path.startswith("site.sub") for each in resolved(BRIEF.split("[[load]]", maxsplit=1)[0]).assumed
    )


def test_a_wheel_hurts_more_at_an_edge_and_most_in_a_corner() -> None:
    def of(place: str, id: str) -> float:
        return value(with_load(f'kind = "wheel"\nforce = "5000 lb"\ntyre = "100 psi"\nat = "{place}"'), id)

    foam = [of(place, "bearing.foam-short") for place in ("middle", "edge", "corner")]
    assert foam[1] > 2.0 * foam[0] and foam[2] > 2.0 * foam[1]
    bent = [of(place, "bearing.bending") for place in ("middle", "edge", "corner")]
    assert bent[1] > 1.5 * bent[0] and bent[2] > bent[0]


def test_on_the_plan_a_load_feels_the_edge_only_where_it_is_near() -> None:
    def at(place: str) -> float:
        return value(with_load(f'kind = "post"\nforce = "6500 lb"\n{PLATE}\nat = "{place}"'), "bearing.foam-long")

    middle = value(BRIEF, "bearing.foam-long")
    assert at("12 18") == pytest.approx(middle, rel=1e-9)  # exact, with no edge near
    assert at("12 5") == pytest.approx(middle, rel=0.03)  # by elements, the edge at 5 ft
    assert at("12 0.5") > 2.0 * middle
    edge = value(with_load(f'kind = "post"\nforce = "6500 lb"\n{PLATE}\nat = "edge"'), "bearing.foam-long")
    assert at("12 0.25") == pytest.approx(edge, rel=0.05)  # the plate touches the edge


def test_a_thickened_edge_carries_what_a_plain_one_does_not() -> None:
    wheel = 'kind = "wheel"\nforce = "9000 lb"\ntyre = "100 psi"\nat = "edge"'
    plain = with_load(wheel)
    thick = plain.replace('kind = "frost-wall"\ndepth = "60 in"', 'kind = "thickened-edge"\ndepth = "16 in"')
    insulation = 'insulation = [{ board = "plain-15", thickness = "2 in", face = "outside", down = "48 in" }]\n'
    thick = thick.replace(insulation, "")
    assert value(thick, "bearing.bending") < 0.6 * value(plain, "bearing.bending")
    by_hand = one(thick, "bearing.bending", "westergaard")
    assert by_hand.verdict == "stated" and "knows nothing of the thickened edge" in by_hand.words


def test_a_pad_below_a_post_spares_foam_and_slab_and_weighs_on_the_foam_itself() -> None:
    padded = BRIEF.replace(PLATE, f'{PLATE}\npad = "5 ft x 5 ft"\npad-thickness = "12 in"')
    plain, found = one(BRIEF, "bearing.foam-long"), one(padded, "bearing.foam-long")
    assert "over a pad of 5 ft x 5 ft, 12 in" in found.words
    assert plain.value is not None and found.value is not None and 0.3 < found.value / plain.value < 0.6
    assert plain.limit is not None and found.limit is not None
    assert plain.limit - found.limit == pytest.approx(7 * 0.0254 * 2403.0 * 9.80665e-3, rel=1e-4)  # 7 in more concrete
    assert value(padded, "bearing.bending") < 0.5 * value(BRIEF, "bearing.bending")
    by_hand = one(padded, "bearing.bending", "westergaard")
    assert by_hand.verdict == "stated" and "knows nothing of the pad" in by_hand.words
    near = padded.replace("[[load]]\n", '[[load]]\nat = "12 3"\n')  # on the plan, a foot and a half off an edge
    assert value(near, "bearing.foam-long") > 1.3 * found.value


def test_on_the_plan_a_pad_is_there_for_all_that_stands_together() -> None:
    """A small post far off, and the heavy one over its pad: what the plan's plate gives is what the pad alone does."""
    padded = BRIEF.replace(PLATE, f'{PLATE}\nat = "12 18"\npad = "5 ft x 5 ft"\npad-thickness = "12 in"')
    both = f'{padded}\n[[load]]\nkind = "post"\nforce = "200 lb"\n{PLATE}\nat = "36 4"\n'
    (bent,) = (each for each in findings(both) if each.id == "bearing.bending" and each.at.get("loads") == "standing")
    assert bent.value == pytest.approx(value(padded, "bearing.bending"), rel=0.1)
    (bare,) = (
        each
        for each in findings(both.replace('pad = "5 ft x 5 ft"\npad-thickness = "12 in"', ""))
        if each.id == "bearing.bending" and each.at.get("loads") == "standing"
    )
    assert bare.value is not None and bent.value is not None and bare.value > 2.0 * bent.value


def test_neighbours_in_a_row_add_to_one_another() -> None:
    row = BRIEF.replace(PLATE, f'{PLATE}\ncount = 3\nspacing = "3 ft"')
    assert value(row, "bearing.foam-long") > 1.2 * value(BRIEF, "bearing.foam-long")
    far = BRIEF.replace(PLATE, f'{PLATE}\ncount = 3\nspacing = "12 ft"')
    assert value(far, "bearing.foam-long") == pytest.approx(value(BRIEF, "bearing.foam-long"), rel=0.02)


def test_an_even_load_goes_straight_through_and_leaves_less_for_the_rest() -> None:
    goods = '\n[[load]]\nkind = "uniform"\npressure = "125 psf"\neverywhere = true\n'
    found = {(each.at["load"], each.id, each.at.get("method")): each for each in findings(BRIEF + goods)}
    through = found["2", "bearing.foam-long", "straight-through"]
    assert through.value == pytest.approx(125 * 0.04788026, rel=1e-6)
    alone, beside = one(BRIEF, "bearing.foam-long"), found["1", "bearing.foam-long", "plate"]
    assert alone.limit is not None and beside.limit is not None
    assert alone.limit - beside.limit == pytest.approx(125 * 0.04788026, rel=1e-6)


def test_what_may_stand_for_good_is_held_apart_from_what_comes_and_goes() -> None:
    stands = {each.id for each in findings(with_load('like = "aircraft-12500"'))}
    rolls = {each.id for each in findings(with_load('like = "aircraft-12500"\nhow-long = "passing"'))}
    assert "bearing.foam-long" in stands and "bearing.foam-short" not in stands
    assert "bearing.foam-short" in rolls and "bearing.foam-long" not in rolls


def test_the_ground_s_range_is_told_and_its_test_goes_before_its_kind() -> None:
    def k(more: str) -> str:
        text = BRIEF.replace('ground = "silty-clay-moist"', f'ground = "silty-clay-moist"\n{more}')
        return next(each for each in one(text, "bearing.bending").steps if each.symbol == "k_g").formula

    assert "by the ground's kind" in k("")
    assert "by CBR 3 %" in k('cbr = "3 %"')
    assert "as the brief types it" in k('subgrade-modulus = "100 pci"')
    spring = next(each for each in one(BRIEF, "bearing.bending").steps if each.symbol == "k")
    assert "over the whole range of the ground" in spring.numbers


def test_bare_foam_bears_tyres_only_below_plywood() -> None:
    barrow = one(with_load('like = "barrow"'), "bearing.foam-short", "bare foam")
    assert barrow.verdict == "falls short" and "Lay plywood where it goes, one sheet of" in barrow.words
    truck = one(with_load('like = "mixer-truck"'), "bearing.foam-short", "bare foam")
    assert truck.verdict == "falls short" and "keep it off the foam" in truck.words
    assert one(with_load('like = "crew"'), "bearing.foam-short", "bare foam").verdict == "meets"


def test_a_slab_on_the_ground_alone_is_told_of_all_but_the_foam() -> None:
    bare = BRIEF.replace('  { board = "plain-25", thickness = "2 in" },\n', "")
    assert one(bare, "bearing.foam-long").verdict == "does not apply"
    assert value(bare, "bearing.bending") < value(BRIEF, "bearing.bending")


def test_after_fifty_years_the_floor_has_gone_down_further() -> None:
    now, later = (each for each in findings(BRIEF) if each.id == "bearing.settlement")
    assert (now.at["after"], later.at["after"]) == ("now", "50 years")
    assert now.value is not None and later.value is not None and now.value < later.value < 2.0 * now.value
    assert now.verdict == later.verdict == "meets" and now.limit == later.limit == pytest.approx(25.4)


@pytest.mark.parametrize("load", [BRIEF.split("[[load]]\n")[1], 'like = "barrow"'])
def test_the_engineer_or_the_maker_is_named_beside_each_finding(load: str, tmp_path: Path, capsys) -> None:
    (tmp_path / "brief.toml").write_text(with_load(load), "utf-8")
    main(["answer", str(tmp_path / "brief.toml"), "--json"])
    told = json.loads(capsys.readouterr().out)["alternatives"][0]["findings"]
    loaded = [each for each in told if each["id"].startswith("bearing.")]
    assert loaded
    for each in loaded:
        assert "engineer must confirm" in each["caution"] or "Keep trucks, pumps and outriggers off" in each["caution"]
