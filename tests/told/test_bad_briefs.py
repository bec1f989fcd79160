"""Bad input the whole way through the command: the words, exit status 2, and a folder that is left as it was.

One table. A row is a change to a good brief, the words that a person then reads, and the command where it is not
``answer``.
"""

from __future__ import annotations

import json
import os
from dataclasses import dataclass
from pathlib import Path

import pytest

from underpour.cli import main

GOOD = """\
[project]
use = "workshop"

[site]
place = "Duluth, MN"
ground = "clay-or-silt"

[plan]
outline = ["0 0", "40 0", "40 28", "0 28"]
unit = "ft"

[floor]
inside = "68 F"
humidity = "40 %"
build-up = [
  { concrete = "4 in" },
  { board = "plain-15", thickness = "2 in" },
  { vapour-retarder = "film-15-mil" },
  { gravel = "4 in" },
]

[[edge]]
sides = "all"
kind = "frost-wall"
depth = "60 in"
ground = "-8 in"
insulation = [{ board = "plain-15", thickness = "2 in", face = "outside", from = "12 in", down = "60 in" }]

[[alternative]]
name = "bare slab"
remove = ["board"]
"""

WRAP = 'insulation = [{ board = "plain-15", thickness = "2 in", face = "outside", from = "12 in", down = "60 in" }]'
EDGE = GOOD[GOOD.index("[[edge]]") : GOOD.index("[[alternative]]")]
PLACE = 'place = "Duluth, MN"'
OUTLINE = 'outline = ["0 0", "40 0", "40 28", "0 28"]'
FOAM = '{ board = "plain-15", thickness = "2 in" },'
REMOVE = 'remove = ["board"]'


def drawn(*shapes: tuple[str, str]) -> str:
    bodies = "".join(f'[[edge.shape]]\nunit = "in"\noutline = {o}\nmaterial = "{m}"\n\n' for m, o in shapes)
    return f'[[edge]]\nsides = "all"\nkind = "drawn"\nground = "-8 in"\n\n{bodies}'


def thickened(depth: str = '"24 in"', more: str = 'width = "12 in"', ground: str = "-8 in") -> str:
    head = f'[[edge]]\nsides = "all"\nkind = "thickened-edge"\nground = "{ground}"\n'
    return f"{head}depth = {depth}\nthickening = {{ {more} }}\n"


BREAK = 'insulation = [{ board = "plain-15", thickness = "2 in", face = "slab-edge" }]'


def threshold(more: str = "", ground: str = "-1 in") -> str:
    return f'[[edge]]\nsides = "all"\nkind = "threshold"\ndepth = "60 in"\nground = "{ground}"\n{more}\n'


def ledged(ledge: str = 'width = "5 in"', wall: str = '"10 in"') -> str:
    head = '[[edge]]\nsides = "all"\nkind = "ledge"\ndepth = "60 in"\nground = "-8 in"\n'
    return f"{head}wall = [{{ concrete = {wall} }}]\nledge = {{ {ledge} }}\n"


@dataclass(frozen=True)
class Bad:
    what: str  # a short name of the fault
    was: str
    typed: str
    words: tuple[str, ...]  # each is told
    command: str = "answer brief.toml"


