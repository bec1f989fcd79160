"""Floors from a seed, as a brief types them: every kind of edge, boards, thicknesses, ground, rooms, what lies beside.

A floor is a value, so that a test can change one thing of it, and is typed in either system of units. Nothing of the
product is used to make one; whether it can be built is the product's own word.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass, replace

from underpour.brief import reads
from underpour.mistakes import Mistake, Mistakes
from underpour.resolve import Resolved, resolve

BOARDS = ("c578-i", "c578-ii", "c578-iv", "c578-ix", "s701-2")  # classes: made in any thickness
ON_WALL = ("outside", "inside", "slab-edge", "footing-top", "footing-side", "below-footing", "wing")
FACES = {
    "footing-wall": ON_WALL,
    "frost-wall": ON_WALL,
    "ledge": ON_WALL,
    "threshold": ON_WALL,
    "thickened-edge": ("slab-edge", "below-footing", "below-slope", "wing"),
    "raft": ("slab-edge", "wing"),
    "free-edge": ("slab-edge", "wing"),
}
BTU = 1.730734666  # W/(m·K) in 1 Btu/(h·ft·°F)


@dataclass(frozen=True)
class Layer:
    """A layer of the floor; foam has a board and its conductivity. [in, W/(m·K)]"""

    kind: str
    inches: float
    board: str = ""
    conductivity: float | None = None


@dataclass(frozen=True)
class Foam:
    """Foam at a face of the edge. [in, W/(m·K)]"""

    face: str
    board: str
    inches: float
    conductivity: float
    down: float | None = None
    out: float | None = None
    at: float | None = None


@dataclass(frozen=True)
class Floor:
    """All that a brief says of a floor with one kind of edge. [in, °F, W/(m·K), J/(m³·K)]"""

    seed: int
    kind: str
    layers: tuple[Layer, ...]
    pieces: tuple[Foam, ...]
    sides: tuple[float, float]
    ground: float
    depth: float
    conductivity: float
    capacity: float
    months: tuple[float, ...]
    winter: float
    summer: float
    beside: float | str
    water: float | None = None
    title: str = "A floor"
    name: str = ""

    @property
    def foams(self) -> tuple[Layer | Foam, ...]:
        """Every piece of foam: the floor's, then the edge's."""
        return (*(layer for layer in self.layers if layer.board), *self.pieces)

    def with_foam(self, n: int, **changed: float) -> Floor:
        """The same floor, its foam of that number changed."""
        old = self.foams[n]
        swapped = [replace(each, **changed) if each is old else each for each in (*self.layers, *self.pieces)]
        count = len(self.layers)
        return replace(self, layers=tuple(swapped[:count]), pieces=tuple(swapped[count:]))

    def text(self, system: str = "US") -> str:
        """The brief, its measures typed in one system or the other."""

        def length(inches: float) -> str:
            return f"{inches:.10g} in" if system == "US" else f"{inches * 25.4:.10g} mm"

        def degrees(warm: float) -> str:
            return f"{warm:.10g} F" if system == "US" else f"{(warm - 32.0) / 1.8:.14g} C"

        def conducts(value: float) -> str:
            return f"{value / BTU:.14g} Btu/(h·ft·F)" if system == "US" else f"{value:.14g} W/(m·K)"

        def layer(it: Layer) -> str:
            if not it.board:
                return f'{{ {it.kind} = "{length(it.inches) if it.inches else "film-10-mil"}" }}'
            return f'{{ board = "{it.board}", thickness = "{length(it.inches)}"{own(it)} }}'

        def own(it: Layer | Foam) -> str:
            return f', conductivity = "{conducts(it.conductivity)}"' if it.conductivity is not None else ""

        def piece(it: Foam) -> str:
            more = {"down": it.down, "out": it.out, "at": it.at}
            typed = "".join(f', {key} = "{length(value)}"' for key, value in more.items() if value is not None)
            return f'{{ board = "{it.board}", thickness = "{length(it.inches)}", face = "{it.face}"{typed}{own(it)} }}'

        across, along = (f"{side if system == 'US' else side * 0.3048:.12g}" for side in self.sides)
        beside = self.beside if isinstance(self.beside, str) else degrees(self.beside)
        depth = f'depth = "{length(self.depth)}"\n' if self.depth else ""
        table = f'water-table = "{length(self.water)}"\n' if self.water is not None else ""
        water = f"{table}drained = true\n" if table else ""
        named = f'name = "{self.name}"\n' if self.name else ""
        return f"""\
