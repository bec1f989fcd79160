"""``underpour catalogue``: what can be named in a brief, and where every number of it comes from."""

from __future__ import annotations

from collections.abc import Sequence

from ..mistakes import Mistake
from .parsing import Words, unknown_word
from .told import Told

EXAMPLE = "underpour catalogue show plain-15"
VALIDATE = "underpour catalogue validate my-line.toml"
HELP = """\
underpour catalogue list [WHAT]
underpour catalogue show NAME [--label]
underpour catalogue compare [NAME ...] [-o FILE.pdf|FILE.csv] [--date DAY]
underpour catalogue validate [FILE-or-FOLDER] [--date DAY] [--json]

Shows what can be named in a brief, one line each, or every number of one
entry: its value in both systems, low and high, source, clause, how it was
seen. A board has two R-values: as labelled, which a code reads, and in place,
which the heat flow is worked out with.

  WHAT   boards, unsuited (boards that do not belong below a slab), products,
         grounds, materials, retarders, surfaces, limits, uses or sources; all
         of them unless you say
  NAME   a name from the list

With --label a product shows the text that is held against the print on a pack
and against the delivery ticket, with places for what is written in on site.

compare sets products side by side: thicknesses, R as labelled, what each test
gave, classes that the evidence carries, use. A number whose record is missing,
expired, refused or an average is never shown plain.

  NAME            products, or boards, panels, films or tapes; all boards
                  unless you say
  -o FILE         write it as PDF, or as CSV for a spreadsheet
  --catalogue     your own product line, or a folder of them; the line that
                  comes with the tool unless you say
  --paper         a4 or us-letter, of a PDF

validate holds a product line to its evidence: which class the records carry,
what falls short of a claim, what is missing, what expires within 90 days,
which records disagree. It changes no file, and ends with 1 where a record
falls short, 2 where a file cannot be read. docs/products.md says what a
product record holds.

  FILE-or-FOLDER  a product line, or a folder of them; the line that comes
                  with the tool unless you say
  --date DAY      the day that certificates are held to, such as 2026-11-27;
                  today unless you say
  --json          the same as data

For example:

  underpour catalogue show plain-15
  underpour catalogue validate my-line.toml
"""
LISTS = ("boards", "unsuited", "products", "grounds", "materials", "retarders", "surfaces", "limits", "uses", "sources")


def parser() -> Words:
    words = Words("catalogue", EXAMPLE)
    words.add_argument("what", nargs="?")
    words.add_argument("names", nargs="*")
    words.add_argument("--date")
    words.add_argument("--json", action="store_true")
    words.add_argument("--label", action="store_true")
    words.add_argument("-o", dest="out", metavar="FILE")
    words.add_argument("--catalogue", metavar="FILE-or-FOLDER")
    words.add_argument("--paper", type=one_of("--paper", "a4", "us-letter"))
    return words


def told(words: Sequence[str]) -> Told:
    """One line an entry, every number of one entry, or a product line held to its evidence."""
    from .paragraphs import width_of_terminal

    asked = parser()
    given = asked.read(words)
    width = width_of_terminal()
    if given.what == "validate":
        return _validated(given.name, given.date, given.json, width)
    if given.date is not None or given.json:
        option = "--json" if given.json else "--date"
        raise Mistake(f"underpour catalogue {option}", "", f"{option} belongs to validate.", f"For example: {VALIDATE}")
    if given.what == "list":
        from .shelves import listed

        if given.name is not None and given.name not in LISTS:
            wrong, listing = f"There is no list of {given.name}.", f"To choose from: {', '.join(LISTS)}."
            raise unknown_word("underpour catalogue list", given.name, LISTS, wrong, listing)
        return Told(listed(LISTS if given.name is None else (given.name,), width))
    if given.what == "show":
        from .records import shown

        return Told(shown(asked.must(given.name, "Which entry? Give a name from underpour catalogue list."), width))
    raise _list_show_or_validate(given.what)


def _validated(path: str | None, date: str | None, as_json: bool, width: int) -> Told:
    from .validated import day, in_words, validated

    found = validated(path, day(date))
    status = 1 if found.falls_short else 0
    if as_json:
        import json

        from ..conformity.validation_json import plain

        return Told(json.dumps(plain(found), indent=2, ensure_ascii=False) + "\n", status)
    return Told(in_words(found, width), status)


def _list_show_or_validate(typed: str | None) -> Mistake:
    if typed is None:
        return Mistake("underpour catalogue", "", "List, show or validate?", f"For example: {EXAMPLE}")
    wrong = "The catalogue can be listed, shown or validated."
    return unknown_word("underpour catalogue", typed, ("list", "show", "validate"), wrong, f"For example: {EXAMPLE}")
