"""Mistakes a user can mend, told so that they can be mended."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches


@dataclass(eq=False)
class Mistake(Exception):
    """One thing to mend: where it is, what was typed, what is wrong, what to type instead."""

    at: str  # path in the brief, "floor.build-up.2.thickness", or a file's name
    typed: str  # as the user wrote it; "" where nothing was written
    wrong: str  # one sentence
    instead: str = ""  # what to type, one or two sentences
    file: str = ""
    line: int = 0  # 0 where it is not known

    def __reduce__(self) -> tuple[type[Mistake], tuple[str | int, ...]]:
        """As one process hands it to another: exceptions forget what they were made of."""
        return type(self), (self.at, self.typed, self.wrong, self.instead, self.file, self.line)

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}  " if self.line else f"{self.file}  " if self.file else ""
        head = f"{self.at} = {self.typed}" if self.typed else self.at
        lines = [f"{place}{head}".rstrip(), f"  {self.wrong}"]
        lines += [f"  {self.instead}"] if self.instead else []
        return "\n".join(line for line in lines if line)

    def placed(self, *, at: str = "", file: str = "", line: int = 0) -> Mistake:
        """The same mistake with its place filled in where it was still open."""
        return replace(self, at=self.at or at, file=self.file or file, line=self.line or line)


class Mistakes(Exception):
    """All mistakes of one reading at once, in the order of their lines."""

    def __init__(self, found: Iterable[Mistake]):
        self.found = tuple(sorted(found, key=lambda m: (m.file, m.line)))
        super().__init__(str(self))

    def __iter__(self) -> Iterator[Mistake]:
        return iter(self.found)

    def __str__(self) -> str:
        return "\n\n".join(map(str, self.found))


def nearest(typed: str, known: Iterable[str], count: int = 1) -> list[str]:
    """The known words that look most like the typed one, best first; empty where none is near."""
    folded = {word.casefold(): word for word in known}
    close = get_close_matches(typed.casefold(), list(folded), n=count, cutoff=0.5)
    return [folded[word] for word in close]


def unknown(at: str, typed: str, known: Sequence[str], what: str, listing: str = "") -> Mistake:
    """Mistake for a word that is in no list; offers the nearest one. ``what`` is "board", "place", ..."""
    near = nearest(typed, known)
    hint = f"The nearest is {near[0]}." if near else ""
    return Mistake(at, f'"{typed}"', f"No {what} is called {typed}.", f"{hint} {listing}".strip())
