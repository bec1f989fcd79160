"""Shortfalls that somebody accepted: put beside their findings, which keep number and verdict."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from . import measure
from .brief.tables.handover import Accept
from .dossier import Answer
from .findings import Accepted, Finding
from .mistakes import Mistake, nearest

SAME = 1e-6  # in the unit of either: a typed distance, or a shortfall, this near is the one meant


def accepted(answers: Sequence[Answer], accepts: Sequence[Accept], found: list[Mistake]) -> list[Answer]:
    """The same answers, each finding that falls short and was accepted saying by whom, when and why.

    What is accepted is the brief as briefed; in an alternative the same finding shows it too, where it falls no
    further short than what was accepted. ``found`` takes an entry that names no finding of the brief as briefed, or one
    that another entry has taken already.
    """
    if accepts:
        found += _unclear(answers[0], accepts)
    most = {_place(finding): _short(finding) for finding in answers[0].findings}
    return [
        replace(
            answer,
            findings=tuple(
                _with_whom(finding, accepts) if _short(finding) <= most.get(_place(finding), 0.0) + SAME else finding
                for finding in answer.findings
            ),
        )
        for answer in answers
    ]


def _place(finding: Finding) -> tuple[str, frozenset[tuple[str, str | float]]]:
    return finding.id, frozenset(finding.at.items())


def _short(finding: Finding) -> float:
    """By how much it falls short, in its own unit; 0 where it does not."""
    return max(-(finding.margin or 0.0), 0.0)


def idle(answer: Answer, accepts: Sequence[Accept]) -> Iterator[str]:
    """A line for each entry whose findings do not fall short, so that nothing is accepted there."""
    for number, entry in enumerate(accepts, start=1):
        meant = [finding for finding in answer.findings if _means(entry, finding)]
        if meant and not any(finding.verdict == "falls short" for finding in meant):
            verdicts = " and ".join(dict.fromkeys(finding.verdict for finding in meant))
            yield f"accept.{number}: nothing is left to accept. {meant[0].title}: {verdicts}. Take the entry out."


def _with_whom(finding: Finding, accepts: Sequence[Accept]) -> Finding:
    entry = next((entry for entry in accepts if _means(entry, finding)), None)
    if entry is None or finding.verdict != "falls short":
        return finding
    return replace(finding, accepted=Accepted(entry.reason, entry.name, entry.date))


def _means(entry: Accept, finding: Finding) -> bool:
    return entry.finding == finding.id and all(_same(typed, finding.at.get(key)) for key, typed in entry.at)


def _same(typed: str | float, value: str | float | None) -> bool:
    """A word is the same word; a distance may be typed as a measure."""
    if value is None or isinstance(value, str):
        return typed == value
    try:
        metres = measure.length(typed).si if isinstance(typed, str) else typed
    except Mistake:
        return False
    return abs(metres - value) < SAME


def _unclear(answer: Answer, accepts: Sequence[Accept]) -> Iterator[Mistake]:
    taken: dict[int, int] = {}
    ids = list(dict.fromkeys(finding.id for finding in answer.findings))
    for number, entry in enumerate(accepts, start=1):
        at = f"accept.{number}"
        if entry.finding not in ids:
            wrong = f"No finding of this brief is called {entry.finding}."
            yield Mistake(f"{at}.finding", "", wrong, _called(entry.finding, answer))
            continue
        meant = [n for n, finding in enumerate(answer.findings) if _means(entry, finding)]
        if not meant:
            yield Mistake(f"{at}.at", "", f"There is no {entry.finding} there.", _instances(answer, entry.finding))
        elif twice := [taken[n] for n in meant if n in taken]:
            wrong = f"accept.{twice[0]} has accepted this finding already."
            yield Mistake(at, "", wrong, "Keep one of the two, or say with at which one each means.")
        taken |= dict.fromkeys(meant, number)


def _called(typed: str, answer: Answer) -> str:
    """The id that was meant, by its letters or by the title that papers print, and what there is to accept."""
    titles = {finding.title.casefold(): finding.id for finding in answer.findings}
    ids = list(dict.fromkeys(titles.values()))
    near = nearest(typed, ids) or [titles[title] for title in nearest(typed.casefold(), titles)]
    short = dict.fromkeys(f"{f.id} ({f.title})" for f in answer.findings if f.verdict == "falls short")
    what = f"What falls short: {'; '.join(short)}." if short else "Nothing falls short, so take the entry out."
    return f"The nearest is {near[0]}. {what}" if near else what


def _instances(answer: Answer, id: str) -> str:
    """What ``at`` may be for this finding, each as it would be typed."""
    tables = [
        ", ".join(f'{key} = "{value:g} m"' if not isinstance(value, str) else f'{key} = "{value}"' for key, value in at)
        for at in (tuple(f.at.items()) for f in answer.findings if f.id == id)
    ]
    shown = [f"{{ {words} }}" for words in dict.fromkeys(tables) if words]
    return f"Write at = {' or '.join(shown)}." if shown else "It stands once; take at out."
