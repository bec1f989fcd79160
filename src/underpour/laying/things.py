"""What is there to be laid and looked at: the job, its edges, layers, pieces of foam and drawn bodies, in words.

Tables of works ask for things by what they are, by the kind of their edge and by features; texts are filled with
their words. A word that a thing does not have is not there to be filled in: the table's own tests find that.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from ..measure import say
from ..measure.table import System
from ..resolve import Resolved, ResolvedEdge, Slice
from ..sections.parts import Section
from .where import SAME, face_words, level, reach

LEVELLED = 0.01  # m: less than this the first layer makes up by itself (common practice, no source)
POURED = {"concrete": "pour", "screed": "screed"}  # what is wet when it comes, and how its coming is called
_CALLED = {
    "concrete": "the concrete",
    "screed": "the screed",
    "gravel": "the gravel",
    "sand": "the sand",
    "board": "the boards",
    "vapour-retarder": "the film",
    "sheet": "the sheet",
    "old-slab": "the old slab",
    "air-space": "the air space",
    "covering": "the floor covering",
}


@dataclass(frozen=True, slots=True)
class Thing:
    """One thing that works are asked for."""

    each: str  # job, edge, layer, piece or body
    kind: str  # of the layer, the face, the body's material; "" for the job, the edge's own for an edge
    edge_kind: str
    edge: str  # the edge's name; "" for the job and for layers
    features: frozenset[str]
    words: Mapping[str, str]  # what texts are filled with
    paths: tuple[str, ...]  # of what is put in place, in the brief


@dataclass(frozen=True, slots=True)
class Things:
    """All of one brief: the layers from the ground up, edges and pieces as typed."""

    job: Thing
    layers: tuple[Thing, ...]
    edges: tuple[Thing, ...]
    pieces: tuple[Thing, ...]
    bodies: tuple[Thing, ...]

    def of(self, each: str) -> tuple[Thing, ...]:
        return {
            "job": (self.job,), "edge": self.edges, "layer": self.layers, "piece": self.pieces, "body": self.bodies,
        }[each]  # fmt: skip


def things(resolved: Resolved, sections: Mapping[str, Section]) -> Things:
    """What there is of a resolved brief, whose sections are given by the edges' letters."""
    job = _job(resolved)
    edges = tuple(_edge(edge, job, resolved.system) for edge in resolved.edges)
    pieces, bodies = [], []
    for made, edge in zip(edges, resolved.edges, strict=True):
        pieces += list(_pieces(edge, made, sections[edge.letter], resolved.system))
        bodies += list(_bodies(edge, made))
    return Things(job, tuple(_layers(resolved, job)), edges, tuple(pieces), tuple(bodies))


def below(path: str) -> str:
    """The path of the whole that a path's last key belongs to.

    >>> below("floor.build-up.2.board")
    'floor.build-up.2'
    """
    return path.rsplit(".", 1)[0]


def called(kind: str) -> str:
    """A layer as it is spoken of.

    >>> called("vapour-retarder"), called("timber-frame")
    ('the film', 'the timber frame')
    """
    return _CALLED.get(kind, f"the {kind.replace('-', ' ')}")


def _job(resolved: Resolved) -> Thing:
    said = resolved.system
    needed = sum(layer.thickness for layer in resolved.laid)
    words = {
        "total": say.both(resolved.total, "m", said),
        "needed": say.both(needed, "m", said),
        "perimeter": say.both(resolved.perimeter, "m", said),
        "area": say.both(resolved.area, "m²", said),
        "ground": _in_a_sentence(resolved.ground_below),
        "use": resolved.use.label.lower(),
        "poured": next((POURED[layer.kind] for layer in resolved.laid[::-1] if layer.kind in POURED), "next layer"),
    }
    pieces = [piece for edge in resolved.edges for piece in edge.pieces]
    bodies = [body.slice for edge in resolved.edges for body in edge.drawn]
    foam = [*resolved.boards, *(piece.board for piece in pieces), *(body for body in bodies if body.kind == "board")]
    features = {f"floor:{layer.kind}" for layer in resolved.floor}
    features |= {"foam"} if foam else set()
    features |= {"winter-frost"} if resolved.outdoor_mean - abs(resolved.outdoor_swing) < 0.0 else set()
    features |= {"frozen-ground"} if resolved.outdoor_mean < 0.0 else set()
    frozen = resolved.use.cold_floor or resolved.room.mean - abs(resolved.room.swing) < 0.0
    features |= {"cold-floor"} if frozen else set()
    features |= {"outdoors"} if resolved.outdoors else set()
    dug = not resolved.on_old_slab or any(_filled(edge, True) == "filled-late" for edge in resolved.edges)
    features |= {"dug"} if dug else set()
    features |= {"footing"} if any(edge.footing[1] for edge in resolved.edges) else set()
    if resolved.available_depth is not None:
        features |= {"depth-given"}
        words["dug"] = say.both(resolved.available_depth, "m", said)
        over = needed - resolved.available_depth
        if over > SAME:
            features |= {"depth-short"}
            words["short"] = say.both(over, "m", said)
        if over < -LEVELLED:
            features |= {"depth-spare"}
            words["spare"] = say.both(-over, "m", said)
    return Thing("job", "", "", "", frozenset(features), words, ())