BAD = [
    Bad("a measure without its unit", '"2 in" },', '"2" },',
        ("brief.toml:17  floor.build-up.2.thickness", "2 of what?", "Write 2 in or 2 mm, whichever is meant.")),
    Bad("a board nobody knows", '{ board = "plain-15"', '{ board = "plian-15"',
        ("brief.toml:17", "No board is called plian-15.", "The nearest is plain-15.")),
    Bad("a board nobody knows, at the edge", '[{ board = "plain-15"', '[{ board = "plian-15"',
        ("brief.toml:27", "edge.A.insulation.1.board", "The nearest is plain-15.")),
    Bad("one bracket at an edge, with alternatives that take layers out", "[[edge]]", "[edge]",
        ("brief.toml:22  edge", "There may be several of edge.", "Write the heading with two brackets: [[edge]].")),
    Bad("two brackets at the site", "[site]", "[[site]]",
        ("brief.toml:4  site", "There is one site in a brief.", "Write the heading with one bracket: [site].")),
    Bad("quotes of a letter writer", PLACE, "place = “Duluth, MN”",
        ("brief.toml:5", "The quotes on this line are curved.", 'Write straight ones: "')),
    Bad("a heading twice", "[floor]", "[site]\n[floor]",
        ("This heading stands twice.", "write [[site]] for one of several")),
    Bad("a slab for concrete", "{ concrete = ", "{ slab = ",
        ("A layer has no key slab.", "A layer is one of concrete, ")),
    Bad("an alternative to an edge that there is not", REMOVE, 'set = { "edge.B.depth" = "50 in" }',
        ("There is no edge.B.depth in the brief.", "Its edges: A.")),
    Bad("a place nobody knows", PLACE, 'place = "Dulluth, MN"', ("brief.toml:5  site.place", "Dulluth", "Duluth")),
    Bad("a name of several places", PLACE, 'place = "Springfield"',
        ("brief.toml:5  site.place", "Springfield, MO", "Springfield, IL")),
    Bad("an outline that crosses itself", OUTLINE, 'outline = ["0 0", "40 28", "40 0", "0 28"]',
        ("brief.toml:9  plan.outline", "crosses or touches itself", "in order round the floor")),
    Bad("an outline of two points", OUTLINE, 'outline = ["0 0", "40 0"]',
        ("brief.toml:9", "2 corners enclose nothing.")),
    Bad("gravel above the concrete", '{ concrete = "4 in" },', '{ gravel = "2 in" },\n  { concrete = "4 in" },',
        ("brief.toml:16  floor.build-up.1.gravel", "Gravel cannot lie above concrete.")),
    Bad("a floor without concrete", '{ concrete = "4 in" },', "", ("There is no concrete in this floor.",)),
    Bad("a room at -80 C", '"68 F"', '"-80 C"', ("brief.toml:13  floor.inside", "-80 C", "-60")),
    Bad("a room at 90 C", '"68 F"', '"90 C"', ("brief.toml:13  floor.inside", "90 C", "80")),
    Bad("a negative thickness", '{ concrete = "4 in" }', '{ concrete = "-4 in" }', ("brief.toml:16", "-4 in")),
    Bad("a slab of 2000 in", '{ concrete = "4 in" }', '{ concrete = "2000 in" }', ("brief.toml:16", "2000 in")),
    Bad("a thickness that is not made", '"2 in" },', '"2.2 in" },',
        ("brief.toml:17  floor.build-up.2.thickness", "is not made 2.2 in thick", "2 in (51\u2009mm) and 2-1/2 in")),
    Bad("a site that no grid covers", PLACE, 'place = "80 S, 20 E"', ("brief.toml:5  site.place", "monthly")),
    Bad("a workshop kept below freezing", '"68 F"', '"-5 C"',
        ("brief.toml:13  floor.inside", "A workshop is not kept at -5 C.", 'use = "cold-store"')),
    Bad("a slab outdoors with a room's air and a wall's edge", 'use = "workshop"', 'use = "drive"',
        ("brief.toml:13  floor.inside", "A drive lies outdoors; there is no room over it to be kept warm.",
         "Take inside out, or write the use of the room, such as garage.",
         "brief.toml:14  floor.humidity", "A drive lies outdoors; no room's humidity is asked for.",
         "edge.A.kind", "A frost-wall stands under a wall. A drive lies outdoors and bears none.",
         'Write kind = "free-edge". Edges without a wall: free-edge, ')),
    Bad("a folder where the brief is expected", "", "", ("This is a folder; a brief is a file.",), "answer folder"),
    Bad("no brief at all", "", "", ("gone.toml", "There is no"), "answer gone.toml"),
    Bad("a folder where the picture is expected", "", "", ("That is a folder; a file is wanted.",),
        "compare brief.toml -o folder"),
    Bad("a picture in a folder that is missing", "", "", ("There is no folder away.",),
        "compare brief.toml -o away/slab.svg"),
    Bad("a paper in a folder that is missing", "", "", ("There is no folder away.",),
        "submittal brief.toml -o away/slab.pdf"),
    Bad("a paper written over the brief", "", "", ("End the name with .pdf.",), "submittal brief.toml -o brief.toml"),
    Bad("a key nobody knows", 'inside = "68 F"', 'insde = "68 F"', ("brief.toml:13", "insde", "inside")),
    Bad("a load without a force", "[[alternative]]", '[[load]]\nkind = "wheel"\n\n[[alternative]]',
        ("brief.toml:29", "load.1.force", "A load needs force", 'Write force = "5000 lb".')),
    Bad("a wing above the ground", WRAP,
        'insulation = [{ board = "plain-15", thickness = "2 in", face = "wing", out = "24 in", at = "4 in" }]',
        ("brief.toml:27  edge.A.insulation.1.at", "This wing lies above the ground.", "so that ground covers it")),
    Bad("foam on a footing that leaves it no room", f'depth = "60 in"\nground = "-8 in"\n{WRAP}',
        'depth = "15 in"\nground = "-2 in"\n'
        'insulation = [{ board = "plain-15", thickness = "2 in", face = "footing-top" }]',
        ("brief.toml:27  edge.A.insulation.1.thickness", "does not fit on the footing", "Lower the footing (depth)")),
    Bad("a face that the edge does not have", 'face = "outside", from = "12 in", down = "60 in"', 'face = "ceiling"',
        ("brief.toml:27  edge.A.insulation.1.face", "ceiling")),
    Bad("a thickening no deeper than the slab", EDGE, thickened('"4 in"'),
        ("edge.A.depth", "4 in is no deeper than the slab, 4 in: nothing thickens.", 'kind = "raft"')),
    Bad("a thickening within the floor's foam", EDGE, thickened('"5 in"', ground="-2 in"),
        ("edge.A.depth", "ends above the underside of the floor's foam, which lies 6\u2009in")),
    Bad("a slope that meets the middle of the floor", EDGE, thickened('"10 ft"', 'slope = "20 deg"'),
        ("edge.A.thickening", "the middle of the floor is at", "Take a steeper slope")),
    Bad("a slope without its unit", EDGE, thickened(more='slope = "45"'),
        ("edge.A.thickening.slope", "45 of what?", "Write 45 deg.")),
    Bad("a slope as a ratio", EDGE, thickened(more='slope = "1:2"'),
        ("edge.A.thickening.slope", "1:2 is a ratio", 'Write the angle from the level: slope = "45 deg"')),
    Bad("a slope too flat to be one", EDGE, thickened(more='slope = "5 deg"'),
        ("edge.A.thickening.slope", "too flat", "15 deg to 90 deg")),
    Bad("a thickened edge without its depth", EDGE, thickened("none").replace("depth = none\n", ""),
        ("edge.A.depth", "A thickened-edge needs depth: the bottom of the thickening")),
    Bad("a thickened edge with a footing", EDGE, thickened() + 'footing = { width = "20 in", height = "10 in" }\n',
        ("edge.A.footing", "A thickened-edge has no footing.")),
    Bad("a thickened edge wrapped at a face it does not have", EDGE, thickened() + WRAP + "\n",
        ("edge.A.insulation.1.face", "has no face outside", "slab-edge, below-footing, below-slope and wing")),
    Bad("a thickening whose bottom lies above the ground", EDGE, thickened('"12 in"', ground="-2 ft"),
        ("edge.A.ground", "-2 ft, lies below the thickening, whose bottom is 12 in down")),
    Bad("foam under a slope that is told how far down", EDGE,
        thickened() + WRAP.replace('"outside", from = "12 in",', '"below-slope",') + "\n",
        ("edge.A.insulation.1.down", "is as long as what it lies against, and takes no down", "Take it out.")),
    Bad("a thickening at a frost wall", WRAP, f'{WRAP}\nthickening = {{ width = "12 in" }}',
        ("brief.toml:28  edge.A.thickening", "Only a thickened-edge takes thickening.", 'kind = "thickened-edge"')),
    Bad("ground above the floor at a door", EDGE, threshold(ground="6 in"),
        ("edge.A.ground", "6 in, lies above the floor, and water comes in.", 'ground = "-1 in"')),
    Bad("foam that stands in a doorway", EDGE, threshold(WRAP),
        ("edge.A.insulation.1.from", "foam cannot stand above the floor", "Take from out")),
    Bad("a door set back into the room", EDGE, threshold('wall = [{ concrete = "8 in" }]\nset-back = "12 in"'),
        ("edge.A.set-back", "stands in the room: the foundation wall is 8\u2009in", "in to the leaf's outer face")),
    Bad("a break below a door that leaves no sill", EDGE, threshold(f'set-back = "0 in"\n{BREAK}'),
        ("edge.A.insulation.1.face", "This break leaves no sill outside the door", "Set the leaf further back")),
    Bad("a break that reaches into the wall below", EDGE, threshold(BREAK.replace(" }]", ', down = "12 in" }]')),
        ("edge.A.insulation.1.down", "reaches into the foundation wall", "Take out down")),
    Bad("a door set back at a frost wall", WRAP, f'{WRAP}\nset-back = "2 in"',
        ("brief.toml:28  edge.A.set-back", "Only a threshold takes set-back", 'kind = "threshold"')),
    Bad("a ledge that leaves too little of the wall", EDGE, ledged('width = "6 in"', '"8 in"'),
        ("edge.A.ledge.width", "leaves 2\u2009in (51\u2009mm) of this wall", "Make the wall thicker, or the ledge")),
    Bad("a ledge no wider than the brick", EDGE, ledged('width = "3 in", brick = "3-5/8 in"'),
        ("edge.A.ledge.brick", "leaves no air on a ledge of 3 in", "an inch or more")),
    Bad("a ledge above the floor", EDGE, ledged('below = "-4 in"'),
        ("edge.A.ledge.below", "-4 in is below zero")),
    Bad("a ledge below the footing", EDGE, ledged('below = "52 in"'),
        ("edge.A.ledge.below", "lies below the top of the footing", "counts from the top of the floor")),
    Bad("a wall above that runs into the brick", EDGE, ledged() + 'above = [{ timber-frame = "8 in" }]\n',
        ("edge.A.above", "stands in the brick", "Take a thinner wall above")),
    Bad("a ledge at another kind of edge", WRAP, f'{WRAP}\nledge = {{ width = "5 in" }}',
        ("brief.toml:28  edge.A.ledge", "Only an edge of that kind takes ledge.", 'kind = "ledge"')),
    Bad("foam outside whose top is covered", WRAP, WRAP.replace(" }]", ', top = "covered" }]'),
        ("brief.toml:27  edge.A.insulation.1.top", "Only foam between slab and wall", "at a frost-wall or ledge")),
    Bad("a wall that stands on foam by more than half", WRAP,
        BREAK.replace(" }]", ', top = "covered" }]') + '\nabove = [{ timber-frame = "3.5 in" }]',
        ("edge.A.insulation.1.top", "would stand on this foam", "a thicker wall above")),
    Bad("a wing that lies in the footing", WRAP,
        'insulation = [{ board = "plain-15", thickness = "2 in", face = "wing", out = "24 in", at = "54 in" }]',
        ("brief.toml:27  edge.A.insulation.1.at", "This wing lies over the footing", "Lay it higher")),
    Bad("a drawn edge whose shapes lie over one another", EDGE,
        drawn(("concrete", '["-8 -20", "0 -20", "0 48", "-8 48"]'), ("sand", '["-4 -20", "4 -20", "4 0", "-4 0"]')),
        ("edge.A.shape.2", "lies over", "lower priority")),
    Bad("a drawn edge that is open to outdoors", EDGE, drawn(("concrete", '["-8 -20", "0 -20", "0 20", "-8 20"]')),
        ("edge.A.shape", "The room is open to outdoors", "Draw the wall up to")),
    Bad("a drawn edge without a shape", EDGE, drawn(), ("edge.A.shape", "A drawn edge needs its shapes.")),
    Bad("an alternative without its concrete", REMOVE, 'remove = ["concrete"]',
        ("brief.toml:", 'alternative "bare slab"', "There is no concrete in this floor.")),
    Bad("an alternative in a thickness that is not made", REMOVE, 'set = { "floor.build-up.2.thickness" = "2.2 in" }',
        ("brief.toml:31", 'alternative "bare slab": floor.build-up.2.thickness', "is not made 2.2 in thick")),
    Bad("an alternative whose foam does not fit", REMOVE,
        'set = { "edge.A.depth" = "15 in", "edge.A.ground" = "-2 in", "edge.A.insulation" = '
        '[{ board = "plain-15", thickness = "2 in", face = "footing-top" }] }',
        ("brief.toml:31", 'alternative "bare slab": edge.A.insulation.1.thickness', "does not fit on the footing")),
]  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The place that the command is called from: one brief and one empty folder."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "100")
    (tmp_path / "folder").mkdir()
    return tmp_path


