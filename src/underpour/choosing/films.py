"""Which films of the catalogue would meet below this floor: no foam hangs on them, so they stand beside the choice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ..brief.tables.foam import FoamTable
from ..brief.tables.layer import Layer
from ..catalogue.records import Retarder
from ..checks import compatibility, film
from ..checks.code import floor as code_floor
from ..findings import Finding
from ..resolve import Resolved, Slice
from ..resolve.assumptions import Assumptions
from ..resolve.foams import Foams
from ..resolve.layers import layer_slice
from .records import Film

OPEN = ("falls short", "cannot tell")


def films(resolved: Resolved, typed: FoamTable) -> tuple[str, tuple[Film, ...]]:
    """What is open about the film as briefed, in words, and the products that would settle it; empty if nothing is."""
    foams = Foams(resolved.products, typed, Assumptions(None))
    lies = next((n for n, layer in enumerate(resolved.floor) if layer.kind == "vapour-retarder"), None)
    if lies is None:
        return "", ()
    now = [each for each in _of_film(resolved) if each.verdict in OPEN]
    if not now:
        return "", ()
    told = tuple(_that_settle(resolved, lies, foams))
    return f"{now[0].title}: {now[0].verdict}", told


def _that_settle(resolved: Resolved, at: int, foams: Foams) -> Iterator[Film]:
    for each in resolved.products.retarders():
        if not each.maker:
            continue  # a kind of film is what leaves it open
        other = _with(resolved, at, each, foams)
        if all(finding.verdict not in OPEN for finding in _of_film(other)):
            yield Film(each.key, each.label)


def _with(resolved: Resolved, at: int, retarder: Retarder, foams: Foams) -> Resolved:
    old: Slice = resolved.floor[at]
    layer = Layer.model_validate({"vapour-retarder": retarder.key})
    made = layer_slice(layer, old.path.rpartition(".")[0], resolved.system, foams)
    floor: Sequence[Slice] = (*resolved.floor[:at], replace(made, seams=old.seams), *resolved.floor[at + 1 :])
    return replace(resolved, floor=tuple(floor))


def _of_film(resolved: Resolved) -> Iterator[Finding]:
    yield from film.of_floor(resolved)
    yield from compatibility.foams(resolved)
    for edition in resolved.held.editions:
        yield from code_floor.film(resolved, edition)
