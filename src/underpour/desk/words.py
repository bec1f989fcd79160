"""Every word of the desk's page, from one file, so that it can be said in another language."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

_spoken: list[dict[str, Any]] = []


def table() -> dict[str, Any]:
    """All words, by subject."""
    return _spoken[-1] if _spoken else _shipped()


def speak(words: dict[str, Any]) -> None:
    """These words from now on: a process that draws for the desk says what the desk says."""
    _spoken[:] = [words]


@cache
def _shipped() -> dict[str, Any]:
    read: dict[str, Any] = tomllib.loads((files(__package__) / "words.toml").read_text(encoding="utf-8"))
    return read


def say(key: str, **given: object) -> str:
    """The words at a key, with what is given put in.

    Raises KeyError where the file has no such key: a fault of ours, which tests find.

    Examples
    --------
    >>> say("guard.large", limit=256)
    'That is too large: 256 kB at most.'
    """
    found: Any = table()
    for step in key.split("."):
        found = found[step]
    return str(found).format(**given) if given else str(found)


def in_browser(*subjects: str) -> dict[str, Any]:
    """The words of these subjects, to be handed to the page's own script."""
    return {subject: table()[subject] for subject in subjects}
