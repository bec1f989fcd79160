"""Sections drawn at random from a seed: every kind of edge, every face, thicknesses and materials as they occur."""

from __future__ import annotations

import random
from types import SimpleNamespace

from underpour.physics.conduction.shapes import Films
from underpour.physics.conduction.solve import Climate
from underpour.resolve.resolved import Beside, Ledge, Piece, ResolvedEdge, Slice, Stratum, Thickening
from underpour.sections.build import section
from underpour.sections.parts import Section

FACES = {
    "footing-wall": ("outside", "inside", "slab-edge", "footing-top", "footing-side", "below-footing", "wing"),
    "frost-wall": ("outside", "inside", "slab-edge", "footing-top", "footing-side", "below-footing", "wing"),
    "raft": ("slab-edge", "wing"),
    "free-edge": ("slab-edge", "wing"),
    "ledge": ("outside", "inside", "slab-edge", "footing-top", "footing-side", "below-footing", "wing"),
    "threshold": ("outside", "inside", "slab-edge", "footing-top", "footing-side", "below-footing", "wing"),
    "thickened-edge": ("slab-edge", "below-footing", "below-slope", "wing"),
}
FIRST = ("footing-wall", "frost-wall", "raft", "free-edge")  # the kinds that the numbered seeds of studies/ draw from
ON_FOOTING = ("footing-wall", "frost-wall", "ledge", "threshold")
STANDING = ("frost-wall", "raft", "thickened-edge")  # kinds with a wall that stands at the level of the floor
FILMS = {"room": Films(0.17, 0.13, 0.10), "outdoors": Films(0.04, 0.04, 0.04)}
MOULD = {"room": Films(0.25, 0.25, 0.25), "outdoors": Films(0.04, 0.04, 0.04)}
CLIMATES = {"room": Climate(20.0), "outdoors": Climate(8.2, -15.3 + 4.4j)}


def slice_of(kind: str, thickness: float, conductivity: float, capacity: float = 2.0e6) -> Slice:
    return Slice(kind, kind, f"{kind}, {thickness:.3f} m", thickness, conductivity, capacity, kind, kind, (kind,))


def foam(thickness: float, conductivity: float = 0.035) -> Slice:
    return slice_of("board", thickness, conductivity, 3.0e4)


def floor_of(*layers: Slice, ground: float = 1.5, half_width: float = 4.0) -> SimpleNamespace:
    """As much of a resolved brief as a section needs."""
    return SimpleNamespace(
        floor=layers,
        strata=(Stratum(slice_of("ground", 1.0, ground, 3.0e6)),),
        half_width=half_width,
        system="SI",
        outdoors=False,
        water_level=lambda edge: None,
        air_beside=lambda edge: (
            edge.beside or Beside("outdoors", CLIMATES["outdoors"].mean, CLIMATES["outdoors"].swing)
        ),
    )


FRAME = (slice_of("timber-frame", 0.2, 0.06, 1.0e5),)
STANDS = dict.fromkeys(STANDING, FRAME) | {
    "ledge": (slice_of("timber-frame", 0.14, 0.06, 1.0e5),),
    "threshold": (slice_of("softwood", 0.044, 0.13, 8.0e5),),
}


def edge_of(kind: str, pieces: tuple[Piece, ...] = (), **given: object) -> ResolvedEdge:
    """An edge with usual dimensions unless others are given."""
    on_footing = kind in ON_FOOTING
    usual: dict[str, object] = {
        "letter": "A",
        "kind": kind,
        "path": "edge.A",
        "length": 10.0,
        "depth": 1.0 if on_footing else 0.5 if kind == "thickened-edge" else 0.0,
        "ground": 0.6 if kind == "footing-wall" else -0.02 if kind == "threshold" else -0.2,
        "wall": (slice_of("concrete", 0.25 if kind == "ledge" else 0.2, 1.7),) if on_footing else (),
        "above": STANDS.get(kind, ()),
        "set_back": 0.156 if kind == "threshold" else 0.0,
        "footing": (0.5, 0.25) if on_footing else (0.0, 0.0),
        "footing_slice": slice_of("concrete", 0.25, 1.7),
        "pieces": pieces,
        "drawn": (),
        "thickening": thickening() if kind == "thickened-edge" else None,
        "ledge": ledge() if kind == "ledge" else None,
    }
    return ResolvedEdge(**(usual | given))  # type: ignore[arg-type]


