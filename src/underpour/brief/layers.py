"""Layers: that each is one thing, and that their order can be built."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ..mistakes import Mistake

BULK = ("concrete", "screed", "old-slab", "gravel", "sand", "masonry", "timber-frame")  # known by their thickness
AIR = "air-space"
THICK = (*BULK, AIR)  # carry their thickness as value
OLD_SLAB = "old-slab"  # kept below the new floor
LOOSE = ("gravel", "sand")
COVERING = "covering"  # lies on everything else
THIN = ("vapour-retarder", "sheet", COVERING)  # their thickness is the catalogue's
WITH_R = ("board", "sheet", AIR)  # an R may be wanted of them
LAYERS = (*THICK, "board", *THIN)  # every key that says what a layer is

_NOT_IN = {
    "floor": {"masonry": "wall", "timber-frame": "wall"},
    "wall": dict.fromkeys(("old-slab", "gravel", "sand", "screed", "sheet", "covering"), "build-up"),
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
    if kind == "board":
        yield from thick_or_wanted(layer, here)
    if "r" in layer and (kind not in WITH_R or (where == "wall" and kind != "board")):
        yield Mistake(f"{here}.r", "", f"No R is wanted of {_one_a(kind)}.", "Take r out; a board has one.")
    if kind != "board" and "thickness" in layer:
        if kind in THICK:
            wrong, instead = (
                f"{_said(kind)} carries its thickness as its value.",
                f'Write {{ {kind} = "{layer["thickness"]}" }}.',
            )
        else:
            wrong, instead = f"{_one_a(kind).capitalize()}'s thickness is the catalogue's.", "Take thickness out."
        yield Mistake(f"{here}.thickness", "", wrong, instead)
    if kind != "vapour-retarder" and "seams" in layer:
        wrong = f"Seams are those of a film; {_one_a(kind)} has none that are counted."
        instead = 'Write them at the film: { vapour-retarder = "film-15-mil", seams = "taped" }.'
        yield Mistake(f"{here}.seams", "", wrong, instead)
    if kind == "vapour-retarder" and "conductivity" in layer:
        yield Mistake(
            f"{here}.conductivity", "", "A vapour retarder is too thin for heat to see.", "Take conductivity out."
        )
    if kind == "sheet" and "conductivity" in layer:
        wrong = "What a sheet resists is the catalogue's, for its body alone."
        yield Mistake(f"{here}.conductivity", "", wrong, "Take conductivity out.")
    if kind == COVERING and "conductivity" in layer:
        yield Mistake(
            f"{here}.conductivity", "", "What a covering resists is the catalogue's.", "Take conductivity out."
        )
    if kind == AIR and "conductivity" in layer:
        wrong = "What air resists follows from its thickness, the faces beside it and the way heat flows."
        yield Mistake(f"{here}.conductivity", "", wrong, "Take conductivity out.")


def thick_or_wanted(typed: TypedLayer, here: str) -> Iterator[Mistake]:
    """A board says how thick it is or which R it must reach: one of the two."""
    if "thickness" in typed and "r" in typed:
        wrong = f"This board says how thick it is, {typed['thickness']}, and which R it must reach, {typed['r']}."
        yield Mistake(f"{here}.r", "", wrong, "Keep one of the two: either follows from the other.")
    elif "thickness" not in typed and "r" not in typed:
        wrong = "A board needs its thickness beside it."
        named = typed.get("board", "plain-15")
        instead = f'Write {{ board = "{named}", thickness = "2 in" }}, or r = "R10" in the place of thickness.'
        yield Mistake(f"{here}.thickness", "", wrong, instead)


def _one_a(kind: str) -> str:
    """One of a kind within a sentence."""
    called = {"timber-frame": "a timber frame", "vapour-retarder": "a vapour retarder", AIR: "an air space"}
    return called.get(kind, "an old slab" if kind == OLD_SLAB else f"a {kind}" if kind in THIN else kind)


def _said(kind: str) -> str:
    """The kind as a sentence begins with it."""
    return {OLD_SLAB: "An old slab", AIR: "An air space", "sheet": "A sheet"}.get(kind, kind.capitalize())


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
        if kind == COVERING and number > 0:
            wrong = "A covering lies on top of the floor, and one alone."
            yield Mistake(here, "", wrong, f"{_DOWN} Move it to the top, or leave it out.")
        elif kind == AIR:
            yield from _over_air(kinds[:number], here)
        elif kind in LOOSE and not poured:
            yield Mistake(here, "", f"Nothing is poured on this {kind}.", 'Write { screed = "2 in" } above it.')
        elif kind in LOOSE and number < last:
            yield Mistake(here, "", f"{_said(kind)} cannot lie above concrete.", f"{_DOWN} Move it below the concrete.")
        elif kind == "screed" and number > first:
            yield Mistake(here, "", "Screed lies on concrete, not under it.", f"{_DOWN} Move it above the concrete.")


def _over_air(above: list[str], here: str) -> Iterator[Mistake]:
    """What lies over an air space: something does, and it can be laid over a gap."""
    bears = next((kind for kind in reversed(above) if kind not in THIN), None)
    if bears is None:
        yield Mistake(here, "", "Nothing lies over this air space.", f"{_DOWN} Put a board above it.")
    elif bears == AIR:
        yield Mistake(here, "", "Two air spaces lie on one another.", "Write one, with the thickness of both.")
    elif bears != "board":
        wrong = f"{_said(bears)} cannot be laid over air."
        yield Mistake(here, "", wrong, "Put a board between them that is held up over the space.")


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
