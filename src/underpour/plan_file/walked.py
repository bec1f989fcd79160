"""Everything that stands in a drawing's model space, blocks taken apart: the one file that knows the library."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from ..mistakes import Mistake
from .curves import NotInThePlan, curve, plane
from .library import load_drawings_library
from .limits import limit, table
from .moved import Moved, turned
from .pieces import Origin, Piece, Unread, shown

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.entities.dxfentity import DXFEntity


_BIND = "Bind it into this drawing in the program that drew it, or take it off the layer."


@dataclass
class Walked:
    """What was found, in the drawing's own numbers, and what was passed over."""

    unit_code: int  # $INSUNITS; 0 where the header says none
    pieces: list[Piece] = field(default_factory=list)
    unread: list[Unread] = field(default_factory=list)
    left_out: Counter[tuple[str, str]] = field(default_factory=Counter)  # by their words for one and for several
    hidden: Counter[str] = field(default_factory=Counter)  # on layers that are off or frozen, or made invisible
    blocks: Counter[str] = field(default_factory=Counter)  # how often each was taken apart
    mirrored: int = 0  # blocks that lie as in a mirror
    without_length: int = 0
    things: int = 0


def walked(path: Path, unit_code: int) -> Walked:
    """The lines and arcs of a drawing, whose header names this unit.

    Raises
    ------
    Mistake
        The library cannot make sense of the file, or nothing stands in its model space.
    """
    load_drawings_library()
    from ezdxf.filemanagement import readfile
    from ezdxf.lldxf.const import DXFError

    try:
        drawing = readfile(path)
        found = Walked(unit_code)
        hidden = {layer.dxf.name.casefold(): layer.is_frozen() or layer.is_off() for layer in drawing.layers}
        frozen = {layer.dxf.name.casefold() for layer in drawing.layers if layer.is_frozen()}
        walk = _Walk(drawing, found, {name for name, off in hidden.items() if off}, frozen)
        for thing in drawing.modelspace():
            walk.take(thing, Moved(), "", (), "")
        if not found.things:
            raise _nothing(drawing)
        return found
    except (DXFError, OSError, ValueError, TypeError, LookupError, AttributeError, ArithmeticError) as broken:
        # a file that was spoilt breaks the library wherever it first looks at the spoilt place
        why = shown(str(broken).splitlines()[0] if str(broken) else type(broken).__name__, most=90).rstrip(".")
        wrong = f"The drawing is damaged, or no DXF: {why}."
        raise Mistake("", "", wrong, "Open it in the program that drew it and save it anew.") from None


def _nothing(drawing: Drawing) -> Mistake:
    """What to say of a drawing whose model space is empty."""
    papers = ((layout.name, sum(1 for thing in layout if thing.dxftype() != "VIEWPORT")) for layout in drawing.layouts)
    drawn = [(name, count) for name, count in papers if name != "Model" and count]
    if not drawn:
        return Mistake("", "", "Nothing is drawn in it.", "Look whether it is the right file.")
    name, count = max(drawn, key=lambda each: each[1])
    things = f"{count} thing{'s' if count > 1 else ''}"
    wrong = f"Model space is empty; all is drawn on paper ({things} on layout {shown(name)})."
    return Mistake("", "", wrong, "Move the floor to model space at its true size, and save it again.")


