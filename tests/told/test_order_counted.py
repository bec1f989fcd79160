"""Everything of an order but the panels, counted by hand from the brief, or in another way than the takeoff counts."""

import json
from functools import cache
from math import ceil, cos, pi, radians, sin, sqrt, tan
from pathlib import Path

import pytest

from underpour.answer import answer as answered
from underpour.brief import read
from underpour.cli import hear
from underpour.mistakes import Mistake, Mistakes
from underpour.outlines.floor import Floor
from underpour.outlines.outline import straight
from underpour.resolve import resolve
from underpour.resolve.resolved import KeyPlan, PlanEdge, Stretch
from underpour.takeoff import taken_off
from underpour.takeoff.around import along
from underpour.takeoff.coils import coils

EXAMPLES = Path(__file__).parents[2] / "examples"
FOOT, INCH = 0.3048, 0.0254
TAKEN = [
    "warm-basement",
    "far-leg",
    "court-and-bay-house",
    "thickened-edge-house",
    "raft-with-channels",
    "walk-or-drive",
]


@cache
def resolved_as_briefed(name):
    reading = read(EXAMPLES / name / "brief.toml")
    return resolve(reading.brief, products=reading.products)


@cache
def as_briefed(name):
    return taken_off(resolved_as_briefed(name))


def resolved_of(name, change=None, own=None):
    if change is None:
        return resolved_as_briefed(name)
    text = (EXAMPLES / name / "brief.toml").read_text(encoding="utf-8")
    (own / "so.toml").write_text(change(text), encoding="utf-8")
    reading = read(own / "so.toml")
    return resolve(reading.brief, products=reading.products)


def of(name, change=None, own=None):
    return as_briefed(name) if change is None else taken_off(resolved_of(name, change, own))


def item(takeoff, words):
    return next(each for each in takeoff.items if words in f"{each.what}; {each.where}")


def none_of(takeoff, words):
    return not [each for each in takeoff.items if words in f"{each.what}; {each.where}"]


@pytest.mark.parametrize("name", TAKEN)
def test_what_is_bought_beyond_need_is_told_to_the_last_piece(name):
    for each in of(name).items:
        assert sum(part.amount for part in each.beyond) == pytest.approx(each.order - each.net, abs=1e-6), each.what
        assert each.spare >= 0.0
        assert each.waste >= -1e-9, each.what
        assert each.waste + each.spare <= each.order - each.net + 1e-9
        assert (each.cost is None) == bool(each.unpriced)


def test_boards_weigh_their_volume_by_the_density_of_their_record():
    """28 panels of 4 by 8 ft, 3 in thick, of 1.86 lb/ft³."""
    panels = of("warm-basement").layers[0].items[0]
    pounds = 28 * 4 * 8 * 0.25 * 1.86
    assert panels.count == 28
    assert panels.mass == pytest.approx(pounds * 0.45359237, rel=1e-4)
    assert panels.bulk == pytest.approx(28 * 4 * 8 * 0.25 * FOOT**3)
    assert (panels.pack.bundles, panels.pack.each, panels.pack.pallets) == (
        4,
        8,
        1,
    )  # 24 in of 3 in; four of them 96 in


def test_a_panel_with_channels_takes_its_whole_height_on_a_lorry_and_weighs_its_feet():
    """Each 48-1/2 in square; half an inch lies in the joints."""
    panels = of("raft-with-channels").layers[0].items[0]
    square = (48.5 / 12) ** 2
    assert panels.bulk == pytest.approx(panels.count * square * 5.5 / 12 * FOOT**3)
    pounds = panels.count * square * (4.0 + 1.5 * 0.36) / 12 * 1.86
    assert panels.mass == pytest.approx(pounds * 0.45359237, rel=1e-4)


def test_a_price_for_each_r_is_the_price_list_s_over_the_label():
    """1.47 USD/ft² for R 12.8."""
    panels = of("warm-basement").layers[0].items[0]
    per_us = panels.per_r * FOOT**2 / 5.678263
    assert per_us == pytest.approx(1.47 / 12.8, rel=2e-3)
    text = hear(["takeoff", str(EXAMPLES / "warm-basement" / "brief.toml")]).text
    assert f"For each ft² and R-1: {1.47 / 12.8:.3f} USD." in " ".join(text.split())


