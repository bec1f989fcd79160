"""What of a floor's heat is harmful and what useful, month by month: columns up and down from one line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from ..dossier import Answer
from ..measure import say
from ..measure.digits import fixed
from ..measure.table import System
from . import colours
from .lettering import LETTER
from .paper import FINE, HAIR, letters, line, rectangle

UP, DOWN = 9.0, 9.0  # mm, the most that a column reaches
BROAD = 3.4  # mm
SMALLEST = 0.5  # kWh: less is no column


@dataclass(frozen=True, slots=True)
class Wanted:
    """A floor's year, a basement's wall counted in. [kWh]"""

    harmful: tuple[float, ...]
    useful: tuple[float, ...]

    @property
    def most(self) -> float:
        """Largest month."""
        return max(*self.harmful, *self.useful)


def wanted_of(answer: Answer) -> Wanted | None:
    """What the findings say; None where there is no room over the slab."""
    of = {
        flow: [f.months for f in answer.findings if f.id == "heat.loss-year" and f.at.get("flow") == flow and f.months]
        for flow in ("harmful", "useful")
    }
    if not of["harmful"] or not of["useful"]:
        return None
    harmful, useful = (tuple(sum(month) for month in zip(*each, strict=True)) for each in of.values())
    return Wanted(harmful, useful)


def columns(wanted: Wanted, most: float, middles: Sequence[float], top: float, end: float) -> tuple[str, float]:
    """Twelve columns about ``middles`` from ``top`` downwards, on the scale of ``most`` (kWh); and where they end. [mm]

    Harmful stands up, filled; useful hangs down, open; each with its kilowatt hours. Words stand right of ``end``.
    """
    if most < SMALLEST:
        return "", top
    base = top + LETTER + UP * max(wanted.harmful) / most + 0.6
    deep = DOWN * max(wanted.useful) / most
    ink, note = colours.light()["ink"], colours.light()["note"]
    drawn = [line(middles[0] - BROAD, base, end, base, HAIR, colour=colours.light()["rule"])]
    for x, harm, use in zip(middles, wanted.harmful, wanted.useful, strict=True):
        if harm >= SMALLEST:
            high = UP * harm / most
            drawn.append(rectangle(x - BROAD / 2, base - high, BROAD, high, ink))
            drawn.append(letters(x, base - high - 0.8, fixed(harm, 0), anchor="middle"))
        if use >= SMALLEST:
            low = base + DOWN * use / most
            corners = [(x - BROAD / 2, base), (x - BROAD / 2, low), (x + BROAD / 2, low), (x + BROAD / 2, base)]
            drawn += [line(*a, *b, FINE) for a, b in pairwise(corners)]
            drawn.append(letters(x, low + LETTER, fixed(use, 0), anchor="middle"))
    drawn.append(letters(end + 1.5, base - 1.0, "harmful", colour=note))
    drawn.append(letters(end + 1.5, base + LETTER, "useful", colour=note))
    return "".join(drawn), base + deep + 1.4 * LETTER


def columns_words(answers: Sequence[Answer], system: System) -> str:
    """What the columns are, and what each alternative's year comes to."""
    told = [(answer.name, wanted) for answer in answers if (wanted := wanted_of(answer)) is not None]
    if not told:
        return ""
    sums = "; ".join(
        f"{name} {say.value(sum(each.harmful), 'kWh', system)} harmful, {say.value(sum(each.useful), 'kWh', system)} "
        "useful"
        for name, each in told
    )
    walled = any(f.id == "heat.loss-year" and f.at.get("of") == "wall" for f in answers[0].findings)
    of = "floor and wall" if walled else "the whole floor"
    return (
        f"Columns: heat of {of} that goes against what the room wants in that month (harmful, filled, up) and "
        f"with it (useful, open, down), in kWh. Over the year: {sums}."
    )
