"""A new floor over an old slab: what can be typed, what is told, and how it is drawn."""

from __future__ import annotations

from pathlib import Path

import pytest
from refused import Bad, held_to

from underpour.answer import answer
from underpour.brief import reads
from underpour.brief.tables.floor import FloorTable
from underpour.catalogue import material
from underpour.checks import height
from underpour.cli import main
from underpour.dossier import Dossier
from underpour.drawings import hatch
from underpour.mistakes import Mistake
from underpour.resolve import Resolved, resolve
from underpour.sections.build import section
from underpour.sections.levels import levels

INCH = 0.0254
LAYERS = """\
  { screed = "2 in" },
  { board = "xps-25", thickness = "2 in" },
  { old-slab = "4 in" },
  { gravel = "4 in" },
"""
GOOD = f"""\
[project]
use = "dwelling"

[site]
place = "Rochester, NY"
ground = "clay-or-silt"

[plan]
outline = ["0 0", "36 0", "36 24", "0 24"]
unit = "ft"

[floor]
inside = "68 F"
humidity = "40 %"
build-up = [
{LAYERS}]

[[edge]]
sides = "all"
kind = "frost-wall"
depth = "46 in"
ground = "-12 in"
footing = {{ width = "16 in", height = "8 in" }}
insulation = [{{ board = "xps-25", thickness = "1 in", face = "slab-edge" }}]
"""
OLD = '{ old-slab = "4 in" },'
FOAM = '{ board = "xps-25", thickness = "2 in" },'
SCREED = '{ screed = "2 in" },'

BAD = [
    Bad("a board below the old slab", f"{FOAM}\n  {OLD}", f"{OLD}\n  {FOAM}",
        ("brief.toml:18  floor.build-up.3.board", "Board cannot be laid under the old slab", "Move it above")),
    Bad("new concrete below the old slab", '{ gravel = "4 in" }', '{ concrete = "4 in" }',
        ("brief.toml:19  floor.build-up.4.concrete", "Concrete cannot be laid under the old slab, which lies there")),
    Bad("two old slabs", OLD, f'{OLD}\n  {{ old-slab = "3 in" }},',
        ("brief.toml:19  floor.build-up.4.old-slab", "Layer 3 is the old slab already.", "Keep one")),
    Bad("gravel above the new screed", SCREED, f'{{ gravel = "2 in" }},\n  {SCREED}',
        ("brief.toml:16  floor.build-up.1.gravel", "Gravel cannot lie above concrete.")),
    Bad("sand with nothing poured on it", SCREED, '{ sand = "2 in" },',
        ("brief.toml:16  floor.build-up.1.sand", "Nothing is poured on this sand.", '{ screed = "2 in" }')),
    Bad("an old slab in a wall", 'depth = "46 in"', 'depth = "46 in"\nwall = [{ old-slab = "8 in" }]',
        ("edge.A.wall.1.old-slab", "An old slab is no layer of a wall.", "It belongs in a build-up.")),
    Bad("an old slab by its name", OLD, '{ old-slab = "plain" },', ("floor.build-up.3.old-slab", "plain")),
    Bad("an old slab with its thickness beside it", OLD, '{ old-slab = "4 in", thickness = "4 in" },',
        ("An old slab carries its thickness as its value.", 'Write { old-slab = "4 in" }.')),
    Bad("an old slab of nothing", OLD, '{ old-slab = "0 in" },', ("brief.toml:18  floor.build-up.3.old-slab", "0 in")),
    Bad("a floor without any concrete", f"{SCREED}\n  {FOAM}\n  {OLD}", FOAM, ("There is no concrete in this floor.",)),
    Bad("a footing in the old slab", 'depth = "46 in"', 'depth = "14 in"',
        ("edge.A.depth", "leaves no room for the slab, 2 in + 2 in + 4 in")),
    Bad("foam at the edge that reaches into the old slab", 'face = "slab-edge"', 'face = "slab-edge", down = "6 in"',
        ("edge.A.insulation.1.down", "the old slab, which stays, begins", "Take out down")),
]  # fmt: skip


