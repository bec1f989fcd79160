"""What may stand on a board for good, by every basis, and how stiff it is."""

from __future__ import annotations

from collections.abc import Iterator

from ...catalogue.records import Board
from ...design import Held, Modulus, long_term, stiffness
from ..paragraphs import hung
from ..spoken import measured, stands_on

KILO, MEGA = 1e3, 1e6


def under_stress(board: Board, width: int) -> Iterator[str]:
    """Bases and moduli, each with its numbers and where they come from; a basis that cannot be told says why."""
    bases = long_term(board)
    yield "  May stand on it for good"
    for held in bases.bases:
        yield from _held(held, held is bases.smallest, width)
    stiff = stiffness(board)
    if not stiff.short and not stiff.long:
        yield from hung("no record tells, and no published range is held here", width, 6, "  Stiffness:")
        return
    yield from _bracket("Stiffness under a load of minutes", stiff.passing, width)
    yield from (line for each in stiff.short for line in _modulus(each, width))
    yield from _bracket("Stiffness under a load of decades", stiff.standing, width)
    yield from (line for each in stiff.long for line in _modulus(each, width))


def _held(held: Held, governs: bool, width: int) -> Iterator[str]:
    head = f"    {held.title[0].upper()}{held.title[1:]}:"
    if held.stress is None:
        yield from hung(f"cannot tell, {held.why}", width, 8, head)
        return
    said = measured(held.stress / KILO, "kPa", "SI")
    yield from hung(f"{said}{', the smallest, which governs' if governs else ''}", width, 8, head)
    yield from hung(f"{held.formula}: {held.numbers}", width, 8)
    yield from hung(stands_on(held.basis[0]), width, 8)


def _bracket(title: str, ends: tuple[float, float] | None, width: int) -> Iterator[str]:
    said = "cannot tell, no creep test" if ends is None else f"{ends[0] / MEGA:.1f} to {ends[1] / MEGA:.1f} MPa"
    yield from hung(said, width, 6, f"  {title}:")


def _modulus(each: Modulus, width: int) -> Iterator[str]:
    spread = f", between {each.low / MEGA:.1f} and {each.high / MEGA:.1f}" if each.low < each.high else ""
    said = f"{each.value / MEGA:.1f} MPa{spread}: {each.numbers}"
    yield from hung(said, width, 8, f"    {each.name[0].upper()}{each.name[1:]}:")
    yield from hung(stands_on(each.basis[0]), width, 8)