def piece(face: str, thickness: float = 0.05, conductivity: float = 0.035) -> Piece:
    wing = face == "wing"
    return Piece(foam(thickness, conductivity), face, None, None, 0.6 if wing else None, 0.45 if wing else None)


def thickening(width: float = 0.3, slope: float = 45.0) -> Thickening:
    return Thickening(width, f"{width:.3f} m", slope, f"{slope:.0f} deg", ("edge.A.thickening",))


def ledge(
    *,
    brick: float = 0.09,
    air: float = 0.02,
    below: float = 0.2,
    width: float = 0.125,
    conductivities: tuple[float, float] = (1.1, 0.12),
    capacity: float = 1.2e6,
) -> Ledge:
    """A ledge whose frame leaves ``air`` behind the brick. [m, W/(m·K), J/(m³·K)]"""
    leaf = slice_of("brick", brick, conductivities[0], capacity)
    behind, in_step = (
        slice_of(kind, x, conductivities[1], capacity) for kind, x in (("air", air), ("step", width - brick))
    )
    return Ledge(width, f"{width:.3f} m", below, f"{below:.3f} m", leaf, behind, in_step, ("edge.A.ledge",))


def drawn_at_random(seed: int, kinds: tuple[str, ...] = FIRST) -> Section:
    """The section of one seed, an edge of one of these kinds."""
    dice = random.Random(seed)
    kind = dice.choice(kinds)
    layers = [slice_of("concrete", dice.choice((0.1, 0.125, 0.15, 0.2)), dice.uniform(1.2, 2.5))]
    if dice.random() < 0.8:
        layers.append(foam(dice.choice((0.025, 0.05, 0.075, 0.1, 0.15)), dice.uniform(0.029, 0.04)))
    layers.append(slice_of("gravel", dice.choice((0.1, 0.15)), dice.uniform(0.5, 2.0)))
    thick = sum(layer.thickness for layer in layers)
    faces = [face for face in FACES[kind] if dice.random() < 0.35]
    pieces = tuple(piece(face, dice.choice((0.025, 0.05, 0.1)), dice.uniform(0.029, 0.04)) for face in faces)
    basement = kind == "footing-wall"
    wall = dice.choice((0.15, 0.2, 0.25, 0.3))
    on_footing, walled = kind in ON_FOOTING, kind in STANDING
    floor = floor_of(*layers, ground=dice.uniform(0.7, 3.5), half_width=dice.choice((2.0, 3.0, 4.0, 7.0, 12.0)))
    given: dict[str, object] = {
        "ground": dice.uniform(0.2, 2.2) if basement else dice.uniform(-0.3, -0.1),
        "depth": 0.0 if kind in ("raft", "free-edge") else thick + 0.1 + (0.25 if basement else dice.uniform(0.3, 0.9)),
        "wall": (slice_of("concrete", wall, dice.uniform(0.5, 2.3)),) if on_footing else (),
        "above": (slice_of("timber-frame", wall, dice.uniform(0.05, 0.3), 1e5),) if walled else (),
        "footing": (wall + dice.uniform(0.1, 0.4), 0.25) if on_footing else (0.0, 0.0),
    }
    return section(floor, edge_of(kind, pieces, **(given | _sizes(kind, wall, dice))))


def _sizes(kind: str, wall: float, dice: random.Random) -> dict[str, object]:
    """What only this kind of edge has."""
    if kind == "ledge":
        frame = slice_of("timber-frame", 0.12, dice.uniform(0.05, 0.1), 1e5)
        step = ledge(air=0.04, below=dice.uniform(0.1, 0.3))
        return {"wall": (slice_of("concrete", 0.25, dice.uniform(0.5, 2.3)),), "above": (frame,), "ledge": step}
    if kind == "threshold":
        leaf = slice_of("softwood", dice.uniform(0.035, 0.06), dice.uniform(0.05, 0.15), 8.0e5)
        return {"above": (leaf,), "set_back": wall - dice.choice((0.02, 0.04)), "ground": dice.uniform(-0.1, -0.01)}
    if kind == "thickened-edge":
        return {"thickening": thickening(dice.uniform(0.15, 0.4), dice.choice((40.0, 45.0, 60.0, 75.0, 90.0)))}
    return {}
