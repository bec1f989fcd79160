"""``underpour submittal``: a PDF to hand over."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from ..mistakes import Mistake, Mistakes
from . import exit_status, files
from .answered import answered
from .parsing import Words, one_of
from .told import Told

if TYPE_CHECKING:
    from argparse import Namespace

    from ..choosing import Choice
    from ..dossier import Dossier
    from ..papers import Printed
    from ..papers.logo import Logo
    from ..papers.typefaces import Typefaces

EXAMPLE = "underpour submittal brief.toml -o submittal.pdf"
HELP = """\
underpour submittal BRIEF -o FILE.pdf [--for owner|contractor|official]
                    [--draft] [--paper a4|us-letter] [--date 2026-11-25]
                    [--fonts FOLDER] [--since LAST.json] [--keep FILE.json]
                    [--accepted-ok] [--choose]

Makes the paper that an official, a crew and an owner can read: who hands it
over, what is asked, what is proposed, does it hold, how we know, drawings to
scale, product data, the order of the work, what to look at before the pour.

  BRIEF          the file that says where the slab is and what is under it
  -o FILE.pdf    the paper
  --for          one page instead: for the owner, the contractor or the official
  --draft        make it though something is missing; each sheet says so
  --paper        a4 or us-letter; by the brief's units unless you say
  --date         the date printed on it; today unless you say
  --fonts        a folder with fonts for letters that the bundled ones lack
  --since        what the last revision kept; what moved since is marked
  --keep         the findings of this revision as JSON, for the next one
  --choose       with a sheet that says what is recommended, and why not the
                 others (underpour choose); it takes some seconds more
  --accepted-ok  end with 0 where an [[accept]] names every shortfall

For example:

  underpour submittal examples/daylight-basement/brief.toml -o submittal.pdf

