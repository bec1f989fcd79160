"""Layers: a name and a thickness become a slice with its properties in place."""

from __future__ import annotations

from .. import catalogue
from ..brief.layers import BULK
from ..brief.tables.edge import Insulation, Shape
from ..brief.tables.layer import Layer
from ..catalogue.records import Board, Material
from ..measure import Measure, System, say
from ..mistakes import Mistake
from .air_spaces import sheet_slice, upright_air
from .foams import Foams
from .resolved import Slice, Wanted
from .wanted import chosen

SAME = 5e-4  # m: a typed thickness this near to a made one is that one


def layer_slice(layer: Layer, path: str, system: System, foams: Foams) -> Slice:
    """A layer of the floor or of a wall. Raises Mistake."""
    for kind in BULK:
        thickness = getattr(layer, kind.replace("-", "_"))
        if thickness is not None:
            return bulk(kind, thickness, layer.conductivity, f"{path}.{kind}", system)
    if layer.air_space is not None:
        return upright_air(layer.air_space, f"{path}.air-space", layer.r, system)
    if layer.sheet is not None:
        return sheet_slice(layer.sheet, f"{path}.sheet", layer.r, system)
    if layer.vapour_retarder is not None:
        try:
            film = foams.products.retarder(layer.vapour_retarder)
        except Mistake as mistake:
            raise mistake.placed(at=f"{path}.vapour-retarder") from None
        capacity = catalogue.material("concrete").heat_capacity.value
        return Slice(
            "vapour-retarder",
            film.label,
            film.label,
            0.0,
            1.0,
            capacity,
            "film",
            f"{path}.vapour-retarder",
            (f"{path}.vapour-retarder",),
            key=film.key,
            film=film,
            seams=catalogue.seams()[layer.seams] if layer.seams else None,
        )
    if layer.covering is not None:
        return _covering_slice(layer.covering, f"{path}.covering", system)
    assert layer.board is not None
    return board_slice(layer.board, layer.thickness, layer.r, layer.conductivity, path, system, foams)


def _covering_slice(key: str, path: str, system: System) -> Slice:
    """What lies on the floor. Raises Mistake."""
    try:
        covering = catalogue.covering(key)
    except Mistake as mistake:
        raise mistake.placed(at=path) from None
    return Slice(
        "covering",
        covering.label,
        f"{covering.label}, {say.both(covering.thickness, 'm', system)}",
        covering.thickness,
        covering.thickness / covering.resistance.value,
        covering.heat_capacity.value,
        covering.hatch,
        path,
        (path, covering.resistance.path),
        key=covering.key,
        covering=covering,
    )


def bulk(kind: str, thickness: Measure, typed: Measure | None, path: str, system: System) -> Slice:
    """A slice of a bulk material of the catalogue; a typed conductivity goes before the catalogue's."""
    material = catalogue.material(kind)
    return _of_material(material, kind, thickness.si, say.typed(thickness, "m", system), typed, path)


def _of_material(
    material: Material, kind: str, thickness: float, words: str, typed: Measure | None, path: str
) -> Slice:
    parent = path.rsplit(".", 1)[0]
    rests_on = (path, f"{parent}.conductivity" if typed else material.conductivity.path)
    conductivity = typed.si if typed else material.conductivity.value
    label = f"{material.label}, {words}" if words else material.label
    return Slice(
        kind,
        material.label,
        label,
        thickness,
        conductivity,
        material.heat_capacity.value,
        material.hatch,
        path,
        rests_on,
        key=material.key,
    )


