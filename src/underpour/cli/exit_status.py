"""Exit status of an answered brief: only the brief as briefed decides, alternatives never do."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..dossier import Dossier


def of(dossier: Dossier) -> int:
    """1 where something falls short, else 0."""
    return int(any(finding.verdict == "falls short" for finding in dossier.as_briefed.findings))


def strictly_of(dossier: Dossier) -> int:
    """1 where something falls short or cannot be told, else 0."""
    return int(any(finding.verdict in ("falls short", "cannot tell") for finding in dossier.as_briefed.findings))
