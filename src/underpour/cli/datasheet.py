"""``underpour datasheet``: the data sheet of one product, from its record."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from ..handouts.products import in_hand, paper_of, picture_of
from ..mistakes import Mistake, Mistakes
from . import files
from .kept import as_json, earlier_page, held_against, keeping, moved_words
from .pages_of import one
from .parsing import Words, one_of
from .told import Told

if TYPE_CHECKING:
    from ..particulars import Moved, Particulars

EXAMPLE = "underpour datasheet plain-15 -o plain-15.pdf"
HELP = """\
underpour datasheet NAME -o FILE.pdf [--catalogue FILE-or-FOLDER] [--draft]
                    [--prices] [--date 2026-11-27] [--paper a4|us-letter]
                    [--fonts FOLDER] [--since LAST.json] [--keep FILE.json]

Makes the data sheet of a product from its record: what it is for and what not,
classes that the evidence carries, thicknesses with R as labelled, every
property with test, conditions, laboratory, certificate and days, a section to
scale, cautions, and the text to hold against pack and delivery ticket.

  NAME           the key of a product: underpour catalogue list products
  -o FILE.pdf    the sheet
  --catalogue    your own product line, or a folder of them; the line that
                 comes with the tool unless you say
  --draft        make it though a record falls short; each sheet says so, and
                 what is refused or expired is printed as such
  --prices       print the prices, with their day
  --date         the day printed on it, that certificates are held to; today
                 unless you say
  --paper        a4 or us-letter; by the record's own units unless you say
  --fonts        a folder with fonts for letters that the bundled ones lack
  --since        what an older sheet kept; what moved since is listed, and a
                 sheet that says the same keeps the day of its first issue
  --keep         what this sheet says as JSON, for the next one

Each sheet carries a mark, six letters and digits worked out from what it says,
without its day: two sheets with the same mark say the same.

For example:

  underpour datasheet plain-15 -o plain-15.pdf --keep plain-15.json

It ends with 0, or with 2 where nothing was made: the words say why.
"""


def parser() -> Words:
    from .submittal import day

    words = Words("datasheet", EXAMPLE)
    words.add_argument("name", nargs="?")
    words.add_argument("-o", dest="out", metavar="FILE.pdf")
    words.add_argument("--catalogue", metavar="FILE-or-FOLDER")
    words.add_argument("--draft", action="store_true")
    words.add_argument("--prices", action="store_true")
    words.add_argument("--date", type=day)
    words.add_argument("--paper", type=one_of("--paper", "a4", "us-letter"))
    words.add_argument("--fonts", metavar="FOLDER")
    words.add_argument("--since", metavar="LAST.json")
    words.add_argument("--keep", metavar="FILE.json")
    return words


def told(words: Sequence[str]) -> Told:
    """The sheet of a product, written to the file; one line that says where it is, and its mark."""
    from ..particulars import SHEET
    from .days import day
    from .submittal import absent_words, fonts

    asked = parser()
    given = asked.read(words)
    name = asked.must(given.name, "Which product? Give a name from underpour catalogue list products.")
    path = files.target(asked.must(given.out, "Where to? Name the sheet with -o FILE.pdf."), ".pdf", None)
    kept = None if given.keep is None else keeping(given.keep, SHEET, name)
    typefaces = None if given.fonts is None else fonts(given.fonts)
    last = None if given.since is None else earlier_page(given.since, SHEET)

    of = one(in_hand(given.catalogue, day(given.date)), name, "underpour datasheet").shown()
    if of.short and not given.draft:
        raise Mistakes([nothing_made(of, "underpour datasheet"), *of_the_record(of)])

    from ..particulars import sheet as sheet_of

    sheet = sheet_of(of, prices=given.prices)
    moved: tuple[str, Sequence[Moved]] | None = None
    if last is not None:
        sheet, moved = held_against(last, sheet, given.since, SHEET)

    from ..papers import data_sheet

    made = data_sheet(
        sheet,
        picture_of(of),
        paper=given.paper or paper_of(of),
        typefaces=typefaces,
        draft=given.draft,
        moved=moved,
    )
    files.replace_whole(path, made.pdf, given.out)
    if kept is not None:
        files.replace_whole(kept, as_json(sheet), given.keep)
    said = [
        f"The data sheet of {of.name}{', a draft,' if given.draft else ''} is in {given.out}, mark {sheet['mark']}."
    ]
    if moved is not None:
        said.append(moved_words(moved[1], sheet, SHEET))
    return Told("\n".join([*said, *absent_words(made.absent)]) + "\n")


def nothing_made(of: Particulars, command: str) -> Mistake:
    """That no page was made of a product whose records fall short."""
    number = "1 thing falls" if len(of.short) == 1 else f"{len(of.short)} things fall"
    wrong = f"Nothing was made: {number} short in the record of {of.name}."
    instead = "With --draft it is made, and each sheet says that it is a draft."
    return Mistake(command, "", wrong, instead)


def of_the_record(of: Particulars) -> list[Mistake]:
    """Each thing that falls short in the record, with file and line."""
    return [Mistake(each.about(), "", each.wrong, each.instead, file=each.file, line=each.line) for each in of.short]
