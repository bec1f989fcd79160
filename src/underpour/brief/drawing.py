"""A plan that is read from a drawing: what the drawing shows, put in where it would have been typed."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Any

from ..mistakes import Mistake, Mistakes
from .paths import Path, letter
from .typed import Typed

if TYPE_CHECKING:
    from ..outlines.floor import Floor, Stretch
    from ..outlines.outline import Outline
    from ..plan_file import Drawn
    from .tables.plan import Plan

BY_LAYER = "by-layer"
_FIGURES = 12  # kept of a number: a millionth of a millimetre on ten metres


def with_drawing(tree: Typed, folder: FilePath | None) -> tuple[Typed, list[Mistake]]:
    """The brief's data with outline, holes, obstacles and edges of the drawing that it names, as if they were typed.

    Parameters
    ----------
    tree : Typed
        The data as typed, or as an alternative changes them. Without ``plan.dxf`` it comes back as it is.
    folder : Path or None
        From which the drawing's name is counted; None for a brief that stands alone and opens no file.

    Returns
    -------
    The data, and what is wrong with the drawing or with what the brief says of it.
    """
    named = tree.at(("plan", "dxf"))
    if named is None or folder is None or not isinstance(named.value, str):
        return tree, []
    if tree.at(("plan", "outline")) is not None:
        wrong = "outline and dxf both say where the floor ends."
        return tree, [Mistake("plan.dxf", "", wrong, "Keep one of the two.")]
    try:
        drawn = _drawn(tree, folder)
    except Mistakes as mistakes:
        return tree, [_placed(mistake) for mistake in mistakes]
    if drawn is None:
        return tree, []
    return _filled(tree, drawn, named.path)


def drawing_of(plan: Plan) -> Drawn | None:
    """The drawing from which a plan was read; None for one that was typed."""
    from ..plan_file import read

    return None if plan.dxf is None else read(plan.dxf.path, plan.asked_of_drawing)


def without_a_plan(found: Sequence[Mistake], tree: Typed) -> list[Mistake]:
    """The mistakes without those that only say that nothing could be read from the drawing."""
    if tree.at(("plan", "dxf")) is None:
        return list(found)
    by_layer = {f"edge.{letter(n)}.sides" for n, edge in enumerate(_edges(tree)) if _by_layer(edge)}
    missing = {("plan.outline", "needs outline"), ("plan.unit", "needs unit")}
    return [
        each
        for each in found
        if not any(each.at == at and words in each.wrong for at, words in missing) and each.at not in by_layer
    ]


def _drawn(tree: Typed, folder: FilePath) -> Drawn | None:
    """What the drawing shows; None where the brief's own keys about it cannot be read, which is told elsewhere."""
    from pydantic import ValidationError

    from ..plan_file import read
    from .tables.plan import DrawingIn

    plan = tree.at(("plan",))
    assert plan is not None
    keys = {field.alias or name for name, field in DrawingIn.model_fields.items()}
    typed = {key: value for key, value in plan.plain().items() if key in keys}
    try:
        asked = DrawingIn.model_validate(typed, context={"folder": folder})
    except ValidationError:
        return None
    return None if asked.dxf is None else read(asked.dxf.path, asked.asked_of_drawing)


def _placed(mistake: Mistake) -> Mistake:
    return replace(mistake, at=mistake.at or "plan.dxf")


def _filled(tree: Typed, drawn: Drawn, origin: Path) -> tuple[Typed, list[Mistake]]:
    """The data with the drawing in it; every value of it stands where the drawing is named."""
    one, unit, floor = drawn.unit.brief_metres, drawn.unit.brief, drawn.floor
    plan = tree.at(("plan",))
    assert plan is not None
    holes = [{"unit": unit, "outline": _corners(hole, one)} for hole in floor.holes]
    obstacles = [
        {
            "unit": unit,
            "kind": each.kind,
            "at": " ".join(_figures(x / one) for x in each.at),
            "size": " x ".join(f"{_figures(s / one)} {unit}" for s in (each.size[:1] if each.circle else each.size)),
        }
        for each in floor.obstacles
    ]
    put: dict[str, Any] = {"outline": _corners(floor.outline, one)}
    if plan.child("unit") is None:
        put["unit"] = unit
    tree = _with(tree, put, origin)
    for key, drawn_ones in (("hole", holes), ("obstacle", obstacles)):
        tree = _with_more(tree, key, drawn_ones, origin)
    return _with_edges(tree, drawn, origin)


