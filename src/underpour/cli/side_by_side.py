"""Alternatives beside each other: one line a finding that differs, one column an alternative."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from .paragraphs import block, columns, hung
from .spoken import counted_aloud, named
from .terminal import asked, closing

if TYPE_CHECKING:
    from ..dossier import Answer, Dossier
    from ..findings import Finding
    from ..measure.table import System

NARROWEST_NAME, CELL = 30, 14
Place = tuple[str, frozenset[tuple[str, str | float]]]  # a finding's id and at


def comparison_text(dossier: Dossier, width: int) -> str:
    """The alternatives of a brief side by side, what each one teaches, and the count of each."""
    answers = dossier.alternatives
    names = max(len(answer.name) for answer in answers)
    counts = [line for a in answers for line in hung(counted_aloud(a.findings), width, names + 2, a.name)]
    lines = [
        *asked(dossier, width),
        *block("Side by side", _tables(answers, dossier.units, width)),
        *block("What it says", (line for answer in answers for line in _lesson(answer, answers, width))),
        *block("Accepted", (line for answer in answers for line in _accepted(answer, dossier.units, width))),
        *closing(dossier, width),
        *counts,
    ]
    return "\n".join(lines) + "\n"


def _tables(answers: Sequence[Answer], system: System, width: int) -> Iterator[str]:
    """As briefed stands first in every table; where not all alternatives fit beside it, further tables follow."""
    rows = differing(answers, system)
    fit = max(2, (width - NARROWEST_NAME) // (CELL + 2))
    first, others = answers[0], answers[1:]
    for start in range(0, max(1, len(others)), fit - 1):
        shown = [first, *others[start : start + fit - 1]]
        widths = [width - (CELL + 2) * len(shown), *[CELL] * len(shown)]
        if start:
            yield ""
        yield from columns(["", *(answer.name for answer in shown)], widths)
        for title, cells in rows:
            yield from columns([title, *(cells[answer.name] for answer in shown)], widths)


def differing(answers: Sequence[Answer], system: System) -> list[tuple[str, Mapping[str, str]]]:
    """Name of each finding that is not the same everywhere, with its words by the alternative's name.

    A unit too long for the columns stands once, behind the name.
    """
    from ..measure import say

    by_answer = {answer.name: _by_place(answer) for answer in answers}
    everywhere = {place: finding for found in by_answer.values() for place, finding in found.items()}
    rows: list[tuple[str, Mapping[str, str]]] = []
    for place, finding in everywhere.items():
        cells = {name: _cell(found.get(place), system) for name, found in by_answer.items()}
        if len(set(cells.values())) > 1:
            rows.append(_unit_in_the_name(named(finding, system), cells, say.name(finding.unit, system)))
    return rows


def _by_place(answer: Answer) -> dict[Place, Finding]:
    return {(finding.id, frozenset(finding.at.items())): finding for finding in answer.findings}


def _cell(finding: Finding | None, system: System) -> str:
    from ..measure import say

    if finding is None:
        return "not there"
    if finding.value is None:
        return finding.verdict
    said = say.value(finding.value, finding.unit, system)
    return f"{said}, short" if finding.verdict == "falls short" else said


def _unit_in_the_name(name: str, cells: Mapping[str, str], unit: str) -> tuple[str, Mapping[str, str]]:
    """A row whose unit is moved behind its name where a cell would be too wide with it."""
    behind = f"\u2009{unit}"
    if not unit or not any(behind in cell and len(cell) > CELL for cell in cells.values()):
        return name, cells
    return f"{name}, {unit}", {answer: cell.replace(behind, "") for answer, cell in cells.items()}


def _accepted(answer: Answer, system: System, width: int) -> Iterator[str]:
    """The shortfalls of one alternative that somebody accepted."""
    for finding in answer.findings:
        if finding.accepted:
            yield from hung(f"{answer.name}, {named(finding, system)}. {finding.accepted.words}", width, 2)


def _lesson(answer: Answer, answers: Sequence[Answer], width: int) -> Iterator[str]:
    """The words of those findings that are said otherwise in another alternative, each sentence once."""
    others = [_by_place(other) for other in answers if other is not answer]
    own = _by_place(answer)
    words = [
        finding.words
        for place, finding in own.items()
        if finding.words and any(place not in other or other[place].words != finding.words for other in others)
    ]
    if words:
        yield f"  {answer.name}"
        for said in dict.fromkeys(words):
            yield from hung(said, width, 4)
