"""The strip of alternatives: each one's section small, on the one scale, with the two or three numbers that tell it."""

from __future__ import annotations

from collections import Counter
from typing import Any

from ...dossier import Answer
from ...drawings.bodies import is_ground
from ...drawings.facts import finding_at, loss_words
from ...drawings.one_section import border, identity
from ...drawings.paper import BOLD, FINE, Frame, stroke
from ...drawings.visible import covering, cut_outs, solid, uncovered
from ...measure import say
from ..live import Told
from ..words import say as words
from .look import Look
from .temperatures import thumbnail

WIDE = 52.0  # mm
CORNER = "heat.corner-coldest"


def strip(told: Told, look: Look) -> list[dict[str, Any]]:
    """All versions, as briefed first, at the edge that is looked at."""
    return [_one(told, n, look) for n in range(len(told.answers))]


def _one(told: Told, n: int, look: Look) -> dict[str, Any]:
    answer = told.answers[n]
    letter = look.edge if look.edge in answer.sections else next(iter(answer.sections))
    section = answer.sections[letter]
    x0, x1, y0, y1 = section.window
    frame = Frame(0.3, 0.3, (x0, min(x1, x0 + 1.5 * (y1 - y0)), y0, y1), (WIDE - 0.6) / min(x1 - x0, 1.5 * (y1 - y0)))
    prefix = f"t{identity(answer.name, letter)}"
    lines = "".join(
        uncovered(
            stroke(frame.path(part.outline, closed=True), BOLD if part.hatch == "concrete" else FINE),
            covering(section.parts, k),
            prefix,
        )
        for k, part in enumerate(section.parts)
        if not is_ground(part)
    )
    count = Counter(finding.verdict for finding in answer.findings)
    coldest = finding_at(answer, CORNER, letter)
    corner = "" if coldest is None or coldest.value is None else say.value(coldest.value, "degC", told.system)
    short = count["falls short"]
    return {
        "name": answer.name,
        "path": f"alternative.{n}" if n else "",
        "wide": WIDE,
        "high": round(frame.bottom + 0.3, 2),
        "frame": {name: round(getattr(frame, name), 4) for name in ("left", "top", "width", "height", "scale")},
        "window": [round(end, 5) for end in frame.window],
        "prefix": prefix,
        "solid": solid(section, frame),
        "rooms": [frame.path(air.outline, closed=True) for air in section.airs if air.where == "room"],
        "field": thumbnail(answer.fields[letter], frame.window),
        "defs": "".join(cut_outs(section, frame, prefix)),
        "outlines": f'<g clip-path="url(#{prefix}-window)">{lines}</g>' + border(frame),
        "loses": loss_words(answer, letter, told.system),
        "warms": _warms(answer, told),
        "corner": words("sheet.corner", value=corner) if corner else "",
        "short": words("sheet.short-count", number=short) if short else words("sheet.none-short"),
        "falls_short": short,
    }


def _warms(answer: Answer, told: Told) -> str:
    """Of a heated floor: the water that it takes on its coldest day, and what goes down of all that it is given."""
    found = {f.id: f for f in answer.findings if f.id == "warm.supply" or f.at.get("of") == "total"}
    down, supply = found.get("warm.downward"), found.get("warm.supply")
    if down is None or down.value is None:
        return ""
    share = say.value(down.value, down.unit, told.system)
    if supply is None or supply.value is None:
        return words("sheet.cable-down", share=share)
    return words("sheet.water-down", water=say.value(supply.value, supply.unit, told.system), share=share)
