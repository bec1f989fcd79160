"""A validation as plain data: what ``catalogue validate --json`` prints (schema/validation.schema.json)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from .findings import Held, RecordFinding, Validation

FORMAT = "validation/1"


def plain(validation: Validation, places: Mapping[str, Sequence[str]]) -> dict[str, Any]:
    """Every product with what its evidence carries and what is to be known of it.

    ``places`` are the words for the places in files that are tables, by the number that stands for each.
    """
    verdicts = Counter(finding.verdict for finding in validation.findings)
    return {
        "format": FORMAT,
        "date": validation.date.isoformat(),
        "counts": {
            "products": len(validation.products),
            "falls short": verdicts["falls short"],
            "cannot tell": verdicts["cannot tell"],
            "not required, advised": verdicts["not required, advised"],
        },
        "products": [_product(held, places.get(held.file, ())) for held in validation.products],
    }


def _product(held: Held, places: Sequence[str]) -> dict[str, Any]:
    return {
        "key": held.key,
        "name": held.name,
        "file": held.file,
        **_place(held.line, places),
        "claims": list(held.claims),
        "refused": list(held.refused),
        "supports": list(held.supports),
        "not_held": list(held.not_held),
        "findings": [_finding(finding, places) for finding in held.findings],
    }


def _finding(finding: RecordFinding, places: Sequence[str]) -> dict[str, Any]:
    basis = finding.basis
    return {
        "id": finding.id,
        "property": finding.property,
        "read": finding.read,
        "wrong": finding.wrong,
        "instead": finding.instead,
        "verdict": finding.verdict,
        "basis": {"source": basis.source, "clause": basis.clause, "seen": basis.seen} if basis else None,
        **_place(finding.line, places),
        "key": finding.key,
    }


def _place(line: int, places: Sequence[str]) -> dict[str, Any]:
    """The line of a TOML file, or the row of a table; null where it is not known, or the other."""
    if places:
        return {"line": None, "row": places[line - 1] if line else None}
    return {"line": line or None, "row": None}
