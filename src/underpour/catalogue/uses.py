"""What floors are for, and what may be assumed of the room above them."""

from __future__ import annotations

from functools import cache

from .read import Entry, keyed, one, quantity, table
from .records import Quantity, Use


@cache
def _by_key() -> dict[str, Use]:
    return {
        key: Use(
            key=key,
            label=entry["label"],
            aliases=tuple(entry["also"]),
            room=_number(key, entry, "room"),
            humidity=_number(key, entry, "humidity"),
            floor_at_least=_number(key, entry, "floor-at-least"),
            cold_floor=entry["cold-floor"],
            cooled=entry.get("cooled", False),
        )
        for key, entry in table("uses").items()
    }


def _number(key: str, entry: Entry, name: str) -> Quantity | None:
    return quantity(entry[name], f"catalogue.use.{key}.{name}") if name in entry else None


@cache
def _by_word() -> dict[str, Use]:
    return keyed(_by_key(), lambda key: _by_key()[key].aliases)


def uses() -> tuple[Use, ...]:
    """Every use, in the order of the file."""
    return tuple(_by_key().values())


def use(key: str) -> Use:
    """The use of that key or of another word for it; one that is not known is a Mistake with the nearest.

    >>> use("church").key, use("freezer").cold_floor
    ('assembly', True)
    """
    return one(_by_word(), key, "use", "uses")


def called(word: str) -> str:
    """A use as it is spoken of, in the word that was typed: a fire station is no "garage" on its own papers.

    >>> called("cold-store"), called("fire-station")
    ('Cold store', 'Fire station')
    """
    found = use(word)
    return found.label if word == found.key else word.replace("-", " ").capitalize()
