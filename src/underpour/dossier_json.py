"""A dossier as JSON: the public form ``findings/1``, described in docs/findings.md and schema/findings.schema.json."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from .brief.tables.handover import Handover

if TYPE_CHECKING:
    from .dossier import Answer, Assumed, Dossier
    from .findings import Basis, Finding

FORMAT = "findings/1"


def as_json(dossier: Dossier) -> str:
    """The dossier's findings as one JSON object, keys always in the same order.

    Parameters
    ----------
    dossier : Dossier
        Everything worked out for one brief; values in the units that each finding names.

    Returns
    -------
    str
        JSON text, indented, letters beyond ASCII kept as they are, without a closing line end.

    Raises
    ------
    ValueError
        A number is NaN or infinite: no finding may hold one.
    """
    return json.dumps(_dossier(dossier), ensure_ascii=False, allow_nan=False, indent=1)


def _dossier(dossier: Dossier) -> dict[str, Any]:
    return {
        "format": FORMAT,
        "made_by": {"name": "underpour", "version": dossier.version},
        "title": dossier.title,
        "use": dossier.use,
        "place": dossier.place,
        "units": dossier.units,
        "editions": list(dossier.editions),
        "assumed": [_assumed(assumed) for assumed in dossier.assumed],
        "alternatives": [_alternative(answer) for answer in dossier.alternatives],
        "notes": list(dossier.notes),
        "cautions": list(dossier.cautions),
        "credits": list(dossier.credits),
        "handover": _handover(dossier.handover),
        "brief": dossier.brief_text,
    }


def _handover(handover: Handover) -> dict[str, Any]:
    """As typed; references that nobody typed are left out, so that none is told from not yet said."""
    typed = {str(field.alias): getattr(handover, name) for name, field in Handover.model_fields.items()}
    return {
        key: list(value) if isinstance(value, tuple) else value for key, value in typed.items() if value is not None
    }


def _assumed(assumed: Assumed) -> dict[str, Any]:
    return {
        "path": assumed.path,
        "value": _number_or_word(assumed.value),
        "low": _number_or_word(assumed.low),
        "high": _number_or_word(assumed.high),
        "unit": assumed.unit,
        "why": assumed.why,
    }


def _alternative(answer: Answer) -> dict[str, Any]:
    return {
        "name": answer.name,
        "summary": list(answer.summary),
        "findings": [finding_as_data(finding) for finding in answer.findings],
    }


def finding_as_data(finding: Finding) -> dict[str, Any]:
    """One finding as it stands in ``findings/1``.

    Parameters
    ----------
    finding : Finding
        In its own unit.
    """
    return {
        "id": finding.id,
        "at": {key: _number_or_word(value) for key, value in finding.at.items()},
        "title": finding.title,
        "value": _number(finding.value),
        "unit": finding.unit,
        "within": _number(finding.within),
        "month": finding.month,
        "months": None if finding.months is None else [float(value) for value in finding.months],
        "limit": _number(finding.limit),
        "sense": finding.sense,
        "margin": _number(finding.margin),
        "verdict": finding.verdict,
        "words": finding.words,
        "caution": finding.caution,
        "missing": finding.missing or None,
        "accepted": None if finding.accepted is None else asdict(finding.accepted),
        "moves": [asdict(move) for move in finding.moves],
        "basis": [_basis(b) for b in finding.basis],
        "rests_on": list(finding.rests_on),
        "steps": [
            {"symbol": s.symbol, "formula": s.formula, "numbers": s.numbers, "result": s.result} for s in finding.steps
        ],
    }


def _basis(basis: Basis) -> dict[str, str]:
    """A doubt is told where there is one."""
    told: dict[str, str] = {"source": basis.source, "clause": basis.clause, "seen": basis.seen}
    return {**told, "doubtful": basis.doubtful} if basis.doubtful else told


def _number(value: float | None) -> float | None:
    return None if value is None else float(value)


def _number_or_word(value: float | str | None) -> float | str | None:
    return value if isinstance(value, str) else _number(value)
