"""Sentences whose words stand in the words' file and whose places are fields."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from ..words import say

Part = dict[str, Any]


def sentence(key: str, **given: Part | list[Part] | str) -> list[Part]:
    """The words at a key as parts: text, and what is given at the places that the words name, in their order."""
    return _filled(say(key), given)


def _filled(words: str, given: Mapping[str, Part | list[Part] | str]) -> list[Part]:
    parts: list[Part] = []
    for n, piece in enumerate(re.split(r"\{([a-z_]+)\}", words)):
        if n % 2 == 0:
            parts += [{"text": piece}] if piece else []
            continue
        put = given[piece]
        parts += put if isinstance(put, list) else [{"text": put} if isinstance(put, str) else put]
    return parts
