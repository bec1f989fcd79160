"""What an alternative changes, and that it changes nothing else."""

from __future__ import annotations

import pytest

from underpour.brief import reads
from underpour.brief.model import Brief
from underpour.brief.sides import stretches_of_edges

BRIEF = """
project = { use = "workshop" }
site = { place = "Duluth, MN" }
plan = { unit = "ft", outline = ["0 0", "40 0", "40 28", "0 28"] }

[floor]
inside = "68 F"
build-up = [
  { concrete = "4 in" },
  { board = "plain-15", thickness = "2 in" },
  { board = "plain-25", thickness = "1 in" },
  { gravel = "4 in" },
]

[[edge]]
sides = [1, 3]
kind = "frost-wall"
depth = "60 in"
wall = [{ board = "plain-15", thickness = "2 in" }, { concrete = "8 in" }]
insulation = [{ board = "plain-15", thickness = "2 in", face = "outside" }]

[[edge]]
name = "door side"
sides = "rest"
kind = "raft"
insulation = [{ board = "plain-15", thickness = "2 in", face = "slab-edge" }]

[[alternative]]
name = "other"
"""


def other(change: str) -> Brief:
    ((name, brief),) = reads(BRIEF + change).alternatives
    assert name == "other"
    return brief


def kinds(brief: Brief) -> list[str]:
    return [layer.kind for layer in brief.floor.build_up]


def test_without_a_change_it_is_the_brief() -> None:
    reading = reads(BRIEF)
    assert reading.alternatives[0][1] == reading.brief.model_copy(update={"alternative": ()})


def test_a_kind_is_taken_out_everywhere() -> None:
    brief = other('remove = ["board"]')
    assert kinds(brief) == ["concrete", "gravel"]
    assert [edge.insulation for edge in brief.edge] == [(), ()]
    assert len(brief.edge[0].wall or ()) == 1


def test_a_kind_is_taken_out_of_the_floor_alone() -> None:
    brief = other('remove = ["floor.board"]')
    assert kinds(brief) == ["concrete", "gravel"]
    assert [len(edge.insulation) for edge in brief.edge] == [1, 1]


@pytest.mark.parametrize("edge", ["A", "1"])
def test_a_kind_is_taken_out_of_one_edge(edge: str) -> None:
    brief = other(f'remove = ["edge.{edge}.board"]')
    assert [len(edge.insulation) for edge in brief.edge] == [0, 1]
    assert [len(edge.wall or ()) for edge in brief.edge] == [1, 0]


@pytest.mark.parametrize("edge", ["B", "door side", "2"])
def test_a_path_is_taken_out(edge: str) -> None:
    brief = other(f'remove = ["edge.{edge}.insulation"]')
    assert [len(edge.insulation) for edge in brief.edge] == [1, 0]


def test_numbers_count_in_the_brief_as_typed_while_layers_go() -> None:
    brief = other('remove = ["floor.build-up.2"]\nset = { "floor.build-up.3.thickness" = "3 in" }')
    assert kinds(brief) == ["concrete", "board", "gravel"]
    assert brief.floor.build_up[1].board == "plain-25"
    assert brief.floor.build_up[1].thickness is not None
    assert brief.floor.build_up[1].thickness.typed == "3 in"


def test_a_path_is_set_added_and_a_list_grown() -> None:
    brief = other(
        'set = { "floor.inside" = "60 F", "floor.humidity" = "40 %", "floor.build-up.5" = { sand = "2 in" }, '
        '"edge.door side.insulation" = [] }'
    )
    assert brief.floor.inside is not None
    assert brief.floor.humidity is not None
    assert kinds(brief)[-1] == "sand"
    assert brief.edge[1].insulation == ()


def test_a_whole_list_is_set() -> None:
    assert kinds(other('set = { "floor.build-up" = [{ concrete = "6 in" }] }')) == ["concrete"]


@pytest.mark.parametrize("name", ["B", "door side"])
def test_an_edge_takes_the_place_of_another_and_keeps_its_sides_and_name(name: str) -> None:
    brief = other(f'[[alternative.edge]]\nname = "{name}"\nkind = "free-edge"')
    assert [edge.kind for edge in brief.edge] == ["frost-wall", "free-edge"]
    assert brief.edge[1].insulation == ()
    assert (brief.edge[1].name, brief.edge[1].sides) == ("door side", "rest")


def test_a_typed_foam_stays_when_the_brief_loses_its_own() -> None:
    brief = other(
        'remove = ["board"]\n[[alternative.edge]]\nname = "B"\nkind = "raft"\n'
        'insulation = [{ board = "plain-15", thickness = "3 in", face = "slab-edge" }]'
    )
    assert [len(edge.insulation) for edge in brief.edge] == [0, 1]


def test_every_side_has_one_edge() -> None:
    taken = stretches_of_edges(reads(BRIEF).brief)
    assert [[stretch.side for stretch in edge] for edge in taken] == [[1, 3], [2, 4]]
