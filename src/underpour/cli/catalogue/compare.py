"""``underpour catalogue compare``: products side by side, in the terminal, as a PDF or as a table."""

from __future__ import annotations

import csv
import datetime
import io
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from ...handouts.products import in_hand, paper_of
from ...mistakes import Mistake
from .. import files
from ..days import day
from ..kept import as_json, earlier_page, held_against, keeping, moved_words
from ..pages_of import one
from ..paragraphs import columns, hung, width_of_terminal
from ..parsing import Words, one_of
from ..told import Told

if TYPE_CHECKING:
    from argparse import Namespace
    from pathlib import Path

    from ...handouts.products import Offered
    from ...particulars import Cell, Comparison, Moved

EXAMPLE = "underpour catalogue compare plain-15 xps-25 -o boards.pdf"
HELP = """\
underpour catalogue compare [NAME ...] [-o FILE.pdf|FILE.csv]
                            [--catalogue FILE-or-FOLDER] [--date DAY]
                            [--paper a4|us-letter] [--since LAST.json]
                            [--keep FILE.json]

Sets products side by side: thicknesses, R as labelled, what each test gave,
classes that the evidence carries, use. A number whose record is missing,
expired, refused or an average is never shown plain.

  NAME          products, or boards, panels, films or tapes; all boards unless
                you say
  -o FILE       write it as PDF, or as CSV for a spreadsheet
  --catalogue   your own product line, or a folder of them; the line that
                comes with the tool unless you say
  --date DAY    the day that certificates are held to; today unless you say
  --paper       a4 or us-letter, of a PDF
  --since       what an older comparison kept; what moved since is listed
  --keep        what this comparison says as JSON, for the next one

For example:

  underpour catalogue compare plain-15 xps-25 -o boards.pdf
"""
NAME, CELL = 20, 17  # columns of a terminal: at least, for the name of a row and for a product
NOTHING_PLAIN = (
    "A number stands plain only where its record stands on this day. Two tests of one property are two rows, and none"
    " is turned into the other. underpour datasheet NAME gives the record behind each."
)
FORMULA = ("=", "+", "-", "@", "\t", "\r")  # a spreadsheet would work out what begins so


def parser() -> Words:
    words = Words("catalogue compare", EXAMPLE)
    words.add_argument("names", nargs="*")
    words.add_argument("-o", dest="out", metavar="FILE")
    words.add_argument("--catalogue", metavar="FILE-or-FOLDER")
    words.add_argument("--date")
    words.add_argument("--paper", type=one_of("--paper", "a4", "us-letter"))
    words.add_argument("--since", metavar="LAST.json")
    words.add_argument("--keep", metavar="FILE.json")
    return words


def told(words: Sequence[str]) -> Told:
    """The products asked for: in words, or written where ``-o`` says."""
    from ...particulars import COMPARISON

    asked = parser()
    given = asked.read(words)
    today = day(given.date)
    path = None if given.out is None else files.target(given.out, (".pdf", ".csv"), None)
    kept = None if given.keep is None else keeping(given.keep, COMPARISON)
    last = None if given.since is None else earlier_page(given.since, COMPARISON)
    shown = _comparison(given.names, given.catalogue, today)
    if path is None and kept is None and last is None:
        return Told(in_words(shown, width_of_terminal()))
    page, moved = _page(shown), None
    if last is not None:
        page, moved = held_against(last, page, given.since, COMPARISON)
    written = _written(path, given, shown, page, moved)
    if kept is not None:
        files.replace_whole(kept, as_json(page), given.keep)
    return Told(written)


def _written(
    path: Path | None,
    given: Namespace,
    shown: Comparison,
    page: Mapping[str, Any],
    moved: tuple[str, Sequence[Moved]] | None,
) -> str:
    """The comparison in words, or the file written and what is to be said of it; then what moved."""
    width = width_of_terminal()
    since = [] if moved is None else [*_moved(moved, page, width)]
    if path is None:
        return in_words(shown, width) + "".join(f"{line}\n" for line in (["", *since] if since else []))
    said = [f"The comparison is in {given.out}, mark {page['mark']}."]
    if path.suffix.lower() == ".csv":
        files.replace_whole(path, as_csv(shown).encode("utf-8-sig"), given.out)
        return "\n".join([*said, *since]) + "\n"
    from ...papers import product_comparison
    from ...particulars import COMPARISON
    from ..submittal import absent_words

    made = product_comparison(page, paper=given.paper or paper_of(shown.products[0]), moved=moved)
    files.replace_whole(path, made.pdf, given.out)
    if moved is not None:
        said.append(moved_words(moved[1], page, COMPARISON))
    return "\n".join([*said, *absent_words(made.absent)]) + "\n"


