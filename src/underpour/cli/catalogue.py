"""``underpour catalogue``: what can be named in a brief, and where every number of it comes from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from ..mistakes import Mistake
from .parsing import Words, one_of, unknown_word
from .told import Told

if TYPE_CHECKING:
    from argparse import Namespace

EXAMPLE = "underpour catalogue show plain-15"
EXAMPLES = {
    "list": "underpour catalogue list boards",
    "show": EXAMPLE,
    "compare": "underpour catalogue compare plain-15 xps-25 -o boards.pdf",
    "validate": "underpour catalogue validate my-line.toml",
}
OPTIONS = {  # the words that each belongs to, and whether to the label of a product as well
    "--json": (("validate",), False),
    "--date": (("validate", "compare"), True),
    "--catalogue": (("compare",), True),
    "-o": (("compare",), False),
    "--paper": (("compare",), False),
    "--label": (("show",), False),
}
HELP = """\
underpour catalogue list [WHAT]
underpour catalogue show NAME [--label]
underpour catalogue compare [NAME ...] [-o FILE.pdf|FILE.csv] [--date DAY]
underpour catalogue validate [FILE-or-FOLDER] [--date DAY] [--json]
underpour catalogue import TABLE -o LINE.toml [--over]
underpour catalogue export [FILE-or-FOLDER] -o TABLE [--over]
underpour catalogue export --start -o TABLE
underpour catalogue replace BRIEF BOARD [--by NAME [-o PAGE.pdf]]
underpour catalogue thickness R10 [BOARD ...] [--brief BRIEF]

Shows what can be named in a brief, one line each, or every number of one
entry: its value in both systems, low and high, source, clause, how it was
seen. A board has two R-values: as labelled, which a code reads, and in place,
which the heat flow is worked out with.

  WHAT   boards, unsuited (boards that do not belong below a slab), products,
         grounds, materials, retarders, agents (what may touch foam), sheets,
         surfaces, air-spaces, limits, uses or sources; all of them unless you
         say
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

import reads a product line from a table, CSV or XLSX: one row for each product
and each test. All that is wrong with it is told at once, each with its row and
column, and nothing is written then. export writes a line as a table.

  TABLE    a .csv or .xlsx file
  --start  a table to begin with: every column, and one product as an example
  --over   write over a file that stands there

replace says which products can stand in the place of a board of a brief, and
why the others cannot: underpour catalogue replace --help.

thickness says which thickness made reaches a wanted R, or a wanted U of a whole
floor, and what a thickness brings: underpour catalogue thickness --help.

For example:

  underpour catalogue show plain-15
  underpour catalogue compare plain-15 xps-25 -o boards.pdf
  underpour catalogue validate my-line.toml
  underpour catalogue export --start -o my-line.xlsx
  underpour catalogue import my-line.xlsx -o my-line.toml
"""
WORDS = (*EXAMPLES, "import", "export", "replace", "thickness")
LISTS = (
    "boards", "unsuited", "products", "grounds", "materials", "retarders", "agents", "sheets", "surfaces", "air-spaces",
    "limits", "uses", "sources",
)  # fmt: skip


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


def help_of(words: Sequence[str]) -> str:
    """The help of the word that comes first, where it has its own; that of the whole command otherwise."""
    from . import replaced, thickness

    own = {"replace": replaced.HELP, "thickness": thickness.HELP}
    return own.get(words[0], HELP) if words else HELP


def told(words: Sequence[str]) -> Told:
    """One line an entry, every number of one entry, or a product line held to its evidence."""
    if words[:1] == ["replace"]:
        from . import replaced

        return replaced.told(words[1:])

    if words[:1] == ["thickness"]:
        from . import thickness

        return thickness.told(words[1:])

    from .paragraphs import width_of_terminal

    if words and words[0] in ("import", "export"):
        from . import tables

        return tables.imported(words[1:]) if words[0] == "import" else tables.exported(words[1:])
    if words and not words[0].startswith("-") and words[0] not in WORDS:
        raise _which_word(words[0])
    asked = parser()
    given = asked.read(words)
    width = width_of_terminal()
    _belongs(given)
    if given.what == "compare":
        from .compared_products import compared
        from .validated import day

        return compared(given.names, given, day(given.date), width)
    name = given.names[0] if given.names else None
    if given.names[1:]:
        wrong = "The command does not take this."
        raise unknown_word("underpour catalogue", given.names[1], (), wrong, "For more: underpour catalogue --help")
    if given.what == "validate":
        return _validated(name, given.date, given.json, width)
    if given.what == "list":
        from .shelves import listed

        if name is not None and name not in LISTS:
            wrong, listing = f"There is no list of {name}.", f"To choose from: {', '.join(LISTS)}."
            raise unknown_word("underpour catalogue list", name, LISTS, wrong, listing)
        return Told(listed(LISTS if name is None else (name,), width))
    if given.what == "show":
        from .records import shown

        must = asked.must(name, "Which entry? Give a name from underpour catalogue list.")
        return Told(_label(must, given, width) if given.label else shown(must, width))
    raise _which_word(given.what)


def _belongs(given: Namespace) -> None:
    """Refuses an option beside a word that does not take it."""
    shows_label = given.what == "show" and given.label
    for option, (words, with_label) in OPTIONS.items():
        typed = getattr(given, option.lstrip("-") if option != "-o" else "out")
        if typed and given.what not in words and not (with_label and shows_label):
            named = [*words, *(["show --label"] if with_label else [])]
            to = " and ".join(filter(None, (", ".join(named[:-1]), named[-1])))
            instead = f"For example: {EXAMPLES[words[0]]}"
            raise Mistake(f"underpour catalogue {option}", "", f"{option} belongs to {to}.", instead)


def _label(name: str, given: Namespace, width: int) -> str:
    """The text that is held against a pack."""
    from ..particulars import label
    from .pages_of import in_hand, one
    from .paragraphs import hung
    from .validated import day

    of = one(in_hand(given.catalogue, day(given.date)), name, "underpour catalogue show").shown()
    lines = label(of)
    indent = max(len(head) for head, _ in lines) + 2
    return "\n".join(line for head, words in lines for line in hung(words or "_" * 20, width, indent, head)) + "\n"


def _validated(path: str | None, date: str | None, as_json: bool, width: int) -> Told:
    from .validated import day, in_words, validated

    found = validated(path, day(date))
    status = 1 if found.falls_short else 0
    if as_json:
        import json

        from ..conformity.validation_json import plain

        return Told(json.dumps(plain(found), indent=2, ensure_ascii=False) + "\n", status)
    return Told(in_words(found, width), status)


def _which_word(typed: str | None) -> Mistake:
    if typed is None:
        asks = "List, show, compare, validate, import or export?"
        return Mistake("underpour catalogue", "", asks, f"For example: {EXAMPLE}")
    wrong = "The catalogue can be listed, shown, compared, validated, imported or exported."
    return unknown_word("underpour catalogue", typed, WORDS, wrong, f"For example: {EXAMPLE}")
