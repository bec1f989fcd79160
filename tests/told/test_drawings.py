"""What the pictures show and say."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations, pairwise
from pathlib import Path
from xml.etree import ElementTree

import drawing_cases as cases
import numpy as np
import pytest

from underpour.drawings import comparison, month_middle, plain_section, section_picture, shared_scale
from underpour.drawings.clear import in_the_clear
from underpour.drawings.lettering import width
from underpour.drawings.one_section import framed
from underpour.drawings.paper import Box
from underpour.drawings.sheet_field import on_sheet
from underpour.drawings.values import best_place
from underpour.drawings.visible import NOTHING, showing

FEBRUARY = month_middle(2)
SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = '</text><script>alert("1")</script> & <b> \x07 \u2028 end'


def one(answer=None, *, system="SI", year_fraction=FEBRUARY, **more) -> str:
    answer = answer or cases.answer("as briefed", "wrapped", 17.9, 610.0)
    scale = shared_scale(answer.fields.values(), year_fraction, system)
    return section_picture(answer, "A", year_fraction=year_fraction, system=system, scale=scale, **more)


def texts(svg: str) -> list[str]:
    return [(node.text or "").replace("\u00a0", " ") for node in ElementTree.fromstring(svg).iter(f"{SVG}text")]


def boxes(svg: str) -> list[tuple[str, Box]]:
    """The room of every text that stands upright, from base line to capital's height."""
    found = []
    for node in ElementTree.fromstring(svg).iter(f"{SVG}text"):
        size, x, y = (float(node.attrib[key]) for key in ("font-size", "x", "y"))
        wide = width(node.text or "", size, 600 if node.get("font-weight") else 400)
        left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[node.get("text-anchor", "start")]
        if "transform" not in node.attrib:
            found.append((node.text or "", Box(left, y - 0.6 * size, left + wide, y)))
    return found


def pictures() -> dict[str, str]:
    return {
        "comparison, US": comparison(cases.dossier("US"), "A", year_fraction=FEBRUARY),
        "comparison, SI": comparison(cases.dossier("SI"), "A", year_fraction=FEBRUARY),
        "section": one(caption="Foam carried over the footing."),
        "bare": one(cases.answer("bare slab", "bare", 13.9, 1480.0), system="US"),
        "plain": plain_section(cases.section("wrapped"), "US", caption="As built."),
    }


@pytest.fixture(scope="module")
def drawn() -> dict[str, str]:
    return pictures()


def test_every_picture_says_in_words_what_it_shows(drawn):
    for svg in drawn.values():
        root = ElementTree.fromstring(svg)
        assert root.get("role") == "img"
        assert root.findtext(f"{SVG}title")
        assert len(root.findtext(f"{SVG}desc") or "") > 40
    told = ElementTree.fromstring(drawn["comparison, US"]).findtext(f"{SVG}desc") or ""
    assert "Warmest where floor and wall meet: as briefed, 64.2 °F." in told.replace("\u00a0", " ")
    assert "Coldest there: foam stops at the footing, 52.5 °F." in told.replace("\u00a0", " ")


def test_every_picture_of_temperatures_says_which_moment_it_shows(drawn):
    for name in ("comparison, US", "section"):
        assert "middle of February" in " ".join(texts(drawn[name]))


def test_a_caption_that_names_the_moment_is_not_followed_by_it_again():
    said = " ".join(texts(one(caption="Temperatures in the middle of February, when this edge is coldest.")))
    assert said.count("middle of February") == 1


def test_every_alternative_is_named_with_its_corner_and_its_loss(drawn):
    said = texts(drawn["comparison, SI"])
    for name in ("as briefed", "foam stops at the footing", "bare slab"):
        assert name in said
    assert "Corner 17.9 °C. Floor loses 610 W in January." in said


