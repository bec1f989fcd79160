"""Pictures of a heated floor beside the answers that they show: opened with how we know, in the reader's theme."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape

from ...dossier import Answer
from ...drawings import colours
from ...drawings.heated_flow import flow_drawn
from ...drawings.heated_from_cold import cold_drawn
from ...drawings.heated_section import section_drawn
from ...drawings.heated_words import cold_in_words, flow_in_words, section_in_words, year_in_words
from ...drawings.heated_year import year_drawn
from ...drawings.paper import mm, rectangle
from ...measure import System
from .verdicts import key

WIDE = 170.0  # mm


def pictures(answer: Answer, system: System) -> Mapping[str, str]:
    """SVG by the finding that it shows; nothing where no tubes and no cables lie in the floor."""
    of = answer.heated
    if of is None:
        return {}
    floor = section_drawn(of, system, width=WIDE, scale=None, name="", told=False)
    cold, year = cold_drawn(of, system, width=WIDE), year_drawn({"": of}, system, width=WIDE)
    drawn = {
        ("warm.surface", ""): _picture(
            floor.around, floor.high, section_in_words(of, system), floor.field, "".join(floor.defs)
        ),
        ("warm.warm-up", ""): _picture(*cold, cold_in_words(of, system)),
        ("warm.downward", "total"): _picture(*year, year_in_words({"": of}, system)),
    }
    if of.pumped is not None:
        drawn["warm.pressure", ""] = _picture(
            *flow_drawn(of.pumped, system, width=WIDE), flow_in_words(of.pumped, system)
        )
    return {key(finding): drawn[at] for finding in answer.findings if (at := (finding.id, _share(finding.at))) in drawn}


def _share(at: Mapping[str, str | float]) -> str:
    return str(at.get("of", ""))


def _picture(around: str, high: float, label: str, field: str = "", defs: str = "") -> str:
    """A picture in its own millimetres: what lies around takes the theme's colours, a field keeps those of paper."""
    leaf = rectangle(0, 0, WIDE, high, colours.light()["leaf"])
    return (
        f'<svg viewBox="0 0 {mm(WIDE)} {mm(high)}" role="img" aria-label="{escape(label)}">'
        f'<defs>{defs}</defs><g class="outside">{leaf}{around}</g>{field}</svg>'
    )
