"""``underpour compare``: the alternatives of a brief side by side."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from ..mistakes import Mistake
from . import exit_status, files
from .answered import answered
from .parsing import Words
from .told import Told

if TYPE_CHECKING:
    from ..dossier import Dossier

EXAMPLE = "underpour compare brief.toml -o compared.svg"
KINDS = (
    "lanes",
    "months",
    "year",
    "hour",
    "loads",
    "floor",
    "damp",
    "heated",
    "gas",
    "frost",
)  # of pictures, beside the coldest month side by side
HELP = """\
underpour compare BRIEF [-o FILE.svg] [-o FILE.html] [--edge A]
                        [--lanes | --months | --year | --hour HOUR | --loads
                        | --floor | --damp | --heated | --gas | --frost]
                        [--json] [--accepted-ok]

Puts the brief as briefed and its alternatives side by side: one line for each
finding that differs, what each one teaches, and a picture of all of them on
one temperature scale; also as a web page for teaching, one file that needs no
network: press a month, point at a place, and read it in every alternative.

  BRIEF          a brief with at least one [[alternative]]
  -o FILE.svg    draw the picture into this file
  -o FILE.html   make the page in this file; one -o of each kind at most
  --edge A       the edge to draw, and to show first on the page; unless you
                 say, the one at which the alternatives differ most
  --lanes        draw which ways the heat takes: dotted lines that all carry
                 the same, so that few lanes mean little heat. The picture is
                 of the mean of the year: in a month the ground stores some
  --months       draw the floor in every month instead: twelve small floor
                 lines for each alternative, on one scale, to be printed
  --year         draw all twelve months into the picture, which turns them by
                 itself; printed, or where nothing may move, it shows the
                 month of the coldest corner
  --hour HOUR    draw one hour of the brief's weather file: a day and the end
                 of the hour, "6 September 22:00", or peak for the hour at which
                 most heat goes through the floor as briefed
  --loads        draw what each load uses of concrete, foam and ground in
                 every alternative: bars, and a notch where all is used
  --floor        draw all loads of the plan from above, as briefed: how far the
                 floor goes down, what the foam feels, what governs each load
  --damp         draw how humid it is on floor and wall and below the covering,
                 month by month, in every alternative
  --heated       draw what a heated floor gives up into the room and down into
                 the ground, month by month, in every alternative
  --gas          draw the soil-gas pipe in every alternative: its way, then fan
                 and floor over the flow, or the months of a pipe without a fan
  --frost        draw each alternative frozen: section with the frost line at
                 its deepest, how deep it lies day by day, and every stage
  --json         the findings as JSON (docs/findings.md)
  --accepted-ok  end with 0 where an [[accept]] names every shortfall

For example:

  underpour compare examples/daylight-basement/brief.toml -o compared.svg
  underpour compare examples/daylight-basement/brief.toml -o lesson.html
  underpour compare examples/daylight-basement/brief.toml -o lanes.svg --lanes
  underpour compare examples/daylight-basement/brief.toml -o year.svg --year