def board_slice(
    name: str,
    thickness: Measure | None,
    r: Measure | None,
    typed: Measure | None,
    path: str,
    system: System,
    foams: Foams,
) -> Slice:
    """A slice of a board: in a thickness that is made, or in the thinnest that reaches ``r``. Raises Mistake."""
    try:
        board = foams.record(name) if typed else foams.board(name)
    except Mistake as mistake:
        raise mistake.placed(at=f"{path}.board") from None
    wanted: Wanted | None = None
    if thickness is None:
        assert r is not None
        laid, wanted = chosen(board, r, f"{path}.r", system)
        thickness, from_ = Measure(laid.thickness, laid.typed), f"{path}.r"
        r_label, r_paths = laid.r_label, tuple(made.r_label.path for made in laid.layers)
    else:
        from_ = f"{path}.thickness"
        r_label, r_path = _label(board, thickness, from_, system)
        r_paths = (r_path,)
    words = f"{board.label}, {say.typed(thickness, 'm', system)}"
    below = _channels(board.key, foams)
    if below > 0.0:
        words += f" of foam over channels of {say.both(below, 'm', system)}"
    if wanted is not None and len(wanted.layers) > 1:
        words += ", joints crossed"
    conductivity = typed.si if typed else board.conductivity_in_place.value
    origin = f"{path}.conductivity" if typed else board.conductivity_in_place.path
    return Slice(
        "board",
        board.label,
        words,
        thickness.si,
        conductivity,
        board.heat_capacity.value,
        board.hatch,
        f"{path}.board",
        (from_, origin),
        r_label,
        (from_, *dict.fromkeys(r_paths)),
        board.combustible,
        board.key,
        board,
        wanted,
        below=below,
    )


def _channels(key: str, foams: Foams) -> float:
    """How deep the channels below a panel are; nought of a flat board. [m]"""
    if not foams.products.has(key):
        return 0.0
    channels = foams.products.product(key).channels
    return channels.depth.si if channels is not None else 0.0


def _flat(name: str, at: str, foams: Foams) -> None:
    """Refuses a panel with channels anywhere but in the floor. Raises Mistake."""
    if _channels(name, foams) > 0.0:
        wrong = f"{foams.products.product(name).name} has channels below and lies flat under a slab."
        raise Mistake(at, f'"{name}"', wrong, "Take a flat board here: underpour catalogue list boards")


def _label(board: Board, thickness: Measure, path: str, system: System) -> tuple[float, str]:
    """R as labelled of a made thickness, and where it stands."""
    if not board.made:
        return thickness.si * board.r_label_per_metre.value, board.r_label_per_metre.path
    for made in board.made:
        if abs(made.thickness - thickness.si) < SAME:
            return made.r_label.value, made.r_label.path
    near = sorted(board.made, key=lambda made: abs(made.thickness - thickness.si))[:2]
    offered = " and ".join(
        say.typed(Measure(made.thickness, made.typed), "m", system)
        for made in sorted(near, key=lambda made: made.thickness)
    )
    raise Mistake(
        path,
        f'"{thickness.typed}"',
        f"{board.label} is not made {thickness.typed} thick.",
        f"The nearest are {offered}.",
    )


def piece_slice(piece: Insulation, path: str, system: System, foams: Foams) -> Slice:
    """The board of a piece of edge insulation. Raises Mistake."""
    _flat(piece.board, f"{path}.board", foams)
    return board_slice(piece.board, piece.thickness, piece.r, piece.conductivity, path, system, foams)


def shape_slice(shape: Shape, path: str, foams: Foams) -> Slice:
    """The material of a body that the user drew. Raises Mistake."""
    try:
        if shape.board is not None:
            _flat(shape.board, "", foams)
            board = foams.record(shape.board) if shape.conductivity else foams.board(shape.board)
            conductivity = shape.conductivity.si if shape.conductivity else board.conductivity_in_place.value
            return Slice(
                "board",
                board.label,
                board.label,
                1.0,
                conductivity,
                board.heat_capacity.value,
                board.hatch,
                f"{path}.board",
                (f"{path}.board",),
                None,
                (),
                board.combustible,
                board.key,
                board,
            )
        material = catalogue.material(shape.material or "concrete")
    except Mistake as mistake:
        raise mistake.placed(at=f"{path}.{'board' if shape.board else 'material'}") from None
    return _of_material(material, shape.material or "concrete", 1.0, "", shape.conductivity, f"{path}.material")
