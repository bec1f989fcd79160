"""Layers: that each is one thing, and that their order can be built."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ..mistakes import Mistake

BULK = ("concrete", "screed", "old-slab", "gravel", "sand", "masonry", "timber-frame")  # known by their thickness
OLD_SLAB = "old-slab"  # kept below the new floor
LOOSE = ("gravel", "sand")
LAYERS = (*BULK, "board", "vapour-retarder")  # every key that says what a layer is

_NOT_IN = {
    "floor": {"masonry": "wall", "timber-frame": "wall"},
    "wall": {"old-slab": "build-up", "gravel": "build-up", "sand": "build-up", "screed": "build-up"},
}
_DOWN = "Layers run from the room down to the ground."
_ONE_OF = f"Write one of {', '.join(LAYERS[:-1])} or {LAYERS[-1]}."

TypedLayer = Mapping[str, Any]  # one layer as the file has it


def kind_of(layer: object) -> str | None:
    """What a layer is, by its one kind key; None where it has none or several."""
    kinds = [key for key in LAYERS if isinstance(layer, Mapping) and key in layer]
    return kinds[0] if len(kinds) == 1 else None


def floor_layers(layers: Sequence[TypedLayer], at: str) -> Iterator[Mistake]:
    """What is wrong with the build-up of a floor; ``at`` is its path."""
    yield from _each(layers, at, "floor")
    kinds = [kind_of(layer) for layer in layers]
    if None not in kinds:
        yield from _order([str(kind) for kind in kinds], at)


def wall_layers(layers: Sequence[TypedLayer], at: str) -> Iterator[Mistake]:
    """What is wrong with the layers of a wall; ``at`` is its path."""
    if not layers:
        yield Mistake(
            at, "", "This wall has no layer.", 'Write its layers from the room outwards: [{ concrete = "8 in" }].'
        )
    yield from _each(layers, at, "wall")


def _each(layers: Sequence[TypedLayer], at: str, where: str) -> Iterator[Mistake]:
    for number, layer in enumerate(layers, start=1):
        here = f"{at}.{number}"
        kinds = [key for key in LAYERS if key in layer]
        if not kinds:
            yield Mistake(here, "", "This layer does not say what it is.", _ONE_OF)
        elif len(kinds) > 1:
            yield Mistake(
                here, "", f"A layer is one thing; this one is {' and '.join(kinds)}.", "Write a layer for each."
            )
        else:
            yield from _one(layer, kinds[0], here, where)


def _one(layer: TypedLayer, kind: str, here: str, where: str) -> Iterator[Mistake]:
    if kind in _NOT_IN[where]:
        yield Mistake(
            f"{here}.{kind}",
            "",
            f"{_said(kind)} is no layer of a {where}.",
            f"It belongs in a {_NOT_IN[where][kind]}.",
        )
    if kind == "board" and "thickness" not in layer:
        wrong = "A board needs its thickness beside it."
        yield Mistake(f"{here}.thickness", "", wrong, f'Write {{ board = "{layer["board"]}", thickness = "2 in" }}.')
    if kind != "board" and "thickness" in layer:
        if kind in BULK:
            wrong, instead = (
                f"{_said(kind)} carries its thickness as its value.",
                f'Write {{ {kind} = "{layer["thickness"]}" }}.',
            )
        else:
            wrong, instead = "A vapour retarder's thickness is the catalogue's.", "Take thickness out."
        yield Mistake(f"{here}.thickness", "", wrong, instead)
    if kind == "vapour-retarder" and "conductivity" in layer:
        yield Mistake(
            f"{here}.conductivity", "", "A vapour retarder is too thin for heat to see.", "Take conductivity out."
        )


def _said(kind: str) -> str:
    """The kind as a sentence begins with it."""
    return "An old slab" if kind == OLD_SLAB else kind.capitalize()


def _order(kinds: list[str], at: str) -> Iterator[Mistake]:
    """Layers run from the room down: what may lie on concrete, concrete, what may lie under it."""
    if "concrete" not in kinds and OLD_SLAB not in kinds:
        alone = " A vapour retarder alone is no floor." if kinds and set(kinds) == {"vapour-retarder"} else ""
        yield Mistake(
            at, "", f"There is no concrete in this floor.{alone}", 'Write { concrete = "4 in" } among its layers.'
        )
        return
    new = kinds[: kinds.index(OLD_SLAB)] if OLD_SLAB in kinds else kinds
    yield from _new(new, at)
    yield from _old(kinds[len(new) :], at, len(new))


def _new(kinds: list[str], at: str) -> Iterator[Mistake]:
    """The layers that are laid now: all of them, or those above the old slab."""
    poured = [number for number, kind in enumerate(kinds) if kind in ("concrete", "screed")]
    last = poured[-1] if poured else 0
    first = kinds.index("concrete") if "concrete" in kinds else len(kinds)
    for number, kind in enumerate(kinds):
        here = f"{at}.{number + 1}.{kind}"
        if kind in LOOSE and not poured:
            yield Mistake(here, "", f"Nothing is poured on this {kind}.", 'Write { screed = "2 in" } above it.')
        elif kind in LOOSE and number < last:
            yield Mistake(here, "", f"{_said(kind)} cannot lie above concrete.", f"{_DOWN} Move it below the concrete.")
        elif kind == "screed" and number > first:
            yield Mistake(here, "", "Screed lies on concrete, not under it.", f"{_DOWN} Move it above the concrete.")


def _old(kinds: list[str], at: str, before: int) -> Iterator[Mistake]:
    """The old slab and what lies under it; ``before`` layers lie above."""
    for number, kind in enumerate(kinds[1:], start=before + 2):
        here = f"{at}.{number}.{kind}"
        if kind == OLD_SLAB:
            other = f"Layer {before + 1} is the old slab already."
            yield Mistake(here, "", other, "Keep one, with the thickness of both if they lie on one another.")
        elif kind not in (*LOOSE, "vapour-retarder"):
            wrong = f"{_said(kind)} cannot be laid under the old slab, which lies there already."
            yield Mistake(here, "", wrong, f"{_DOWN} Move it above the old slab; below it lies gravel or sand.")
