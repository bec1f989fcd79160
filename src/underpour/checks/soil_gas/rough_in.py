"""What codes and good practice ask of a rough-in, item by item, and when each is looked at."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from ...catalogue import of_soil_gas
from ...catalogue.rough_in import Item, looked_at, rough_in, where_adopted
from ...findings import Finding, Step
from ...measure import System, say
from ...resolve import Resolved
from ...resolve.soil_gas import AsTyped, ResolvedSoilGas

ID, TITLE = "soilgas.rough-in", "Items of a rough-in for soil gas that are laid otherwise than asked"
PRACTICE = "good-practice"
NOMINAL = 0.02  # 100 mm counts as 4 in and 75 mm as 3 in (common practice, no source)
LAID = ("rough-in", "passive", "fan")


@dataclass(frozen=True, slots=True)
class Told:
    """What a brief says of one item."""

    words: str
    holds: bool | None  # None where the brief does not say, or only the site shows it
    key: str = ""  # the key that would say it; "" where only the site shows it


def asked(resolved: Resolved, gas: ResolvedSoilGas) -> Iterator[Finding]:
    """What each edition asks of a rough-in, against what is laid.

    Asks
        Is everything laid that is asked before the pour, so that soil gas can be drawn off?
    Why
        What lies under a slab cannot be added later; a pipe, a pit and a box for the fan cost little before the pour.
    Worked out
        Each item of the edition's list against what the brief says. Items that only the site shows are listed for
        those who look at the works.
    Holds for
        What is laid. Whether suction reaches the far corner and how much radon stays, are other findings.
    Source
        The list's rows, each with its clause and how it was seen.
    """
    keys = [edition.key for edition in resolved.held.editions if rough_in(edition.key)]
    for key in keys or [PRACTICE]:
        yield _of_edition(resolved, gas, key)


def _of_edition(resolved: Resolved, gas: ResolvedSoilGas, key: str) -> Finding:
    items = rough_in(key)
    told = [(item, says(item, resolved, gas)) for item in items]
    short = [item for item, each in told if each.holds is False]
    unsaid = [each.key for _, each in told if each.holds is None and each.key]
    adopted = (
        " It stands in an appendix, which holds where the local code has adopted it." if where_adopted(key) else ""
    )
    steps = tuple(_step(item, each, resolved.system) for item, each in told)
    at: dict[str, str | float] = {"edition": key}
    bases = tuple(dict.fromkeys(item.basis for item in items))
    rests = tuple(dict.fromkeys(each.key for _, each in told if each.key))
    site = "Looked at on site: " + "; ".join(
        point.label[0].lower() + point.label[1:]
        for point in looked_at()
        if any(item.when == point.key for item in items)
    )
    if not gas.system:
        words = f"Nothing says what is laid: a capped pipe for later costs least before the pour.{adopted}"
        return Finding(
            ID, TITLE, None, "count", at=at, basis=bases, rests_on=rests, missing="soil-gas.system", words=words
        )
    if not short and unsaid:
        words = f"Nothing is laid otherwise than asked; {len(unsaid)} of {len(items)} are not told.{adopted} {site}."
        return Finding(
            ID,
            TITLE,
            None,
            "count",
            at=at,
            basis=bases,
            rests_on=rests,
            steps=steps,
            missing=unsaid[0],
            words=words,
        )
    otherwise = " ".join(wanted(item, resolved.system) for item in short)
    words = f"Otherwise than asked. Wanted: {otherwise}" if short else "Everything is laid as asked."
    return Finding(
        ID,
        TITLE,
        float(len(short)),
        "count",
        at=at,
        limit=0.0,
        sense="at most",
        basis=bases,
        rests_on=rests,
        steps=steps,
        words=f"{words}{adopted} {site}.",
    )


def says(item: Item, resolved: Resolved, gas: ResolvedSoilGas) -> Told:
    """What the brief says of an item."""
    return _READ[item.what](item, resolved, gas)


def _step(item: Item, told: Told, system: System) -> Step:
    result = {True: "as asked", False: "otherwise", None: "not told" if told.key else "seen on site"}[told.holds]
    return Step(item.what.replace("-", " "), wanted(item, system), told.words, result)


def wanted(item: Item, system: System) -> str:
    """What an item asks, with its numbers."""
    parts = []
    for number, word in ((item.least, "at least"), (item.most, "at most")):
        if number is not None:
            parts.append(f"{word} {say.both(number.value, number.unit, system)}")
    return f"{item.says[:-1]}: {', '.join(parts)}." if parts else item.says


def _held(item: Item, value: float | None, unit: str, key: str, system: System) -> Told:
    """A number of the brief against the item's."""
    if value is None:
        return Told("", None, key)
    low = item.least is None or value >= item.least.value * (1.0 - NOMINAL)
    high = item.most is None or value <= item.most.value * (1.0 + NOMINAL)
    return Told(say.both(value, unit, system), low and high, key)


def _number(
    of: Callable[[AsTyped], float | None], key: str, times: float = 1.0
) -> Callable[[Item, Resolved, ResolvedSoilGas], Told]:
    """A reader of one number that the brief types."""

    def read(item: Item, resolved: Resolved, gas: ResolvedSoilGas) -> Told:
        typed = of(gas.typed)
        number = item.least or item.most
        unit = number.unit if number is not None else "m"
        return _held(item, typed * times if typed is not None else None, unit, key, resolved.system)

    return read