It ends with 0 when nothing falls short in the brief as briefed, and 1 when
something does. Alternatives never change that.
"""


def parser() -> Words:
    words = Words("compare", EXAMPLE)
    words.add_argument("brief", nargs="?")
    words.add_argument("-o", dest="files", metavar="FILE.svg", action="append", default=[])
    words.add_argument("--edge")
    words.add_argument("--lanes", action="store_true")
    words.add_argument("--months", action="store_true")
    words.add_argument("--year", action="store_true")
    words.add_argument("--hour", default="")
    words.add_argument("--loads", action="store_true")
    words.add_argument("--floor", action="store_true")
    words.add_argument("--damp", action="store_true")
    words.add_argument("--heated", action="store_true")
    words.add_argument("--gas", action="store_true")
    words.add_argument("--frost", action="store_true")
    words.add_argument("--json", action="store_true")
    words.add_argument("--accepted-ok", action="store_true")
    return words


def told(words: Sequence[str]) -> Told:
    """The alternatives as a table or JSON, and the picture and the page where they are asked for."""
    asked = parser()
    given = asked.read(words)
    brief = asked.must(given.brief, "Which brief?")
    targets = _targets(given.files, brief)
    asked_for = [name for name in KINDS if getattr(given, name)]
    if len(asked_for) > 1:
        both = " ".join(f"--{name}" for name in asked_for)
        raise Mistake(both, "", "Each of these is a picture of its own, and there is one file.", "Ask for one.")
    for name in asked_for:
        if ".svg" not in targets:
            wrong = "It is drawn into a picture, and none is asked for."
            raise Mistake(f"--{name}", "", wrong, f"Add -o {name}.svg.")

    try:
        dossier = answered(brief, given.hour)
    except Mistake as mistake:
        raise (replace(mistake, at="--hour") if mistake.at == "hour" else mistake) from None
    if len(dossier.alternatives) < 2:
        raise Mistake("alternative", "", "There is nothing to compare with.", "Add an [[alternative]].", file=brief)

    from .pictures import chosen_edge

    edge = chosen_edge(dossier, given.edge)
    if given.lanes and dossier.as_briefed.sections[edge].outdoors:
        wrong = "Through a slab outdoors no heat flows in the mean of the year: what leaves in winter comes in summer."
        raise Mistake("--lanes", "", wrong, "Leave it out.", file=brief)
    if given.loads and not any(each.shares for answer in dossier.alternatives for each in answer.borne):
        wrong = "Nothing stands on this slab of which it can be told what it uses."
        raise Mistake("--loads", "", wrong, "Add a [[load]], or leave it out.", file=brief)
    if given.floor and dossier.as_briefed.floor_borne is None:
        wrong = "No two loads stand at places of the plan, and none where the floor has joints, bays or ribs."
        raise Mistake(
            "--floor", "", wrong, 'Write where each stands, x and y: at = "12 14"; or leave it out.', file=brief
        )
    if given.damp and not any(answer.vapour for answer in dossier.alternatives):
        wrong = "No room lies over this slab, so nothing is told of its air."
        raise Mistake("--damp", "", wrong, "Leave it out.", file=brief)
    if given.frost and not any(each.edge == edge for answer in dossier.alternatives for each in answer.wintered):
        wrong = "No winter was worked out for this edge, so no frost can be drawn."
        raise Mistake(
            "--frost", "", wrong, 'Type the winter, site.freezing-index = "1500 °F·d", or leave it out.', file=brief
        )
    if given.heated and not any(answer.heated for answer in dossier.alternatives):
        wrong = "No tubes and no cables lie in this floor."
        raise Mistake("--heated", "", wrong, "Add a [tube] table, or leave it out.", file=brief)
    if given.gas and not any(answer.drawn_off for answer in dossier.alternatives):
        wrong = "No pipe for soil gas is laid below this slab."
        raise Mistake("--gas", "", wrong, "Write [soil-gas] with its system and its pipe, or leave it out.", file=brief)
    said = _written(dossier, edge, targets, *asked_for)
    status = exit_status.of(dossier, accepted_ok=given.accepted_ok)
    if given.json:
        from ..dossier_json import as_json

        return Told(as_json(dossier) + "\n", status)

    from .paragraphs import width_of_terminal
    from .side_by_side import comparison_text

    return Told(said + comparison_text(dossier, width_of_terminal()), status)


def _targets(typed: Sequence[str], brief: str) -> dict[str, tuple[Path, str]]:
    """The files to be written and the words typed for them, by kind; a Mistake for a second one of a kind."""
    targets: dict[str, tuple[Path, str]] = {}
    for word in typed:
        path = files.target(word, (".svg", ".html"), brief)
        kind = path.suffix.lower()
        if kind in targets:
            wrong = f"{targets[kind][1]} was asked for already."
            raise Mistake(f"-o {word}", "", wrong, "Name one file that ends with .svg, and one with .html.")
        targets[kind] = path, word
    return targets


def _written(dossier: Dossier, edge: str, targets: Mapping[str, tuple[Path, str]], kind: str = "") -> str:
    """Every file made, then every file written; a line for each that says where it is."""
    from ..handouts.pictures import (
        comparison,
        comparison_with_lanes,
        damp_compared,
        floor_of_loads,
        frost_compared,
        gas_compared,
        heated_compared,
        hour,
        loads,
        months,
        page,
        year,
    )

    drawn = {
        "": comparison,
        "lanes": comparison_with_lanes,
        "months": months,
        "year": year,
        "hour": hour,
        "loads": loads,
        "floor": floor_of_loads,
        "damp": damp_compared,
        "heated": heated_compared,
        "gas": gas_compared,
        "frost": frost_compared,
    }
    shown = {
        "loads": "the loads",
        "floor": "the loads on the floor",
        "damp": "the damp",
        "heated": "the heated floor",
        "gas": "the soil-gas pipe",
        "frost": f"frost at edge {edge}",
    }.get(kind, f"edge {edge}")
    makes = {
        ".svg": (drawn[kind], f"The picture of {shown} is in {{file}}."),
        ".html": (page, "The page is in {file}: open it in any browser, it needs no network."),
    }
    made = {kind: makes[kind][0](dossier, edge).encode() for kind in targets}
    for kind, (path, typed) in targets.items():
        files.replace_whole(path, made[kind], typed)
    return "".join(makes[kind][1].format(file=typed) + "\n" for kind, (_, typed) in targets.items())
