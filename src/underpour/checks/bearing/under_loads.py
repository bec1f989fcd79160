"""Each load on the slab, one after another: what foam, ground and concrete feel of it, and which of them governs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...findings import Finding
from ...resolve import Resolved, ResolvedLoad, Support
from . import anchors, anywhere, bare_foam, bending, even, foam, grades, punching, settlement, sliding, soil, thicker
from .bed import bed, unknown
from .carried import Carried, carried, governs
from .on_the_plan import on_the_plan
from .plates import by_itself, plate_under

UNTOLD = {
    "plate": ("what it stands on", 'plate = "6 in x 6 in"', "plate"),
    "tyre": ("the pressure of its tyres", 'tyre = "100 psi"', "tyre"),
}


def under_loads(resolved: Resolved) -> Iterator[Finding]:
    """What every load on the slab does to foam, ground and concrete, in the order of the brief."""
    support = resolved.support
    if support is None:
        return
    shears: list[Finding] = []
    for load in resolved.loads:
        if load.before_pour:
            yield bare_foam.before_the_pour(resolved, support, load)
        elif (missing := _missing(support, load)) is not None:
            yield from _untold(support, load, *missing)
        elif load.place == "everywhere":
            yield from _even(resolved, support, load)
        else:
            told = list(_patches(resolved, support, load))
            shears += [each for each in told if each.id == punching.ID and load.place == "plan"]
            yield from told
            yield from anywhere.at_worst(resolved, support, load)
        yield from anchors.drilled(resolved, support, load)
    yield from on_the_plan(resolved, support, shears)
    yield from sliding.pushed(resolved, support)


def beside_loads(resolved: Resolved) -> Iterator[Finding]:
    """What is told beside those findings and has no limit: the least foam for each load, what more concrete buys."""
    support = resolved.support
    if support is None:
        return
    for load in resolved.loads:
        if load.before_pour or _missing(support, load) is not None:
            continue
        trials = None if load.place == "everywhere" else grades.PlateTrials(resolved, support, load)
        if trials is None or trials.as_laid is not None:  # else it tips the slab up, as its other findings say
            yield from grades.least(resolved, load, trials)
            yield from thicker.an_inch_more(resolved, load, trials)
        yield from anywhere.by_hand(resolved, support, load)
    if resolved.loads:
        yield from bare_foam.takes(resolved, support)


def _even(resolved: Resolved, support: Support, load: ResolvedLoad) -> Iterator[Finding]:
    found = carried(resolved, support, load, bed(support, load.standing), None)
    yield foam.straight_through(resolved, found)
    yield soil.straight_through(resolved, found)
    yield even.aisle(resolved, found)
    yield from settlement.of(resolved, found)


def _patches(resolved: Resolved, support: Support, load: ResolvedLoad) -> Iterator[Finding]:
    lies = bed(support, load.standing)
    plates = tuple(plate_under(resolved, support, load, k) for k in (lies.soft, lies.stiff))
    if plates[0] is None or plates[1] is None:
        yield from _turned_over(support, load)
        return
    found = carried(resolved, support, load, lies, (plates[0], plates[1]))
    yield from _in_turn(resolved, found)


def _in_turn(resolved: Resolved, found: Carried) -> Iterator[Finding]:
    if by_itself(resolved, found.load):
        yield from (_as_a_check(each) for each in _each_way(resolved, found))
    else:
        yield from _each_way(resolved, found)


def _as_a_check(finding: Finding) -> Finding:
    """A load by itself where the plate of the plan has it with all others: told, and held to no limit."""
    if finding.limit is None or finding.id == punching.ID:
        return finding
    at = {**finding.at, "method": "endless"} if finding.at.get("method") == "plate" else finding.at
    words = (
        f"{finding.words} Held to no limit here: by itself, on a slab without edges and joints; with all that stands "
        "on the plan it is held as one plate."
    )
    return replace(finding, at=at, limit=None, sense=None, words=words)


def _each_way(resolved: Resolved, found: Carried) -> Iterator[Finding]:
    said = governs(found, _beside(resolved, found))
    yield foam.by_plate(resolved, found, said)
    if found.support.boards:
        yield foam.by_spread(resolved, found)
    yield soil.by_plate(resolved, found)
    yield bending.by_plate(resolved, found, said)
    yield from bending.by_hand(resolved, found)
    yield punching.by_code(resolved, found)
    yield from settlement.of(resolved, found)


def _beside(resolved: Resolved, found: Carried) -> dict[str, float]:
    """What else is used of what may be: the concrete's shear round what presses, and how far the floor may go down."""
    settled, _ = settlement.value_of(resolved, found, found.bed)
    shares = {"the settlement": settled / settlement.most().value}
    shear = punching.worst(resolved, found)
    return shares if shear is None else {**shares, "the concrete's shear": shear[0] / shear[1]}


def _missing(support: Support, load: ResolvedLoad) -> tuple[str, str] | None:
    """The one key that a load cannot be answered without, and what to say of it."""
    if load.missing:
        what, example, _ = UNTOLD[load.missing.rpartition(".")[2]]
        return load.missing, f"{load.words}: the brief does not say {what}. Write {example} in this [[load]]."
    board = unknown(support, load.standing)
    if board is None:
        return None
    record = board.slice.record
    assert record is not None
    words = (
        f"Nothing is known of how stiff {record.label} is. Ask the maker for its compressive modulus by ASTM D1621 or "
        f'EN 826, and write modulus = {{ {record.key} = "1000 psi" }} in [foam].'
    )
    return f"foam.modulus.{record.key}", words


def _untold(support: Support, load: ResolvedLoad, missing: str, words: str) -> Iterator[Finding]:
    first = foam.LONG if load.standing else foam.SHORT
    for kind, title, method in (
        (first, foam.TITLES[first], "plate"),
        (soil.ID, soil.TITLE, "plate"),
        (bending.ID, bending.TITLE, "plate"),
        (punching.ID, punching.TITLE, punching.code(support)),
    ):
        at: dict[str, str | float] = {"load": load.number, "method": method}
        yield Finding(kind, title, None, "kPa", at=at, missing=missing, words=words, rests_on=load.rests_on)


def _turned_over(support: Support, load: ResolvedLoad) -> Iterator[Finding]:
    words = f"{load.words}: it would tip this slab up, or reaches beside it. Write where it stands, or a larger slab."
    yield from _untold(support, load, f"{load.path}.at", words)
