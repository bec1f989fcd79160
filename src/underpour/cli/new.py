"""``underpour new``: a starter brief for a use, to be changed line by line."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from typing import TYPE_CHECKING

from ..mistakes import Mistake
from . import files
from .parsing import Words, one_of
from .told import Told

if TYPE_CHECKING:
    import argparse
    from pathlib import Path

EXAMPLE = "underpour new garage"
HELP = """\
underpour new
underpour new USE [FILE.toml] [--title WORDS] [--place TOWN] [--units US|SI]

Writes a brief to begin with: a real job of that use, with a short word at each
key on what it is and what else can be typed. Change what is yours in it.
Without a use it lists all of them.

  USE          what the slab is for: garage, church, pool-surround, retrofit ...
  FILE.toml    the file to write; USE.toml in this folder unless you say. A file
               that stands is never written over; "-" prints it instead
  --title      what the job is called
  --place      the nearest town, with its state or country: "Duluth, MN"
  --units      the system that answers are printed in first

For example:

  underpour new garage
  underpour new church --title "St. Brigid's hall" --place "Halifax, NS"

It ends with 0, or with 2 where nothing could be written.
"""


def parser() -> Words:
    words = Words("new", EXAMPLE)
    words.add_argument("use", nargs="?")
    words.add_argument("file", nargs="?")
    words.add_argument("--title")
    words.add_argument("--place")
    words.add_argument("--units", type=one_of("--units", "US", "SI"))
    return words


def told(words: Sequence[str]) -> Told:
    """The list of starters; or the file that was written, and what to type next."""
    given = parser().read(words)
    if given.use is None:
        return Told(_listed())

    from ..starters import filled, plain, starter

    chosen = starter(given.use)
    text = filled(chosen.text, _own_words(given))
    if given.file == "-":
        return Told(text)
    typed = given.file or f"{plain(given.use)}.toml"
    path = _free(typed, given.use)
    files.write_new(path, text.encode(), typed)
    return Told(_next(chosen.about, typed))


def _own_words(given: argparse.Namespace) -> dict[str, str]:
    """What the command line says of this very job, refused here where the brief could not hold it."""
    from ..catalogue import places

    own = {key: getattr(given, key) for key in ("title", "place", "units") if getattr(given, key) is not None}
    if "title" in own and not own["title"].strip():
        raise Mistake("--title", "", "The title is empty.", f'For example: {EXAMPLE} --title "Garage at number 12"')
    if "place" in own:
        try:
            places.find(own["place"])
        except Mistake as mistake:
            raise Mistake("--place", mistake.typed, mistake.wrong, mistake.instead) from None
    return own


def _free(typed: str, use: str) -> Path:
    """The path of a file that does not stand yet."""
    path = files.target(typed, ".toml", None, option="")
    if path.exists():
        instead = f"Write to another name, for example: underpour new {use} {path.stem}-2.toml"
        raise Mistake(typed, "", "There is such a file, and it stays as it is.", instead)
    return path


def _next(about: str, typed: str) -> str:
    name = shlex.quote(typed)
    picture = shlex.quote(f"{typed.removesuffix('.toml')}.svg")
    return (
        f"{typed} is written: {about[0].lower()}{about[1:]}.\n"
        "Change what is yours in it: place, outline, layers, edges. Then type:\n\n"
        f"  underpour answer {name}\n"
        f"  underpour ask {name}\n"
        f"  underpour compare {name} -o {picture}\n"
    )


def _listed() -> str:
    """Every starter with what it is, and the other words that lead to it."""
    from ..starters import starters
    from .paragraphs import hung, width_of_terminal

    width = width_of_terminal()
    shelf = starters()
    head = max(len(each.key) for each in shelf) + 4
    lines = ["Starter briefs, for `underpour new USE`", ""]
    for each in shelf:
        also = f" Also: {', '.join(each.words)}." if each.words else ""
        lines += hung(f"{each.about}.{also}", width, head, f"  {each.key}")
    return "\n".join([*lines, "", f"For example: {EXAMPLE}"]) + "\n"