def contents(folder: Path) -> dict[str, tuple[bytes, int]]:
    return {
        str(path.relative_to(folder)): (path.read_bytes() if path.is_file() else b"", path.stat().st_mtime_ns)
        for path in sorted(folder.rglob("*"))
    }


def changed(*changes: tuple[str, str]) -> str:
    text = GOOD
    for was, typed in changes:
        assert was in text, was
        text = text.replace(was, typed, 1)
    return text


@pytest.mark.parametrize("bad", BAD, ids=[bad.what for bad in BAD])
def test_bad_input_is_told_with_the_way_out_and_nothing_is_touched(
    bad: Bad, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "brief.toml").write_text(changed((bad.was, bad.typed)), "utf-8")
    before = contents(folder)
    status = main(bad.command.split())
    told = capsys.readouterr()
    assert status == 2, told.err
    assert told.out == ""
    for words in bad.words:
        assert words in told.err
    assert "Traceback" not in told.err
    assert contents(folder) == before


@pytest.mark.parametrize(
    "command", ["compare brief.toml -o folder/slab.svg", "submittal brief.toml -o folder/slab.pdf"]
)
def test_a_folder_that_may_not_be_written_to_is_told_and_left(
    command: str, folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    (folder / "brief.toml").write_text(GOOD, "utf-8")
    monkeypatch.setattr(os, "access", lambda path, mode: mode != os.W_OK)
    before = contents(folder)
    assert main(command.split()) == 2
    assert "Nothing may be written there." in capsys.readouterr().err
    assert contents(folder) == before


@pytest.mark.parametrize("command", ["compare brief.toml -o slab.svg", "submittal brief.toml --draft -o slab.pdf"])
def test_a_file_that_the_system_will_not_write_leaves_the_older_one(
    command: str, folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Refused in the last moment: a full disk."""
    output = command.rsplit(maxsplit=1)[-1]
    (folder / "brief.toml").write_text(GOOD, "utf-8")
    (folder / output).write_text("the older one", "utf-8")
    before = contents(folder)

    def full(self: Path, content: bytes) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    assert main(command.split()) == 2
    assert "No space left on device" in capsys.readouterr().err
    assert contents(folder) == before


def test_the_brief_that_the_table_spoils_is_answered(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "brief.toml").write_text(GOOD, "utf-8")
    assert main(["answer", "brief.toml"]) == 0, capsys.readouterr()


def test_several_mistakes_are_told_at_once(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = changed(('{ board = "plain-15"', '{ board = "plian-15"'), (PLACE, 'place = "Dulluth, MN"'),
                   ('"clay-or-silt"', '"clay-or-slit"'))  # fmt: skip
    (folder / "brief.toml").write_text(text, "utf-8")
    assert main(["answer", "brief.toml"]) == 2
    told = capsys.readouterr().err
    assert [words in told for words in ("brief.toml:5", "brief.toml:6", "brief.toml:17")] == [True] * 3


def depth_finding(text: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> tuple[int, dict[str, object]]:
    (folder / "brief.toml").write_text(text, "utf-8")
    status = main(["answer", "brief.toml", "--json"])
    found = json.loads(capsys.readouterr().out)["alternatives"][0]["findings"]
    return status, next(finding for finding in found if finding["id"] == "height.depth")


@pytest.mark.parametrize(
    ("typed", "verdict", "status"), [(None, "cannot tell", 0), ("10 in", "meets", 0), ("8 in", "falls short", 1)]
)
def test_foam_too_thick_for_the_depth_is_a_finding_and_an_untold_depth_is_asked_for(
    typed: str | None, verdict: str, status: int, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """4 + 2 + 4 = 10 in: on the limit it meets."""
    key = f'available-depth = "{typed}"\n' if typed else ""
    ended, finding = depth_finding(changed(('inside = "68 F"\n', f'inside = "68 F"\n{key}')), folder, capsys)
    assert (finding["verdict"], ended) == (verdict, status)
    assert ("floor.available-depth" in str(finding.get("missing", "")) + str(finding.get("words", ""))) == (
        typed is None
    )
