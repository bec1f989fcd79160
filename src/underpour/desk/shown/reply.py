"""The reply for mail or telephone: the answer, why, and what is still needed. Three sentences, nothing worked out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...dossier import Dossier
from ...findings import Finding
from ...measure import System, say
from ...papers.counted import in_a_row
from ...papers.instance import instance
from ...papers.order import worst_first
from ..words import say as words
from .entry import key_of
from .fields import help_of

MOST = 3  # things named in one sentence
SAID = ("edge", "load", "product", "edition", "board")  # of where a finding holds, what a caller knows


def reply(dossier: Dossier, needed: Sequence[str] | None) -> list[str]:
    """Three sentences about the brief as briefed.

    ``needed`` are the questions that would turn a verdict, None where they are still being worked out.
    """
    findings = worst_first(dossier.as_briefed.findings)
    short = [f for f in findings if f.verdict == "falls short" and f.accepted is None]
    open_ = [f for f in findings if f.verdict == "cannot tell"]
    return [_answer(dossier, short), _why(findings, short, dossier.units), _needed(open_, needed)]


def _answer(dossier: Dossier, short: list[Finding]) -> str:
    parts = (part for section in dossier.as_briefed.sections.values() for part in section.parts)
    floor = next((part.label for part in parts if part.path.startswith("floor.") and part.path.endswith(".board")), "")
    what = words("sheet.reply.with", what=floor) if floor else words("sheet.reply.without")
    where = dossier.place.partition(" (")[0]
    if len(short) == 1:
        return words("sheet.reply.one-short", what=what, place=where)
    if short:
        return words("sheet.reply.short", what=what, place=where, number=len(short))
    return words("sheet.reply.holds", what=what, place=where)


def _why(findings: list[Finding], short: list[Finding], system: System) -> str:
    if short:
        return words("sheet.reply.because-short", what=in_a_row(_named(_worst_of_each(short)[:MOST], system)))
    held = [f for f in findings if f.verdict == "meets" and f.value is not None]
    if not held:
        return words("sheet.reply.nothing-held")
    return words("sheet.reply.because-holds", what=in_a_row(_named(_worst_of_each(held)[:MOST], system)))


def _needed(open_: list[Finding], needed: Sequence[str] | None) -> str:
    if needed:
        asked = [question[:1].lower() + question[1:].rstrip("?") for question in needed[:MOST]]
        return words("sheet.reply.need", what="; ".join(asked))
    if open_:
        keys = list(dict.fromkeys(_asked_for(f.missing) for f in open_))[:MOST]
        return words("sheet.reply.need-keys", what="; ".join(keys))
    return words("sheet.reply.need-soon" if needed is None else "sheet.reply.need-nothing")


def _asked_for(key: str) -> str:
    """What a key of the brief is, in the words of its own help, for one who never saw a brief."""
    told = help_of(key_of(key))[0].partition(". ")[0].partition(": ")[0].rstrip(".")
    return words("sheet.reply.key", it=f"{told[:1].lower()}{told[1:]}", at=key) if told else key


def _worst_of_each(findings: list[Finding]) -> list[Finding]:
    """One finding a title, the worst: a caller is not told the same of every edge."""
    worst: dict[str, Finding] = {}
    for f in findings:
        worst.setdefault(f.title, f)
    return list(worst.values())


def _named(findings: list[Finding], system: System) -> list[str]:
    said: dict[str, str] = {}
    for f in findings:
        if f.value is None or f.limit is None:
            continue
        at = instance(replace(f, at={name: where for name, where in f.at.items() if name in SAID}), system)
        name = f"{f.title[:1].lower()}{f.title[1:]}{f' ({at})' if at else ''}"
        value, limit = say.value(f.value, f.unit, system), say.value(f.limit, f.unit, system)
        said[name] = words("sheet.reply.one", what=name, value=value, sense=f.sense or "", limit=limit)
    return list(said.values())