def test_a_corner_that_falls_short_is_said_in_words_and_in_its_own_colour(drawn):
    root = ElementTree.fromstring(drawn["comparison, SI"])
    colours = {(node.text or "").replace("\u00a0", " "): node.get("fill") for node in root.iter(f"{SVG}text")}
    assert colours["falls short"] == colours["11.4 °C"] == "#8A3A12"
    assert colours["17.9 °C"] == colours["13.9 °C"] == "#182A2E"


def test_room_and_outdoors_are_named_with_their_temperatures():
    said = texts(one())
    assert "room 20.0 °C" in said
    assert "outdoors −5.6 °C" in said


def test_a_field_that_does_not_tell_the_air_still_names_the_spaces():
    answer = cases.answer("as briefed", "wrapped", 17.9, 610.0)
    silent = replace(answer, fields={"A": replace(answer.fields["A"], airs=())})
    assert {"room", "outdoors"} <= set(texts(one(silent)))


def test_materials_are_named_beside_the_section_and_in_one_key_of_the_comparison(drawn):
    for name in ("Marlpit Plain 25, 2 in (51 mm)", "Concrete footing", "Concrete wall", "Silty clay"):
        assert texts(drawn["section"]).count(name) == 1
        assert texts(drawn["plain"]).count(name) == 1
        assert texts(drawn["comparison, US"]).count(name) == 1


def test_alternatives_share_one_scale_and_one_legend():
    """A field has the same tints beside another field as on the shared scale alone, and the legend stands once."""
    dossier = cases.dossier("SI")
    scale = shared_scale([answer.fields["A"] for answer in dossier.alternatives], FEBRUARY, "SI")
    together = comparison(dossier, "A", year_fraction=FEBRUARY)
    alone = shared_scale([dossier.alternatives[0].fields["A"]], FEBRUARY, "SI")
    assert alone.levels[0] >= scale.levels[0] and alone.levels[-1] <= scale.levels[-1]
    assert set(re.findall(r'<(?:path|rect)[^>]*fill="(#[0-9A-F]{6})"', together)) - set(scale.tints) <= {
        "#FFFFFF",  # paper
        "#E6EBE6",  # air of the room
        "#182A2E",  # ink
    }
    assert texts(together).count("°C") == 1


def frost_is_drawn(svg: str) -> bool:
    return 'stroke-width="0.7"' in re.sub(r"<path[^>]*dasharray[^>]*>", "", svg)


def test_the_frost_line_is_drawn_where_ground_freezes_and_only_there():
    answer = cases.answer("bare slab", "bare", 13.9, 1480.0)
    assert frost_is_drawn(one(answer))
    assert "0 °C" in texts(one(answer))
    mild = replace(answer.fields["A"], mean=answer.fields["A"].mean + 30)
    svg = one(replace(answer, fields={"A": mild}))
    assert not frost_is_drawn(svg)
    assert "frost" not in " ".join(texts(svg))


def test_the_frost_line_is_labelled_in_fahrenheit_at_32():
    assert "32 °F" in texts(one(system="US"))


def test_ticks_stand_on_the_frozen_side():
    """Colder above: every tick of the heavy level line points up the sheet."""
    from underpour.drawings.frost import frost_line
    from underpour.drawings.sheet_field import SheetField

    field = SheetField(np.array([0.0, 50.0]), np.array([0.0, 50.0]), np.array([[-10.0, -10.0], [10.0, 10.0]]))

    def everywhere(at):
        return np.ones(len(at), dtype=bool)

    def drawn(heaves):
        svg = frost_line([np.array([[0.0, 25.0], [50.0, 25.0]])], field, everywhere, heaves)
        return re.findall(r"M([-\d.]+) ([-\d.]+)l([-\d.]+) ([-\d.]+)", svg.split("<path")[2])

    ticks = drawn(lambda at: ~everywhere(at))
    assert len(ticks) == 21  # from 1.2 mm on every 2.4 mm
    assert all(float(down) < 0 for *_, down in ticks)
    double = drawn(lambda at: at[:, 0] < 25.0)  # ten of them stand left of the middle
    assert len(double) == 31
    assert all(float(down) < 0 for *_, down in double)
    assert drawn(lambda at: at[:, 1] > 25.0) == ticks  # ground that heaves below the line is not frozen


