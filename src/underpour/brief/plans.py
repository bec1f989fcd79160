"""Outlines that enclose a floor: enough corners, none twice, no crossing, a size that floors have."""

from __future__ import annotations

from collections.abc import Iterator

from ..mistakes import Mistake
from . import outline
from .tables.edge import Shape
from .tables.plan import Plan

_SMALLEST, _LARGEST = 1.0, 1.0e6  # m²; beyond them the plan's unit was mistaken


def unclear_outline(plan: Plan) -> Iterator[Mistake]:
    """An outline that encloses nothing, crosses itself, or has a size no floor has."""
    wrong = list(unclear_corners(plan.corners, "plan.outline"))
    yield from wrong
    if wrong:
        return
    area = outline.area(plan.corners)
    if _SMALLEST <= area <= _LARGEST:
        return
    small = area < _SMALLEST
    told = f"{area:.2g} m²; no floor is that small." if small else f"{area / 1e6:.3g} km²; no floor is that large."
    instead = f'Its numbers are read in plan.unit, "{plan.unit}".'
    yield Mistake("plan.outline", "", f"The outline encloses {told}", instead)


def unclear_shape(shape: Shape, at: str) -> Iterator[Mistake]:
    """A drawn body whose outline encloses nothing or crosses itself."""
    yield from unclear_corners(shape.outline, f"{at}.outline")


def unclear_corners(corners: outline.Corners, at: str) -> Iterator[Mistake]:
    """Corners that enclose nothing: too few, one of them twice, or sides that cross."""
    if len(corners) < 3:
        has = "One corner encloses" if len(corners) == 1 else f"{len(corners) or 'No'} corners enclose"
        yield Mistake(at, "", f"{has} nothing.", "Write at least three, in order round the floor.")
    elif (same := outline.repeated(corners)) is not None:
        closes = " The outline closes by itself." if same == (1, len(corners)) else ""
        yield Mistake(
            f"{at}.{same[1]}", "", f"Corner {same[1]} lies on corner {same[0]}.", f"Take one of the two out.{closes}"
        )
    elif (pair := outline.crossing(corners)) is not None:
        wrong = f"Side {pair[0]} meets side {pair[1]} where it should not: the outline crosses or touches itself."
        yield Mistake(at, "", wrong, "List the corners in order round the floor.")
