"""``underpour ask``: the few answers that would turn a verdict."""

from __future__ import annotations

from collections.abc import Sequence

from .parsing import Words
from .told import Told

EXAMPLE = "underpour ask brief.toml"
HELP = """\
underpour ask BRIEF [--json]

Says what to ask the caller: at most three of the things that the brief leaves
open, those whose plausible low or high turns a verdict, most decisive first.
Each comes with what to look for on site and the line to type. Where no answer
turns a verdict, it says so and asks for what moves the heat loss or the
coldest floor most. Alternatives are not asked about.

  BRIEF      the file that says where the slab is and what is under it
  --json     the questions as JSON (docs/questions.md)

For example:

  underpour ask examples/raft-house/brief.toml

It ends with 0, and with 2 where the brief cannot be used.
"""


def parser() -> Words:
    words = Words("ask", EXAMPLE)
    words.add_argument("brief", nargs="?")
    words.add_argument("--json", action="store_true")
    return words


def told(words: Sequence[str]) -> Told:
    """The questions of a brief, as text or JSON."""
    asked_words = parser()
    given = asked_words.read(words)
    brief = asked_words.must(given.brief, "Which brief?")

    from .answered import readable

    reading = readable(brief)

    from ..ask import asked

    found = asked(reading)
    if given.json:
        from ..ask.questions_json import as_json

        return Told(as_json(found) + "\n")

    from .paragraphs import width_of_terminal
    from .questions_text import questions_text

    return Told(questions_text(found, width_of_terminal()))
