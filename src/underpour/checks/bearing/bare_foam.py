"""Before the pour: what rolls over the bare foam, or is set down on it."""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt

from ... import catalogue
from ...catalogue.records import NamedLoad
from ...findings import Basis, Finding, Step
from ...measure import say
from ...measure.digits import fixed
from ...physics.plates import felt
from ...physics.plates.slab import Pressed
from ...resolve import Resolved, ResolvedLoad, Support
from .bed import bed, unknown
from .foam import SHORT
from .limits import KILO, while_laid

TITLE = "Pressure on the bare foam, before the pour"
BARE, BARE_TITLE = "bearing.bare-foam", "What bare foam takes while it is laid"
MOST_SHEETS = 4


def before_the_pour(resolved: Resolved, support: Support, load: ResolvedLoad) -> Finding:
    """Pressure of a wheel, a foot or a stack on bare foam against what the foam takes while it is laid.

    Asks
        May this roll over the foam, or stand on it, before the slab is there?
    Why
        Without a slab a tyre presses with its own pressure: it leaves ruts that no concrete fills evenly.
    Worked out
        The pressure of tyre or plate itself. Where that is too much, sheets of plywood as a plate on the foam's
        springs, loose on one another, until few enough carry it.
    Holds for
        Foam on an even, compacted bed. Wheels that turn on the spot, and edges of boards that rock, are worse.
    Source
        Equilibrium; the board's strength and the share that load tables let roll over it; Westergaard and Wyman for
        the plywood.
    """
    at: dict[str, str | float] = {"load": load.number, "method": "bare foam"}
    if not support.boards:
        words = f"{load.words}: no foam lies below this slab."
        return Finding(SHORT, TITLE, None, "kPa", at=at, no_limit="does not apply", words=words)
    if load.missing:
        key = load.missing.rpartition(".")[2]
        what = "the pressure of its tyres" if key == "tyre" else "what it stands on"
        example = '"100 psi"' if key == "tyre" else '"6 in x 6 in"'
        words = f"{load.words}: the brief does not say {what}. Write {key} = {example} in this [[load]]."
        return Finding(SHORT, TITLE, None, "kPa", at=at, missing=load.missing, words=words)
    board = support.boards[0]
    record = board.slice.record
    assert record is not None  # foam is always of a board
    allowed = while_laid(record, resolved.for_good)
    if allowed is None:
        words = f'What {record.label} bears is not known. Write long-term-stress = {{ {record.key} = "8 psi" }}.'
        missing = f"foam.long-term-stress.{record.key}"
        return Finding(SHORT, TITLE, None, "kPa", at=at, missing=missing, words=words)
    pressure = load.pressure or max(patch.pressure for patch in load.patches)
    said = say.both(pressure / KILO, "kPa", resolved.system)
    bears = say.both(allowed.stress / KILO, "kPa", resolved.system)
    mend, steps = _sheets(resolved, support, load, allowed.stress) if pressure > allowed.stress else ("", ())
    return Finding(
        SHORT,
        TITLE,
        pressure / KILO,
        "kPa",
        at=at,
        within=0.0,
        limit=allowed.stress / KILO,
        sense="at most",
        basis=(Basis("a tyre presses with its own pressure", "equilibrium", "derived"), *allowed.basis),
        rests_on=(load.path, board.slice.path, *allowed.rests_on),
        steps=(Step("p", "tyre, or force / plate", "", f"{fixed(pressure / KILO, 1)} kPa"), *allowed.typed, *steps),
        words=f"{load.words}: bare foam feels {said} of it, and takes {bears} while it is laid.{mend}",
    )