@pytest.mark.parametrize("heaves", [False, True])
def test_ticks_are_double_in_ground_that_can_heave_and_the_legend_says_so(heaves):
    answer = cases.answer("bare slab", "bare", 13.9, 1480.0)
    cut = answer.sections["A"]
    parts = tuple(replace(part, heaves=heaves and part.hatch == "ground") for part in cut.parts)
    svg = one(replace(answer, sections={"A": replace(cut, parts=parts)}))
    feet = [float(x) for x, _ in re.findall(r"M([-\d.]+) ([-\d.]+)l[-\d.]+ [-\d.]+", ticks_of(svg))]
    ticks = len(feet)
    assert ticks > 10
    assert (ticks > 1.5 * len(re.findall("l", ticks_of(one(answer))))) is heaves
    assert "double in ground that can heave" in texts(svg)


def ticks_of(svg: str) -> str:
    """What is drawn right after the frost line itself."""
    return svg.partition('stroke-width="0.7"')[2].partition("<path")[2].partition("/>")[0]


def test_hostile_words_are_drawn_as_letters():
    answer = cases.answer(HOSTILE, "wrapped", 17.9, 610.0)
    answer = replace(answer, sections={"A": cases.section("wrapped", label=HOSTILE)})
    dossier = replace(cases.dossier(), alternatives=(answer, cases.answer("bare slab", "bare", 13.9, 1480.0)))
    for svg in (one(answer, caption=HOSTILE), comparison(dossier, "A", year_fraction=FEBRUARY)):
        root = ElementTree.fromstring(svg)
        assert not list(root.iter(f"{SVG}script"))
        assert "alert(" in " ".join(texts(svg))
    ElementTree.fromstring(plain_section(answer.sections["A"], "SI", caption=HOSTILE))


def test_the_same_dossier_gives_the_same_bytes(drawn):
    assert pictures() == drawn


def test_pictures_stay_small_and_hold_nothing_but_drawing(drawn):
    for svg in drawn.values():
        assert len(svg.encode()) < 400_000
        tags = {node.tag.removeprefix(SVG) for node in ElementTree.fromstring(svg).iter()}
        assert tags <= {"svg", "title", "desc", "defs", "pattern", "clipPath", "rect", "path", "circle", "text", "g"}


def test_no_words_overlap(drawn):
    for name, svg in drawn.items():
        for (said, box), (other_said, other) in combinations(boxes(svg), 2):
            assert not box.meets(other), f"{name}: {said!r} and {other_said!r}"


def test_all_words_stay_on_the_sheet(drawn):
    for svg in drawn.values():
        _, _, wide, high = map(float, ElementTree.fromstring(svg).attrib["viewBox"].split())
        for said, box in boxes(svg):
            assert box.left >= -0.1 and box.top >= 0 and box.right <= wide + 0.1 and box.bottom <= high, said


@pytest.mark.parametrize("foam", ["bare", "under", "wrapped"])
@pytest.mark.parametrize("every", [1, 3])
def test_tints_cover_every_body_without_holes(foam, every):
    """Temperatures are known wherever a body shows, also where the field's lines miss the body's borders."""
    cut = cases.section(foam)
    frame = framed(cut, 0.0, 0.0, 170.0)
    known = cases.field(cut)
    sparse = replace(
        known,
        x=known.x[::every],
        y=known.y[::every],
        mean=known.mean[::every, ::every],
        swing=known.swing[::every, ::every],
    )
    sheet = on_sheet(sparse, FEBRUARY, frame)
    x, y = np.meshgrid(
        np.linspace(frame.left, frame.right, 700, endpoint=False), np.linspace(frame.top, frame.bottom, 400)
    )
    solid = showing(cut.parts, *frame.metres(x, y)) != NOTHING
    assert solid.sum() > 100_000
    assert not np.isnan(sheet.at(x[solid], y[solid])).any()


