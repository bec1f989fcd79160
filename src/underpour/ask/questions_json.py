"""Questions as JSON: the public form ``questions/1``; docs/questions.md and schema/questions.schema.json tell it."""

from __future__ import annotations

import json
from typing import Any

from ..findings import Finding
from .questions import Asked, Move, Open, Question, Turn

FORMAT = "questions/1"


def as_json(asked: Asked) -> str:
    """What to ask about one brief as one JSON object, keys always in the same order.

    Raises
    ------
    ValueError
        A number is NaN or infinite: no question may hold one.
    """
    whole = {
        "format": FORMAT,
        "made_by": {"name": "underpour", "version": asked.version},
        "title": asked.title,
        "use": asked.use,
        "place": asked.place,
        "units": asked.units,
        "decides": asked.decides,
        "questions": [_question(question) for question in asked.questions],
        "further": list(asked.further),
        "open": [_open(each) for each in asked.open],
    }
    return json.dumps(whole, ensure_ascii=False, allow_nan=False, indent=1)


def _question(question: Question) -> dict[str, Any]:
    return {
        "path": question.about.path,
        "also": list(question.also),
        "question": question.words,
        "look": question.look,
        "caution": question.caution,
        "turns": [_turn(turn) for turn in question.turns],
        "turning": question.turning,
        "needed": question.needed,
        "moves": {move.id: _move(move) for move in question.moves},
        "unbuildable": {"at_low": question.unbuildable[0], "at_high": question.unbuildable[1]},
        "write": {
            "table": question.table,
            "line": question.line,
            "replaces": question.replaces,
            "at_line": question.file_line,
        },
    }


def _turn(turn: Turn) -> dict[str, Any]:
    return {
        "id": turn.as_taken.id,
        "at": dict(turn.as_taken.at),
        "title": turn.as_taken.title,
        "as_taken": turn.as_taken.verdict,
        "at_low": _verdict(turn.at_low),
        "at_high": _verdict(turn.at_high),
    }


def _verdict(finding: Finding | None) -> str | None:
    return finding.verdict if finding is not None else None


def _move(move: Move) -> dict[str, Any]:
    return {"unit": move.unit, "as_taken": move.as_taken, "at_low": move.at_low, "at_high": move.at_high}


def _open(each: Open) -> dict[str, Any]:
    return {
        "path": each.path,
        "value": each.value,
        "low": each.low,
        "high": each.high,
        "unit": each.unit,
        "why": each.why,
    }
