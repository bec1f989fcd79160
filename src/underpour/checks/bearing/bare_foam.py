"""Before the pour: what rolls over the bare foam, or is set down on it."""

from __future__ import annotations

from ... import catalogue
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


def _sheets(resolved: Resolved, support: Support, load: ResolvedLoad, allowed: float) -> tuple[str, tuple[Step, ...]]:
    """How many sheets of plywood bring the pressure down far enough."""
    if unknown(support, standing=False) is not None or not load.patches:
        return " Keep it off the foam.", ()
    wood, sheet = catalogue.of_slabs("plywood-modulus"), catalogue.of_slabs("plywood-thickness")
    stiff = bed(support, standing=False).stiff
    pressed = tuple(Pressed(patch.outline, patch.pressure) for patch in load.patches)
    thick = say.both(sheet.value, "m", resolved.system)
    for count in range(1, MOST_SHEETS + 1):
        found = felt.endless(pressed, sheet.value, wood.value * KILO * count, 0.0, stiff)
        if found.pressure <= allowed:
            sheets = "one sheet" if count == 1 else f"{count} sheets on one another"
            step = Step(
                "p_wood",
                f"a plate of plywood {thick}, E {fixed(wood.value / 1e6, 1)} GPa, on the foam",
                f"{count} loose",
                f"{fixed(found.pressure / KILO, 1)} kPa",
            )
            under = say.both(found.pressure / KILO, "kPa", resolved.system)
            return f" Lay plywood where it goes, {sheets} of {thick}: then the foam feels {under}.", (step,)
    return f" {MOST_SHEETS} sheets of plywood do not help enough: keep it off the foam.", ()
