"""What changed since the last revision, and which lines of the paper carry its mark in the margin."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from .letters import path

if TYPE_CHECKING:
    from ..dossier import Change, Dossier, Moved
    from ..findings import Finding


def since_words(moved: Moved) -> str:
    """The heading: against what it is held.

    A first issue has no letter.
    """
    return f"What changed since revision {moved.since}" if moved.since else "What changed since the first issue"


def changes(dossier: Dossier) -> dict[str, Any] | None:
    """Three tables, of what was typed, of what was assumed and of the answers; None where nothing is compared."""
    moved = dossier.moved
    if moved is None:
        return None
    tables = [
        ("In the brief", [_row(change, a_path=True) for change in moved.typed]),
        ("In what nobody typed", [_row(change, a_path=True) for change in moved.assumed]),
        ("In the answers", [_row(change) for change in moved.findings.values()]),
    ]
    other = "" if moved.version == dossier.version else f"It was made by version {moved.version}."
    return {
        "heading": since_words(moved),
        "tables": [{"name": name, "rows": rows} for name, rows in tables if rows],
        "note": other,
    }


def finding_moved(finding: Finding, dossier: Dossier) -> bool:
    moved = dossier.moved
    return moved is not None and (finding.id, frozenset(finding.at.items())) in moved.findings


def path_moved(start: str, dossier: Dossier) -> bool:
    """Whether a typed or assumed input at this path of the brief, or below it, or above it, is another."""
    moved = dossier.moved
    return moved is not None and any(_same_branch(change.what, start) for change in (*moved.typed, *moved.assumed))


def any_moved(starts: Iterable[str], dossier: Dossier) -> bool:
    return any(path_moved(start, dossier) for start in starts)


def _same_branch(one: str, other: str) -> bool:
    return f"{one}.".startswith(f"{other}.") or f"{other}.".startswith(f"{one}.")


def _row(change: Change, *, a_path: bool = False) -> dict[str, Any]:
    return {
        "what": path(change.what) if a_path else change.what,
        "was": change.was or "\N{EN DASH}",
        "now": change.now or "\N{EN DASH}",
        "by": change.by,
    }