def _page(shown: Comparison) -> dict[str, Any]:
    from ...papers.product_pages import compared

    return compared(shown, NOTHING_PLAIN)


def _moved(moved: tuple[str, Sequence[Moved]], page: Mapping[str, Any], width: int) -> Iterator[str]:
    """What moved since an older comparison, a line each."""
    from ...particulars import COMPARISON

    since, found = moved
    if not found:
        yield from hung(moved_words(found, page, COMPARISON), width)
        return
    yield from hung(f"What moved since {since}", width)
    for each in found:
        yield from hung(f"{each.what}: {each.now or 'gone'}; was {each.was or 'not there'}", width, 2)


def _comparison(names: Sequence[str], catalogue: str | None, today: datetime.date) -> Comparison:
    from ...particulars import comparison

    return comparison([each.shown() for each in chosen(names or ("boards",), in_hand(catalogue, today))])


def chosen(names: Sequence[str], products: Sequence[Offered]) -> list[Offered]:
    """The products named, by their keys or by a list, each once; a Mistake for a name that is none."""
    from ...particulars import lists

    found: dict[int, Offered] = {}
    for name in names:
        if name in lists():
            of_list = [each for each in products if each.product.kind in lists()[name]]
            if not of_list:
                wrong = f"No product of the line is one of the {name}."
                raise Mistake(f"underpour catalogue compare {name}", "", wrong, "Name products by their keys.")
            found |= {id(each): each for each in of_list}
        else:
            each = one(products, name, "underpour catalogue compare", also=lists())
            found[id(each)] = each
    return list(found.values())


def in_words(of: Comparison, width: int) -> str:
    """Blocks of as many products as the terminal has room for, each with every row."""
    fit = max(1, (width - NAME) // (CELL + 2))
    lines: list[str] = []
    for start in range(0, len(of.products), fit):
        lines += [*_block(of, start, min(start + fit, len(of.products)), width), ""]
    if of.notes:
        lines.append("Why a number does not stand plain")
        lines += [line for note in of.notes for line in hung(note, width, 2)] + [""]
    day = of.products[0].day
    number = f"{len(of.products)} product" + ("s" if len(of.products) != 1 else "")
    lines += hung(f"{number}, held to {day.day} {day:%B} {day.year}. {NOTHING_PLAIN}", width)
    return "\n".join(lines) + "\n"


def _block(of: Comparison, start: int, end: int, width: int) -> Iterator[str]:
    shown = range(start, end)
    each = max(CELL, min(30, (width - NAME) // len(shown) - 2))
    widths = [width - (each + 2) * len(shown), *[each] * len(shown)]
    yield from columns(["", *(of.products[n].product.key for n in shown)], widths)
    yield from columns(["", *(of.products[n].name for n in shown)], widths)
    for group, rows in of.groups:
        yield ""
        yield from hung(group, width)
        for row in rows:
            name = ", ".join(filter(None, (row.name, row.terms)))
            yield from columns([name, *(row.cells[n].words for n in shown)], widths)


def as_csv(of: Comparison) -> str:
    """One row a characteristic, one column a product, and beside it the record behind each cell."""
    told = io.StringIO(newline="")
    table = csv.writer(told, lineterminator="\r\n")
    keys = [each.product.key for each in of.products]
    table.writerow(["group", "characteristic", "test", *(head for key in keys for head in (key, f"{key}, evidence"))])
    days = (words for each in of.products for words in (each.day.isoformat(), ""))
    table.writerow(["What it is", "Evidence held to", "", *days])
    for group, rows in of.groups:
        for row in rows:
            table.writerow(map(_harmless, [group, row.name, row.terms, *_cells(row.cells)]))
    return told.getvalue()


def _cells(cells: Sequence[Cell]) -> Iterator[str]:
    for cell in cells:
        yield cell.words
        yield cell.evidence


def _harmless(words: str) -> str:
    """The words, so that no spreadsheet takes them for a formula.

    >>> _harmless("=1+1"), _harmless("-65 F"), _harmless("R8.1")
    ("'=1+1", "'-65 F", 'R8.1')
    """
    return f"'{words}" if words.startswith(FORMULA) else words
