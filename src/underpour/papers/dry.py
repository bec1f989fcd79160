"""The sheet about damp: its cautions, and what of it falls short or is open, beside the pictures."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ..measure.table import System
from .told_of import told_of

if TYPE_CHECKING:
    from ..dossier import Dossier

HOLDS = "Of what was worked out of damp nothing falls short and nothing is open."


def dry(dossier: Dossier, system: System) -> dict[str, Any]:
    """What stands above the pictures of damp: cautions, each once, and a line for each finding that does not meet."""
    found = [f for f in dossier.as_briefed.findings if f.id.startswith("moisture.")]
    return told_of(found, system, HOLDS)