def test_lorries_are_counted_by_what_boards_take_and_trucks_by_what_is_poured():
    takeoff = of("far-leg")
    boards = [each for each in takeoff.items if each.count and "Plain" in each.what]
    bulk = sum(each.count * 32 * FOOT**2 * {"6": 6, "4": 4}[each.what.split(", ")[1][0]] * INCH for each in boards)
    assert takeoff.loads.bulk == pytest.approx(bulk)
    assert takeoff.loads.lorries == ceil(bulk / (88.0 * 0.85)) == 1
    poured = sum(each.order for each in takeoff.items if each.what.startswith("Concrete"))
    assert takeoff.loads.mixers == ceil(poured / 8.0)


def test_tube_is_the_answer_s_loops_and_each_comes_whole_from_a_coil():
    """80 m² spaced by 9 in, 10 ft of leaders each way, 300 ft at the most: five loops."""
    takeoff = of("warm-basement")
    laid = 80.0 / (9 * INCH)
    count = ceil(laid / (300 * FOOT - 2 * 10 * FOOT))
    assert count == 5
    tube = item(takeoff, "Tube, ")
    assert tube.net == pytest.approx(laid + count * 20 * FOOT)
    assert tube.spare == pytest.approx(0.05 * tube.net)
    assert takeoff.coils.length == pytest.approx(300 * FOOT)
    assert sorted(number for cut in takeoff.coils.cuts for number in cut) == [1, 2, 3, 4, 5]
    assert tube.order == pytest.approx(5 * 300 * FOOT)
    assert item(takeoff, "Manifold").count == 1
    assert "5 ports" in item(takeoff, "Manifold").of
    turns = 5 * (ceil(sqrt((laid / 5) / (9 * INCH))) - 1)
    assert item(takeoff, "Fasteners of the tube").count == ceil(tube.net / 0.6 + 3 * turns)


def test_loops_as_laid_are_cut_as_they_are_typed(tmp_path):
    typed = '\nloop-lengths = ["268 ft", "272 ft", "255 ft", "140 ft", "150 ft"]\n'
    takeoff = of("warm-basement", lambda text: text.replace("[tube]", f"[tube]{typed}"), tmp_path)
    cut = takeoff.coils
    assert item(takeoff, "Tube, ").spare == 0.0
    assert [round(each / FOOT) for each in cut.loops] == [268, 272, 255, 140, 150]
    for loops, left in zip(cut.cuts, cut.left, strict=True):
        assert left >= -1e-9
        assert sum(cut.loops[n - 1] for n in loops) + left == pytest.approx(cut.length)
    assert cut.bought == pytest.approx(1200 * FOOT)  # four of 300 ft; 1085 ft of loops take no less in any coil


def test_a_loop_longer_than_any_coil_is_told(tmp_path):
    typed = '\nloop-lengths = ["1200 ft"]\n'
    takeoff = of("warm-basement", lambda text: text.replace("[tube]", f"[tube]{typed}"), tmp_path)
    assert takeoff.coils is None
    assert "longer than the coils" in item(takeoff, "Tube, ").why


def test_a_loop_goes_to_the_fullest_coil_that_has_room():
    """Coils of 100 m: 70 with 30, 60 with 20 and 20; to the emptiest first it would take three."""
    assert coils([70.0, 60.0, 30.0, 20.0, 20.0], [100.0]).cuts == ((1, 3), (2, 4, 5))


def shared_out(loops):
    """Every way to share loops out, each as a list of lists."""
    if not loops:
        yield []
        return
    first, *rest = loops
    for groups in shared_out(rest):
        yield [[first], *groups]
        for n, group in enumerate(groups):
            yield [*groups[:n], [first, *group], *groups[n + 1 :]]


