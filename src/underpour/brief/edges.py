"""Edges: names, faces that the kind has, and levels that can stand together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..measure import Measure
from ..mistakes import Mistake
from .layers import THICK
from .paths import letter
from .tables.edge import Edge, Face, Insulation, Kind
from .tables.layer import Layer

_WITH_FOOTING: tuple[Face, ...] = (
    "outside", "inside", "slab-edge", "footing-top", "footing-side", "below-footing", "wing",
)  # fmt: skip
FACES: dict[Kind, tuple[Face, ...]] = {
    "footing-wall": _WITH_FOOTING,
    "frost-wall": _WITH_FOOTING,
    "ledge": _WITH_FOOTING,
    "threshold": _WITH_FOOTING,
    "thickened-edge": ("slab-edge", "below-footing", "below-slope", "wing"),
    "raft": ("slab-edge", "wing"),
    "free-edge": ("slab-edge", "wing"),
    "drawn": (),
}
_HAVE_FOOTING = ("footing-wall", "frost-wall", "ledge", "threshold")
_HAVE_DEPTH = (*_HAVE_FOOTING, "thickened-edge")
_WHOLE = ("footing-top", "footing-side", "below-footing", "below-slope")  # foam as long as what it lies against
_COVERING = ("frost-wall", "ledge")  # kinds whose wall above can stand in over foam at the slab's edge
_WING_KEYS = ("out", "at")


def one_edge(edge: Edge, at: str, slab: Measure | None) -> Iterator[Mistake]:
    """What is wrong with an edge taken by itself.

    Parameters
    ----------
    edge : Edge
        As read.
    at : str
        Its path, "edge.A".
    slab : Measure or None
        Thickness that the footing must leave to the floor, as ``slab_thickness`` tells it; None where it is not known.
    """
    for number, piece in enumerate(edge.insulation, start=1):
        yield from _face(piece, edge.kind, f"{at}.insulation.{number}")
    yield from _once_below(edge, at)
    yield from _belongings(edge, at)
    yield from _levels(edge, at, slab)


def unclear_names(names: Sequence[object]) -> Iterator[Mistake]:
    """What is wrong with the names of the edges, in file order; None where an edge has none."""
    letters = [letter(index) for index in range(len(names))]
    for index, name in enumerate(names):
        if not isinstance(name, str):
            continue
        at = f"edge.{letter(index)}.name"
        if name in names[:index]:
            yield Mistake(
                at, "", f"Edge {letter(names.index(name))} is called {name} already.", "Give each edge its own name."
            )
        elif name in letters and name != letters[index]:
            yield Mistake(
                at,
                "",
                f"{name} is the letter of another edge.",
                "Letters follow the order in the file; take another name.",
            )
        elif "." in name or not name.strip():
            yield Mistake(
                at, "", "A name is words without a full stop.", "Paths in a brief put the full stop between keys."
            )


def _called(kind: Kind) -> str:
    return "A drawn edge" if kind == "drawn" else f"A {kind}"


def _face(piece: Insulation, kind: Kind, at: str) -> Iterator[Mistake]:
    faces = FACES[kind]
    if piece.face not in faces:
        others = (
            f"Its faces are {', '.join(faces[:-1])} and {faces[-1]}."
            if faces
            else "Draw the foam as a shape with a board."
        )
        yield Mistake(f"{at}.face", "", f"{_called(kind)} has no face {piece.face}.", others)
        return
    if piece.face == "wing":
        for key, example in (("out", "24 in"), ("at", "12 in")):
            if getattr(piece, key) is None:
                wrong = "A wing needs out, its width, and at, its depth below the top of the floor."
                yield Mistake(f"{at}.{key}", "", wrong, f'Write {key} = "{example}".')
        for key, value in (("down", piece.down), ("from", piece.from_)):
            if value is not None:
                yield Mistake(
                    f"{at}.{key}",
                    "",
                    f"A wing lies flat and takes no {key}.",
                    "Take it out; at says how deep the wing lies.",
                )
        return
    if piece.face in _WHOLE:
        for key, value in (("down", piece.down), ("from", piece.from_)):
            if value is not None:
                wrong = f"Foam at {piece.face} is as long as what it lies against, and takes no {key}."
                yield Mistake(f"{at}.{key}", "", wrong, "Take it out.")
    if piece.top is not None and (piece.face != "slab-edge" or kind not in _COVERING):
        wrong = "Only foam between slab and wall, under a wall that stands on them, takes top."
        yield Mistake(f"{at}.top", "", wrong, f"Take it out; it is for slab-edge at a {' or '.join(_COVERING)}.")
    for key in _WING_KEYS:
        if getattr(piece, key) is not None:
            yield Mistake(f"{at}.{key}", "", f"Only a wing takes {key}.", 'Take it out, or write face = "wing".')


def _once_below(edge: Edge, at: str) -> Iterator[Mistake]:
    """Foam below a footing is one piece: two would lie in the same place."""
    below = [number for number, piece in enumerate(edge.insulation, start=1) if piece.face == "below-footing"]
    for number in below[1:]:
        wrong = f"Piece {below[0]} lies below this footing already."
        yield Mistake(f"{at}.insulation.{number}.face", "", wrong, "Write one piece with the thickness of both.")


def _belongings(edge: Edge, at: str) -> Iterator[Mistake]:
    if edge.kind in _HAVE_DEPTH and edge.depth is None:
        bottom, example = ("thickening", "16 in") if edge.kind == "thickened-edge" else ("footing", "60 in")
        wrong = f"{_called(edge.kind)} needs depth: the bottom of the {bottom} below the top of the floor."
        yield Mistake(f"{at}.depth", "", wrong, f'Write depth = "{example}".')
    for key in ("depth", "footing", "wall"):
        if edge.kind not in (_HAVE_DEPTH if key == "depth" else _HAVE_FOOTING) and getattr(edge, key) is not None:
            wrong = f"{_called(edge.kind)} has no {'foundation wall' if key == 'wall' else 'footing'}."
            kinds = " or ".join(_HAVE_FOOTING)
            yield Mistake(f"{at}.{key}", "", wrong, f"Take it out; an edge that has one is a {kinds}.")
    if edge.thickening is not None and edge.kind != "thickened-edge":
        wrong = "Only a thickened-edge takes thickening."
        yield Mistake(f"{at}.thickening", "", wrong, 'Take it out, or write kind = "thickened-edge".')
    if edge.props is not None and edge.kind != "footing-wall":
        wrong = f"{_called(edge.kind)} holds back no ground beside the room."
        yield Mistake(f"{at}.props", f'"{edge.props}"', wrong, "Take props out; it is for footing-wall.")
    if edge.gap is not None and edge.kind not in _HAVE_FOOTING:
        wrong = f"{_called(edge.kind)} has no joint between slab and wall."
        yield Mistake(f"{at}.gap", "", wrong, f"Take gap out; it is for {', '.join(_HAVE_FOOTING)}.")
    if edge.set_back is not None and edge.kind != "threshold":
        wrong = "Only a threshold takes set-back; no door stands at this edge."
        yield Mistake(f"{at}.set-back", "", wrong, 'Take it out, or write kind = "threshold".')
    if edge.ledge is not None and edge.kind != "ledge":
        wrong = "Only an edge of that kind takes ledge."
        yield Mistake(f"{at}.ledge", "", wrong, 'Take it out, or write kind = "ledge".')
    if edge.kind == "threshold":
        yield from _open_door(edge, at)
    if edge.kind == "drawn":
        if not edge.shape:
            yield Mistake(
                f"{at}.shape",
                "",
                "A drawn edge needs its shapes.",
                "Write [[edge.shape]] with unit, outline and material.",
            )
    elif edge.shape:
        yield Mistake(f"{at}.shape", "", "Only a drawn edge takes shapes.", 'Take them out, or write kind = "drawn".')
    for number, shape in enumerate(edge.shape, start=1):
        here = f"{at}.shape.{number}"
        if shape.material is None and shape.board is None and shape.conductivity is None:
            yield Mistake(
                here, "", "This shape does not say what it is made of.", 'Write material = "concrete", or a board.'
            )
        if shape.material is not None and shape.board is not None:
            yield Mistake(
                f"{here}.board", "", "A shape is one thing; this one is a material and a board.", "Keep one of the two."
            )


def _open_door(edge: Edge, at: str) -> Iterator[Mistake]:
    """What stands in the way of a door: ground or foam above the floor."""
    if edge.ground is not None and edge.ground.si > 0.0:
        wrong = f"The ground outside this door, {edge.ground.typed}, lies above the floor, and water comes in."
        yield Mistake(f"{at}.ground", "", wrong, 'Write it below the top of the floor: ground = "-1 in".')
    for number, piece in enumerate(edge.insulation, start=1):
        if piece.from_ == "wall-top" or (isinstance(piece.from_, Measure) and piece.from_.si > 0.0):
            wrong = "A door opens here; foam cannot stand above the floor."
            yield Mistake(f"{at}.insulation.{number}.from", "", wrong, "Take from out, and the foam starts below it.")


def _levels(edge: Edge, at: str, slab: Measure | None) -> Iterator[Mistake]:
    if edge.depth is None:
        return
    thickens = edge.kind == "thickened-edge"
    if edge.ground is not None and edge.ground.si <= -edge.depth.si:
        wrong = (
            f"The ground outside, {edge.ground.typed}, lies below the {'thickening' if thickens else 'footing'}, "
            f"whose bottom is {edge.depth.typed} down."
        )
        yield Mistake(
            f"{at}.ground", "", wrong, "Both count from the top of the floor: raise the ground, or make depth larger."
        )
    if slab is None:
        return
    if thickens:
        if edge.depth.si <= slab.si:
            wrong = f"{edge.depth.typed} is no deeper than the slab, {slab.typed}: nothing thickens."
            instead = 'depth runs from the top of the floor to the bottom of the thickening; or write kind = "raft".'
            yield Mistake(f"{at}.depth", "", wrong, instead)
        return
    footing = edge.footing.height if edge.footing is not None else None
    if edge.depth.si <= slab.si or (footing is not None and edge.depth.si < footing.si + slab.si):
        below = f", and the footing, {footing.typed}" if footing is not None else " and a footing below it"
        wrong = f"{edge.depth.typed} leaves no room for the slab, {slab.typed}{below}."
        yield Mistake(f"{at}.depth", "", wrong, "depth runs from the top of the floor to the bottom of the footing.")


def slab_thickness(layers: Sequence[Layer | None]) -> Measure | None:
    """Thickness of the floor's first concrete, or of all down to the underside of an old slab.

    None where there is neither or it could not be read.
    """
    old = next((n for n, layer in enumerate(layers, 1) if layer is not None and layer.old_slab is not None), 0)
    if old:
        sizes = [size for layer in layers[:old] if layer is not None and (size := _size(layer)) is not None]
        return Measure(sum(size.si for size in sizes), " + ".join(size.typed for size in sizes))
    return next((layer.concrete for layer in layers if layer is not None and layer.concrete is not None), None)


def _size(layer: Layer) -> Measure | None:
    """How thick a layer is; None for a film."""
    return next(
        (size for kind in THICK if (size := getattr(layer, kind.replace("-", "_"))) is not None), layer.thickness
    )
