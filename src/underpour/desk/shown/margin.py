"""What stands in the margin: what was assumed, and what to ask the caller."""

from __future__ import annotations

from typing import Any

from ...ask import Asked, Question
from ...findings import Assumed
from ...measure import System, say
from ..words import say as words
from .entry import entry
from .fields import Places, chosen_from, unnumbered, value_words

PLACED = {  # a value that is assumed below a key which is typed as one
    "site.ground.conductivity": "site.ground",
    "site.ground.heat-capacity": "site.ground",
}


def assumptions(places: Places) -> list[dict[str, Any]]:
    """Everything that nobody typed, with its range and its reason, each with the field that overwrites it."""
    return [_assumed(each, places) for each in places.resolved.assumed]


def _assumed(each: Assumed, places: Places) -> dict[str, Any]:
    system = places.resolved.system
    ends = [say.of_any_unit(end, each.unit, system) for end in (each.low, each.high) if end is not None]
    path = each.path
    whole = PLACED.get(path)
    if whole is not None and isinstance(places.plain(whole), str):
        path = whole  # ground told by its name stays told by its name
    field = places.field(path, value_words(each, places), chosen_from(unnumbered(path)))
    return {
        "path": each.path,
        "field": field,
        "value": value_words(each, places),
        "between": words("sheet.between", low=ends[0], high=ends[1]) if len(ends) == 2 else "",
        "why": each.why,
        "key": unnumbered(each.path),
    }


def questions(asked: Asked, places: Places) -> dict[str, Any]:
    """The few open inputs that would turn a verdict, in words, each with what hangs on it."""
    return {
        "decides": asked.decides,
        "questions": [_question(question, asked.units, places) for question in asked.questions],
    }


def _question(question: Question, system: System, places: Places) -> dict[str, Any]:
    about = question.about
    ends = [say.of_any_unit(end, about.unit, system) for end in (about.low, about.high) if end is not None]
    return {
        "words": question.words,
        "why": about.why,
        "look": question.look,
        "caution": question.caution,
        "field": entry(places, about.path) or places.field(about.path),
        "line": question.line,
        "between": words("sheet.between", low=ends[0], high=ends[1]) if len(ends) == 2 else "",
        "turns": list(dict.fromkeys(turn.as_taken.title for turn in question.turns)),
        "moves": [
            words(
                "sheet.moves",
                what=move.what,
                by=say.margin(move.by, move.unit, system),
            )
            for move in question.moves
            if move.by > 0.0
        ]
        if not question.turns
        else [],
    }
