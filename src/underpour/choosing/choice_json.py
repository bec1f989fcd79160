"""A choice as JSON: the public form ``choice/1``; docs/choosing.md and schema/choice.schema.json tell it."""

from __future__ import annotations

import json
from typing import Any

from ..findings import Assumed
from .records import Bound, Choice, Money, Ranged, Reason, Refusal, Row, ToWin

FORMAT = "choice/1"


def as_json(choice: Choice) -> str:
    """A choice as one JSON object, keys always in the same order.

    Raises
    ------
    ValueError
        A number is NaN or infinite: none may be.
    """
    whole = {
        "format": FORMAT,
        "made_by": {"name": "underpour", "version": choice.version},
        "title": choice.title,
        "use": choice.use,
        "place": choice.place,
        "units": choice.system,
        "verdict": choice.word,
        "says": list(choice.says),
        "ranked_by": {"what": choice.by, "words": choice.by_words},
        "rows": [_row(row) for row in choice.rows],
        "refused": [_row(row) for row in choice.refused],
        "front": [_row(row) for row in choice.front],
        "reasons": [_reason(each) for each in choice.reasons],
        "to_win": [_to_win(each) for each in choice.to_win],
        "candidates": {
            "tried": choice.candidates,
            "put_aside": choice.put_aside,
            "answered": choice.answered,
            "sure": choice.sure,
            "bounds": [_bound(each) for each in choice.bounds],
        },
        "whichever": [_refusal(each) for each in choice.beyond],
        "open": [{"id": id, "missing": key} for id, key in choice.open],
        "film": {"open": choice.film_open, "would_meet": [{"key": f.key, "label": f.label} for f in choice.films]},
        "searched": list(choice.searched),
        "assumed": [_assumed(each) for each in choice.assumed],
        "notes": list(choice.notes),
        "cautions": list(choice.cautions),
    }
    return json.dumps(whole, ensure_ascii=False, allow_nan=False, indent=1)


def _row(row: Row) -> dict[str, Any]:
    return {
        "name": row.name,
        "roles": list(row.roles),
        "rank": row.rank,
        "confirmed": row.confirmed,
        "serves": row.serves,
        "floor": row.floor,
        "edge": row.edge,
        "film": row.film,
        "set": dict(row.changes),
        "foam": row.foam,
        "thickness": row.thickness,
        "r_label": row.r_label,
        "r_in_place": row.r_in_place,
        "height": row.height,
        "heat": row.heat,
        "heat_within": row.heat_within,
        "coldest": row.coldest,
        "first_cost": _money(row.first),
        "life_cycle_cost": _money(row.life),
        "energy": row.energy,
        "carbon": _ranged(row.carbon),
        "cannot_tell": list(row.open),
        "refusals": [_refusal(each) for each in row.refusals],
    }


def _refusal(refusal: Refusal) -> dict[str, Any]:
    return {
        "id": refusal.id,
        "at": dict(refusal.at),
        "title": refusal.title,
        "words": refusal.words,
        "value": refusal.value,
        "limit": refusal.limit,
        "sense": refusal.sense,
        "unit": refusal.unit,
        "margin": refusal.margin,
        "basis": None
        if refusal.basis is None
        else {"source": refusal.basis.source, "clause": refusal.basis.clause, "seen": refusal.basis.seen},
        "by": refusal.how,
    }


def _money(money: Money | None) -> dict[str, Any] | None:
    return None if money is None else {"amount": money.amount, "currency": money.currency, "day": money.day}


def _ranged(ranged: Ranged | None) -> dict[str, float] | None:
    return None if ranged is None else {"value": ranged.value, "low": ranged.low, "high": ranged.high}


def _bound(bound: Bound) -> dict[str, Any]:
    return {"id": bound.id, "title": bound.title, "count": bound.count}


def _reason(reason: Reason) -> dict[str, Any]:
    return {
        "id": reason.id,
        "title": reason.title,
        "put_aside": reason.aside,
        "answered": reason.answered,
        "cheapest": reason.cheapest,
        "first_cost": _money(reason.first),
        "refusal": _refusal(reason.refusal),
    }


def _to_win(change: ToWin) -> dict[str, Any]:
    return {
        "what": change.what,
        "words": change.words,
        "path": change.path,
        "now": change.now,
        "then": change.then,
        "unit": change.unit,
    }


def _assumed(assumed: Assumed) -> dict[str, Any]:
    return {
        "path": assumed.path,
        "value": assumed.value,
        "low": assumed.low,
        "high": assumed.high,
        "unit": assumed.unit,
        "why": assumed.why,
    }
