"""An R-value that a layer must bring: read as the brief's system has it, and what is chosen to reach it."""

from __future__ import annotations

from .. import measure
from ..catalogue.records import Board
from ..catalogue.thickness import Laid, made_in, most_layers, stack, thinner, thinnest
from ..measure import Measure, System, say
from ..mistakes import Mistake
from .resolved import Wanted


def wanted_of(r: Measure | None, path: str, system: System) -> Wanted | None:
    """An R that is wanted of a layer whose thickness is given. Raises Mistake where a bare R could mean two things."""
    if r is None:
        return None
    si, words = _read(r, path, system)
    return Wanted(si, words, path)


def chosen(board: Board, r: Measure, path: str, system: System) -> tuple[Laid, Wanted]:
    """The thinnest of a board that reaches an R as labelled, one layer before several.

    Raises
    ------
    Mistake
        A bare R that could mean two things; a board without a label; an R beyond any stack, with what can be had.
    """
    wanted, words = _read(r, path, system)
    made = made_in(board, system)
    if not made:
        wrong = f"No thickness of {board.label} has an R-value as labelled, so none can be chosen by R."
        raise Mistake(path, f'"{r.typed}"', wrong, 'Write its thickness in the place of r: thickness = "2 in".')
    most = most_layers()
    laid = thinnest(made, wanted, most)
    if laid is None:
        best = Laid((made[-1],) * most)
        had = f"{most} layers of {best.layers[0].typed} have {say.both(best.r_label, 'm²·K/W', system)} as labelled."
        wrong = f"{board.label} does not reach {words}, laid up to {most} layers thick."
        raise Mistake(path, f'"{r.typed}"', wrong, f"The most it has: {had}")
    less = thinner(made, laid)
    several = stack(made, wanted, most) if len(laid.layers) == 1 else None
    saves = several is not None and several.thickness < laid.thickness - 1e-6
    return laid, Wanted(
        wanted,
        words,
        path,
        tuple(each.typed for each in laid.layers),
        less.typed if less else "",
        less.r_label if less else 0.0,
        several.typed if several is not None and saves else "",
    )


def _read(r: Measure, path: str, system: System) -> tuple[float, str]:
    """The R in SI, a bare one read as the brief's system has it, and its words."""
    try:
        found = measure.resistance(r.typed, system)
    except Mistake as mistake:
        raise mistake.placed(at=path) from None
    return found.si, say.typed(found, "m²·K/W", system)
