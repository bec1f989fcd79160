"""The rough-in sheet: what is laid against soil gas, who looks when, and a record of gauge and tests."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from ..catalogue.rough_in import Item, looked_at, rough_in
from ..findings import Basis, Finding, Step
from .known import SEEN

if TYPE_CHECKING:
    from ..dossier import Dossier

EMPTY_LINES = 3  # of the record, to be written in over the years


def gas_sheet(dossier: Dossier) -> dict[str, Any] | None:
    """What stands on the sheet; None where nothing is said of a rough-in."""
    found = [f for f in dossier.as_briefed.findings if f.id == "soilgas.rough-in" and f.steps]
    if not found:
        return None
    others = [f for f in dossier.as_briefed.findings if f.id in ("soilgas.test", "soilgas.gauge", "soilgas.level")]
    return {
        "cautions": list(dict.fromkeys(f.caution for f in (*found, *others) if f.caution)),
        "lists": [_list(f) for f in found],
        "test": next((f.words for f in others if f.id == "soilgas.test"), ""),
        "record": [*_record(others), *[("", "", "")] * EMPTY_LINES],
    }


def _list(finding: Finding) -> dict[str, Any]:
    """The items of one edition, those that are looked at together under one heading."""
    edition = str(finding.at["edition"])
    pairs = list(zip(rough_in(edition), finding.steps, strict=True))
    return {
        "edition": edition,
        "words": finding.words,
        "points": [
            {"label": point.label, "look": point.look, "rows": [_row(item, step) for item, step in here]}
            for point in looked_at()
            if (here := [(item, step) for item, step in pairs if item.when == point.key])
        ],
    }


def _row(item: Item, step: Step) -> dict[str, str]:
    told = f"{step.numbers}: {step.result}" if step.numbers else step.result
    return {"asked": step.formula, "told": told, "by": _by(item.basis)}


def _by(basis: Basis) -> str:
    doubt = f" {basis.doubtful}" if basis.doubtful else ""
    return f"{basis.clause} ({SEEN[basis.seen]}){doubt}"


def _record(found: Sequence[Finding]) -> list[tuple[str, str, str]]:
    """Tests and readings that the brief has already: what, what it told, what is to be thought of it."""
    tests = [step for f in found if f.id == "soilgas.test" for step in f.steps]
    gauges = [step for f in found if f.id == "soilgas.gauge" for step in f.steps]
    counted = [(step.formula, step.numbers, _counts(step.result)) for step in tests]
    return [*counted, *((f"Gauge, {step.formula}", step.result, "") for step in gauges)]


def _counts(result: str) -> str:
    return "counts" if result == "1" else f"does not count: {result.removeprefix('0: ')}"
