"""What is laid and how: product data with places for certificates, the works, what to look at, who confirms."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING, Any

from .known import SEEN
from .letters import path
from .revised import any_moved

if TYPE_CHECKING:
    from ..dossier import Dossier


def products(dossier: Dossier) -> list[dict[str, Any]]:
    """Each product with its data, and beside them what falls short in its records: this sheet may be read alone."""
    found = dossier.as_briefed.findings
    short = [each for each in found if each.id == "product.evidence" and each.verdict == "falls short"]
    return [
        {
            "name": p.name,
            "what": p.what,
            "cls": list(p.cls),
            "where": list(p.where),
            "maker": p.maker,
            "invented": p.invented,
            "rows": [
                {
                    "name": row.name,
                    "value": row.value,
                    "terms": row.terms,
                    "source": row.source,
                    "seen": SEEN[row.seen],
                    "unread": row.seen == "memory",
                }
                for row in p.rows
            ],
            "evidence": list(p.evidence),
            "short": [each.words for each in short if not set(p.rests_on).isdisjoint(each.rests_on)],
            "moved": any_moved(p.rests_on, dossier),
        }
        for p in dossier.as_briefed.products
    ]


def works(dossier: Dossier) -> list[dict[str, Any]]:
    return [
        {
            "number": w.number,
            "what": w.what,
            "where": w.where,
            "how": list(w.how),
            "mind": w.mind,
            "stops": w.stops,
            "source": w.source,
            "moved": any_moved(w.laid, dossier),
        }
        for w in dossier.as_briefed.sequence
    ]


def points(dossier: Dossier) -> list[dict[str, Any]]:
    """The points to look at in their own order, those that follow one another with one moment under its name."""
    return [
        {
            "before": before[:1].upper() + before[1:],
            "points": [
                {
                    "number": p.number,
                    "look_at": p.look_at,
                    "wanted": p.wanted,
                    "how": p.how,
                    "who": p.who,
                    "sign": list(p.sign),
                }
                for p in those
            ],
        }
        for before, those in groupby(dossier.as_briefed.inspection, key=lambda p: p.before)
    ]


def unseen(dossier: Dossier) -> list[dict[str, str]]:
    """Findings that nobody can look at on site, those with one reason together."""
    reasons: dict[str, list[str]] = {}
    for u in dossier.as_briefed.unseen:
        reasons.setdefault(u.why, []).append(u.title)
    return [{"titles": ", ".join(dict.fromkeys(titles)), "why": why} for why, titles in reasons.items()]


def confirmers(dossier: Dossier) -> list[dict[str, Any]]:
    return [
        {
            "who": c.who,
            "what": list(c.what),
            "before": c.before,
            "why": c.why,
            "rests_on": [path(p) for p in c.rests_on],
        }
        for c in dossier.as_briefed.confirmers
    ]
