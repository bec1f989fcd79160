"""Where the film lies in a floor on foam: both schools side by side, with what each costs and which case decides."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from .. import catalogue
from ..findings import Basis, Finding, Step
from ..measure import say
from ..measure.digits import fixed
from ..physics.moisture.drying import diffusivity, drying_time
from ..resolve import Resolved, Slice
from .drying import A_DAY, KILO

ID = "moisture.film-place"
POURED = ("concrete", "screed")
LITTLE = 80.0  # %: a covering that bears no more wants no water below the slab
USUAL_AIR = 0.50
ACI = Basis("ACI 302.1R", "since 2001: the slab right on the film below coverings and dry rooms", "memory")
PRACTICE = Basis("common practice, no source", "where the film lies in a floor on foam", "practice")
MILLI = 1e3  # mm in a metre


def both(resolved: Resolved) -> Iterator[Finding]:
    """Both places that a film may have in this floor, where a slab lies on foam and a film is laid.

    Asks
        Does the film belong above the foam or below it, and what does either place cost?
    Why
        Two schools teach it two ways, and each is right for some floors.
    Worked out
        Water that may stay between slab and film: none where the film lies right below the slab; what the boards take
        up in the immersion test where they lie on it. Time to dry and the film's price stand in the steps.
    Holds for
        A new slab on foam with one film. Over an old slab the film lies on that, and another finding says why.
    Source
        ACI 302.1R for the slab on the film (from memory); the rest common practice, no source.
    """
    lowest = max((n for n, layer in enumerate(resolved.floor) if layer.kind in POURED), default=-1)
    below = resolved.floor[lowest + 1 :]
    boards = [layer for layer in below if layer.kind == "board"]
    films = [layer for layer in below if layer.film is not None]
    if lowest < 0 or resolved.on_old_slab or not boards or not films:
        return
    laid = "above" if below.index(films[0]) < below.index(boards[0]) else "below"
    wants, why = decided(resolved)
    for key, place in _schools()["place"].items():
        water = MILLI * sum(map(_taken_up, boards)) if key == "below" else 0.0
        yield Finding(
            ID,
            f"Film {place['name']}: water that may stay between slab and film",
            water,
            "mm",
            at={"film": f"{key} the foam"},
            basis=(ACI, PRACTICE),
            rests_on=tuple(dict.fromkeys([*(path for each in boards for path in each.rests_on), films[0].path])),
            steps=tuple(_steps(resolved, water, films[0], lowest)),
            words=_words(key, place, laid, wants, why, water, resolved),
        )


def decided(resolved: Resolved) -> tuple[str, str]:
    """Which place the first case that holds asks for, "" for either, and why."""
    row = next(case for case in _schools()["case"] if CASES[case["key"]](resolved))
    return row["place"], row["why"]


def _damp_hurts(resolved: Resolved) -> bool:
    covering = resolved.floor[0].covering
    return covering is not None and covering.slab_humidity.value <= LITTLE


CASES: Mapping[str, Callable[[Resolved], bool]] = {
    "frozen": lambda resolved: resolved.use.cold_floor,
    "flood": lambda resolved: resolved.around.flood is not None,
    "covering": _damp_hurts,
    "tube": lambda resolved: resolved.held.heated,
    "either": lambda resolved: True,
}


def _taken_up(board: Slice) -> float:
    """Water that a board takes up in the immersion test, over its thickness. [m]"""
    wetting = board.record.wetting if board.record is not None else None
    return wetting.water.value * board.thickness if wetting is not None else 0.0


def _steps(resolved: Resolved, water: float, film: Slice, lowest: int) -> Iterator[Step]:
    yield Step("wet foam", "water that the boards on the film take up", "", f"{fixed(water, 1)} mm")
    covering = resolved.floor[0].covering
    if covering is not None:
        layer = resolved.floor[lowest]
        strength = resolved.concrete_strength or catalogue.of_slabs("untested-strength").value * KILO
        limit = covering.slab_humidity.value
        days = drying_time(layer.thickness, diffusivity(strength), USUAL_AIR, limit / 100.0) / A_DAY
        said = f"{days:.0f} d" if days < 3650.0 else "not in ten years"
        yield Step("drying", f"upwards only, in both places, until {limit:.0f} %", layer.words, said)
    price = _price(resolved, film)
    if price:
        yield Step("price", "of the film, the same in both places", film.label, price)


def _price(resolved: Resolved, film: Slice) -> str:
    """The film's price with its day; "" where it has none."""
    if not resolved.products.has(film.key):
        return ""
    product = resolved.products.product(film.key)
    price = next((made.price for made in product.made if made.price), product.price)
    priced = product.priced or resolved.products.line_of(film.key).line.priced
    return f"{price}, {priced.isoformat()}" if price and priced else ""


def _words(
    key: str, place: Mapping[str, str], laid: str, wants: str, why: str, water: float, resolved: Resolved
) -> str:
    here = "As laid here. " if key == laid else "The other place. "
    amount = say.value(water, "mm", resolved.system)
    wet = f"On it the boards take up as much as {amount} of rain and bleed water, which leave only through the slab. "
    costs = f"{wet if water else ''}{place['bleed']} {place['curling']} {place['puncture']}"
    verdict = f"Here {why}." if not wants else f"This is the place for this floor: {why}." if wants == key else ""
    return f"{here}{place['for']} What it costs: {costs} {verdict}".strip()


@cache
def _schools() -> Mapping[str, Any]:
    return tomllib.loads((files(__package__) / "film_places.toml").read_text(encoding="utf-8"))
