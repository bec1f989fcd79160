"""What stands above the pictures of one subject: its cautions, and what of it falls short or is open."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ..findings import Finding
from ..measure.table import System
from .instance import named
from .order import worst_first


def told_of(found: Sequence[Finding], system: System, holds: str) -> dict[str, Any]:
    """Cautions, each once, and a line for each finding that does not meet; ``holds`` where there is none."""
    open_or_short = [f for f in worst_first(found) if f.verdict in ("falls short", "cannot tell")]
    return {
        "cautions": list(dict.fromkeys(f.caution for f in found if f.caution)),
        "rows": [{"verdict": f.verdict, "named": named(f, system), "words": f.words} for f in open_or_short],
        "holds": "" if open_or_short else holds,
    }
