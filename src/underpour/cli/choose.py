"""``underpour choose``: which foam to take, ranked, with the reason for each refusal."""

from __future__ import annotations

from collections.abc import Sequence

from .answered import readable
from .parsing import Words
from .told import Told

EXAMPLE = "underpour choose brief.toml"
HELP = """\
underpour choose BRIEF [--json]

Tries every board of the lines in hand under the floor and at its edges, in
each thickness made, holds each to everything that is checked, and ranks what
is left. What is refused names the finding that refuses it. The first ten are
answered wholly before they are told.

  BRIEF    the file that says where the slab is and what is under it
  --json   all of it as JSON (docs/choosing.md)

For example:

  underpour choose examples/frost-wall-workshop/brief.toml

It ends with 0 when something serves, with 1 when nothing does, and with 2
where the brief cannot be used. A recommendation is not a design.
"""


def parser() -> Words:
    words = Words("choose", EXAMPLE)
    words.add_argument("brief", nargs="?")
    words.add_argument("--json", action="store_true")
    return words


def told(words: Sequence[str]) -> Told:
    """The choice for a brief, as text or JSON."""
    asked = parser()
    given = asked.read(words)
    reading = readable(asked.must(given.brief, "Which brief?"))
    from ..choosing import choose

    choice = choose(reading)
    status = 0 if choice.serves else 1
    if given.json:
        from ..choosing.choice_json import as_json

        return Told(as_json(choice) + "\n", status)
    from .choice_text import choice_text
    from .paragraphs import width_of_terminal

    return Told(choice_text(choice, width_of_terminal()), status)
