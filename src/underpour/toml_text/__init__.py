"""Texts in TOML as people write them: what is in them, on which line it stands, and what is wrong with the writing."""

from __future__ import annotations

from .lines import Path as Path
from .lines import Place as Place
from .lines import places as places
from .syntax import read_toml as read_toml
