"""Everything on the sheet, from one answer and what somebody looks at."""

from __future__ import annotations

from typing import Any

from ...brief.alternatives import AS_BRIEFED
from ...dossier import Answer
from ...drawings.plan import key_plan
from ...drawings.through_the_year import moments
from ...papers.counted import counted_aloud
from ..live import Told
from ..words import say as words
from .adding import alternative_put_in
from .edge_words import edge
from .entry import entries, of_papers
from .fields import Places
from .heated import pictures
from .look import Look
from .margin import assumptions
from .on_floor import on_floor
from .section import drawn, scale_row
from .sentence import asked
from .strip import strip
from .verdicts import verdicts

PLAN_WIDE = 76.0  # mm


def sheet(told: Told, look: Look) -> dict[str, Any]:
    """All parts of the sheet; what a first answer does not tell is left out, and the page keeps what it has."""
    whole = told.dossier is not None
    answer = told.answer(look.alternative)
    resolved = told.resolved.get(answer.name) or next(iter(told.resolved.values()))
    places = Places(told.trees[answer.name], resolved, fixed=answer.name != AS_BRIEFED)
    section = drawn(told, look, places, names=whole)
    handover = places.tree.child("handover")
    given = handover.plain() if handover is not None else {}
    parts: dict[str, Any] = {
        "title": places.field("project.title", words("sheet.untitled")),
        "units": told.system,
        "number": str(given.get("number", "")),
        "revision": str(given.get("revision", "")),
        "prepared": str(given.get("prepared-by", "")),
        "place": resolved.place,
        "size": answer.size,
        "names": list(told.names),
        "sentence": asked(places),
        "edge": edge(places, section["edge"]),
        "on_floor": on_floor(places),
        "fixed": words("sheet.fixed", name=answer.name) if places.fixed else "",
        "edges": [{"letter": e.letter, "kind": e.kind.replace("-", " ")} for e in resolved.edges],
        "months": [{"letter": m.letter, "name": m.name, "cosine": m.cosine, "sine": m.sine} for m in moments()],
        "month": look.month,
        "section": section,
        "scale": scale_row(told, look.wide),
        "verdicts": verdicts(answer.findings, places, told.unsure, whole=whole),
        "counted": counted_aloud(answer.findings),
        "assumed": assumptions(places),
    }
    if told.dossier is not None:
        parts |= {
            "keys": entries(places, answer.findings) | of_papers(places),
            "strip": strip(told, look),
            "another": alternative_put_in(places, told.names),
            "beside": pictures(_in_full(told, answer.name), told.system),
            "plan": None if answer.plan is None else key_plan(answer.plan, told.system, width=PLAN_WIDE),
            "cautions": list(told.dossier.cautions),
            "notes": list(told.dossier.notes),
            "credits": list(told.dossier.credits),
        }
    return parts


def _in_full(told: Told, name: str) -> Answer:
    """A version as the dossier has it, with all that is drawn of it."""
    assert told.dossier is not None
    return next(each for each in told.dossier.alternatives if each.name == name)
