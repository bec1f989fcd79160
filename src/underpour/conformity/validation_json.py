"""A validation as plain data: what ``catalogue validate --json`` prints (schema/validation.schema.json)."""

from __future__ import annotations

from collections import Counter
from typing import Any

from .findings import Held, RecordFinding, Validation

FORMAT = "validation/1"


def plain(validation: Validation) -> dict[str, Any]:
    """Every product with what its evidence carries and what is to be known of it."""
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
        "products": [_product(held) for held in validation.products],
    }


def _product(held: Held) -> dict[str, Any]:
    return {
        "key": held.key,
        "name": held.name,
        "file": held.file,
        "line": held.line or None,
        "claims": list(held.claims),
        "refused": list(held.refused),
        "supports": list(held.supports),
        "not_held": list(held.not_held),
        "findings": [_finding(finding) for finding in held.findings],
    }


def _finding(finding: RecordFinding) -> dict[str, Any]:
    basis = finding.basis
    return {
        "id": finding.id,
        "property": finding.property,
        "read": finding.read,
        "wrong": finding.wrong,
        "instead": finding.instead,
        "verdict": finding.verdict,
        "basis": {"source": basis.source, "clause": basis.clause, "seen": basis.seen} if basis else None,
        "line": finding.line or None,
        "key": finding.key,
    }