@pytest.mark.parametrize("seed", range(30))
def test_coils_are_the_fewest_by_trying_all_or_one_more(seed):
    from random import Random

    chance = Random(seed)
    loops = [chance.uniform(40.0, 110.0) for _ in range(7)]
    for length in (120.0, 200.0):
        fewest = min(len(groups) for groups in shared_out(loops) if all(sum(each) <= length for each in groups))
        assert fewest <= len(coils(loops, [length]).cuts) <= fewest + 1


def test_cable_is_area_over_spacing_and_has_no_manifold(tmp_path):
    def electric(text):
        kept = [
            line for line in text.splitlines() if not line.startswith(("fluid", "drop", "leader", "source", "coldest"))
        ]
        return (
            "\n".join(kept)
            .split("[[alternative]]")[0]
            .replace('size           = "1/2 in"', 'heat = "electric"\nsize = "7 mm"')
        )

    takeoff = of("warm-basement", electric, tmp_path)
    assert item(takeoff, "Heating cable").net == pytest.approx(80.0 / (9 * INCH))
    assert none_of(takeoff, "Manifold")
    assert takeoff.coils is None


def test_knobs_hold_the_tube_and_take_their_place_in_the_pour(tmp_path):
    """knob-15: knobs 1-1/4 in high on 22 % of the area, pitch 3 in."""

    def panelled(text):
        text = text.replace('depth-from-top = "1-1/2 in"', 'panel = "knob-15"').split("[[alternative]]")[0]
        lines = [line for line in text.splitlines() if "vapour-retarder" not in line]
        return "\n".join(lines)

    with_knobs = of("warm-basement", panelled, tmp_path)
    assert none_of(with_knobs, "Fasteners of the tube")
    assert none_of(with_knobs, "Clip")
    poured = item(with_knobs, "build-up.1.concrete")
    assert poured.net == pytest.approx(80.0 * (4 * INCH - 1.25 * INCH * 0.22))


def test_clips_come_from_the_board_s_record_where_no_film_lies_between(tmp_path):
    def film_below(text):
        film = '  { vapour-retarder = "film-15-mil" },\n'
        board = '  { board = "plain-25", thickness = "3 in" },\n'
        return text.replace(film + board, board + film).split("[[alternative]]")[0]

    clips = item(of("warm-basement", film_below, tmp_path), "Clip 1/2")
    boxes = ceil(clips.net / 300)
    assert (clips.count, clips.of) == (300 * boxes, f"clips in {boxes} boxes of 300")
    assert clips.cost.amount == pytest.approx(0.11 * 300 * boxes)


def test_the_strip_runs_along_walls_without_foam_and_round_columns():
    """court-and-bay-house: edges wall, court, garage; one column of a foot square. The door has foam and no strip."""
    resolved = resolved_of("court-and-bay-house")
    strip = item(taken_off(resolved), "Marlpit Strip")
    length = sum(edge.length for edge in resolved.edges if edge.letter in ("wall", "court", "garage"))
    (column,) = [each for each in resolved.plan.floor.obstacles if each.kind == "column"]
    assert strip.net == pytest.approx(length + 2 * sum(column.size))
    assert strip.count == ceil(1.05 * strip.net / (50 * FOOT))
    assert strip.cost.amount == pytest.approx(strip.count * 50 * 0.38)
    assert none_of(of("warm-basement"), "Marlpit Strip")  # foam stands there


def test_a_slab_thicker_than_the_strip_takes_two_of_them(tmp_path):
    takeoff = of(
        "court-and-bay-house", lambda text: text.replace('{ concrete = "4 in" }', '{ concrete = "6 in" }'), tmp_path
    )
    strip = item(takeoff, "Marlpit Strip")
    assert strip.count == ceil(2 * 1.05 * strip.net / (50 * FOOT))
    assert "2 one over another" in strip.why


