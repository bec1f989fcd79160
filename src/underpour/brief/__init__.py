"""The brief: the one file a user writes, read whole or refused with all its mistakes."""

from __future__ import annotations

from .read import Reading, read, reads

__all__ = ["Reading", "read", "reads"]
