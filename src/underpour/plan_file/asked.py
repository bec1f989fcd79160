"""What a brief asks of a drawing, and what the drawing's layers hold."""

from __future__ import annotations

from dataclasses import dataclass

from .limits import table

OBSTACLES = ("column", "pipe", "drain", "post", "pit")


@dataclass(frozen=True, slots=True)
class Asked:
    """How a brief wants a drawing to be read; None and empty where it leaves that to the drawing."""

    unit: str | None = None  # of the brief's own numbers
    drawing_unit: str | None = None  # of the drawing's numbers, whatever its header says
    gap: float | None = None  # m, between ends that are joined
    layers: tuple[tuple[str, tuple[str, ...]], ...] = ()  # what, and the layers that hold it

    @property
    def floor_named(self) -> bool:
        """Whether the brief itself says on which layers the floor lies."""
        return any(what == "floor" for what, _ in self.layers)

    def holds(self, layer: str) -> str:
        """What a layer holds: "floor", "column", ..., "edge-a"; "" where nothing says, "left out" where not the floor.

        >>> Asked().holds("FLOOR-OUTLINE"), Asked().holds("Columns"), Asked().holds("edge-b"), Asked().holds("0")
        ('floor', 'column', 'edge-b', '')
        >>> Asked(layers=(("pit", ("S-PITS",)),)).holds("s-pits")
        'pit'
        """
        name = layer.casefold().strip()
        for what, layers in self.layers:
            if name in (each.casefold().strip() for each in layers):
                return what
        known = table()["layer"]
        typed = {what for what, _ in self.layers}
        for what in ("floor", *OBSTACLES):
            if what not in typed and name in known[what]:
                return what
        if name.startswith(known["edge"]):
            return name
        return "left out" if name in known["not-floor"] else ""
