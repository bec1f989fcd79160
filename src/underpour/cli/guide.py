"""``underpour guide``: how one product is stored, laid and looked at."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from ..handouts.products import in_hand, paper_of, picture_of, system_of
from ..mistakes import Mistakes
from . import files
from .datasheet import nothing_made, of_the_record
from .kept import as_json, earlier_page, held_against, keeping, moved_words
from .pages_of import one
from .parsing import Words, one_of, unknown_word
from .told import Told

if TYPE_CHECKING:
    from ..catalogue.records import Use
    from ..particulars import Moved

WIDE = 112.0  # mm, the drawing of a guide
EXAMPLE = "underpour guide plain-15 -o plain-15-guide.pdf"
HELP = """\
underpour guide NAME -o FILE.pdf [--use USE] [--catalogue FILE-or-FOLDER]
                [--draft] [--date 2026-11-27] [--paper a4|us-letter]
                [--fonts FOLDER] [--since LAST.json] [--keep FILE.json]

Makes the install guide of a product: what is on the label, the works that touch
it in their order, what attacks it, how it is stored, cautions where they
belong, and what to look at before it is covered. The works are those that the
submittal of a brief prints; the measures of a job stand in its drawing.

  NAME           the key of a product: underpour catalogue list products
  -o FILE.pdf    the guide
  --use          what the slab is for, such as drive or cold-store: outdoors
                 nothing is said of radon, of a freezer what frost may do
  --catalogue    your own product line, or a folder of them; the line that
                 comes with the tool unless you say
  --draft        make it though a record falls short; each sheet says so
  --date         the day printed on it, that certificates are held to; today
                 unless you say
  --paper        a4 or us-letter; by the record's own units unless you say
  --fonts        a folder with fonts for letters that the bundled ones lack
  --since        what an older guide kept; what moved since is listed, and a
                 guide that says the same keeps the day of its first issue
  --keep         what this guide says as JSON, for the next one

For example:

  underpour guide plain-15 -o plain-15-guide.pdf

It ends with 0, or with 2 where nothing was made: the words say why.
"""


def parser() -> Words:
    from .submittal import day

    words = Words("guide", EXAMPLE)
    words.add_argument("name", nargs="?")
    words.add_argument("-o", dest="out", metavar="FILE.pdf")
    words.add_argument("--use")
    words.add_argument("--catalogue", metavar="FILE-or-FOLDER")
    words.add_argument("--draft", action="store_true")
    words.add_argument("--date", type=day)
    words.add_argument("--paper", type=one_of("--paper", "a4", "us-letter"))
    words.add_argument("--fonts", metavar="FOLDER")
    words.add_argument("--since", metavar="LAST.json")
    words.add_argument("--keep", metavar="FILE.json")
    return words


def told(words: Sequence[str]) -> Told:
    """The guide of a product, written to the file; one line that says where it is, and its mark."""
    from ..particulars import GUIDE
    from .days import day
    from .submittal import absent_words, fonts

    asked = parser()
    given = asked.read(words)
    name = asked.must(given.name, "Which product? Give a name from underpour catalogue list products.")
    path = files.target(asked.must(given.out, "Where to? Name the guide with -o FILE.pdf."), ".pdf", None)
    use = None if given.use is None else _use(given.use)
    kept = None if given.keep is None else keeping(given.keep, GUIDE, name)
    typefaces = None if given.fonts is None else fonts(given.fonts)
    last = None if given.since is None else earlier_page(given.since, GUIDE)
    of = one(in_hand(given.catalogue, day(given.date)), name, "underpour guide").shown()
    if of.short and not given.draft:
        raise Mistakes([nothing_made(of, "underpour guide"), *of_the_record(of)])

    from ..laying.guide import guide
    from ..papers import guided, product_guide

    content = guided(of, guide(of.product, use, system_of(of)), use)
    moved: tuple[str, Sequence[Moved]] | None = None
    if last is not None:
        content, moved = held_against(last, content, given.since, GUIDE)
    made = product_guide(
        content,
        picture_of(of, WIDE),
        paper=given.paper or paper_of(of),
        typefaces=typefaces,
        draft=given.draft,
        moved=moved,
    )
    files.replace_whole(path, made.pdf, given.out)
    if kept is not None:
        files.replace_whole(kept, as_json(content), given.keep)
    draft = ", a draft," if given.draft else ""
    said = [f"The guide of {of.name}{draft} is in {given.out}, mark {content['mark']}."]
    if moved is not None:
        said.append(moved_words(moved[1], content, GUIDE))
    return Told("\n".join([*said, *absent_words(made.absent)]) + "\n")


def _use(typed: str) -> Use:
    """A use by its name or another word for it."""
    from ..catalogue import uses

    words = {word: use for use in uses() for word in (use.key, *use.aliases)}
    if typed not in words:
        wrong, listing = f"No use is called {typed}.", "All of them: underpour catalogue list uses"
        raise unknown_word("--use", typed, words, wrong, listing)
    return words[typed]
