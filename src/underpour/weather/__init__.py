"""Weather files of users: what the air does month by month, and what was taken from the file, in words."""

from __future__ import annotations

from .read import read
from .station import Station
from .taken import taken

__all__ = ["Station", "read", "taken"]
