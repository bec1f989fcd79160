"""Alternatives beside each other: one line a finding that differs, one column an alternative."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from .paragraphs import block, columns, hung
from .spoken import last_words, named
from .terminal import asked, closing, unchecked

if TYPE_CHECKING:
    from ..dossier import Answer, Dossier
    from ..measure.table import System

NARROWEST_NAME, CELL = 30, 14


def comparison_text(dossier: Dossier, width: int) -> str:
    """The alternatives of a brief side by side, what each one teaches, and the count of each."""
    answers = dossier.alternatives
    names = max(len(answer.name) for answer in answers)
    counts = [line for a in answers for line in hung(" ".join(last_words(a.findings)), width, names + 2, a.name)]
    lines = [
        *asked(dossier, width),
        *block("Side by side", _tables(answers, dossier.units, width)),
        *block("What it says", (line for answer in answers for line in _lesson(answer, answers, width))),
        *block("Accepted", (line for answer in answers for line in _accepted(answer, dossier.units, width))),
        *unchecked(dossier.as_briefed.findings, width),
        *closing(dossier, width),
        *counts,
    ]
    return "\n".join(lines) + "\n"


def _tables(answers: Sequence[Answer], system: System, width: int) -> Iterator[str]:
    """As briefed stands first in every table; where not all alternatives fit beside it, further tables follow."""
    rows = _rows(answers, system)
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


def _rows(answers: Sequence[Answer], system: System) -> list[tuple[str, Mapping[str, str]]]:
    """Name of each finding that is not the same everywhere, with its words by the alternative's name.

    A unit too long for the columns stands once, behind the name.
    """
    from ..measure import say
    from ..papers.differing import differing, in_a_line

    return [
        _unit_in_the_name(
            named(row.named_by, system),
            {name: in_a_line(finding, system) for name, finding in row.found.items()},
            say.name(row.named_by.unit, system),
        )
        for row in differing(answers, system)
    ]


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
    """What comparing teaches about one alternative, each sentence once."""
    from ..papers.differing import own_words

    words = own_words(answer, answers)
    if words:
        yield f"  {answer.name}"
        for said in words:
            yield from hung(said, width, 4)