@dataclass
class _Walk:
    drawing: Drawing
    found: Walked
    hidden: set[str]
    frozen: set[str]

    def take(self, thing: DXFEntity, lies: Moved, layer_above: str, within: tuple[str, ...], block: str) -> None:
        """One thing, at the place to which ``lies`` moves it."""
        found = self.found
        found.things += 1
        if found.things > limit("most-things"):
            wrong = f"With its blocks taken apart the drawing holds more than {limit('most-things'):,.0f} things."
            raise Mistake("", "", wrong, "Save what encloses the floor as a drawing of its own.")
        layer = str(_attribute(thing, "layer", "0"))
        if layer == "0" and layer_above:
            layer = layer_above  # what a block draws on layer 0 lies on the layer that the block is put on
        origin = Origin(layer, str(_attribute(thing, "handle", None) or "unknown"), block)
        kind = thing.dxftype()
        name = layer.casefold()
        if _attribute(thing, "invisible", 0) or name in (self.frozen if kind == "INSERT" else self.hidden):
            found.hidden[layer] += 1
            return
        if kind == "INSERT":
            self._block(thing, lies, origin, within)
        elif kind in table()["left-out"]:
            one, several = table()["left-out"][kind]
            found.left_out[one, several] += 1
        else:
            self._curve(thing, lies, origin)

    def _curve(self, thing: DXFEntity, lies: Moved, origin: Origin) -> None:
        words = table()["refused"]
        try:
            drawn = curve(thing)
        except NotInThePlan as why:
            self.found.unread.append(Unread(str(why), origin))
            return
        if drawn is None:
            self.found.unread.append(Unread(words.get(thing.dxftype(), words["other"]), origin))
            return
        sides, closed, wide = drawn
        if not sides:
            self.found.without_length += 1
        elif any(side.bulge for side in sides) and not lies.keeps_circles:
            what = "an arc in a block that is put in larger one way than the other"
            self.found.unread.append(Unread(what, origin))
        else:
            self.found.pieces.append(Piece(origin, tuple(map(lies.side, sides)), closed, wide))

    def _block(self, thing: DXFEntity, lies: Moved, origin: Origin, within: tuple[str, ...]) -> None:
        found, name = self.found, str(thing.dxf.get("name", ""))
        found.left_out["text", "texts"] += len(thing.attribs)  # type: ignore[attr-defined]
        if name not in self.drawing.blocks:
            found.unread.append(Unread(f"block {shown(name)}, which is not in the file", origin, _BIND))
            return
        content = self.drawing.blocks.get(name)
        if content.block is not None and content.block.is_xref:
            found.unread.append(Unread(f"another drawing ({shown(name)}) that this one only refers to", origin, _BIND))
            return
        if name.casefold() in within or len(within) >= limit("deepest-block"):
            wrong = f"Block {shown(name)} holds itself, or blocks lie in blocks too deep to follow."
            raise Mistake("", "", f"{wrong[:-1]}: {origin.words}.", "Take the block apart in the drawing.")
        try:
            places = list(_places(thing, content.block.dxf.get("base_point", (0.0, 0.0, 0.0)) if content.block else ()))
        except NotInThePlan as why:
            found.unread.append(Unread(str(why), origin))
            return
        for place in places:
            whole = lies.after(place)
            if whole.flattens:
                found.unread.append(Unread(f"block {shown(name)}, put in without size", origin))
                return
            found.blocks[name] += 1
            found.mirrored += whole.mirrors
            for inner in content:
                self.take(inner, whole, origin.layer, (*within, name.casefold()), name)


def _attribute(thing: DXFEntity, key: str, otherwise: object) -> object:
    """One of a thing's attributes; kinds that the library does not know have none."""
    return thing.dxf.get(key, otherwise) if thing.dxf.is_supported(key) else otherwise


def _places(thing: DXFEntity, base: tuple[float, ...]) -> Iterator[Moved]:
    """Where a block is put: once, or in rows and columns."""
    lies = plane(thing, "a block")
    x, y, _ = thing.dxf.insert
    first = Moved(x0=-base[0], y0=-base[1]) if base else Moved()
    larger = Moved(xx=float(thing.dxf.get("xscale", 1.0)), yy=float(thing.dxf.get("yscale", 1.0)))
    turn = turned(float(thing.dxf.get("rotation", 0.0)))
    columns, rows = (max(int(thing.dxf.get(key, 1)), 1) for key in ("column_count", "row_count"))
    if columns * rows > limit("most-things"):
        raise Mistake("", "", f"A block is put in {columns * rows:,} times.", "Save the floor as a drawing of its own.")
    for row in range(rows):
        for column in range(columns):
            beside = column * thing.dxf.get("column_spacing", 0.0), row * thing.dxf.get("row_spacing", 0.0)
            grid = Moved(x0=beside[0], y0=beside[1])
            yield lies.after(Moved(x0=x, y0=y).after(turn.after(grid.after(larger.after(first)))))
