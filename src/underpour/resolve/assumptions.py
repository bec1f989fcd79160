"""What nobody typed: each value taken in its place is listed, and another may be tried there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from ..findings import Assumed


class Assumptions:
    """The assumptions of one brief, in the order in which they are made.

    ``tried`` holds, by path, the SI values to put in the place of what would be assumed or is missing, so that the
    brief can be answered with the low and the high of an input that nobody typed. A typed input never asks here.
    """

    def __init__(self, tried: Mapping[str, float] | None = None):
        self._tried = dict(tried or {})
        self._taken: list[Assumed] = []

    def take(self, assumed: Assumed) -> float:
        """The value to use at this path, listed as assumed: the usual one, or the one to be tried in its place.

        >>> wall = Assumed("edge.A.wall", 0.2, 0.15, 0.3, "m", "usual thickness of a poured foundation wall")
        >>> Assumptions().take(wall), Assumptions({"edge.A.wall": 0.3}).take(wall)
        (0.2, 0.3)
        """
        value = self._tried.get(assumed.path, assumed.value)
        if isinstance(value, str):
            raise TypeError(f"{assumed.path}: {value!r} is no number")
        if all(assumed.path != each.path for each in self._taken):  # one input may be used in two places
            self._taken.append(replace(assumed, value=value))
        return value

    def take_word(self, assumed: Assumed) -> str:
        """The word to use at this path, listed as assumed.

        >>> Assumptions().take_word(Assumed("floor.cooled", "no", None, None, "1", "let go in summer"))
        'no'
        """
        if all(assumed.path != each.path for each in self._taken):
            self._taken.append(assumed)
        return str(assumed.value)

    def missing(self, path: str) -> float | None:
        """The value to be tried at a path that has no usual one; None where the brief stays without.

        >>> Assumptions().missing("floor.available-depth") is None
        True
        """
        return self._tried.get(path)

    @property
    def taken(self) -> tuple[Assumed, ...]:
        """Everything that was assumed so far."""
        return tuple(self._taken)