def _with(tree: Typed, put: dict[str, Any], origin: Path) -> Typed:
    for key, value in put.items():
        tree = tree.put(("plan", key), _at(value, origin))
    return tree


def _with_more(tree: Typed, key: str, drawn_ones: Sequence[Mapping[str, object]], origin: Path) -> Typed:
    """The list of the plan with the drawing's entries behind those that were typed."""
    typed = tree.at(("plan", key))
    if not drawn_ones or (typed is not None and not isinstance(typed.value, list)):
        return tree
    before = typed.value if typed is not None else []
    path = typed.path if typed is not None else origin
    return tree.put(("plan", key), Typed(path, [*before, *(_at(each, origin) for each in drawn_ones)]))


def _with_edges(tree: Typed, drawn: Drawn, origin: Path) -> tuple[Typed, list[Mistake]]:
    """The edges whose sides are drawn, with the sides that lie along the lines of their layers."""
    found: list[Mistake] = []
    of_layer = dict(drawn.edges)
    names = drawn.floor
    for number, edge in enumerate(_edges(tree)):
        if not _by_layer(edge):
            continue
        named = edge.child("name")
        layers = names_of_layers(number, named.value if named is not None else None)
        along = [each for layer in layers for each in of_layer.get(layer, ())]
        if not along:
            drawn_ones = ", ".join(of_layer) or "none"
            wrong = f"Nothing is drawn on layer {' or '.join(layers)}, which says the sides of this edge."
            hint = f"Layers of edges in the drawing: {drawn_ones}. Or name the sides: sides = [1, 2]."
            found.append(Mistake(f"edge.{letter(number)}.sides", f'"{BY_LAYER}"', wrong, hint))
            continue
        claims = [_claim(each, names, drawn, _typed_holes(tree, drawn)) for each in along]
        tree = tree.put(("edge", number, "sides"), _at(claims, edge.child("sides").path))  # type: ignore[union-attr]
    return tree, found


def names_of_layers(number: int, name: object) -> tuple[str, ...]:
    """Layers that carry an edge: of its letter, and of its own name.

    >>> names_of_layers(1, "Door side")
    ('edge-b', 'edge-door-side')
    """
    words = name if isinstance(name, str) else letter(number)
    both = (letter(number), re.sub(r"[\s_]+", "-", words.strip()))
    return tuple(dict.fromkeys(f"edge-{each.casefold()}" for each in both))


def _claim(stretch: Stretch, floor: Floor, drawn: Drawn, holes_before: int) -> object:
    side = floor.side(stretch.ring, stretch.side)
    name: object = f"hole.{holes_before + stretch.ring}.side.{stretch.side}" if stretch.ring else stretch.side
    claim = {"side": name}
    if stretch.start > 0.0:
        claim["from"] = f"{_figures(stretch.start / drawn.unit.brief_metres)} {drawn.unit.brief}"
    if stretch.end < side.length:
        claim["to"] = f"{_figures(stretch.end / drawn.unit.brief_metres)} {drawn.unit.brief}"
    return claim if len(claim) > 1 else name


def _typed_holes(tree: Typed, drawn: Drawn) -> int:
    listed = tree.at(("plan", "hole"))
    every = len(listed.value) if listed is not None and isinstance(listed.value, list) else 0
    return every - len(drawn.floor.holes)


def _edges(tree: Typed) -> list[Typed]:
    listed = tree.child("edge")
    return listed.value if listed is not None and isinstance(listed.value, list) else []


def _by_layer(edge: Typed) -> bool:
    sides = edge.child("sides")
    return sides is not None and sides.value == BY_LAYER


def _corners(outline: Outline, one: float) -> list[str]:
    return [
        f"{_figures(side.start[0] / one)} {_figures(side.start[1] / one)}"
        + (f" bulge {_figures(side.bulge)}" if side.bulge else "")
        for side in outline.sides
    ]


def _figures(number: float) -> str:
    """The number as it is typed, without an exponent.

    >>> _figures(12192.000000000002), _figures(-1e-7)
    ('12192', '-0.0000001')
    """
    words = f"{Decimal(f'{number:.{_FIGURES}g}'):f}"
    return words.rstrip("0").rstrip(".") if "." in words else words


def _at(data: object, origin: Path) -> Typed:
    """Plain data, all of it typed at one place."""
    if isinstance(data, dict):
        return Typed(origin, {key: _at(value, origin) for key, value in data.items()})
    if isinstance(data, list):
        return Typed(origin, [_at(value, origin) for value in data])
    return Typed(origin, data)
