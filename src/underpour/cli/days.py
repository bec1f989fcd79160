"""Days as they are typed on the command line."""

from __future__ import annotations

import datetime

from ..mistakes import Mistake


def day(typed: str | None) -> datetime.date:
    """The day that certificates are held to: as typed, or today."""
    if typed is None:
        return datetime.date.today()
    try:
        return datetime.date.fromisoformat(typed)
    except ValueError:
        instead = "Write it year first: --date 2026-11-27"
        raise Mistake(f"--date {typed}", "", f"{typed} is not a day that can be read.", instead) from None
