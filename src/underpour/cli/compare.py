"""``underpour compare``: the alternatives of a brief side by side."""

from __future__ import annotations

from collections.abc import Sequence

from ..mistakes import Mistake
from . import exit_status, files
from .answered import answered
from .parsing import Words
from .told import Told

EXAMPLE = "underpour compare brief.toml -o compared.svg"
HELP = """\
underpour compare BRIEF [-o FILE.svg] [--edge A] [--json] [--accepted-ok]

Puts the brief as briefed and its alternatives side by side: one line for each
finding that differs, what each one teaches, and a picture of all of them on
one temperature scale.

  BRIEF          a brief with at least one [[alternative]]
  -o FILE.svg    draw the picture into this file
  --edge A       the edge to draw; the first one unless you say
  --json         the findings as JSON (docs/findings.md)
  --accepted-ok  end with 0 where an [[accept]] names every shortfall

For example:

  underpour compare examples/daylight-basement/brief.toml -o compared.svg

It ends with 0 when nothing falls short in the brief as briefed, and 1 when
something does. Alternatives never change that.
"""


def parser() -> Words:
    words = Words("compare", EXAMPLE)
    words.add_argument("brief", nargs="?")
    words.add_argument("-o", dest="picture", metavar="FILE.svg")
    words.add_argument("--edge")
    words.add_argument("--json", action="store_true")
    words.add_argument("--accepted-ok", action="store_true")
    return words


def told(words: Sequence[str]) -> Told:
    """The alternatives as a table or JSON, and the picture where one is asked for."""
    asked = parser()
    given = asked.read(words)
    brief = asked.must(given.brief, "Which brief?")
    picture = None if given.picture is None else files.target(given.picture, ".svg", brief)

    dossier = answered(brief)
    if len(dossier.alternatives) < 2:
        raise Mistake("alternative", "", "There is nothing to compare with.", "Add an [[alternative]].", file=brief)

    from .pictures import chosen_edge, comparison

    edge = chosen_edge(dossier, given.edge)
    drawn = ""
    if picture is not None:
        files.replace_whole(picture, comparison(dossier, edge).encode(), given.picture)
        drawn = f"The picture of edge {edge} is in {given.picture}.\n"
    status = exit_status.of(dossier, accepted_ok=given.accepted_ok)
    if given.json:
        from ..dossier_json import as_json

        return Told(as_json(dossier) + "\n", status)

    from .paragraphs import width_of_terminal
    from .side_by_side import comparison_text

    return Told(drawn + comparison_text(dossier, width_of_terminal()), status)
