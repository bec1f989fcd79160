"""How a unit may be spelled: ``Btu/hr-ft2-F`` and ``BTU per hour per square foot deg F`` are one."""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

Powers = tuple[tuple[str, int], ...]
Key = tuple[Powers, Powers]  # above and below the line, not cancelled: N·m/m is no force


_LONGEST_GLUED = 12  # letters; a longer word is a slip, and the ways to take it apart would be too many


class Atoms(NamedTuple):
    exact: dict[str, str]
    folded: dict[str, str]  # spellings that may be typed with any capitals
    short: dict[str, str]  # sf -> ft2


def atoms(any_case: dict[str, list[str]], as_typed: dict[str, list[str]], short: dict[str, str]) -> Atoms:
    """The pieces of which units are made, by their spellings."""
    exact = {s: name for name, also in (any_case | as_typed).items() for s in (name, *also)}
    folded = {s.casefold(): name for name, also in any_case.items() for s in (name, *also)}
    return Atoms(exact, folded, short)


def phrase(text: str) -> str:
    """The text without spaces, dots, hyphens and capitals: "In. W.C." is "inwc"."""
    return text.casefold().translate({ord(sign): None for sign in " .-"})


@cache
def _token() -> re.Pattern[str]:
    return re.compile(r"(?P<line>/)|(?P<gap>[ ·.()\-]+)|(?P<word>[a-zA-Zµ]+|['\"%])(?:\^?(?P<power>-?[1-4])(?![0-9]))?")


@cache
def _wording() -> tuple[tuple[re.Pattern[str], str], ...]:
    return (
        (re.compile(r"(?:°|\b[dD]eg(?:ree)?s?\.?) ?-?([cfkCFK])(?![a-zA-Z])"), r" \1"),
        (re.compile(r"(?:°|\bdeg(?:ree)?s?\b\.?) ?(?=fahr|cels|kelv)", re.IGNORECASE), " "),
        (re.compile(r"\bper\b", re.IGNORECASE), "/"),
        (re.compile(r"\b(?:sq(?:uare)?)\b\.? ?([a-z]+)", re.IGNORECASE), r"\g<1>2"),
        (re.compile(r"\b(?:cu(?:bic)?)\b\.? ?([a-z]+)", re.IGNORECASE), r"\g<1>3"),
        (re.compile(r"^1 ?(?=/)"), ""),
    )


def key(text: str, known: Atoms) -> Key | None:
    """What stands above and below the line; None where a piece is not known.

    Everything after the first stroke stands below it, as the trade writes ``Btu/h·ft²·F``. A glued word is taken apart
    (``hft2F``, ``kgK``). In a compound, °C means a kelvin.
    """
    for pattern, instead in _wording():
        text = pattern.sub(instead, text)
    above: dict[str, int] = {}
    below: dict[str, int] = {}
    under = False
    at = 0
    while at < len(text):
        token = _token().match(text, at)
        if token is None:
            return None
        at = token.end()
        if token["line"]:
            under = True
        elif token["word"]:
            pieces = _pieces(token["word"], known)
            if pieces is None:
                return None
            for n, (piece, power) in enumerate(pieces):
                last = n == len(pieces) - 1
                power *= int(token["power"]) if last and token["power"] else 1
                side = below if under != (power < 0) else above
                side[piece] = side.get(piece, 0) + abs(power)
    if len(above) + len(below) > 1:
        above, below = ({"K" if piece == "C" else piece: n for piece, n in side.items()} for side in (above, below))
    return (tuple(sorted(above.items())), tuple(sorted(below.items()))) if above or below else None


def _pieces(word: str, known: Atoms) -> list[tuple[str, int]] | None:
    """The atoms of a word with their powers, the longest first; None where a rest stays over."""
    whole = _piece(word, known)
    if whole:
        return whole
    if len(word) > _LONGEST_GLUED:
        return None
    # One letter of a glued word is taken as it stands, so that mn/m is not read as m·N/m.
    strict = known._replace(folded={spelled: atom for spelled, atom in known.folded.items() if len(spelled) > 1})
    for length in range(len(word) - 1, 0, -1):
        head = _piece(word[:length], strict)
        rest = _pieces(word[length:], strict) if head else None
        if head and rest:
            return head + rest
    return None


def _piece(word: str, known: Atoms) -> list[tuple[str, int]] | None:
    short = known.short.get(word.casefold())
    if short:
        above, below = key(short, known) or ((), ())
        return [*above, *((piece, -power) for piece, power in below)]
    atom = known.exact.get(word) or known.folded.get(word.casefold())
    return [(atom, 1)] if atom else None