def test_what_goes_through_the_film_is_closed_pipe_by_pipe():
    """court-and-bay-house: a round drain of 4 in and a column of a foot; far-leg: its soil-gas pipe of 100 mm."""
    house, leg = of("court-and-bay-house"), of("far-leg")
    assert item(house, "Boots of the film").count == 1
    assert item(house, "Patches of film").count == 1
    assert item(house, "Tape around").net == pytest.approx(2 * (pi * 4 * INCH + 4 * FOOT))
    assert item(leg, "Boots of the film").of.startswith("boot for 100")
    tape = item(leg, "around what goes through")
    assert (tape.net, tape.key, tape.count) == (pytest.approx(2 * pi * 0.1), "tape-butyl", 1)
    assert item(leg, "Mastic").count == 1
    assert none_of(of("warm-basement"), "Boots")


def test_tape_by_the_roll_is_priced_by_the_roll():
    """far-leg: 54 m of laps and 66 m of edge, 5 % more, in rolls of 180 ft at 21.50 USD."""
    tape = item(of("far-leg"), "Seam 2-3/8")
    assert tape.net == pytest.approx(120.0)
    assert tape.count == ceil(1.05 * 120.0 / (180 * FOOT)) == 3
    assert tape.cost.amount == pytest.approx(3 * 21.50)


def test_boards_at_walls_are_fixed_and_wings_are_not():
    """warm-basement: 36 m of wall, 12 ft high, 4 to the square metre."""
    takeoff = of("warm-basement")
    wall = item(takeoff, "edge A, inside")
    fixed = item(takeoff, "Fixings of wall boards")
    assert fixed.count == ceil(4.0 * wall.net - 1e-9)
    assert item(takeoff, "Chairs for the steel").count == ceil(1.2 * 80.0)


def test_the_soil_gas_pipe_comes_with_all_that_belongs_to_it():
    """far-leg: 7 m of pipe in lengths of 3 m, four turns, one pit, a fan; labels one a storey of 2.7 m."""
    takeoff = of("far-leg")
    pipe = item(takeoff, "Soil-gas pipe")
    assert (pipe.net, pipe.count, pipe.order) == (pytest.approx(7.0), 3, pytest.approx(9.0))
    assert item(takeoff, "Elbows").count == 4
    assert item(takeoff, "Labels").count == 3
    assert [item(takeoff, words).count for words in ("Suction", "Roof flashing", "Fan for", "Gauge")] == [1, 1, 1, 1]
    assert none_of(of("warm-basement"), "Soil-gas pipe")


def test_a_rough_in_ends_in_a_cap_and_has_no_fan():
    takeoff = of("basement-rough-in")
    assert item(takeoff, "End of the soil-gas pipe").count == 1
    assert none_of(takeoff, "Fan for")
    assert none_of(takeoff, "Roof flashing")


def test_stone_that_soil_gas_is_drawn_through_gets_no_blinding():
    assert item(of("warm-basement"), "Sand for blinding").net == pytest.approx(80.0 * 0.02)
    assert none_of(of("far-leg"), "Sand for blinding")


def test_a_thickened_edge_is_poured_by_its_corners_once():
    """thickened-edge-house, 40 by 32 ft: the frustum between two rectangles, by the prismatoid's formula."""
    resolved = resolved_of("thickened-edge-house")
    (edge,) = resolved.edges
    slab, foam = resolved.floor[0].thickness, 2 * INCH
    standing = sum(leaf.thickness for leaf in edge.above)
    sides = [side.length for side in resolved.plan.floor.outline.sides][:2]

    def ring(inner):  # between the slab's face and a line so far in from it
        outer = (sides[0] + 2 * standing) * (sides[1] + 2 * standing)
        return outer - (sides[0] + 2 * standing - 2 * inner) * (sides[1] + 2 * standing - 2 * inner)

    width, run = edge.thickening.width, (edge.depth - slab - foam) / tan(radians(edge.thickening.slope))
    ends, middle = (ring(width), ring(width + run)), ring(width + run / 2)
    sloped = (edge.depth - slab - foam) / 6.0 * (ends[0] + 4.0 * middle + ends[1])
    below_wall = (sides[0] + 2 * standing) * (sides[1] + 2 * standing) * slab
    poured = item(taken_off(resolved), "build-up.1.concrete")
    assert poured.net == pytest.approx(below_wall + sloped + foam * ring(width + run), rel=1e-9)


