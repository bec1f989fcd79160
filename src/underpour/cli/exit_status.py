"""Exit status of an answered brief: only the brief as briefed decides, alternatives never do."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..dossier import Dossier


def of(dossier: Dossier, *, accepted_ok: bool = False, strict: bool = False) -> int:
    """1 where something falls short, else 0.

    An accepted shortfall still counts unless ``accepted_ok``; what cannot be told counts where ``strict``.
    """
    for finding in dossier.as_briefed.findings:
        if finding.verdict == "falls short" and not (accepted_ok and finding.accepted):
            return 1
        if finding.verdict == "cannot tell" and strict:
            return 1
    return 0
