"""Which word leads to which starter brief; the table is starters.toml."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from .. import catalogue
from ..mistakes import nearest, unknown


@dataclass(frozen=True, slots=True)
class Starter:
    """One starter brief."""

    key: str  # "garage"; also the name of its file
    about: str  # "Attached garage, kept just above freezing"
    words: tuple[str, ...]  # every other word that leads to it

    @property
    def text(self) -> str:
        """The brief as it is written out."""
        return (files(__package__) / "briefs" / f"{self.key}.toml").read_text(encoding="utf-8")


@cache
def starters() -> tuple[Starter, ...]:
    """Every starter, in the order of the table.

    A use of the catalogue leads to the starter of its own name, and so do its other words, but for those that the
    table gives to a nearer one: "church" is an assembly, and has a starter of its own.
    """
    table = tomllib.loads((files(__package__) / "starters.toml").read_text(encoding="utf-8"))
    given = {word for key, row in table.items() for word in (key, *row["words"])}
    also = {use.key: [word for word in use.aliases if word not in given] for use in catalogue.uses()}
    return tuple(Starter(key, row["about"], (*row["words"], *also.get(key, ()))) for key, row in table.items())


def starter(word: str) -> Starter:
    """The starter that a word leads to; one that is not known is a Mistake with the nearest.

    >>> starter("chapel").key, starter("driveway").key
    ('church', 'drive')
    """
    typed = plain(word)
    by_word = {known: each for each in starters() for known in (each.key, *each.words)}
    if typed in by_word:
        return by_word[typed]
    near = nearest(typed, by_word)
    raise unknown(
        "underpour new",
        word,
        list(by_word),
        "starter brief",
        f"For it: underpour new {near[0]}. All of them: underpour new" if near else "All of them: underpour new",
    )


@cache
def demo_text() -> str:
    """The demo brief: that of examples/daylight-basement, which a test holds it to."""
    return (files(__package__) / "demo.toml").read_text(encoding="utf-8")


def plain(word: str) -> str:
    """The word as it stands in the table.

    >>> plain("Pool surround")
    'pool-surround'
    """
    return "-".join(word.casefold().replace("_", " ").split())