def test_footings_are_poured_by_their_corners_once():
    """warm-basement, 10 by 8 m: a ring of 20 by 10 in, its middle below an 8 in wall outside of the floor."""
    out, inn = (8 / 2 + 10) * INCH, (10 - 8 / 2) * INCH
    ring = (10 + 2 * out) * (8 + 2 * out) - (10 - 2 * inn) * (8 - 2 * inn)
    assert item(of("warm-basement"), "footing of edge A").net == pytest.approx(ring * 10 * INCH)


def test_boards_of_a_raft_lie_out_to_its_face_and_those_of_a_thickened_edge_end_at_its_slope():
    """By the sections: 10 by 8 m with walls of 0.2 m; 40 by 32 ft less the thickening's flat bottom and slope."""
    raft = of("raft-with-channels").layers[0].items[0]
    assert raft.net == pytest.approx(10.4 * 8.4)
    resolved = resolved_of("thickened-edge-house")
    (edge,) = resolved.edges
    standing = sum(leaf.thickness for leaf in edge.above)
    run = (edge.depth - resolved.floor[0].thickness - 2 * INCH) / tan(radians(edge.thickening.slope))
    inward = edge.thickening.width - standing + run
    sides = [side.length for side in resolved.plan.floor.outline.sides][:2]
    boards = taken_off(resolved).layers[0].items[0]
    assert boards.net == pytest.approx((sides[0] - 2 * inward) * (sides[1] - 2 * inward))


def test_stone_below_a_thickened_edge_is_what_the_thickening_leaves_of_it():
    """thickened-edge-house: slices of a millimetre, each a rectangle in to the slope or out to the slab's face."""
    resolved = resolved_of("thickened-edge-house")
    (edge,) = resolved.edges
    standing, foam = sum(leaf.thickness for leaf in edge.above), -resolved.floor[0].thickness - 2 * INCH
    slope = tan(radians(edge.thickening.slope))
    sides = [side.length for side in resolved.plan.floor.outline.sides][:2]
    net = 0.0
    for n in range(1000):
        level = foam - (n + 0.5) / 1000 * 4 * INCH
        inward = edge.thickening.width - standing + (level + edge.depth) / slope if level > -edge.depth else -standing
        net += (sides[0] - 2 * inward) * (sides[1] - 2 * inward) * 4 * INCH / 1000
    assert item(taken_off(resolved), "Gravel").net == pytest.approx(net, rel=1e-6)


@pytest.mark.parametrize("corners", [3, 4, 6, 17])
def test_a_strip_round_a_regular_floor_is_the_ring_between_two_of_them(corners):
    points = [(10.0 * cos(2 * pi * n / corners), 10.0 * sin(2 * pi * n / corners)) for n in range(corners)]
    floor = Floor(straight(points))
    sides = tuple(Stretch(0, n + 1, 0.0, side.length) for n, side in enumerate(floor.outline.sides))
    plan = KeyPlan(floor, (PlanEdge("A", "raft", "outdoors", sides),))
    reach = 10.0 * cos(pi / corners)  # from the middle to a side
    for width in (0.2, -0.3):
        ring = floor.area * (1.0 - ((reach - width) / reach) ** 2)
        strip = along(plan, "A", {"A"})
        assert strip.volume(abs(width), width * abs(width) / 2.0) == pytest.approx(
            abs(ring), rel=1e-9 if corners < 16 else 0.05
        )


