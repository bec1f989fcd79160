"""The plan of a brief, drawn and changed by one act at a time."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Body

from ...brief.replanned import Act, replanned, usual_step
from ...brief.replanned.acts import Words
from ...mistakes import Mistakes
from ..planned import DrawnPlan, MistakeTold, act_words, drawn, mistakes_of, told
from .given import BriefText

plans = APIRouter(prefix="/api", tags=["plan"])


@dataclass(frozen=True, slots=True)
class PlanAnswer:
    """The brief with its plan changed, what is wrong with the plan now, and the plan to be drawn."""

    brief: str
    done: bool  # the act was done; if not, the mistakes say why, and the brief is as it was sent
    words: str  # what was done, to be read aloud
    mistakes: tuple[MistakeTold, ...]
    drawn: DrawnPlan | None  # None where the brief's text cannot be read


@plans.post("/plan")
def plan(
    brief: Annotated[BriefText, Body()],
    act: Annotated[Act | None, Body()] = None,
    step: Annotated[str, Body(max_length=40)] = "",
    chain: Annotated[list[Words], Body(max_length=1000)] = [],  # noqa: B006
) -> PlanAnswer:
    """The plan of a brief after an act, or as it is where there is none.

    ``step`` is the snap in typed words; ``chain`` holds the corners of an outline that is not closed yet.
    """
    try:
        found = replanned(brief, act, step, chain)
    except Mistakes as mistakes:
        return PlanAnswer(brief, False, "", tuple(map(told, mistakes)), _as_it_was(brief, step, chain))
    shown = drawn(found, step.strip() or usual_step(found.sketch.unit))
    ring, number = getattr(act, "ring", 0), getattr(act, "corner", None) or getattr(act, "side", None) or 0
    words = act_words(act.do, shown, ring, number) if act is not None else ""
    return PlanAnswer(found.text, True, words, mistakes_of(found.text), shown)


def _as_it_was(brief: str, step: str, chain: list[str]) -> DrawnPlan | None:
    """The plan before an act that could not be done; None where it cannot be drawn at all."""
    for usual, corners in ((step, chain), ("", chain), ("", [])):
        try:
            found = replanned(brief, None, usual, corners)
        except Mistakes:
            continue
        return drawn(found, usual or usual_step(found.sketch.unit))
    return None
