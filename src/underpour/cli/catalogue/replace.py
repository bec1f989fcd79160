"""``underpour catalogue replace``: which products can stand in the place of a board of a brief."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Literal

from ...mistakes import Mistake
from .. import files
from ..paragraphs import block, columns, hung, width_of_terminal
from ..parsing import Words, one_of
from ..told import Told

if TYPE_CHECKING:
    from ...substitution import Substitute, Substitution

EXAMPLE = "underpour catalogue replace brief.toml plain-25"
HELP = """\
underpour catalogue replace BRIEF BOARD [--by NAME [-o PAGE.pdf]]
                            [--paper a4|us-letter] [--date 2026-11-27]

Says which products can stand in the place of a board: those whose records show
every number of the class that is asked for, whose labelled R is no less in a
thickness that is made, and with which everything that met in this brief meets
still. The others are listed with each reason. Alternatives of the brief are
not looked at.

  BRIEF        the file that says where the slab is and what is under it
  BOARD        a board of the brief, as it is named there
  --by NAME    one product that is proposed: both side by side, with what it
               does to this floor
  -o PAGE.pdf  that as a page which a reviewer can accept or refuse
  --paper      a4 or us-letter; by the brief's units unless you say
  --date       the date printed on it; today unless you say

For example:

  underpour catalogue replace examples/frost-wall-workshop/brief.toml plain-25

It ends with 0, and with 2 where the brief cannot be used or does not have the
board.
"""
IN_THE_LIST = ("heat.resistance", "heat.loss-mean", "heat.floor-coldest", "height.total", "bearing", "code")
REASONS = 3  # told of a refused product in the list; --by tells all


def parser() -> Words:
    words = Words("catalogue replace", EXAMPLE)
    words.add_argument("brief", nargs="?")
    words.add_argument("board", nargs="?")
    words.add_argument("--by", metavar="NAME")
    words.add_argument("-o", dest="page_file", metavar="PAGE.pdf")
    words.add_argument("--paper", type=one_of("--paper", "a4", "us-letter"))
    words.add_argument("--date")
    return words


def told(words: Sequence[str]) -> Told:
    """The products that can serve and those that cannot; or one of them, as words or as a page."""
    from ..answered import readable
    from ..submittal import absent_words, day

    asked = parser()
    given = asked.read(words)
    brief = asked.must(given.brief, "Which brief?")
    board = asked.must(given.board, "Which of its boards? Give its name as the brief does.")
    if given.by is None and (given.page_file or given.paper or given.date):
        wrong = "A page is of one product that is proposed."
        raise Mistake("underpour catalogue replace", "", wrong, "Name it with --by.")
    path = None if given.page_file is None else files.target(given.page_file, ".pdf", brief)
    date = day(given.date) if given.date else datetime.date.today().isoformat()

    from ...substitution import substitution

    found = substitution(readable(brief), board, given.by)
    if path is None:
        return Told(in_words(found, width_of_terminal(), alone=given.by is not None))

    from ... import __version__
    from ...papers import substitution_page

    paper: Literal["a4", "us-letter"] = given.paper or ("us-letter" if found.system == "US" else "a4")
    made = substitution_page(found, __version__, date=date, paper=paper)
    files.replace_whole(path, made.pdf, given.page_file)
    said = [f"The page for the reviewer is in {given.page_file}.", *absent_words(made.absent)]
    from ...papers.substituted import verdict

    return Told("\n".join([*said, verdict(found.substitutes[0])]) + "\n")


def in_words(of: Substitution, width: int, *, alone: bool) -> str:
    """Everything that was found; of one product that is proposed everything that changes."""
    from ...papers.substituted import wanted

    label = of.board.label
    lines = [*hung(f"{label} in: {of.title}", width), *hung(f"{of.use}, {of.place}.", width), ""]
    lines += block("What is asked", (line for each in wanted(of) for line in hung(each, width, 4, "  -")))
    if alone:
        lines += _proposed(of, of.substitutes[0], width)
    else:
        serving = [line for each in of.serving for line in _serves(of, each, width)]
        lines += block(f"Can serve ({len(of.serving)})", serving or ["  None of the products in hand."])
        lines += block(f"Cannot ({len(of.refused)})", (line for each in of.refused for line in _refused(each, width)))
    lines += block("What to know", (line for note in of.notes for line in hung(note, width, 2)))
    lines += block("Mind", (line for caution in of.cautions for line in hung(caution, width, 2)))
    if not alone and of.serving:
        lines += hung("One of them for a reviewer: --by NAME -o PAGE.pdf", width)
    return "\n".join(lines).rstrip() + "\n"


def _serves(of: Substitution, each: Substitute, width: int) -> Iterator[str]:
    """One product with what changes, unlike things only."""
    from ...papers.substituted import both_told, differs, moved, where

    at = "; ".join(where(exchange) for exchange in each.exchanges)
    yield from hung(f"{each.board.label} ({at})", width, 18, f"  {each.board.key}")
    for change in each.changes:
        if differs(change, of):
            before, after = both_told(change, of)
            yield from hung(f"{change.name}: {before}, now {after}", width, 18)
    for title, before, after in moved(of, each, IN_THE_LIST):
        yield from hung(f"{title}: {before}, now {after}", width, 18)
    yield ""


def _refused(each: Substitute, width: int) -> Iterator[str]:
    yield from hung(each.board.label, width, 18, f"  {each.board.key}")
    for refusal in each.refusals[:REASONS]:
        yield from hung(refusal.words, width, 18)
    if len(each.refusals) > REASONS:
        yield from hung(f"And {len(each.refusals) - REASONS} more: --by {each.board.key}", width, 18)
    yield ""


def _proposed(of: Substitution, each: Substitute, width: int) -> Iterator[str]:
    """One product side by side with the board that is asked for."""
    from ...papers.substituted import both_told, cautions_beside, moved, source, verdict, where

    yield from hung(f"{each.board.label} in its place. {verdict(each)}", width)
    for exchange in each.exchanges:
        yield from hung(where(exchange), width, 2)
    for refusal in each.refusals:
        yield from hung(f"{refusal.words} {source(refusal)}".strip(), width, 4, "  -")
    third = (width - 4) // 3
    widths = [width - 4 - 2 * third, third, third]
    for head, rows in (
        ("The two products", [(change.name, *both_told(change, of)) for change in each.changes]),
        ("What it does to this floor", moved(of, each)),
    ):
        if rows:
            yield from ["", *columns([head, of.board.label, each.board.label], widths)]
            for row in rows:
                yield from columns(list(row), widths)
    for caution in cautions_beside(of, each):
        yield from hung(caution, width, 2)
    yield ""