def test_no_value_is_set_where_lines_crowd():
    def everywhere(value, kind):
        return lambda x, y: np.full(np.shape(x), value, dtype=kind)

    lines = [np.array([[0.0, 50.0], [100.0, 50.0]])]
    wide, crowded = everywhere(12.0, float), everywhere(0.8, float)
    ground = everywhere(0, int)
    assert best_place(lines, "10", spacing_at=wide, body_at=ground, taken=[])
    assert best_place(lines, "10", spacing_at=crowded, body_at=ground, taken=[]) is None
    assert best_place(lines, "10", spacing_at=wide, body_at=everywhere(NOTHING, int), taken=[]) is None
    assert best_place(lines, "10", spacing_at=wide, body_at=ground, taken=[Box(0, 0, 100, 100)]) is None


def test_names_stand_in_one_ground_or_in_air_and_off_what_is_taken():
    cut = cases.section("wrapped")
    frame = framed(cut, 0.0, 0.0, 170.0)
    x, y = frame.x(-1.0), frame.y(-0.6)
    place = Box(x, y, x + 10, y + 3)
    assert in_the_clear(cut, frame, place, [])
    assert not in_the_clear(cut, frame, place, [Box(x + 5, y + 1, x + 50, y + 2)])
    in_footing = Box(frame.x(-0.4), frame.y(-0.3), frame.x(-0.1), frame.y(-0.35))
    assert not in_the_clear(cut, frame, in_footing, [])
    assert not in_the_clear(cut, frame, Box(-5, y, 5, y + 3), [])


def test_a_dimension_that_repeats_a_name_is_left_out():
    cut = cases.section("wrapped")
    slab = cases.Dimension((1.2, 0.0), (1.2, -0.1), "4 in (102 mm)")
    svg = plain_section(replace(cut, dimensions=(*cut.dimensions, slab)), "US")
    assert "20 in (508 mm)" in texts(svg)
    assert "4 in (102 mm)" not in texts(svg)


def test_a_hidden_body_is_not_hatched_through_the_one_above_it():
    """The gravel lies behind the footing: its hatch is cut by the footing's outline."""
    svg = plain_section(cases.section("bare"), "SI")
    gravel = re.search(r'((?:<g clip-path="url\(#[^>]*-not-\d+\)">)+)<path d="[^"]*" fill="url\(#[^>]*-hatch-2\)"', svg)
    assert gravel and "-not-4" in gravel.group(1)


def test_two_pictures_on_one_page_keep_their_own_patterns(drawn):
    def names(svg: str) -> set[str]:
        return set(re.findall(r'id="([^"]+)"', svg))

    for one_picture, other in pairwise(drawn[n] for n in ("section", "bare", "plain")):
        assert not names(one_picture) & names(other)


def test_a_floor_that_has_no_such_edge_is_refused_by_its_letter():
    with pytest.raises(KeyError, match="Z"):
        comparison(cases.dossier(), "Z", year_fraction=FEBRUARY)


@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_any_number_of_alternatives_finds_room(count):
    dossier = cases.dossier("SI")
    answers = (
        *dossier.alternatives,
        cases.answer("a fourth one whose name runs over the line", "bare", 9.0, 1.0),
    )
    svg = comparison(replace(dossier, alternatives=answers[:count]), "A", year_fraction=FEBRUARY)
    for (said, box), (other_said, other) in combinations(boxes(svg), 2):
        assert not box.meets(other), f"{said!r} and {other_said!r}"


def test_the_typesetter_takes_the_picture(drawn, tmp_path: Path):
    typst = pytest.importorskip("typst")
    for n, svg in enumerate(drawn.values()):
        (tmp_path / f"{n}.svg").write_text(svg, encoding="utf-8")
        source = tmp_path / f"{n}.typ"
        source.write_text(f'#set page(width: auto, height: auto)\n#image("{n}.svg")\n', encoding="utf-8")
        assert typst.compile(str(source), format="pdf").startswith(b"%PDF")
