"""A brief's text changed at one place: figures, comments and spaces that are not meant stay as they were typed."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from underpour.brief.paths import written
from underpour.brief.retyped import Change, retyped
from underpour.brief.typed import Typed
from underpour.mistakes import Mistakes
from underpour.starters import starters

ROOT = Path(__file__).parents[2]

# What a person may write: quotes of each kind, tables in and out of order, comments in lists, Windows' line ends.
HAND_WRITTEN = """\
# by hand
title-of-mine = 'kept'   # above all tables
[project]
title = 'Literal "quotes"'   # why
units="US"
[floor]
inside = { winter = "68 F", summer='75 F' }   # two
build-up = [ # from the room down
    {concrete="5 in"},{board = 'plain-25', thickness="2.50 in"}, # the foam

    # below it
    { gravel = "4 in" }
]
[site.layers]
count = 1_000
[plan]
outline = [ "0 0", '40 0',
  "40 28.00", # corner
  "0 28" , ]
[site]
place = "Duluth, MN"
advised=true
[[edge]]
name = "door.side"
sides = "all"
footing.width = "18 in"
footing.height = "8 in"
# before the next

[[edge]]
sides = [1, 2, { side = 3, from = "4 ft" }]
  [[edge.insulation]]
  board = "plain-15"   # indented
