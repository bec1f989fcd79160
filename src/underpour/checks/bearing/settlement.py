"""How far a slab on foam settles under a load: when it comes, and after decades of creep."""

from __future__ import annotations

from collections.abc import Iterator

from ... import catalogue
from ...catalogue.records import Quantity
from ...findings import Finding, Step
from ...measure.digits import fixed
from ...resolve import Resolved
from .bed import Bed, bed
from .carried import Carried
from .foam import PLATE, unit_said
from .plates import plate_under

ID, TITLE = "bearing.settlement", "Settlement of the slab under a load"


def most() -> Quantity:
    """How far the floor may go down below a load. [m]"""
    return catalogue.of_slabs("settlement-most")


def value_of(resolved: Resolved, found: Carried, lies: Bed) -> tuple[float, float]:
    """Settlement under a load on the soft end of a bed, and by how much it may be off. [m]"""
    if found.plates is None:
        return found.pressure / lies.soft, 0.0
    plate = plate_under(resolved, found.support, found.load, lies.soft)
    assert plate is not None  # it stood on the other bed
    return plate.felt.settlement, plate.felt.within * plate.felt.settlement


def of(resolved: Resolved, found: Carried) -> Iterator[Finding]:
    """Settlement under one load when it comes, and, where it stands for good, after fifty years, against an inch.

    Asks
        How far does the floor go down below this load?
    Why
        Beside a rigid footing or below a wall line a floor that goes down cracks its finish and opens its joint.
    Worked out
        The plate on springs: foam as it is under what comes and goes, and as it is after decades. The softest that it
        may be counts. The floor's own weight has settled before. It is held to the inch of footings that stand each by
        itself; how far it may tilt or step beside its neighbours is held apart.
    Holds for
        Concrete that has not cracked; the ground's own settlement over the years is not in it.
    Source
        Westergaard 1926, Wyman 1950; creep by the board's records, or by the rule of EN 13163; Terzaghi and Peck 1948
        for how far it may go down.
    """
    yield _stated(resolved, found, bed(found.support, standing=False) if found.load.standing else found.bed, "now")
    if not found.load.standing:
        return
    if found.bed.years:
        yield _stated(resolved, found, found.bed, "50 years")
        return
    if not found.support.boards:
        return
    board = next(each for each in found.support.boards if each.standing is None)
    record = board.slice.record
    assert record is not None
    words = (
        f"How far {record.label} creeps in decades is not known. Ask the maker for a creep test by EN 1606, and put it "
        f'in a catalogue beside the brief, or write modulus-for-good = {{ {record.key} = "400 psi" }} in [foam].'
    )
    at: dict[str, str | float] = {"load": found.load.number, "after": "50 years"}
    yield Finding(ID, TITLE, None, "mm", at=at, missing=f"foam.modulus-for-good.{record.key}", words=words)


def _said(found: Carried) -> str:
    return found.load.words if found.load.place == "everywhere" else f"{found.load.words}, {found.where}"


def _stated(resolved: Resolved, found: Carried, lies: Bed, after: str) -> Finding:
    value, within = value_of(resolved, found, lies)
    limit = most()
    when = "when it comes" if after == "now" else "after fifty years, creep counted in"
    return Finding(
        ID,
        TITLE,
        1000.0 * value,
        "mm",
        at={"load": found.load.number, "after": after},
        within=1000.0 * within,
        limit=1000.0 * limit.value,
        sense="at most",
        basis=(PLATE, limit.basis(), *lies.basis),
        rests_on=(found.load.path, *found.support.concrete.paths, *lies.rests_on, limit.path),
        steps=(*lies.steps, Step("w", "on the softest bed", "", f"{fixed(1000.0 * value, 2)} mm")),
        words=f"{_said(found)}: the floor goes down {unit_said(found, value)} {when}.",
    )
