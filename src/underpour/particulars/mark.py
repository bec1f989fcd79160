"""The mark of a page: letters and digits that change when what the page says does, and only then."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from typing import Any

SIGNS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"  # none that is taken for another: no 0, 1, I, L, O
LONG = 6
NOT_SAID = ("day", "mark", "issued", "version", "format", "since", "moved", "draft")  # of the print, not of the product


def mark(told: Mapping[str, Any]) -> str:
    """The mark of what a page says. Its day, the version that printed it and what is marked as moved are left out.

    Two pages that differ share a mark once in 31 to the sixth, 0.9 thousand million.

    >>> mark({"value": "16.4 psi", "day": "27 November 2026"}) == mark({"value": "16.4 psi", "day": "1 May 2027"})
    True
    >>> mark({"value": "16.4 psi"}) == mark({"value": "16.5 psi"})
    False
    """
    said = {key: value for key, value in told.items() if key not in NOT_SAID}
    text = json.dumps(said, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    rest = int.from_bytes(hashlib.sha256(text.encode()).digest(), "big")
    signs = []
    for _ in range(LONG):
        rest, sign = divmod(rest, len(SIGNS))
        signs.append(SIGNS[sign])
    return "".join(signs)
