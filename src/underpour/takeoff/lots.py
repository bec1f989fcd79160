"""Boards of one product and thickness ordered as one lot, wherever they are laid."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..resolve import Resolved
from .records import Item, Pack
from .stacked import packed


@dataclass(frozen=True, slots=True)
class Lot:
    """Boards that come together, and where they go."""

    what: str
    key: str
    of: str  # "boards of 4 ft x 8 ft"
    count: int
    pack: Pack | None  # of all of them: fewer bundles than place by place
    mass: float | None  # kg
    where: tuple[str, ...]


def lots(resolved: Resolved, items: Sequence[Item]) -> tuple[Lot, ...]:
    """Lots of boards that go to more than one place.

    Arguments
    ---------
    resolved
        The brief in numbers.
    items
        Everything that is ordered.
    """
    return tuple(_lots(resolved, [item for item in items if item.bulk is not None and item.count]))


def _lots(resolved: Resolved, boards: Sequence[Item]) -> Iterator[Lot]:
    together: dict[tuple[str, str, str], list[Item]] = {}
    for item in boards:
        size = item.of.rpartition(" of ")[2]
        together.setdefault((item.key, item.what, size), []).append(item)
    for (key, what, size), parts in together.items():
        if len(parts) < 2:
            continue
        count = sum(each.count or 0 for each in parts)
        product = resolved.products.product(key) if resolved.products.has(key) else None
        masses = [each.mass for each in parts if each.mass is not None]
        yield Lot(
            what,
            key,
            f"boards of {size}",
            count,
            packed(product, parts[0].thickness, count),
            sum(masses) if len(masses) == len(parts) else None,
            tuple(each.where for each in parts),
        )