def test_prices_in_two_currencies_are_told_and_not_added(tmp_path):
    (tmp_path / "catalogue").mkdir()
    (tmp_path / "catalogue" / "own.toml").write_text(
        'priced = 2026-05-01\n[maker]\nname = "Importer"\n[[product]]\nkey = "sheet-own"\nname = "Own"\nkind = "film"\n'
        'sizes = ["2 m x 50 m"]\nmade = [{ thickness = "0.4 mm", price = "1.10 EUR/m²" }]\nlap = "150 mm"\n'
        '[[product.evidence]]\nproperty = "permeance-film"\nvalue = 0.02\nunit = "perm"\nmethod = "ASTM E96 method A"\n'
        'statistic = "each"\nlaboratory = "third party"\ndate = 2026-01-05\ncertificate = "X-1"\n',
        encoding="utf-8",
    )
    takeoff = of("far-leg", lambda text: text.replace('"sheet-15"', '"sheet-own"'), tmp_path)
    assert [currency for currency, *_ in takeoff.totals] == ["EUR", "USD"]
    (note,) = takeoff.notes
    assert "EUR and USD" in note
    text = " ".join(hear(["takeoff", str(tmp_path / "so.toml")]).text.split())
    assert note in text
    assert text.count("Priced in all") == 2


def test_the_json_holds_what_the_order_holds():
    told = json.loads(hear(["takeoff", str(EXAMPLES / "warm-basement" / "brief.toml"), "--json"]).text)
    takeoff = of("warm-basement")
    assert [each["mass"] for each in told["items"]] == [each.mass for each in takeoff.items]
    assert told["coils"]["cuts"][0]["loops"] == [1]
    assert told["loads"]["boards"]["lorries"] == 1
    assert {"product": "Marlpit Plain 25", "worked-with": "hot wire or fine-toothed saw, straight edge"} in told[
        "tools"
    ]
    for each in told["items"]:
        assert sum(part["amount"] for part in each["beyond-need"]) == pytest.approx(
            each["ordered"] - each["needed"], abs=1e-6
        )


def test_findings_of_an_order_say_what_the_order_counts():
    takeoff = of("warm-basement")
    found = {each.id: each for each in takeoff.findings}
    layer = takeoff.layers[0]
    assert found["takeoff.panels"].value == layer.layout.panels == 28
    assert found["takeoff.bound"].value == layer.bound[0] <= found["takeoff.panels"].value
    assert found["takeoff.waste"].value == pytest.approx(100.0 * (1.0 - 80.0 / (28 * 32 * FOOT**2)))
    assert found["takeoff.tube"].value == pytest.approx(item(takeoff, "Tube, ").net)
    assert found["takeoff.panels"].at == {"layer": "3"}
    assert all(each.steps and each.basis and each.rests_on and each.verdict == "stated" for each in takeoff.findings)
    told = json.loads(hear(["takeoff", str(EXAMPLES / "warm-basement" / "brief.toml"), "--json"]).text)
    assert [each["id"] for each in told["findings"]] == [each.id for each in takeoff.findings]


def test_an_order_of_the_findings_keeps_to_the_schema():
    from jsonschema import Draft202012Validator

    schema = json.loads((EXAMPLES.parent / "schema" / "findings.schema.json").read_text(encoding="utf-8"))
    told = json.loads(hear(["takeoff", str(EXAMPLES / "warm-basement" / "brief.toml"), "--json"]).text)
    (of_finding,) = [each for each in schema["$defs"].values() if "rests_on" in each.get("properties", {})]
    one = Draft202012Validator({**of_finding, "$defs": schema["$defs"]})
    for each in told["findings"]:
        one.validate(each)


def test_an_alternative_is_ordered_by_its_name_and_held_against_the_brief():
    brief = str(EXAMPLES / "warm-basement" / "brief.toml")
    text = hear(["takeoff", brief, "--alternative", "no foam under the slab"]).text
    apart = " ".join(text[text.index("Otherwise than as briefed") :].split())
    assert "floor, board: nothing; as briefed 28 panels" in apart
    assert f"{28 * 32 * 1.47:,.2f} less" in apart
    assert "floor.build-up.3.board" not in text
    assert "tube:" not in apart
    assert "this counts the alternative no foam under the slab" in apart


def test_a_spacing_changes_the_tube_and_nothing_else():
    brief = str(EXAMPLES / "warm-basement" / "brief.toml")
    text = hear(["takeoff", brief, "--alternative", "carpet on a pad, tubes a foot apart"]).text
    apart = text[text.index("Otherwise than as briefed") :]
    assert apart.count("; as") == 3  # tube, its ties, and the sum
    assert "more" not in apart[: apart.index("Mind")]


