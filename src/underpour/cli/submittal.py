"""``underpour submittal``: a PDF to hand over."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from ..mistakes import Mistake
from . import exit_status, files
from .answered import answered
from .parsing import Words, one_of
from .told import Told

if TYPE_CHECKING:
    from ..dossier import Dossier

EXAMPLE = "underpour submittal brief.toml -o submittal.pdf"
HELP = """\
underpour submittal BRIEF -o FILE.pdf [--paper a4|us-letter] [--date 2026-11-25]
                    [--since LAST.json] [--keep FILE.json] [--accepted-ok]

Makes the paper that an official, a crew and an owner can read: what is asked,
what is proposed, does it hold, how we know, drawings, what was assumed.

  BRIEF          the file that says where the slab is and what is under it
  -o FILE.pdf    the paper
  --paper        a4 or us-letter; by the brief's units unless you say
  --date         the date printed on it; today unless you say
  --since        what the last revision kept; what moved since is marked
  --keep         the findings of this revision as JSON, for the next one
  --accepted-ok  end with 0 where an [[accept]] names every shortfall

For example:

  underpour submittal examples/daylight-basement/brief.toml -o submittal.pdf

It ends with 0 when nothing falls short in the brief as briefed, and 1 when
something does; the paper is made either way.
"""


def parser() -> Words:
    words = Words("submittal", EXAMPLE)
    words.add_argument("brief", nargs="?")
    words.add_argument("-o", dest="paper_file", metavar="FILE.pdf")
    words.add_argument("--paper", type=one_of("--paper", "a4", "us-letter"))
    words.add_argument("--date", type=day)
    words.add_argument("--since", metavar="LAST.json")
    words.add_argument("--keep", metavar="FILE.json")
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
    from ..revisions import earlier, moved

    before = earlier(text_of(Path(last)), last)
    dossier = answered(brief)
    return replace(dossier, moved=moved(before, dossier))


def told(words: Sequence[str]) -> Told:
    """The submittal of a brief, written to the file; one line that says where it is."""
    asked = parser()
    given = asked.read(words)
    brief = asked.must(given.brief, "Which brief?")
    path = files.target(asked.must(given.paper_file, "Where to? Name the paper with -o FILE.pdf."), ".pdf", brief)
    kept = None if given.keep is None else files.target(given.keep, ".json", brief)

    dossier = answered(brief) if given.since is None else since(given.since, brief)

    from ..dossier_json import as_json
    from ..papers import submittal
    from .pictures import for_submittal
    from .spoken import counted_aloud

    paper: Literal["a4", "us-letter"] = given.paper or ("us-letter" if dossier.units == "US" else "a4")
    date = given.date or datetime.date.today().isoformat()
    files.replace_whole(path, submittal(dossier, for_submittal(dossier), date=date, paper=paper).pdf, given.paper_file)
    if kept is not None:
        files.replace_whole(kept, (as_json(dossier) + "\n").encode(), given.keep)
    said = f"The submittal is in {given.paper_file}.\n{counted_aloud(dossier.as_briefed.findings)}\n"
    return Told(said, exit_status.of(dossier, accepted_ok=given.accepted_ok))