[project]
title = "{self.title}"
use = "workshop"
units = "{system}"
[site]
monthly = [{", ".join(f'"{degrees(month)}"' for month in self.months)}]
ground = {{ conductivity = "{conducts(self.conductivity)}", heat-capacity = "{self.capacity:.10g} J/(m³·K)" }}
{water}[plan]
unit = "{"ft" if system == "US" else "m"}"
outline = ["0 0", "{across} 0", "{across} {along}", "0 {along}"]
[floor]
inside = {{ winter = "{degrees(self.winter)}", summer = "{degrees(self.summer)}" }}
build-up = [{", ".join(map(layer, self.layers))}]
[[edge]]
sides = "all"
kind = "{self.kind}"
{named}ground = "{length(self.ground)}"
{depth}beside = "{beside}"
insulation = [{", ".join(map(piece, self.pieces))}]
"""


def floor(seed: int) -> Floor:
    """The floor of one seed; not every one can be built."""
    dice = random.Random(f"floor {seed}")
    kind = dice.choice(sorted(FACES))

    def foam() -> tuple[str, float, float]:
        inches = dice.choice((1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 6.0))
        return dice.choice(BOARDS), inches, round(dice.uniform(0.025, 0.055), 4)

    def layer(name: str, *inches: float) -> Layer:
        return Layer(name, dice.choice(inches))

    below = [layer("gravel", 4.0, 6.0, 8.0), layer("sand", 1.0, 2.0), Layer("vapour-retarder", 0.0)]
    below = [each for each in below if dice.random() < 0.6]
    below += [Layer("board", i, b, k) for b, i, k in (foam() for _ in range(dice.choice((0, 1, 1, 1, 2))))]
    dice.shuffle(below)
    above = [layer("screed", 1.5, 2.0)] if dice.random() < 0.2 else []
    layers = (*above, layer("concrete", 4.0, 5.0, 6.0, 8.0), *below)
    thick = sum(each.inches for each in layers)
    pieces = []
    for face in FACES[kind]:
        if dice.random() < 0.3:
            down = dice.choice((None, 24.0, 36.0)) if face == "outside" and kind == "frost-wall" else None
            wing = (dice.choice((24.0, 48.0)), thick + dice.choice((4.0, 10.0))) if face == "wing" else (None, None)
            pieces.append(Foam(face, *foam(), down, *wing))
    standing = kind in ("frost-wall", "ledge", "threshold")
    mean, swing, latest = dice.uniform(20.0, 75.0), dice.uniform(5.0, 45.0), dice.choice((0, 1))
    wave = (1.0, 0.87, 0.5, 0.0, -0.5, -0.87, -1.0, -0.87, -0.5, 0.0, 0.5, 0.87)
    room = float(dice.choice((38, 55, 62, 68, 70, 74)))
    return Floor(
        seed,
        kind,
        layers,
        tuple(pieces),
        (float(dice.randint(12, 60)), float(dice.randint(12, 100))),
        dice.choice((12.0, 24.0, 48.0, 84.0)) if kind == "footing-wall" else dice.choice((-2.0, -6.0, -8.0)),
        {"footing-wall": thick + 12.0, "thickened-edge": thick + 12.0}.get(kind, 0.0) + (60.0 if standing else 0.0),
        round(dice.uniform(0.6, 3.5), 3),
        round(dice.uniform(1.2e6, 3.5e6), -4),
        tuple(round(mean - swing * wave[(n - latest) % 12], 1) for n in range(12)),
        room,
        room + dice.choice((0.0, 0.0, 6.0, 12.0)),
        dice.choice(("outdoors", "outdoors", "outdoors", "unheated", 45.0)),
        dice.choice((None, None, 150.0, 300.0)),
    )


def resolved(of: Floor, system: str = "US") -> Resolved:
    """A floor as its brief is read. Raises Mistakes where it cannot be."""
    return resolve(reads(of.text(system)).brief)


def buildable(seeds: range) -> Iterator[Floor]:
    """The floors of these seeds that can be built, by the product's own word."""
    from underpour.sections.build import section, unbuilt

    for seed in seeds:
        try:
            made = resolved(floor(seed))
            if not any(unbuilt(section(made, edge), edge, made.system) for edge in made.edges):
                yield floor(seed)
        except (Mistake, Mistakes):
            continue
