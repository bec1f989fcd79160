"""From the dossier to what is printed: every number as text, every text fit for print, nothing worked out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from ..drawings.margin import margin_picture, margin_words
from ..findings import Finding
from ..measure import say
from ..measure.table import System
from .as_typed import as_typed
from .asked import asked
from .carried import carried
from .clauses import clauses
from .compared import compared
from .counted import counted_aloud, frost_aloud
from .dry import dry
from .frozen import frozen
from .gas_sheet import gas_sheet
from .heating import heating
from .instance import instance_and_month
from .known import known
from .laid import confirmers, points, products, unseen, works
from .letters import Letters, path
from .order import is_tight, worst_first
from .ordered import ordered
from .priced import priced
from .ready import Gap
from .recommended import recommended
from .revised import changes, finding_moved, path_moved
from .transmittal import accepted_words, number_words, transmittal
from .unchecked import unchecked, unlooked

if TYPE_CHECKING:
    from ..choosing import Choice
    from ..dossier import Assumed, Dossier
    from ..takeoff import Takeoff
    from .pictures import Picture, Pictures

RULE = 40.0  # mm, a margin rule
FONTS = (
    "Set in Sofia Sans and Sofia Sans Condensed (The Sofia Sans Project Authors), Noto Sans Math (The Noto Project "
    "Authors) and Fira Mono (The Mozilla Corporation and Telefonica S.A.), all under the SIL Open Font License 1.1."
)
UNTITLED = "A slab without a title"


def content(
    dossier: Dossier,
    pictures: Pictures,
    day: str,
    *,
    gaps: tuple[Gap, ...] = (),
    draft: bool = False,
    letters: Letters | None = None,
    choice: Choice | None = None,
    takeoff: Takeoff | None = None,
) -> dict[str, Any]:
    """Everything a submittal prints, in the order of its pages, as text, lists and numbers for drawing.

    ``day`` is in words; ``gaps`` is what a draft still lacks; ``letters`` notes what cannot be drawn;
    ``choice`` is what was chosen for the same brief, where a recommendation is asked for;
    ``takeoff`` is what is ordered as briefed.
    """
    briefed = dossier.as_briefed
    system: System = "US" if dossier.units == "US" else "SI"
    taken = {a.path: say.of_any_unit(a.value, a.unit, system) for a in dossier.assumed}
    findings = worst_first(briefed.findings)
    letters = letters or Letters()
    whole: dict[str, Any] = letters.fit(
        {
            **head(dossier, day, draft=draft or bool(gaps)),
            "gaps": [{"words": f"{gap.words[:1].upper()}{gap.words[1:]}", "key": gap.key} for gap in gaps],
            "transmittal": transmittal(dossier, system, day),
            "changed": changes(dossier),
            "asked": asked(dossier, taken),
            "proposed": proposed(dossier),
            "recommended": None if choice is None else recommended(choice),
            **at_the_head(briefed.findings),
            "findings": [finding_row(f, dossier, system) for f in findings],
            "clauses": clauses(briefed.findings, dossier.editions, system),
            "known": known(findings, system),
            "comparison": [picture_row(p) for p in pictures.comparison],
            "compared": compared(dossier, system),
            "plan": [picture_row(p) for p in pictures.plan],
            "sections": [picture_row(p) for p in pictures.sections],
            "damp": [picture_row(p) for p in pictures.damp],
            "dry": dry(dossier, system),
            "winters": [picture_row(p) for p in pictures.frost],
            "frozen": frozen(dossier, system),
            "heated": [picture_row(p) for p in pictures.heated],
            "heating": heating(dossier, system),
            "priced": priced(dossier, system),
            "borne": [picture_row(p) for p in pictures.borne],
            "loads": carried(dossier, system),
            "gas": gas_sheet(dossier),
            "pipe": [picture_row(p) for p in pictures.gas],
            "products": products(dossier),
            "works": works(dossier),
            "ordered": ordered(takeoff),
            "laid": [picture_row(p) for p in pictures.laid],
            "points": points(dossier),
            "unseen": unseen(dossier),
            "assumed": [_assumed(a, dossier, system) for a in dossier.assumed],
            "unchecked": unchecked(findings),
            "confirmers": confirmers(dossier),
            "cautions": list(dossier.cautions),
            "notes": list(dossier.notes),
            "credits": [*dossier.credits, FONTS],
            "brief": as_typed(dossier.brief_text),
        }
    )
    return {**whole, "absent": letters.named()}


def head(dossier: Dossier, day: str, *, draft: bool) -> dict[str, Any]:
    """What stands in the strip of every sheet, whichever paper it is."""
    return {
        "title": dossier.title or UNTITLED,
        "number": number_words(dossier),
        "day": day,
        "version": dossier.version,
        "revision": dossier.handover.revision,
        "draft": draft,
    }


def proposed(dossier: Dossier) -> list[dict[str, Any]]:
    """Layers and edges, a line each, with whether the brief says otherwise than last time there."""
    lines = []
    for n, words in enumerate(dossier.as_briefed.summary):
        letter = words.removeprefix("Edge ").partition(",")[0] if words.startswith("Edge ") else ""
        at = f"edge.{letter}" if letter in dossier.as_briefed.sections else f"floor.build-up.{n + 1}"
        lines.append({"words": words, "moved": path_moved(at, dossier)})
    return lines


def at_the_head(findings: Sequence[Finding]) -> dict[str, str]:
    """The verdicts counted, where the ground freezes, and what was not checked at all: what every paper says first."""
    return {"tally": counted_aloud(findings), "frost": frost_aloud(findings), "unlooked": unlooked(findings)}


def finding_row(f: Finding, dossier: Dossier, system: System) -> dict[str, Any]:
    """One finding as it is listed: its verdict, its numbers, its margin rule, what is said beside it."""
    return {
        "verdict": f.verdict,
        "tight": is_tight(f),
        "moved": finding_moved(f, dossier),
        "title": f.title,
        "where": instance_and_month(f, system),
        "value": "" if f.value is None else say.both(f.value, f.unit, system),
        "within": "" if not f.within else f"within {say.within(f.within, f.unit, system)}",
        "limit": "" if f.limit is None else f"{f.sense} {say.both(f.limit, f.unit, system)}",
        "margin": "" if f.missing else margin_words(f, system),
        "rule": {"svg": margin_picture(f, system, width=RULE), "alt": f"{f.title}: {f.verdict}"},
        "words": f.words,
        "caution": f.caution,
        "missing": f.missing,
        "accepted": "" if f.accepted is None else accepted_words(f.accepted),
    }


def picture_row(p: Picture) -> dict[str, Any]:
    return {
        "name": p.name,
        "svg": p.svg,
        "caption": p.caption,
        "alt": p.alt or p.caption or p.name,
        "headed": p.headed,
        "wide": p.wide,
    }


def _assumed(a: Assumed, dossier: Dossier, system: System) -> dict[str, Any]:
    between = [say.of_any_unit(end, a.unit, system) for end in (a.low, a.high) if end is not None]
    return {
        "path": path(a.path),
        "value": say.of_any_unit(a.value, a.unit, system),
        "between": between,
        "why": a.why,
        "moved": path_moved(a.path, dossier),
    }