@pytest.mark.parametrize(
    ("name", "alternative", "wrong", "instead"),
    [
        (
            "warm-basement",
            "no foam under the slob",
            "no alternative of that name",
            "The nearest is no foam under the slab",
        ),
        ("warm-basement", "", "no alternative of that name", "There are:"),
        ("raft-with-channels", "bare", "no alternative of that name|has no alternatives", "."),
    ],
)
def test_an_alternative_that_is_not_there_is_told_and_nothing_is_written(name, alternative, wrong, instead, tmp_path):
    with pytest.raises(Mistake, match=wrong) as told:
        hear(["takeoff", str(EXAMPLES / name / "brief.toml"), "-o", str(tmp_path), "--alternative", alternative])
    assert instead in told.value.instead
    assert list(tmp_path.iterdir()) == []


def test_film_follows_the_slope_of_a_thickened_edge():
    """thickened-edge-house: 150 mm turned up, and the slope's length over its run, both ways."""
    resolved = resolved_of("thickened-edge-house")
    (edge,) = resolved.edges
    rise = edge.depth - resolved.floor[0].thickness
    run = (rise - 2 * INCH) / tan(radians(edge.thickening.slope))
    (film,) = taken_off(resolved).films
    assert film.up == pytest.approx(0.15 + sqrt(run**2 + rise**2) - run)
    assert "led down the slope" in item(of("thickened-edge-house"), "Polyolefin film").why


def test_an_old_footing_is_not_poured_again():
    assert none_of(of("retrofit-over-old-slab"), "footing of edge")
    assert not none_of(of("daylight-basement"), "footing of edge")


def test_boards_of_one_kind_are_ordered_as_one_lot():
    """daylight-basement: boards of the floor, the wall and the slab's edge; bundles of twelve, four to a pallet."""
    takeoff = of("daylight-basement")
    (lot,) = takeoff.lots
    boards = [each for each in takeoff.items if each.key == "plain-15"]
    assert lot.count == sum(each.count for each in boards)
    assert lot.pack.bundles == ceil(lot.count / 12) < sum(each.pack.bundles for each in boards)
    assert lot.pack.pallets == ceil(ceil(lot.count / 12) / 4)
    assert lot.mass == pytest.approx(sum(each.mass for each in boards))
    assert lot.where == ("floor.build-up.2.board", "edge A, inside", "edge A, slab edge")
    assert of("walk-or-drive").lots[0].count == sum(each.count for each in of("walk-or-drive").items if each.bulk)


MONEY = """
[money]
currency = "{currency}"
date = "2026-11-01"
[money.price]
concrete = "180 {currency}/yd³"
gravel = "40 {currency}/yd³"
plain-25 = "1.20 {currency}/ft²"
"""


def test_prices_quoted_in_the_brief_take_the_place_of_the_record_s(tmp_path):
    takeoff = of("warm-basement", lambda text: text + MONEY.format(currency="USD"), tmp_path)
    yard = 27 * FOOT**3
    for words, per in (("build-up.1.concrete", 180), ("footing of edge", 180), ("Gravel", 40)):
        each = item(takeoff, words)
        assert each.cost.amount == pytest.approx(per * each.order / yard), words
        assert each.cost.day == "2026-11-01"
    panels = takeoff.layers[0].path
    board = next(each for each in takeoff.items if each.where == panels)
    assert board.cost.amount == pytest.approx(28 * 32 * 1.20)
    assert board.per_r * FOOT**2 / 5.678263 == pytest.approx(1.20 / 12.8, rel=2e-3)
    assert item(takeoff, "edge A, inside").cost.price == "1.48 USD/ft²"
    assert item(takeoff, "Sand for blinding").cost is None
    assert takeoff.notes == ()


def test_prices_in_another_currency_than_the_brief_s_are_told(tmp_path):
    takeoff = of("warm-basement", lambda text: text + MONEY.format(currency="CAD"), tmp_path)
    assert [currency for currency, *_ in takeoff.totals] == ["CAD", "USD"]
    (note,) = takeoff.notes
    assert note.startswith("Prices stand in CAD and USD and are not added together; the brief counts money in CAD.")