def _layers(resolved: Resolved, job: Thing) -> Iterator[Thing]:
    """What is laid now from below up, an old slab first where one stays; each knows what lies next below and above."""
    up = resolved.floor[: len(resolved.laid) + 1 if resolved.on_old_slab else None][::-1]
    poured = [n for n, layer in enumerate(up) if layer.kind in POURED]
    for n, layer in enumerate(up):
        upside = -sum(over.thickness for over in up[n + 1 :])
        under, over = (up[n - 1].kind if n else "ground"), (up[n + 1].kind if n + 1 < len(up) else "room")
        features = set(job.features) | _of_foam(layer) | {f"on:{under}", f"under:{over}"}
        features |= {"lowest-poured"} if poured[:1] == [n] else set()
        features |= {"on:tight"} if under in ("board", "vapour-retarder") else set()
        words = dict(job.words) | {
            "layer": _in_a_sentence(layer),
            "name": layer.label,
            "upside": level(upside, resolved.system),
            "below": "the ground" if under == "ground" else called(under),
            "covered": _before(over),
        }
        yield Thing("layer", layer.kind, "", "", frozenset(features), words, (below(layer.path),))


def _before(over: str) -> str:
    """When a layer can last be looked at, by what lies next above it."""
    if over == "room":
        return "before it is covered"
    if over in ("concrete", "screed"):
        return "before the pour" if over == "concrete" else "before the screed"
    return f"before {called(over)}"


def _in_a_sentence(layer: Slice) -> str:
    """A slice's words; only a board's name is a name and keeps its capital."""
    return layer.words if layer.kind == "board" else layer.words[:1].lower() + layer.words[1:]


def _of_foam(layer: Slice) -> set[str]:
    if layer.kind != "board":
        return set()
    return {"board", layer.hatch} | ({"burns"} if layer.combustible else set())


def _edge(edge: ResolvedEdge, job: Thing, system: System) -> Thing:
    words = dict(job.words) | {
        "path": edge.path,
        "kind": edge.kind.replace("-", " "),
        "outside": level(edge.ground, system),
    }
    features = set(job.features) | {f"at:{piece.face}" for piece in edge.pieces}
    features |= {"earth-above-floor-here"} if edge.ground > SAME else set()
    if edge.depth:
        words["depth"] = say.both(edge.depth, "m", system)
    if edge.footing[1]:
        features |= {"on-footing", _filled(edge, "floor:old-slab" in job.features)}
        words["width"], words["height"] = (say.both(each, "m", system) for each in edge.footing)
    features |= {"at-door"} if edge.kind == "threshold" else set()
    if edge.wall:
        words["wall"] = "; ".join(map(_in_a_sentence, edge.wall))
    if edge.above:
        words["above"] = "; ".join(map(_in_a_sentence, edge.above))
        features |= {"wall-above"}
    return Thing("edge", edge.kind, edge.kind, edge.letter, frozenset(features), words, ())


def _filled(edge: ResolvedEdge, old: bool) -> str:
    """When the earth comes back against a foundation: before the floor or after it, or it never left."""
    if old:
        dug = any(piece.face in ("outside", "wing", "footing-top", "footing-side") for piece in edge.pieces)
        return "filled-late" if dug else "undisturbed"
    return "filled-late" if edge.kind == "footing-wall" else "filled-early"


def _pieces(edge: ResolvedEdge, made: Thing, section: Section, system: System) -> Iterator[Thing]:
    for piece in edge.pieces:
        lies = [y for part in section.parts if part.path == piece.board.path for _, y in part.outline]
        low, high = min(lies), max(lies)
        to_the_cut = high > max(section.extent[3] - SAME, SAME)
        words = dict(made.words) | {
            "board": piece.board.words,
            "name": piece.board.label,
            "face": face_words(piece.face),
            "reach": reach(low, high, system, to_the_cut),
            "top": "the top of the wall" if to_the_cut else level(high, system),
            "bottom": level(low, system),
        }
        if piece.out is not None and piece.at is not None:
            words |= {"out": say.both(piece.out, "m", system), "at": say.both(piece.at, "m", system)}
        features = set(made.features) | _of_foam(piece.board)
        features |= {"below-floor"} if low < -SAME else {"above-floor"}
        features |= {"covered"} if piece.covered else set()
        shows = piece.face == "outside" or (piece.face == "slab-edge" and not edge.footing[1])
        features |= {"shows"} if shows and high > edge.ground + SAME else set()
        features |= {"goes-up-the-wall"} if shows and high > SAME and edge.above else set()
        features |= {"goes-below-ground"} if shows and low < edge.ground - SAME else set()
        yield Thing("piece", piece.face, edge.kind, edge.letter, frozenset(features), words, (below(piece.board.path),))


def _bodies(edge: ResolvedEdge, made: Thing) -> Iterator[Thing]:
    for body in edge.drawn:
        low = min(y for _, y in body.outline)
        features = set(made.features) | _of_foam(body.slice)
        features |= {"stands-on-floor"} if low > -SAME else {"below-floor"}
        words = dict(made.words) | {"body": _in_a_sentence(body.slice), "name": body.slice.label}
        yield Thing(
            "body", body.slice.kind, edge.kind, edge.letter, frozenset(features), words, (below(body.slice.path),)
        )