def _flag(of: Callable[[AsTyped], bool | None], key: str) -> Callable[[Item, Resolved, ResolvedSoilGas], Told]:
    """A reader of one yes or no."""

    def read(item: Item, resolved: Resolved, gas: ResolvedSoilGas) -> Told:
        typed = of(gas.typed)
        return Told("" if typed is None else "yes" if typed else "no", typed, key)

    return read


def _stone(item: Item, resolved: Resolved, gas: ResolvedSoilGas) -> Told:
    if gas.panel is not None:
        return Told(f"{gas.panel.label} in its place: ask the building official", None)
    assert item.least is not None
    thick = gas.stone.thickness
    words = say.both(thick, "m", resolved.system) if thick else "none"
    return Told(words, thick >= item.least.value * (1.0 - NOMINAL), "floor.build-up")


def _stone_size(item: Item, resolved: Resolved, gas: ResolvedSoilGas) -> Told:
    if gas.panel is not None:
        return Told("panels in its place", None)
    return _held(item, gas.typed.stone_size, "m", "soil-gas.stone.size", resolved.system)


def _voids(item: Item, resolved: Resolved, gas: ResolvedSoilGas) -> Told:
    if gas.panel is not None:
        return Told("panels in its place", None)
    typed = gas.typed.voids
    return _held(item, typed * 100.0 if typed is not None else None, "%", "soil-gas.stone.voids", resolved.system)


def _fines(item: Item, resolved: Resolved, gas: ResolvedSoilGas) -> Told:
    share = gas.typed.fines
    return _held(item, share * 100.0 if share is not None else None, "%", "soil-gas.stone.fines", resolved.system)


def _film(item: Item, resolved: Resolved, gas: ResolvedSoilGas) -> Told:
    films = [layer.film for layer in resolved.floor if layer.film is not None]
    if not films:
        return Told("no film", False, "floor.build-up")
    thick = max(film.thickness for film in films) * 1000.0
    low = item.least is None or thick >= item.least.value * (1.0 - NOMINAL)
    return Told(say.both(thick, "mm", resolved.system), low, "floor.build-up")


def _suction(item: Item, resolved: Resolved, gas: ResolvedSoilGas) -> Told:
    if gas.system not in LAID:
        return Told("nothing is laid", False, "soil-gas.system")
    count = len(gas.suctions)
    return (
        Told("1 point" if count == 1 else f"{count} points", True, "soil-gas.suction")
        if count
        else Told("", None, "soil-gas.suction.1.at")
    )


def _pipe(item: Item, resolved: Resolved, gas: ResolvedSoilGas) -> Told:
    if gas.system not in LAID:
        return Told("nothing is laid", False, "soil-gas.system")
    return _held(item, gas.typed.pipe, "m", "soil-gas.pipe.size", resolved.system)


def _falls(item: Item, resolved: Resolved, gas: ResolvedSoilGas) -> Told:
    typed = gas.typed.falls
    return Told("back to the suction point" if typed else "", True if typed else None, "soil-gas.pipe.falls")


def _from_openings(item: Item, resolved: Resolved, gas: ResolvedSoilGas) -> Told:
    if gas.system == "rough-in" and gas.typed.from_openings is None:
        return Told("capped for now", None)
    above = gas.typed.above_openings
    if above is not None and above >= of_soil_gas("asked.above-openings").value:
        return Told(f"{say.both(above, 'm', resolved.system)} above it", True, "soil-gas.outlet.above-openings")
    return _held(item, gas.typed.from_openings, "m", "soil-gas.outlet.from-openings", resolved.system)


def _above_roof(item: Item, resolved: Resolved, gas: ResolvedSoilGas) -> Told:
    if gas.system == "rough-in" and gas.typed.above_roof is None:
        return Told("capped for now", None)
    return _held(item, gas.typed.above_roof, "m", "soil-gas.outlet.above-roof", resolved.system)


def _sealing(item: Item, resolved: Resolved, gas: ResolvedSoilGas) -> Told:
    if gas.sealed is None:
        return Told("", None, "soil-gas.sealed")
    left = [key.replace("-", " ") for key in item.asks if key not in gas.sealed]
    return Told(f"open: {', '.join(left)}" if left else "sealed", not left, "soil-gas.sealed")


def _on_site(item: Item, resolved: Resolved, gas: ResolvedSoilGas) -> Told:
    return Told("", None)


_READ: dict[str, Callable[[Item, Resolved, ResolvedSoilGas], Told]] = {
    "stone": _stone,
    "stone-size": _stone_size,
    "voids": _voids,
    "fines": _fines,
    "film": _film,
    "lap": _on_site,
    "cap": _on_site,
    "suction": _suction,
    "pit-depth": _number(lambda typed: typed.pit_depth, "soil-gas.suction.1.pit-depth"),
    "pit-radius": _number(lambda typed: typed.pit_width, "soil-gas.suction.1.pit", times=0.5),
    "pipe": _pipe,
    "falls": _falls,
    "above-roof": _above_roof,
    "from-openings": _from_openings,
    "label": _flag(lambda typed: typed.labelled, "soil-gas.pipe.labelled"),
    "power": _flag(lambda typed: typed.power, "soil-gas.pipe.power"),
    "sealing": _sealing,
}