def test_a_companion_that_no_file_holds_is_told(tmp_path):
    own = tmp_path / "own.toml"
    own.write_text(
        'priced = 2026-05-01\n[maker]\nname = "Importer"\n[[product]]\nkey = "own-clip"\nname = "Clip"\nkind = "clip"\n'
        'goes-with = [{ for = "tube", product = "no-such" }]\n',
        encoding="utf-8",
    )
    text = " ".join(hear(["catalogue", "validate", str(own)]).text.split())
    assert "No product is called no-such, which this one names for its tube." in text


def test_coil_and_ties_as_typed_are_kept(tmp_path):
    typed = '[tube]\ncoil = "1000 ft"\nties = "18 in"\n'
    takeoff = of("warm-basement", lambda text: text.replace("[tube]\n", typed), tmp_path)
    assert [len(cut) for cut in takeoff.coils.cuts] == [3, 2]  # 262 ft each, 5 % more for what is not drawn
    assert takeoff.coils.length == pytest.approx(1000 * FOOT)
    plain = of("warm-basement")
    more = item(takeoff, "Fasteners").count - item(plain, "Fasteners").count
    assert more == pytest.approx(item(plain, "Tube, ").net * (1 / (18 * INCH) - 1 / 0.6), abs=1)


@pytest.mark.parametrize(
    ("typed", "wrong"),
    [
        ('coil = "0 ft"', "No coil of tube is 0 ft long."),
        ('coil = "2 in"', "No coil of tube is 2 in long."),
        ('coil = "-100 ft"', "tube.coil"),
        ('coil = "100 ft"\nloop-lengths = ["268 ft"]', "A loop as laid is longer than this coil"),
        ('coil = "300"', "tube.coil"),
        ('ties = "0 in"', "0 in is nothing."),
        ('ties = "every joist"', "tube.ties"),
    ],
)
def test_coils_and_ties_that_cannot_be_used_are_told(typed, wrong, tmp_path):
    with pytest.raises(Mistakes, match=wrong):
        of("warm-basement", lambda text: text.replace("[tube]\n", f"[tube]\n{typed}\n"), tmp_path)


def test_a_typed_coil_shorter_than_an_estimated_loop_is_told_in_the_order(tmp_path):
    takeoff = of("warm-basement", lambda text: text.replace("[tube]\n", '[tube]\ncoil = "100 ft"\n'), tmp_path)
    assert takeoff.coils is None
    assert "ask for longer ones" in item(takeoff, "Tube, ").why


def test_as_briefed_may_be_named_like_an_alternative():
    brief = str(EXAMPLES / "raft-with-channels" / "brief.toml")
    assert hear(["takeoff", brief, "--alternative", "as briefed"]).text == hear(["takeoff", brief]).text


def test_closer_tubes_along_outer_walls_are_ordered_too():
    """on-off-garage: 9 in, and 6 in within a metre of its walls."""
    resolved = resolved_of("on-off-garage")
    laid = resolved.area / (9 * INCH)
    more = resolved.perimeter * 1.0 * (1 / (6 * INCH) - 1 / (9 * INCH))
    count = ceil(laid / (300 * FOOT - 20 * FOOT))
    assert item(of("on-off-garage"), "Tube, ").net == pytest.approx(laid + more + count * 20 * FOOT)


@pytest.mark.parametrize(("name", "there"), [("priced-workshop", True), ("free-edge-warehouse", False)])
def test_findings_of_an_order_stand_in_the_answer_where_money_makes_one(name, there):
    dossier = answered(read(EXAMPLES / name / "brief.toml"))
    as_briefed = [each for each in dossier.alternatives[0].findings if each.id.startswith("takeoff.")]
    assert bool(as_briefed) == there
    if there:
        of_order = {(each.id, each.value) for each in of(name).findings}
        assert of_order <= {(each.id, each.value) for each in dossier.alternatives[0].findings}
