"""The works follow the layers from the ground up and the faces of the foam; everything is put in place once."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from functools import cache

import pytest

import laid_at_random as made
from underpour.brief import reads
from underpour.catalogue import shipped_products, uses
from underpour.catalogue.line import Product
from underpour.laying import Laying, guide, sequence
from underpour.laying.table import table
from underpour.laying.things import things
from underpour.measure import say
from underpour.resolve import Resolved, resolve
from underpour.resolve.resolved import Piece
from underpour.sections.build import section
from underpour.sections.parts import Part

SEEDS = range(160)
# Rows for kinds of edge and layer that a brief cannot type yet, or that some other row takes before them.
NOT_TYPED_YET = {
    "covering",
    "other-layer",
    "other-foam",
    "other-foam-above",
}


@cache
def built() -> list[tuple[int, Resolved, Laying]]:
    return [*made.buildable(SEEDS), *made.further()]


def numbers(laying: Laying) -> dict[str, list[int]]:
    """The number of each work by its key."""
    found: dict[str, list[int]] = {}
    for work in laying.sequence:
        found.setdefault(work.key, []).append(work.number)
    return found


def to_be_laid(resolved: Resolved) -> Counter[str]:
    """Paths of what is put in place now, worked out from the brief alone."""
    paths = [layer.path for layer in resolved.laid]
    paths += [layer.path for layer in resolved.floor if layer.kind == "old-slab"]
    paths += [piece.board.path for edge in resolved.edges for piece in edge.pieces]
    paths += [body.slice.path for edge in resolved.edges for body in edge.drawn]
    return Counter(path.rsplit(".", 1)[0] for path in paths)


def test_most_seeds_can_be_built():
    assert len(built()) > 140


@pytest.mark.parametrize("under", list(made.orders()), ids=range(120))
def test_layers_are_laid_from_the_ground_up_in_whatever_order_they_lie(under):
    _, laying = made.laid(made.brief([made.SLAB, *under], made.edge_of("raft", {})))
    floors = [path for work in laying.sequence for path in work.laid if path.startswith("floor.")]
    assert floors == [f"floor.build-up.{n}" for n in range(6, 0, -1)]


def test_layers_above_and_below_the_slab_keep_their_order():
    for seed, resolved, laying in built():
        floors = [path for work in laying.sequence for path in work.laid if path.startswith("floor.")]
        count = len(resolved.laid) + (1 if resolved.on_old_slab else 0)
        assert floors == [f"floor.build-up.{n}" for n in range(count, 0, -1)], seed


def test_each_layer_piece_and_drawn_body_is_put_in_place_exactly_once():
    for seed, resolved, laying in built():
        placed = Counter(path for work in laying.sequence for path in work.laid)
        structure = {
            f"{edge.path}.{part}"
            for edge in resolved.edges
            for part, there in (("footing", edge.footing[1]), ("wall", edge.wall), ("above", edge.above))
            if there and not (part == "above" and resolved.on_old_slab)
        }
        assert placed == to_be_laid(resolved) + Counter(structure), seed


def test_works_are_numbered_in_their_order():
    for seed, _, laying in built():
        assert [work.number for work in laying.sequence] == list(range(1, len(laying.sequence) + 1)), seed
        assert [point.number for point in laying.inspection] == list(range(1, len(laying.inspection) + 1)), seed


def test_the_finished_building_is_looked_at_last():
    late = 0
    for seed, _, laying in built():
        finished = [point.before == "before it is handed over" for point in laying.inspection]
        assert finished == sorted(finished), seed
        late += sum(finished)
    assert late > 100


@pytest.mark.parametrize(
    ("kind", "face", "key", "after", "before"),
    [
        ("frost-wall", "below-footing", "foam-below-footing", "trench", "footing"),
        ("frost-wall", "footing-side", "foam-beside-footing", "footing", "fill-both-sides"),
        ("frost-wall", "footing-top", "foam-on-footing", "wall", "fill-both-sides"),
        ("frost-wall", "outside", "foam-outside", "wall", "fill-both-sides"),
        ("frost-wall", "inside", "foam-inside-low", "wall", "fill-both-sides"),
        ("frost-wall", "wing", "wing-with-fill", "wall", "fill-both-sides"),
        ("frost-wall", "slab-edge", "foam-slab-edge-wall", "gravel", "pour"),
        ("footing-wall", "outside", "foam-outside", "wall", "fill-wall"),
        ("footing-wall", "inside", "foam-inside-high", "pour", "radon"),
        ("footing-wall", "wing", "wing", "pour", "fill-wall"),
        ("footing-wall", "slab-edge", "foam-slab-edge-wall", "gravel", "pour"),
        ("raft", "slab-edge", "foam-slab-edge-form", "forms", "pour"),
        ("raft", "wing", "wing", "pour", "fill-slab"),
        ("free-edge", "slab-edge", "foam-slab-edge-form", "forms", "pour"),
        ("free-edge", "wing", "wing", "pour", "fill-slab"),
    ],
)
def test_foam_at_an_edge_has_its_turn(kind, face, key, after, before):
    edge = made.edge_of(kind, {face: made.BOARDS[0]})
    _, laying = made.laid(made.brief([made.SLAB, made.GRAVEL], edge))
    at = numbers(laying)
    assert max(at[after]) < min(at[key]) <= max(at[key]) < min(at[before])
    assert [work.laid for work in laying.sequence if work.key == key] == [("edge.A.insulation.1",)]


def test_somebody_looks_before_every_pour():
    for seed, _, laying in built():
        keys = [work.key for work in laying.sequence]
        poured = [n for n, key in enumerate(keys) if key == "pour"]
        assert all(keys[n - 1] == "ready" and laying.sequence[n - 1].stops for n in poured), seed


def test_the_same_work_at_two_edges_is_said_once():
    both = made.edge_of("raft", {"slab-edge": made.BOARDS[0]}, sides="[1]") + "\n"
    both += made.edge_of("raft", {"slab-edge": made.BOARDS[0]}, sides='"rest"', name="yard")
    _, laying = made.laid(made.brief([made.SLAB], both))
    work = next(work for work in laying.sequence if work.key == "foam-slab-edge-form")
    assert work.where == "edges A and yard"
    assert work.laid == ("edge.A.insulation.1", "edge.yard.insulation.1")
    looks = [point.look_at for point in laying.inspection if "foam at the slab" in point.look_at]
    assert looks == ["Edges A and yard: foam at the slab's edge"]


def test_another_thickness_at_the_second_edge_is_said_apart():
    both = made.edge_of("raft", {"slab-edge": made.BOARDS[0]}, sides="[1]") + "\n"
    both += made.edge_of("raft", {"slab-edge": made.BOARDS[2]}, sides='"rest"')
    _, laying = made.laid(made.brief([made.SLAB], both))
    assert [work.where for work in laying.sequence if work.key == "foam-slab-edge-form"] == ["edge A", "edge B"]


def test_taking_the_foam_out_takes_its_works_its_looks_and_its_data():
    faces = dict.fromkeys(("outside", "slab-edge", "footing-top", "wing"), made.BOARDS[0])
    layers = [made.SLAB, made.BOARDS[0], made.FILM, made.GRAVEL]
    with_foam = made.laid(made.brief(layers, made.edge_of("frost-wall", faces)))[1]
    without = made.laid(made.brief([made.SLAB, made.FILM, made.GRAVEL], made.edge_of("frost-wall", {})))[1]
    gone = {"boards", "foam-outside", "foam-slab-edge-wall", "foam-on-footing", "wing-with-fill", "cover"}
    assert gone <= {work.key for work in with_foam.sequence}
    assert {work.key for work in with_foam.sequence} - gone == {work.key for work in without.sequence}
    assert not [point for point in without.inspection if "oam" in point.look_at or "board" in point.look_at]
    assert len(with_foam.inspection) == len(without.inspection) + len(gone)
    assert "Board" not in {product.what for product in without.products}


def test_no_row_of_the_table_is_dead():
    used = {work.key for _, _, laying in built() for work in laying.sequence}
    rows = {row["key"] for group in ("before", "layer", "slab-edge", "after") for row in table("sequence")[group]}
    assert rows - used <= NOT_TYPED_YET


def without_tapes() -> Product:
    """A faced board to whose facing no tape was tested."""
    faced = shipped_products().product("film-15")
    assert faced.facing is not None
    return faced.model_copy(update={"facing": faced.facing.model_copy(update={"tapes": ()})})


def test_each_feature_that_a_table_asks_for_is_some_things():
    """A feature that is spelled otherwise than things have it would never speak, and nobody would see."""
    there = [
        things(resolved, {edge.letter: section(resolved, edge) for edge in resolved.edges})
        for _, resolved, _ in built()
    ]
    known = {
        feature
        for each in there
        for kind in ("job", "edge", "layer", "piece", "body")
        for thing in each.of(kind)
        for feature in thing.features
    } | {
        feature
        for product in (*shipped_products().products(), without_tapes())
        for use in (None, *uses())
        for thing in guide.things(product, use)
        for feature in thing.features
    }
    asked: set[str] = set()

    def walk(here: object) -> None:
        if isinstance(here, dict):
            for key in ("when", "unless", "mind-when", "mind-unless"):
                asked.update(here.get(key, ()))
            for inner in here.values():
                walk(inner)
        elif isinstance(here, list):
            for inner in here:
                walk(inner)

    walk(table("sequence"))
    walk(table("confirmers"))
    assert len(asked) > 25 and asked <= known


def test_an_old_slab_and_what_lies_under_it_is_not_laid_again():
    layers = [made.SLAB, made.BOARDS[0], '{ old-slab = "4 in" }', made.GRAVEL]
    _, laying = made.laid(made.brief(layers, made.edge_of("frost-wall", {})))
    keys = {work.key for work in laying.sequence}
    assert "gravel" not in keys and not {"dig", "trench", "footing", "wall", "dig-outside", "fill-wall"} & keys
    dug = made.laid(made.brief(layers, made.edge_of("frost-wall", {"outside": made.BOARDS[0]})))[1]
    keys_dug = [work.key for work in dug.sequence]
    assert keys_dug.index("dig-outside") < keys_dug.index("foam-outside") < keys_dug.index("fill-wall")


@pytest.mark.parametrize(
    "face", ["outside", "inside", "slab-edge", "footing-top", "footing-side", "below-footing", "wing"]
)
def test_foam_that_no_row_knows_is_laid_all_the_same(face, monkeypatch):
    """A face that a later kind of edge brings stands in no row yet: the row for the rest takes it, once."""
    rows = table("sequence")
    without = {
        group: [row for row in rows[group] if face not in row.get("kinds", ())] if group != "layer" else rows[group]
        for group in ("before", "layer", "slab-edge", "after")
    }
    monkeypatch.setattr(sequence, "table", lambda name: {**rows, **without} if name == "sequence" else table(name))
    _, laying = made.laid(made.brief([made.SLAB, made.GRAVEL], made.edge_of("frost-wall", {face: made.BOARDS[0]})))
    placed = [work.key for work in laying.sequence if "edge.A.insulation.1" in work.laid]
    assert placed in (["other-foam"], ["other-foam-above"])


def test_foam_below_a_thickening_is_laid_between_its_cut_and_the_layers():
    """The slab of a raft made thicker at its edge, with foam below the bottom and the slope."""
    resolved = resolve(reads(made.brief([made.SLAB, made.GRAVEL], made.edge_of("raft", {}))).brief)
    board = resolve(reads(made.brief([made.SLAB, made.BOARDS[0]], made.edge_of("raft", {}))).brief).boards[0]
    pieces = tuple(
        Piece(replace(board, path=f"edge.A.insulation.{n}.board"), face, None, None, None, None)
        for n, face in enumerate(("below-footing", "below-slope"), 1)
    )
    edge = replace(resolved.edges[0], kind="thickened-edge", depth=0.6, pieces=pieces)
    cut = section(resolved, resolved.edges[0])
    foam = [
        Part(board.words, board.hatch, outline, 0.04, 3e4, 10, piece.board.path)
        for piece, outline in zip(pieces, (((0.0, -0.65), (0.3, -0.6)), ((0.3, -0.6), (0.8, -0.2))), strict=True)
    ]
    there = things(replace(resolved, edges=(edge,)), {"A": replace(cut, parts=(*cut.parts, *foam))})
    works = [stage.work for stage in sequence.stages(there, resolved.system)]
    keys = [work.key for work in works]
    cut_and_foam = ["haunch", "foam-below-thickening", "foam-below-slope"]
    assert [key for key in keys if key in (*cut_and_foam, "gravel")] == [*cut_and_foam, "gravel"]
    said = " ".join(" ".join(work.how) for work in works if work.key in cut_and_foam)
    assert say.both(0.6, "m", "US") in said and say.both(0.2, "m", "US") in said
    assert "structural engineer" in works[keys.index("foam-below-thickening")].mind.lower()