@pytest.mark.parametrize("bad", BAD, ids=[bad.what for bad in BAD])
def test_bad_input_is_told_with_the_way_out_and_nothing_is_touched(
    bad: Bad, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    held_to(GOOD, bad, tmp_path, capsys)


@pytest.mark.parametrize(
    "layers",
    [
        '{ concrete = "3 in" }, { board = "xps-25", thickness = "2 in" }, { old-slab = "4 in" }, { gravel = "4 in" }',
        '{ screed = "2 in" }, { board = "xps-25", thickness = "2 in" }, { old-slab = "4 in" }',
        '{ screed = "2 in" }, { sand = "1 in" }, { old-slab = "4 in" }, { vapour-retarder = "film-15-mil" }',
        '{ board = "xps-25", thickness = "2 in" }, { old-slab = "4 in" }',
        '{ old-slab = "4 in" }, { sand = "2 in" }',
    ],
)
def test_what_can_lie_on_an_old_slab_is_taken(layers: str) -> None:
    assert reads(GOOD.replace(LAYERS, layers)).brief


def resolved(text: str = GOOD) -> Resolved:
    return resolve(reads(text).brief)


def depth_of(text: str):
    return next(finding for finding in height.build_up(resolved(text)) if finding.id == "height.depth")


@pytest.mark.parametrize(
    ("typed", "verdict", "words"),
    [
        ("", "cannot tell", "to the top of the old slab"),
        ("4 in", "meets", "lose 4 in (102 mm)"),
        ("3 in", "falls short", "1 in (25 mm) thicker than the height above the old slab"),
    ],
)
def test_what_must_fit_lies_between_the_finished_floor_and_the_old_slab(typed: str, verdict: str, words: str) -> None:
    """2 + 2 in; the old slab and its gravel need no height."""
    key = f'humidity = "40 %"\navailable-depth = "{typed}"' if typed else 'humidity = "40 %"'
    found = depth_of(GOOD.replace('humidity = "40 %"', key))
    assert found.value == pytest.approx(4 * INCH)
    assert found.verdict == verdict
    assert found.missing == ("" if typed else "floor.available-depth")
    assert words in found.words.replace("\u2009", " ").replace("\u00a0", " ")
    assert "above the old slab" in found.steps[0].formula
    assert "Doors, sills, headroom" in found.words


def test_the_help_of_the_depth_names_the_old_slab() -> None:
    assert "top of an old slab" in str(FloorTable.model_fields["available_depth"].description)


def test_foam_between_slab_and_wall_stands_above_the_old_slab() -> None:
    cut = resolved(GOOD.replace(FOAM, ""))
    at = levels(cut, cut.edges[0])
    assert at.old_slab == pytest.approx(-2 * INCH)
    assert at.slab_bottom == pytest.approx(-6 * INCH)
    foam = next(part for part in section(cut, cut.edges[0]).parts if part.path.startswith("edge.A.insulation"))
    assert min(y for _, y in foam.outline) == pytest.approx(-2 * INCH)


@pytest.mark.parametrize("kind", ["frost-wall", "raft"])
def test_the_wall_stands_where_it_stood_and_what_is_laid_now_ends_at_its_face(kind: str) -> None:
    text = GOOD if kind == "frost-wall" else GOOD[: GOOD.index("[[edge]]")] + '[[edge]]\nsides = "all"\nkind = "raft"\n'
    cut = resolved(text.replace("build-up = [\n", 'build-up = [\n  { vapour-retarder = "film-15-mil" },\n'))
    made = section(cut, cut.edges[0])
    wall = next(part for part in made.parts if part.path == "edge.A.above")
    assert min(y for _, y in wall.outline) == pytest.approx(-4 * INCH)
    begins = {part.path.rsplit(".", 1)[-1]: min(x for x, _ in part.outline) for part in made.parts}
    assert begins["screed"] == begins["board"] == 0.0
    assert begins["old-slab"] == begins["gravel"] == (0.0 if kind == "frost-wall" else pytest.approx(-0.2))
    assert made.films[0].line[0][0] == 0.0


def test_foam_at_the_edge_ends_on_the_old_slab_where_nothing_is_poured() -> None:
    cut = resolved(GOOD.replace(f"{SCREED}\n", ""))
    assert levels(cut, cut.edges[0]).poured_bottom == pytest.approx(-2 * INCH)


def test_foam_on_a_footing_must_fit_below_the_old_slab() -> None:
    tight = GOOD.replace('depth = "46 in"', 'depth = "17 in"').replace("slab-edge", "footing-top")
    tight = tight.replace('"1 in", face', '"2 in", face')
    cut = resolved(tight.replace('ground = "-12 in"', 'ground = "-8 in"'))
    with pytest.raises(Mistake, match=r"there are 1\sin .* between the slab and the footing"):
        section(cut, cut.edges[0])


def test_sand_that_levels_the_old_slab_counts_as_floor_and_the_gravel_below_it_as_ground() -> None:
    """d = 0.2 + 1.5 (0.17 + 0.0508/1.4 + 0.0254/2.0 + 0.1016/1.65 + 0.04): wall, films, screed, sand, old slab."""
    made = answer(reads(GOOD.replace(FOAM, '{ sand = "1 in" },')))
    assert f"d = {0.2 + 1.5 * 0.3205605:.3f} m" in made.as_briefed.find("heat.edge-psi").steps[1].numbers


def test_the_height_above_the_old_slab_is_a_dimension() -> None:
    cut = resolved()
    lines = section(cut, cut.edges[0]).dimensions
    rise = [line for line in lines if line.start[1] == 0.0 and line.end[1] == pytest.approx(-4 * INCH)]
    assert [line.words.replace("\u2009", " ").replace("\u00a0", " ") for line in rise] == ["4 in (102 mm)"]


def test_an_old_slab_has_a_hatch_of_its_own_and_a_broken_outline(tmp_path: Path) -> None:
    brief, out = tmp_path / "brief.toml", tmp_path / "slab.svg"
    bare = '[[alternative]]\nname = "bare"\nremove = ["board"]\n'
    brief.write_text(GOOD + bare, "utf-8")
    assert main(["compare", str(brief), "-o", str(out)]) in (0, 1)
    svg = out.read_text("utf-8")
    assert hatch.BROKEN in svg
    assert "Old slab, 4 in" in svg.replace("\u2009", " ").replace("\u00a0", " ")
    assert hatch.pattern("concrete-old", "x", 0, 0, 9) != hatch.pattern("concrete", "x", 0, 0, 9)
    brief.write_text(GOOD.replace(OLD, '{ concrete = "4 in" },') + bare, "utf-8")
    assert main(["compare", str(brief), "-o", str(out)]) in (0, 1)
    assert hatch.BROKEN not in out.read_text("utf-8")


def test_what_its_concrete_conducts_is_assumed_unless_it_is_typed() -> None:
    path, known = "floor.build-up.3.conductivity", material("old-slab").conductivity
    (taken,) = [each for each in resolved().assumed if each.path == path]
    assert (taken.low, taken.value, taken.high) == (known.low, known.value, known.high)
    typed = resolved(GOOD.replace(OLD, '{ old-slab = "4 in", conductivity = "1.9 W/(m·K)" },'))
    assert path not in [each.path for each in typed.assumed]
    assert typed.floor[2].conductivity == 1.9


def test_the_low_of_its_conductivity_can_be_tried() -> None:
    low = resolve(reads(GOOD).brief, {"floor.build-up.3.conductivity": 1.15})
    assert low.floor[2].conductivity == 1.15


@pytest.fixture(scope="module")
def dossier() -> Dossier:
    return answer(reads(GOOD))


@pytest.mark.parametrize("word", ["asbestos", "soil gas", "damp", "film"])
def test_what_an_old_slab_may_hide_stands_beside_the_finding_and_at_the_end(word: str, dossier: Dossier) -> None:
    assert word in dossier.as_briefed.find("height.depth").caution
    assert word in dossier.cautions[-1]


def test_where_the_walls_stand_is_said_and_only_where_one_stands_on_the_old_floor(dossier: Dossier) -> None:
    assert any("level with the top of the old slab" in note for note in dossier.notes)
    basement = GOOD.replace("frost-wall", "footing-wall").replace('ground = "-12 in"', 'ground = "12 in"')
    assert not any("old slab" in note for note in resolved(basement).notes)
    assert not any("old slab" in note for note in resolved(GOOD.replace(OLD, '{ concrete = "4 in" },')).notes)


@pytest.mark.parametrize(("face", "said"), [("inside", True), ("below-footing", True), ("outside", False)])
def test_foam_that_only_breaking_the_old_slab_could_reach_is_said_to_lie_there_already(face: str, said: bool) -> None:
    notes = resolved(GOOD.replace("slab-edge", face)).notes
    assert any("lies under the old slab" in note for note in notes) == said


def test_a_new_floor_on_the_ground_is_told_nothing_of_old_slabs() -> None:
    told = answer(reads(GOOD.replace(OLD, '{ concrete = "4 in" },').replace(f"{SCREED}\n", "")))
    assert not any("asbestos" in caution for caution in told.cautions)
    assert told.as_briefed.find("height.depth").caution == ""
