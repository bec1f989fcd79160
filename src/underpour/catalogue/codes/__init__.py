"""Code editions as dated tables: what each asks, in which clause, how that was seen, and whose row stands."""

from __future__ import annotations

from .held import Codes, shipped
from .local import own_file
from .read import asks, every_edition, heated_from, subjects, triggers
from .records import BESIDE, Ask, Edition, Row, Share, Standing, Subject

__all__ = [
    "BESIDE",
    "Ask",
    "Codes",
    "Edition",
    "Row",
    "Share",
    "Standing",
    "Subject",
    "asks",
    "every_edition",
    "heated_from",
    "own_file",
    "shipped",
    "subjects",
    "triggers",
]
