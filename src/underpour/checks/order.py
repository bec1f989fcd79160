"""The order of the floor's layers: what goes wrong in practice, found and said with its remedy."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from itertools import pairwise

from ..findings import Basis, Finding, Step
from ..resolve import Resolved, Slice
from .film import sheets

ID, TITLE = "moisture.order", "Orders of layers that go wrong in practice"
TIGHT = 60.0  # ng/(Pa·s·m²), about a perm: less than that is tight
LITTLE = 80.0  # %: a covering that bears no more wants a film below it
LOOSE = ("gravel", "sand")
POURED = ("concrete", "screed")


@dataclass(frozen=True, slots=True)
class Order:
    """An order of layers that goes wrong in practice."""

    key: str
    says: str
    mend: str
    source: str


@cache
def orders() -> Mapping[str, Order]:
    """Each order by its name.

    >>> orders()["two-films"].mend
    'Keep one of the two, the one that is nearer to the slab.'
    """
    table = tomllib.loads((files(__package__) / "orders.toml").read_text(encoding="utf-8"))
    return {
        key: Order(key, entry["says"], entry["mend"], entry.get("source", "common practice, no source"))
        for key, entry in table.items()
    }


def layers(resolved: Resolved) -> Iterator[Finding]:
    """Whether the layers of this floor lie in an order that is known to go wrong.

    Asks
        Does anything in the order of these layers keep water in, let it up, or let it freeze?
    Why
        Each layer may be right and their order wrong; nobody sees it once the concrete is cast.
    Worked out
        The floor is held to each order of a list that goes wrong in practice: what is tight, what holds water, what
        draws it, and what lies on which side of it.
    Holds for
        What the brief names. Damp that comes through joints, pipes and walls is another matter.
    Source
        Common practice, no source, but where a row of the list names one.
    """
    found = [key for key, found_in in WRONG.items() if found_in(resolved)]
    rows = [orders()[key] for key in found]
    words = " ".join(f"{row.says} {row.mend}" for row in rows)
    yield Finding(
        ID,
        TITLE,
        float(len(found)),
        "count",
        at={},
        limit=0.0,
        sense="at most",
        basis=tuple(dict.fromkeys(Basis(row.source, "order of layers", "practice") for row in rows))
        or (Basis("common practice, no source", "orders of layers that go wrong", "practice"),),
        rests_on=tuple(dict.fromkeys(layer.path for layer in resolved.floor)),
        steps=tuple(Step(row.key, row.says, "", "found") for row in rows)
        or (Step("n", f"none of {len(WRONG)} orders that go wrong is found", "", "0"),),
        words=words or f"None of the {len(WRONG)} orders of layers that are known to go wrong is found in this floor.",
    )


def _kinds(resolved: Resolved) -> list[str]:
    return [layer.kind for layer in resolved.floor]


def _first(resolved: Resolved, *kinds: str) -> int | None:
    return next((n for n, kind in enumerate(_kinds(resolved)) if kind in kinds), None)


def tight(resolved: Resolved) -> list[int]:
    """Places of films and of boards with a tight facing, from the room down."""
    faced = {each.key for each in sheets(resolved) if each.facing and (each.permeance or TIGHT) < TIGHT}
    return [n for n, layer in enumerate(resolved.floor) if layer.film is not None or layer.key in faced]


def _lowest_poured(resolved: Resolved) -> int:
    """Place of the lowest layer that is poured now; -1 where none is."""
    return max((n for n, kind in enumerate(_kinds(resolved)) if kind in POURED), default=-1)


def _covering(resolved: Resolved) -> Slice | None:
    return resolved.floor[0] if resolved.floor[0].covering is not None else None


def _sand_above_film(resolved: Resolved) -> bool:
    loose = [n for n, kind in enumerate(_kinds(resolved)) if kind in LOOSE]
    return any(n < film for n in loose for film in tight(resolved))


def _film_below_stone(resolved: Resolved) -> bool:
    films = [n for n, layer in enumerate(resolved.floor) if layer.film is not None]
    old = _first(resolved, "old-slab")
    return bool(films) and all(n > 0 and resolved.floor[n - 1].kind in LOOSE for n in films) and old is None


def _two_films(resolved: Resolved) -> bool:
    films = [n for n, layer in enumerate(resolved.floor) if layer.film is not None]
    return any(any(layer.kind == "board" for layer in resolved.floor[a:b]) for a, b in pairwise(films))


def _screed_between(resolved: Resolved) -> bool:
    covering, kinds = _covering(resolved), _kinds(resolved)
    if covering is None or covering.covering is None or covering.covering.permeance.value >= TIGHT:
        return False
    return kinds[1:2] == ["screed"] and 2 in tight(resolved) and resolved.covered_after is None


def _covering_without_film(resolved: Resolved) -> bool:
    covering = _covering(resolved)
    if covering is None or covering.covering is None or covering.covering.slab_humidity.value > LITTLE:
        return False
    return not tight(resolved) and not any(layer.kind == "board" for layer in resolved.floor)


def _old_slab_without_film(resolved: Resolved) -> bool:
    old = _first(resolved, "old-slab")
    return old is not None and old > 0 and not any(n < old for n in tight(resolved))


def _no_capillary_break(resolved: Resolved) -> bool:
    below = _kinds(resolved)[_lowest_poured(resolved) + 1 :]
    return not below and not resolved.use.cold_floor and any(stratum.grain == "fine" for stratum in resolved.strata)


def _frozen_with_film_above(resolved: Resolved) -> bool:
    board, films = _first(resolved, "board"), tight(resolved)
    return resolved.use.cold_floor and board is not None and bool(films) and max(films) < board


def _frozen_without_film(resolved: Resolved) -> bool:
    return resolved.use.cold_floor and not tight(resolved)


def _foil_in_concrete(resolved: Resolved) -> bool:
    return any(
        one.kind in POURED and other.kind == "sheet" and "foil" in other.key for one, other in pairwise(resolved.floor)
    )


def _foam_in_water(resolved: Resolved) -> bool:
    if resolved.water is None or resolved.water.drained:
        return False
    boards = [n for n, kind in enumerate(_kinds(resolved)) if kind == "board"]
    if not boards:
        return False
    underside = sum(layer.thickness for layer in resolved.floor[: max(boards) + 1])
    return any((resolved.water_level(edge) or -99.0) > -underside for edge in resolved.edges)


def _air_below_slab(resolved: Resolved) -> bool:
    space = _first(resolved, "air-space")
    return space is not None and not any(n > space for n in tight(resolved))


def _coating_over_damp(resolved: Resolved) -> bool:
    covering = _covering(resolved)
    if covering is None or covering.key not in ("epoxy", "rubber"):
        return False
    return not tight(resolved) and resolved.floor[-1].kind in LOOSE


WRONG: Mapping[str, Callable[[Resolved], bool]] = {
    "sand-above-film": _sand_above_film,
    "film-below-stone": _film_below_stone,
    "two-films": _two_films,
    "screed-between": _screed_between,
    "covering-without-film": _covering_without_film,
    "old-slab-without-film": _old_slab_without_film,
    "no-capillary-break": _no_capillary_break,
    "frozen-with-film-above": _frozen_with_film_above,
    "frozen-without-film": _frozen_without_film,
    "foil-in-concrete": _foil_in_concrete,
    "foam-in-water": _foam_in_water,
    "air-below-slab": _air_below_slab,
    "coating-over-damp": _coating_over_damp,
}
