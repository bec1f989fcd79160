"""What closes the film around pipes, posts and columns: boots, tape, mastic."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from math import ceil, pi

from ..catalogue.estimating import estimating
from ..catalogue.line import Product
from ..measure import say
from ..resolve import Resolved
from .belonging import by_roll, of_record
from .prices import NO_PRODUCT
from .records import Item

LAID = ("rough-in", "passive", "fan")


def through(resolved: Resolved) -> Iterator[Item]:
    """Boots for what is round, patches for the rest, tape for both and mastic, for each film.

    Arguments
    ---------
    resolved
        The brief in numbers.
    """
    for layer in resolved.laid:
        if layer.kind != "vapour-retarder":
            continue
        round_, others = _round(resolved), _others(resolved)
        lengths = [*(pi * each for each in round_), *others]
        if not lengths:
            continue
        for size, count in sorted(Counter(round(each, 4) for each in round_).items()):
            of = f"boot{'s' if count > 1 else ''} for {say.both(size, 'm', resolved.system)}"
            why = "One for each round thing that goes through the film; cut to fit, drawn over, taped."
            yield Item("Boots of the film", layer.path, "", count, "count", count, of, count, why, unpriced=NO_PRODUCT)
        if others:
            count = len(others)
            of = f"patch{'es' if count > 1 else ''} cut from the film"
            why = "One for each column, post or pit that is not round: offcuts do."
            yield Item(
                "Patches of film", layer.path, "", count, "count", count, of, count, why, unpriced="they are offcuts"
            )
        record = resolved.products.product(layer.key) if resolved.products.has(layer.key) else None
        yield _tape(resolved, of_record(resolved, record, "pipes"), layer.path, lengths)
        each = estimating("tape", "cartridge").value
        number = ceil(sum(lengths) / each)
        of = f"cartridge{'s' if number > 1 else ''} of 0.3 l"
        why = (
            f"{say.both(sum(lengths), 'm', resolved.system)} around what goes through, a bead of 10 mm below the tape."
        )
        yield Item("Mastic", layer.path, "", number, "count", number, of, number, why, unpriced=NO_PRODUCT)


def _tape(resolved: Resolved, tape: Product | None, path: str, lengths: list[float]) -> Item:
    times = estimating("tape", "boot").value
    net = times * sum(lengths)
    why = f"{len(lengths)} place{'s' if len(lengths) > 1 else ''}, {times:.0f} times round each: collar and skirt."
    if tape is not None:
        return by_roll(resolved, tape, tape.name, f"{path}, around what goes through", net, why)
    what = "Tape around what goes through"
    return Item(what, path, "", net, "m", None, "", net, why, unpriced=NO_PRODUCT, kind="tape")


def _round(resolved: Resolved) -> list[float]:
    """Diameters of what is round, the soil-gas pipe too. [m]"""
    gas = resolved.soil_gas
    risers = [gas.pipe.size] if gas and gas.pipe and gas.system in LAID else []
    return [*(each.size[0] for each in resolved.plan.floor.obstacles if each.circle), *risers]


def _others(resolved: Resolved) -> list[float]:
    """Outlines of what is not. [m]"""
    return [each.outline.length for each in resolved.plan.floor.obstacles if not each.circle]