"""


def texts() -> dict[str, str]:
    files = sorted((ROOT / "examples").glob("*/brief.toml"))
    found = {path.parent.name: path.read_text(encoding="utf-8") for path in files}
    found |= {f"starter {each.key}": each.text for each in starters()}
    return found | {"by hand": HAND_WRITTEN, "by hand on Windows": HAND_WRITTEN.replace("\n", "\r\n")}


def leaves(tree: Typed) -> list[Typed]:
    if isinstance(tree.value, dict):
        return [leaf for child in tree.value.values() for leaf in leaves(child)]
    if isinstance(tree.value, list):
        return [leaf for child in tree.value for leaf in leaves(child)]
    return [tree]


TEXTS = texts()
WORDS = [
    (name, leaf)
    for name, text in TEXTS.items()
    for leaf in leaves(Typed.of(tomllib.loads(text)))
    if isinstance(leaf.value, str)
]


@settings(max_examples=120, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
@given(st.sampled_from(WORDS), st.text(st.characters(exclude_categories=["Cs"]), max_size=20))
def test_a_value_changed_and_changed_back_gives_the_same_text_byte_for_byte(where, other):
    """Quotes stay of the kind that stood there, unless the words between cannot stand in them."""
    name, leaf = where
    path = written(leaf.path)
    if name.startswith("by hand"):
        assume("'" not in other and other.isprintable())
    changed = retyped(TEXTS[name], [Change(path, other)])
    found = Typed.of(tomllib.loads(changed)).at(leaf.path)
    if found.value != other:  # a number, say, where the brief asks for one: still what was typed
        assert str(found.value).lower() in (other.strip().lower(), str(tomllib.loads(f"x = {other}")["x"]).lower())
    assert retyped(changed, [Change(path, leaf.value)]) == TEXTS[name]


@pytest.mark.parametrize("name", ["by hand", "by hand on Windows"])
def test_each_kind_of_quotes_stays(name):
    by_hand = [leaf for of, leaf in WORDS if of == name]
    assert len(by_hand) == 20
    for leaf in by_hand:
        path = written(leaf.path)
        changed = retyped(TEXTS[name], [Change(path, "other words")])
        assert retyped(changed, [Change(path, leaf.value)]) == TEXTS[name], path


@pytest.mark.parametrize("name", TEXTS)
def test_changing_the_units_touches_nothing_else(name):
    before = TEXTS[name]
    after = retyped(before, [Change("project.units", "SI")])
    old, new = before.splitlines(), after.splitlines()
    moved = [(a, b) for a, b in zip(old, new, strict=len(old) == len(new)) if a != b]
    stood = tomllib.loads(before)["project"].get("units")
    if stood is None:
        assert [line for line in new if line not in old] == ['units = "SI"']
    else:
        assert moved == [(a, a.replace(stood, "SI", 1)) for a, _ in moved]
        assert len(moved) == (stood != "SI")


@settings(max_examples=60, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
@given(st.sampled_from([(name, leaf) for name, leaf in WORDS if any(isinstance(step, int) for step in leaf.path)]))
def test_a_layer_put_in_and_taken_out_gives_the_same_data_and_every_comment(where):
    name, leaf = where
    depth = max(n for n, step in enumerate(leaf.path) if isinstance(step, int))
    listed, index = leaf.path[:depth], leaf.path[depth]
    if listed in (("edge",), ("alternative",)):
        return
    entry = written((*listed, index))
    new = {"sand": "1 in"}
    try:
        added = retyped(TEXTS[name], [Change(entry, new, "added")])
    except Mistakes as refused:  # a table of its own goes behind the last
        assert "behind the last" in str(refused)
        return
    assert Typed.of(tomllib.loads(added)).at((*listed, index)).plain() == new
    again = retyped(added, [Change(entry, None, "left out")])
    assert tomllib.loads(again) == tomllib.loads(TEXTS[name])
    for comment in (line.partition("#")[2] for line in TEXTS[name].splitlines() if "#" in line):
        assert comment in again


DEMO = (ROOT / "examples" / "daylight-basement" / "brief.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("change", "line"),
    [
        (Change("floor.build-up.2.thickness", "3 in"), '  { board = "plain-15", thickness = "3 in" },'),
        (
            Change("floor.build-up.3.gravel", "6 in"),
            '  { gravel = "6 in", conductivity = "1.5 W/(m·K)" },      # counted as ground',
        ),
        (Change("edge.A.kind", "frost-wall"), 'kind    = "frost-wall"'),
        (Change("edge.A.sides", "[1, 2]"), "sides   = [1, 2]"),
        (Change("site.water-table", "9 ft"), 'water-table = "9 ft"'),
        (Change("floor.cooled", "true"), "cooled = true"),
        (
            Change("site.ground.density", "2 t/m3"),
            'ground = { conductivity = "1.5 W/(m·K)", heat-capacity = "3 MJ/(m³·K)", density = "2 t/m3" }',
        ),
        (Change("alternative.1.set.edge.A.depth", "0.5 m"), 'set    = { "edge.A.depth" = "0.5 m" }'),
        (Change("floor.build-up.1.conductivity", None, "left out"), '  { concrete = "0.1 m" },'),
        (Change("tube.size", "1/2 in"), 'size = "1/2 in"'),
    ],
)  # fmt: skip
def test_what_is_typed_stands_on_one_line_and_the_others_stay(change, line):
    after = retyped(DEMO, [change]).splitlines()
    assert line in after
    others = [each for each in after if each not in DEMO.splitlines()]
    assert others in ([line], ["[tube]", line])


def test_a_key_that_is_new_stands_before_the_comment_of_what_follows():
    after = retyped(DEMO, [Change("floor.cooled", "true")])
    assert "]\ncooled = true\n\n# Foam carried over" in after


def test_an_edge_that_is_added_stands_behind_the_last():
    after = retyped(DEMO, [Change("edge", {"sides": "rest", "kind": "raft"}, "added")])
    assert '\n]\n\n[[edge]]\nsides = "rest"\nkind = "raft"\n\n[[alternative]]\nname   = "no foam"' in after


def test_the_first_load_stands_in_the_order_of_the_brief():
    after = retyped(DEMO, [Change("load", {"kind": "uniform", "pressure": "50 psf"}, "added")])
    assert after.index("[[edge]]") < after.index("[[load]]") < after.index("[[alternative]]")


def test_paths_that_count_are_moved_with_what_they_count():
    text = DEMO.replace('"edge.A.depth" = "0.35 m"', '"floor.build-up.2.thickness" = "3 in"')
    after = retyped(text, [Change("floor.build-up.1", {"screed": "2 in"}, "added")])
    assert '"floor.build-up.3.thickness" = "3 in"' in after
    assert retyped(after, [Change("floor.build-up.1", None, "left out")]) == text


@pytest.mark.parametrize(
    ("text", "change", "words"),
    [
        (DEMO, Change("floor.build-up.9.board", "x"), "There is no floor.build-up.9 in the brief."),
        (DEMO, Change("floor.inside.winter", "20 C"), "floor.inside is one word there"),
        (DEMO, Change("floor.insid", None, "left out"), "The nearest is inside."),
        (DEMO, Change("catalogue.foam.plain-15.thickness", "1 in"), "This stands in the catalogue."),
        (DEMO, Change("floor.build-up.0.board", "x"), "This is no path of a brief."),
        (DEMO, Change("", "x"), "This is no path of a brief."),
        (DEMO, Change("edge.A", None, "left out"), "The brief speaks of edge.A.depth elsewhere"),
        (DEMO + '\n[[alternative]]\nname = "thin"\nset = { "floor.build-up.2.thickness" = "1 in" }\n',
         Change("floor.build-up.2", None, "left out"), "The brief speaks of it elsewhere"),
        (DEMO, Change("edge.A", {"kind": "raft"}, "added"), "behind the last"),
        ("[site", Change("site.place", "x"), "This heading is not closed."),
    ],
)  # fmt: skip
def test_what_cannot_be_changed_is_told_and_nothing_is(text, change, words):
    with pytest.raises(Mistakes, match=words.replace(".", r"\.").replace("(", r"\(")):
        retyped(text, [Change("project.units", "SI"), change])
