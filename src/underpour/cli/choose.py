"""``underpour choose``: which foam to take, ranked, with the reason for each refusal."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from . import files
from .answered import readable
from .parsing import Words
from .told import Told

if TYPE_CHECKING:
    from ..choosing import Choice

EXAMPLE = "underpour choose brief.toml"
HELP = """\
underpour choose BRIEF [--json] [--write COPY.toml]

Tries every board of the lines in hand under the floor and at its edges, in
each thickness made, holds each to everything that is checked, and ranks what
is left. What is refused names the finding that refuses it. The first ten are
answered wholly before they are told.

  BRIEF    the file that says where the slab is and what is under it
  --json   all of it as JSON (docs/choosing.md)
  --write  a copy of the brief with the winner, the cheapest that meets the
           code, the least height and the bare slab as alternatives, to be
           compared; best in the brief's own folder

For example:

  underpour choose examples/frost-wall-workshop/brief.toml

It ends with 0 when something serves, with 1 when nothing does, and with 2
where the brief cannot be used. A recommendation is not a design.
"""


def parser() -> Words:
    words = Words("choose", EXAMPLE)
    words.add_argument("brief", nargs="?")
    words.add_argument("--json", action="store_true")
    words.add_argument("--write", metavar="COPY.toml")
    return words


def told(words: Sequence[str]) -> Told:
    """The choice for a brief, as text or JSON."""
    asked = parser()
    given = asked.read(words)
    brief = asked.must(given.brief, "Which brief?")
    copy = None if given.write is None else files.target(given.write, ".toml", brief, "--write ")
    reading = readable(brief)
    from ..choosing import choose

    choice = choose(reading)
    beside = "" if copy is None else copied(brief, choice, copy, given.write)
    status = 0 if choice.serves else 1
    if given.json:
        from ..choosing.choice_json import as_json

        return Told(as_json(choice) + "\n", status)
    from .choice_text import choice_text
    from .paragraphs import width_of_terminal

    return Told(choice_text(choice, width_of_terminal()) + beside, status)


def copied(brief: str, choice: Choice, copy: Path, typed: str) -> str:
    """The brief with what was chosen in it, written; the line that says so."""
    from ..brief.files import text_of
    from ..choosing.put_in import put_in

    put = put_in(text_of(Path(brief)), choice)
    files.replace_whole(copy, put.text.encode(), typed)
    names = "; ".join(each.name for each in put.alternatives) or "nothing, for the brief is all of it already"
    return f"{typed} is the brief with these beside it: {names}.\n"
