"""From the dossier to what is printed: every number as text, every text fit for print, nothing worked out."""

from __future__ import annotations

import re
from collections import Counter
from typing import TYPE_CHECKING, Any

from ..drawings.margin import margin_picture, margin_words
from ..findings import Basis, Finding, Verdict
from ..measure import say
from ..measure.table import System, printed
from .asked import asked
from .compared import compared
from .instance import instance_and_month
from .letters import breakable, drawable, path
from .order import is_tight, worst_first
from .unchecked import unchecked

if TYPE_CHECKING:
    from ..dossier import Assumed, Dossier
    from .pictures import Picture, Pictures

RULE = 40.0  # mm, a margin rule
SEEN = {
    "document": "read in the document",
    "quoted": "as quoted by another source",
    "memory": "from memory, not yet read",
    "practice": "common practice, no source",
    "derived": "derived from the equation named",
}
COUNTED: dict[Verdict, str] = {
    "falls short": "falls short",
    "cannot tell": "cannot be told",
    "meets": "meets",
    "not required, advised": "is advised",
    "stated": "is stated",
    "does not apply": "does not apply",
}
COUNTED_MANY: dict[Verdict, str] = {
    "falls short": "fall short",
    "cannot tell": "cannot be told",
    "meets": "meet",
    "not required, advised": "are advised",
    "stated": "are stated",
    "does not apply": "do not apply",
}
FONTS = (
    "Set in Sofia Sans and Sofia Sans Condensed (The Sofia Sans Project Authors), Noto Sans Math (The Noto Project "
    "Authors) and Fira Mono (The Mozilla Corporation and Telefonica S.A.), all under the SIL Open Font License 1.1."
)


def content(dossier: Dossier, pictures: Pictures, day: str) -> dict[str, Any]:
    """Everything a submittal prints, in the order of its pages, as text, lists and numbers for drawing."""
    briefed = dossier.as_briefed
    system: System = "US" if dossier.units == "US" else "SI"
    taken = {a.path: _taken(a.value, a.unit, system) for a in dossier.assumed}
    findings = worst_first(briefed.findings)
    printed: dict[str, Any] = _fit(
        {
            "title": dossier.title or "A slab without a title",
            "day": day,
            "version": dossier.version,
            "asked": asked(dossier, taken),
            "proposed": list(briefed.summary),
            "tally": tally(briefed.findings),
            "findings": [_finding(f, system) for f in findings],
            "comparison": [_picture(p) for p in pictures.comparison],
            "compared": compared(dossier, system),
            "steps": [_how(f, system) for f in findings if f.steps or f.basis],
            "sections": [_picture(p) for p in pictures.sections],
            "assumed": [_assumed(a, system) for a in dossier.assumed],
            "unchecked": unchecked(findings),
            "notes": list(dossier.notes),
            "cautions": list(dossier.cautions),
            "credits": [*dossier.credits, FONTS],
            "brief": dossier.brief_text.rstrip(),
        }
    )
    return printed


def tally(findings: tuple[Finding, ...]) -> str:
    """The verdicts counted aloud.

    Examples
    --------
    >>> tally((Finding("heat.u-floor", "U of the floor", 0.2, "W/(m²·K)"),))
    '1 is stated.'
    """
    counted = Counter(f.verdict for f in worst_first(findings))
    words = [f"{n} {(COUNTED if n == 1 else COUNTED_MANY)[verdict]}" for verdict, n in counted.items()]
    return f"{', '.join(words)}." if words else "Nothing was checked."


def runs(formula: str) -> list[list[str]]:
    """A formula cut into pairs of text and subscript, so that f_Rsi is set with its index lowered.

    Examples
    --------
    >>> runs("f_Rsi = 1")
    [['f', 'Rsi'], [' = 1', '']]
    """
    cut = re.split(r"([^\W\d_])_(\w+)", formula)
    pairs = [[cut[0], ""]]
    for letter, index, rest in zip(cut[1::3], cut[2::3], cut[3::3], strict=True):
        pairs += [[letter, index], [rest, ""]]
    return [pair for pair in pairs if pair[0]]


def _finding(f: Finding, system: System) -> dict[str, Any]:
    return {
        "verdict": f.verdict,
        "tight": is_tight(f),
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
    }


def _how(f: Finding, system: System) -> dict[str, Any]:
    return {
        "title": f.title,
        "where": instance_and_month(f, system),
        "value": "" if f.value is None else say.both(f.value, f.unit, system),
        "steps": [
            {"symbol": runs(s.symbol), "formula": runs(s.formula), "numbers": runs(s.numbers), "result": runs(s.result)}
            for s in f.steps
        ],
        "basis": [_basis(b) for b in f.basis],
        "rests_on": [path(p) for p in f.rests_on],
    }


def _basis(basis: Basis) -> dict[str, Any]:
    named = f"{basis.source}, {basis.clause}" if basis.clause else basis.source
    return {"source": named, "seen": SEEN[basis.seen], "unread": basis.seen == "memory"}


def _assumed(a: Assumed, system: System) -> dict[str, Any]:
    between = [_taken(end, a.unit, system) for end in (a.low, a.high) if end is not None]
    return {"path": path(a.path), "value": _taken(a.value, a.unit, system), "between": between, "why": a.why}


def _taken(value: float | str, unit: str, system: System) -> str:
    if isinstance(value, str):
        return value
    if unit in printed():
        return say.both(value, unit, system)
    return f"{value:,.10g}".replace(",", "\N{THIN SPACE}").replace("-", "\N{MINUS SIGN}") + f"\N{THIN SPACE}{unit}"


def _picture(p: Picture) -> dict[str, str]:
    return {"name": p.name, "svg": p.svg, "caption": p.caption, "alt": p.alt or p.caption or p.name}


def _fit(here: Any, key: str = "") -> Any:
    """Every text of the tree with drawable letters and breakable words; drawings go through untouched."""
    if isinstance(here, dict):
        return {name: _fit(value, name) for name, value in here.items()}
    if isinstance(here, list):
        return [_fit(value, key) for value in here]
    if isinstance(here, str) and key != "svg":
        return breakable(drawable(here))
    return here
