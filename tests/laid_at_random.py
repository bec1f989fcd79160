"""Briefs from a seed: every order of layers that can be built, every kind of edge, every face, both systems."""

from __future__ import annotations

import random
from collections.abc import Iterator
from itertools import permutations

from underpour.brief import reads
from underpour.brief.edges import FACES
from underpour.laying import Laying, laying
from underpour.mistakes import Mistakes
from underpour.resolve import Resolved, resolve
from underpour.sections.build import section

MONTHS = '["-9 C", "-8 C", "-3 C", "3 C", "9 C", "14 C", "16 C", "15 C", "10 C", "4 C", "-2 C", "-7 C"]'
FROZEN = '["-30 C", "-28 C", "-20 C", "-10 C", "0 C", "6 C", "9 C", "6 C", "0 C", "-10 C", "-20 C", "-28 C"]'
FILM, GRAVEL, SAND = '{ vapour-retarder = "film-15-mil" }', '{ gravel = "4 in" }', '{ sand = "2 in" }'
BOARDS = (
    '{ board = "plain-25", thickness = "2 in" }',
    '{ board = "graphite-15", thickness = "3 in" }',
    '{ board = "c578-iv", thickness = "50 mm" }',
    '{ board = "cellglass-85", thickness = "2 in" }',
)
UNDER = (FILM, BOARDS[0], BOARDS[2], GRAVEL, SAND)
SHEET, AIR = '{ sheet = "double-bubble-foil" }', '{ air-space = "3/4 in" }'
SLAB = '{ concrete = "5 in" }'


def brief(layers: list[str], edge: str, *, units: str = "US", use: str = "workshop", more: str = "") -> str:
    """A brief of a plain rectangle with these layers, from the room down, and this edge."""
    months = FROZEN if "frozen" in more else MONTHS
    floor = more.replace("frozen", "")
    return f"""\
[project]
use = "{use}"
units = "{units}"
[site]
monthly = {months}
ground = "clay-or-silt"
[plan]
outline = ["0 0", "12 0", "12 8", "0 8"]
unit = "m"
[floor]
{floor}
build-up = [{", ".join(layers)}]
{edge}
"""


def edge_of(
    kind: str,
    faces: dict[str, str],
    *,
    sides: str = '"all"',
    name: str = "",
    ground: str = "-8 in",
    raised: bool = False,
) -> str:
    """An edge of one kind with a piece of foam on each face, by its board; ``raised`` takes it up past the floor."""
    pieces = []
    for face, board in faces.items():
        where = f'face = "{face}"'
        if face == "outside" and raised:
            where += ', from = "12 in"'
        if face == "wing":
            where += ', out = "24 in", at = "20 in"'
        pieces.append(board.replace("}", f", {where} }}"))
    lines = [f'[[edge]]\nsides = {sides}\nkind = "{kind}"\nground = "{ground}"']
    lines += [f'name = "{name}"'] if name else []
    lines += ['depth = "60 in"'] if kind in ("footing-wall", "frost-wall", "threshold", "ledge") else []
    lines += ['depth = "24 in"'] if kind == "thickened-edge" else []
    lines += [f"insulation = [{', '.join(pieces)}]"] if pieces else []
    return "\n".join(lines)


DRAWN = """\
[[edge]]
sides = "all"
kind = "drawn"
ground = "-8 in"
[[edge.shape]]
unit = "in"
outline = ["-8 -40", "4 -40", "4 0", "-8 0"]
material = "concrete"
[[edge.shape]]
unit = "in"
outline = ["-10 -40", "-8 -40", "-8 0", "-10 0"]
board = "xps-25"
[[edge.shape]]
unit = "in"
outline = ["-8 0", "0 0", "0 60", "-8 60"]
material = "timber-frame"
"""


def at_random(seed: int) -> str:
    """The brief of one seed; not every one can be built."""
    dice = random.Random(seed)
    under = [layer for layer in (FILM, dice.choice(BOARDS), dice.choice(BOARDS), GRAVEL, SAND) if dice.random() < 0.6]
    dice.shuffle(under)
    over = [layer for layer in ('{ screed = "2 in" }', dice.choice(BOARDS), FILM) if dice.random() < 0.2]
    layers = [*over, SLAB, *under]
    if dice.random() < 0.25:
        new = [layer for layer in (FILM, dice.choice(BOARDS)) if dice.random() < 0.8]
        dice.shuffle(new)
        top = dice.choice((SLAB, '{ screed = "2 in" }', ""))
        layers = [*([top] if top else []), *new, '{ old-slab = "4 in" }', GRAVEL]
    use = dice.choice(("dwelling", "basement", "workshop", "warehouse", "cold-store", "drive"))
    kinds = ("free-edge",) if use == "drive" else ("footing-wall", "frost-wall", "raft", "free-edge")
    edges = []
    for sides, name in (("[1, 3]", "street side"), ('"rest"', "")):
        kind = dice.choice(kinds)
        faces = {face: dice.choice(BOARDS) for face in FACES[kind] if dice.random() < 0.4}  # type: ignore[index]
        ground = dice.choice(("4 ft", "-8 in")) if kind == "footing-wall" else "-8 in"
        edges.append(edge_of(kind, faces, sides=sides, name=name, ground=ground, raised=dice.random() < 0.3))
    floor = [f'available-depth = "{dice.choice((8, 12, 20))} in"'] if dice.random() < 0.6 else []
    floor += ["frozen"] if dice.random() < 0.1 else []
    return brief(
        layers,
        DRAWN if use != "drive" and dice.random() < 0.15 else "\n".join(edges),
        units=dice.choice(("US", "SI")),
        use=use,
        more="\n".join(floor),
    )


def laid(text: str) -> tuple[Resolved, Laying]:
    """A brief laid, without findings. Raises Mistakes where it cannot be built."""
    resolved = resolve(reads(text).brief)
    cut = {edge.letter: section(resolved, edge) for edge in resolved.edges}
    return resolved, laying(resolved, cut, ())


def buildable(seeds: range) -> Iterator[tuple[int, Resolved, Laying]]:
    """The seeds whose brief can be built."""
    for seed in seeds:
        try:
            yield seed, *laid(at_random(seed))
        except Mistakes:
            continue


def further() -> Iterator[tuple[int, Resolved, Laying]]:
    """What no seed draws: further kinds of edge with foam on each face, a ledge's covered; sheets and air spaces."""
    for n, kind in enumerate(("threshold", "ledge", "thickened-edge"), start=1001):
        edge = edge_of(kind, dict.fromkeys(FACES[kind], BOARDS[0]))  # type: ignore[index]
        if kind == "ledge":
            edge = edge.replace('"slab-edge"', '"slab-edge", top = "covered"')
        yield n, *laid(brief([SLAB, BOARDS[0], GRAVEL], edge))
    raft = edge_of("raft", {})
    for n, under in enumerate(
        ([SHEET, GRAVEL], [BOARDS[0], AIR, SHEET, GRAVEL], [BOARDS[0], SHEET, AIR, FILM]), start=1004
    ):
        yield n, *laid(brief([SLAB, *under], raft))


def orders() -> Iterator[tuple[str, ...]]:
    """Every order of two boards, film, gravel and sand."""
    yield from permutations(UNDER)
