"""The reply for mail or telephone: the answer, why, and what is still needed. Three sentences, nothing worked out."""

from __future__ import annotations

from collections.abc import Sequence

from ...dossier import Dossier
from ...findings import Finding
from ...measure import System, say
from ...papers.counted import in_a_row
from ...papers.instance import instance
from ...papers.order import worst_first
from ..words import say as words

MOST = 3  # things named in one sentence


def reply(dossier: Dossier, needed: Sequence[str] | None) -> list[str]:
    """Three sentences about the brief as briefed.

    ``needed`` are the questions that would turn a verdict, None where they are still being worked out.
    """
    findings = worst_first(dossier.as_briefed.findings)
    short = [f for f in findings if f.verdict == "falls short" and f.accepted is None]
    open_ = [f for f in findings if f.verdict == "cannot tell"]
    return [_answer(dossier, short), _why(findings, short, dossier.units), _needed(open_, needed)]


def _answer(dossier: Dossier, short: list[Finding]) -> str:
    floor = next((line for line in dossier.as_briefed.summary if "board" in line.lower()), "")
    laid = ", ".join(product.name for product in dossier.as_briefed.products[:1]) or floor
    what = words("sheet.reply.with", what=laid) if laid else words("sheet.reply.plain")
    where = dossier.place.partition(" (")[0]
    if short:
        return words("sheet.reply.short", what=what, place=where, number=len(short))
    return words("sheet.reply.holds", what=what, place=where)


def _why(findings: list[Finding], short: list[Finding], system: System) -> str:
    if short:
        return words("sheet.reply.because-short", what=in_a_row(_named(short[:MOST], system)))
    held = [f for f in findings if f.verdict == "meets" and f.value is not None]
    if not held:
        return words("sheet.reply.nothing-held")
    return words("sheet.reply.because-holds", what=in_a_row(_named(held[:MOST], system)))


def _needed(open_: list[Finding], needed: Sequence[str] | None) -> str:
    if needed:
        asked = [question[:1].lower() + question[1:].rstrip("?") for question in needed[:MOST]]
        return words("sheet.reply.need", what="; ".join(asked))
    if open_:
        keys = list(dict.fromkeys(f.missing for f in open_))[:MOST]
        return words("sheet.reply.need-keys", what=in_a_row(keys))
    return words("sheet.reply.need-soon" if needed is None else "sheet.reply.need-nothing")


def _named(findings: list[Finding], system: System) -> list[str]:
    said: dict[str, str] = {}
    for f in findings:
        if f.value is None or f.limit is None:
            continue
        at = instance(f, system)
        name = f"{f.title[:1].lower()}{f.title[1:]}{f' ({at})' if at else ''}"
        value, limit = say.value(f.value, f.unit, system), say.value(f.limit, f.unit, system)
        said[name] = words("sheet.reply.one", what=name, value=value, sense=f.sense or "", limit=limit)
    return list(said.values())
