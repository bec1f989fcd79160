"""``underpour catalogue``: what can be named in a brief, and where every number of it comes from."""

from __future__ import annotations

from collections.abc import Sequence

from ..mistakes import Mistake
from .parsing import Words, unknown_word
from .told import Told

EXAMPLE = "underpour catalogue show plain-15"
HELP = """\
underpour catalogue list [WHAT]
underpour catalogue show NAME

Shows what can be named in a brief, one line each, or every number of one
entry: its value in both systems, low and high, source, clause, how it was
seen. A board has two R-values: as labelled, which a code reads, and in place,
which the heat flow is worked out with.

  WHAT   boards, grounds, materials, retarders, surfaces, limits, uses or
         sources; all of them unless you say
  NAME   a name from the list

For example:

  underpour catalogue show plain-15
"""
LISTS = ("boards", "grounds", "materials", "retarders", "surfaces", "limits", "uses", "sources")


def parser() -> Words:
    words = Words("catalogue", EXAMPLE)
    words.add_argument("what", nargs="?")
    words.add_argument("name", nargs="?")
    return words


def told(words: Sequence[str]) -> Told:
    """One line an entry, or every number of one entry."""
    from .paragraphs import width_of_terminal

    asked = parser()
    given = asked.read(words)
    width = width_of_terminal()
    if given.what == "list":
        from .shelves import listed

        if given.name is not None and given.name not in LISTS:
            wrong, listing = f"There is no list of {given.name}.", f"To choose from: {', '.join(LISTS)}."
            raise unknown_word("underpour catalogue list", given.name, LISTS, wrong, listing)
        return Told(listed(LISTS if given.name is None else (given.name,), width))
    if given.what == "show":
        from .records import shown

        return Told(shown(asked.must(given.name, "Which entry? Give a name from underpour catalogue list."), width))
    raise _list_or_show(given.what)


def _list_or_show(typed: str | None) -> Mistake:
    if typed is None:
        return Mistake("underpour catalogue", "", "List or show?", f"For example: {EXAMPLE}")
    wrong = "The catalogue can be listed or shown."
    return unknown_word("underpour catalogue", typed, ("list", "show"), wrong, f"For example: {EXAMPLE}")