It ends with 0 when nothing falls short in the brief as briefed, and 1 when
something does; the paper is made either way. With 2 nothing is made: the words
say what is missing, and what to type.
"""
ABSENT_SHOWN = 12  # letters that no font draws, in one line
READERS = ("owner", "contractor", "official")


def parser() -> Words:
    words = Words("submittal", EXAMPLE)
    words.add_argument("brief", nargs="?")
    words.add_argument("-o", dest="paper_file", metavar="FILE.pdf")
    words.add_argument("--for", dest="reader", type=one_of("--for", *READERS))
    words.add_argument("--draft", action="store_true")
    words.add_argument("--paper", type=one_of("--paper", "a4", "us-letter"))
    words.add_argument("--date", type=day)
    words.add_argument("--fonts", metavar="FOLDER")
    words.add_argument("--since", metavar="LAST.json")
    words.add_argument("--keep", metavar="FILE.json")
    words.add_argument("--choose", action="store_true")
    words.add_argument("--accepted-ok", action="store_true")
    return words


def day(typed: str) -> str:
    """A day as printed on papers: "2026-11-25"."""
    try:
        return datetime.date.fromisoformat(typed).isoformat()
    except ValueError:
        raise Mistake(f"--date {typed}", "", "That is no day of the calendar.", "Write it as 2026-11-25.") from None


def since(last: str, brief: str) -> Dossier:
    """The brief answered, with what moved since the last revision, which is read before anything is worked out."""
    from ..brief.files import text_of
    from ..revisions import earlier, moved, of_this_slab

    before = earlier(text_of(Path(last)), last)
    of_this_slab(before, text_of(Path(brief)), last)
    dossier = answered(brief)
    return replace(dossier, moved=moved(before, dossier))


def keeping(typed: str, brief: str) -> Path:
    """The file that keeps this revision, which may stand over this revision only."""
    from ..brief.files import text_of
    from ..revisions import may_be_kept_over

    path = files.target(typed, ".json", brief)
    if path.exists():
        may_be_kept_over(text_of(path), text_of(Path(brief)), typed)
    return path


def told(words: Sequence[str]) -> Told:
    """The paper of a brief, written to the file; one line that says where it is."""
    asked = parser()
    given = asked.read(words)
    if given.choose and given.reader:
        wrong = "The page for one reader has no room for why the others were refused."
        raise Mistake(f"--choose --for {given.reader}", "", wrong, "Leave one of the two out.")
    brief = asked.must(given.brief, "Which brief?")
    path = files.target(asked.must(given.paper_file, "Where to? Name the paper with -o FILE.pdf."), ".pdf", brief)
    kept = None if given.keep is None else keeping(given.keep, brief)
    typefaces = None if given.fonts is None else fonts(given.fonts)

    dossier = answered(brief) if given.since is None else since(given.since, brief)

    from ..dossier_json import as_json
    from .spoken import last_words

    made = printed(dossier, brief, given, typefaces)
    files.replace_whole(path, made.pdf, given.paper_file)
    if kept is not None:
        files.replace_whole(kept, (as_json(dossier) + "\n").encode(), given.keep)
    name = f"answer for the {given.reader}" if given.reader else "submittal"
    said = [f"The {name}{', a draft,' if given.draft else ''} is in {given.paper_file}.", *absent_words(made.absent)]
    said += last_words(dossier.as_briefed.findings)
    return Told("\n".join(said) + "\n", exit_status.of(dossier, accepted_ok=given.accepted_ok))


def fonts(folder: str) -> Typefaces:
    from ..papers.typefaces import typefaces

    return typefaces(folder)


def printed(dossier: Dossier, brief: str, given: Namespace, typefaces: Typefaces | None) -> Printed:
    """The paper asked for. Raises Mistakes where a submittal is not ready and no draft was asked for."""
    from ..brief.read import reads
    from ..handouts.ordered import order_of
    from ..handouts.pictures import for_one_page, for_submittal
    from ..papers import for_one, gaps, submittal

    sign = logo_of(dossier.handover.logo, brief)
    paper: Literal["a4", "us-letter"] = given.paper or ("us-letter" if dossier.units == "US" else "a4")
    date = given.date or datetime.date.today().isoformat()
    if given.reader:
        pictures = for_one_page(dossier)
        return for_one(
            dossier, pictures, given.reader, date=date, paper=paper, logo=sign, typefaces=typefaces, draft=given.draft
        )
    takeoff = order_of(reads(dossier.brief_text, brief))
    pictures = for_submittal(dossier, takeoff)
    missing = gaps(dossier, pictures)
    if missing and not given.draft:
        raise Mistakes([_nothing_made(len(missing)), *(gap.mistake(brief) for gap in missing)])
    return submittal(
        dossier,
        pictures,
        date=date,
        paper=paper,
        logo=sign,
        typefaces=typefaces,
        gaps=missing,
        draft=given.draft,
        choice=chosen(brief) if given.choose else None,
        takeoff=takeoff,
    )


def chosen(brief: str) -> Choice:
    """What is recommended for the brief, worked out after everything else that could refuse the paper."""
    from ..choosing import choose
    from .answered import readable

    return choose(readable(brief))


def logo_of(typed: str, brief: str) -> Logo | None:
    """The picture that the brief names for its papers, looked through; None where it names none."""
    from ..papers.logo import logo

    try:
        return logo(typed, Path(brief).parent) if typed else None
    except Mistake as mistake:
        raise mistake.placed(file=brief) from None


def _nothing_made(missing: int) -> Mistake:
    wrong = f"Nothing was made: {missing} {'thing is' if missing == 1 else 'things are'} missing."
    return Mistake("underpour submittal", "", wrong, "With --draft it is made, and each sheet says that it is a draft.")


def absent_words(absent: Sequence[str]) -> list[str]:
    """What the terminal says of letters that no font draws."""
    if not absent:
        return []
    shown = ", ".join(
        f"{letter} (U+{ord(letter):04X})" if letter.isprintable() else f"U+{ord(letter):04X}"
        for letter in absent[:ABSENT_SHOWN]
    )
    more = f" and {len(absent) - ABSENT_SHOWN} more" if len(absent) > ABSENT_SHOWN else ""
    return [f"No font here draws {shown}{more}: each stands as □. --fonts FOLDER names fonts that do."]
