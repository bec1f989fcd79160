"""Code editions as dated tables: what each asks, in which clause, how that was seen, and whose row stands."""

from __future__ import annotations

from .held import Codes, shipped
from .local import own_file
from .read import accessory, asks, every_edition, granular_from, heated_from, subjects, triggers, unheated_to, unsaid
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
    "accessory",
    "asks",
    "every_edition",
    "granular_from",
    "heated_from",
    "own_file",
    "shipped",
    "subjects",
    "triggers",
    "unheated_to",
    "unsaid",
]