def takes(resolved: Resolved, support: Support) -> Iterator[Finding]:
    """What bare foam takes while it is laid, and which of the usual things of a pour may go on it.

    Asks
        What may roll over the boards, or stand on them, before the concrete is there?
    Why
        Whoever pours decides it on the day, and ruts in foam are never filled evenly.
    Worked out
        The pressure of each usual tyre, foot or stack against what the foam takes a few times; where it is too much,
        sheets of plywood as a plate on the foam's springs, as for a load before the pour that the brief names.
    Holds for
        Foam on an even, compacted bed, and usual machines: the machine's own papers go before them.
    Source
        As ``before_the_pour``; the usual loads of the catalogue.
    """
    if not support.boards:
        return
    board = support.boards[0]
    record = board.slice.record
    assert record is not None  # foam is always of a board
    allowed = while_laid(record, resolved.for_good)
    if allowed is None or unknown(support, standing=False) is not None:
        return
    usual = [each for each in catalogue.named_loads() if each.kind == "before-pour"]
    sheets = {each.key: _sheets_for(support, (_one_wheel(each),), allowed.stress) for each in usual}
    groups: dict[int | None, list[NamedLoad]] = {}
    for each in usual:
        groups.setdefault(sheets[each.key], []).append(each)
    bears = say.both(allowed.stress / KILO, "kPa", resolved.system)
    words = [f"{record.label} takes {bears} bare, a few times while it is laid."]
    for count in sorted(groups, key=lambda n: MOST_SHEETS + 1 if n is None else n):
        names = "; ".join(each.label for each in groups[count])
        words.append(f"{_under(count)}: {names}.")
    yield Finding(
        BARE,
        BARE_TITLE,
        allowed.stress / KILO,
        "kPa",
        within=0.0,
        basis=allowed.basis,
        rests_on=(board.slice.path, *allowed.rests_on),
        steps=(*allowed.typed, *(_step(each, sheets[each.key]) for each in usual)),
        words=" ".join(words),
    )


def _under(count: int | None) -> str:
    if count is None:
        return "Keep off the foam, plywood or not"
    if count == 0:
        return "May go on it as it is"
    return "Only on one sheet of plywood" if count == 1 else f"Only on {count} sheets of plywood"


def _step(load: NamedLoad, count: int | None) -> Step:
    pressed = _one_wheel(load)
    result = "off the foam" if count is None else "as it is" if count == 0 else f"plywood, {count} loose"
    return Step("p", load.label, f"{fixed(pressed.pressure / KILO, 1)} kPa", result)


def _one_wheel(load: NamedLoad) -> Pressed:
    """One wheel, foot or bearer as a square with the pressure that it has."""
    assert load.force is not None, load.key
    force = load.force.value / (load.wheels.value if load.wheels else 1.0)
    if load.tyre is not None:
        side = sqrt(force / (load.tyre.value * KILO))
    else:
        assert load.plate is not None, load.key
        side = load.plate.value
    half = side / 2.0
    return Pressed(((-half, -half), (half, -half), (half, half), (-half, half)), force / side**2)


def _sheets_for(support: Support, pressed: tuple[Pressed, ...], allowed: float) -> int | None:
    """How many loose sheets of plywood carry it, none counted as nought; None where too many would be asked for."""
    if max(each.pressure for each in pressed) <= allowed:
        return 0
    found = (count for count, felt_by in _under_sheets(support, pressed) if felt_by <= allowed)
    return next(found, None)


def _under_sheets(support: Support, pressed: tuple[Pressed, ...]) -> Iterator[tuple[int, float]]:
    """Pressure on the foam below one sheet, two and so on. [Pa]"""
    wood, sheet = catalogue.of_slabs("plywood-modulus"), catalogue.of_slabs("plywood-thickness")
    stiff = bed(support, standing=False).stiff
    for count in range(1, MOST_SHEETS + 1):
        found = felt.endless(pressed, sheet.value, wood.value * KILO * count, 0.0, stiff)
        yield count, found.pressure


def _sheets(resolved: Resolved, support: Support, load: ResolvedLoad, allowed: float) -> tuple[str, tuple[Step, ...]]:
    """How many sheets of plywood bring the pressure down far enough."""
    if unknown(support, standing=False) is not None or not load.patches:
        return " Keep it off the foam.", ()
    wood, sheet = catalogue.of_slabs("plywood-modulus"), catalogue.of_slabs("plywood-thickness")
    pressed = tuple(Pressed(patch.outline, patch.pressure) for patch in load.patches)
    thick = say.both(sheet.value, "m", resolved.system)
    for count, felt_by in _under_sheets(support, pressed):
        if felt_by <= allowed:
            sheets = "one sheet" if count == 1 else f"{count} sheets on one another"
            step = Step(
                "p_wood",
                f"a plate of plywood {thick}, E {fixed(wood.value / 1e6, 1)} GPa, on the foam",
                f"{count} loose",
                f"{fixed(felt_by / KILO, 1)} kPa",
            )
            under = say.both(felt_by / KILO, "kPa", resolved.system)
            return f" Lay plywood where it goes, {sheets} of {thick}: then the foam feels {under}.", (step,)
    return f" {MOST_SHEETS} sheets of plywood do not help enough: keep it off the foam.", ()
