"""What tells the alternatives apart: the findings that are not the same everywhere, and the words that teach."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from ..dossier import Answer
from ..findings import Finding
from ..measure import say
from ..measure.table import System

Place = tuple[str, frozenset[tuple[str, str | float]]]  # a finding's id and at


@dataclass(frozen=True, slots=True)
class Apart:
    """One finding that is said otherwise in some of the alternatives."""

    named_by: Finding  # the first there is
    found: Mapping[str, Finding | None]  # by the alternative's name; None where it is not there


def differing(answers: Sequence[Answer], system: System) -> list[Apart]:
    """The findings whose words, as said in a line, are not the same in all alternatives, in the order of the paper."""
    by_answer = {answer.name: by_place(answer.findings) for answer in answers}
    named_by: dict[Place, Finding] = {}
    for found in by_answer.values():
        named_by = {**named_by, **{place: finding for place, finding in found.items() if place not in named_by}}
    rows = [
        Apart(finding, {name: found.get(place) for name, found in by_answer.items()})
        for place, finding in named_by.items()
    ]
    return [row for row in rows if len({in_a_line(finding, system) for finding in row.found.values()}) > 1]


def in_a_line(finding: Finding | None, system: System) -> str:
    """A finding in as few words as tell it: its value in the reader's own units, and whether it falls short."""
    if finding is None:
        return "not there"
    if finding.value is None:
        return finding.verdict
    said = say.value(finding.value, finding.unit, system)
    return f"{said}, short" if finding.verdict == "falls short" else said


def own_words(answer: Answer, answers: Sequence[Answer], edge: str | None = None) -> list[str]:
    """The words of those findings that are said otherwise in another alternative, each sentence once.

    With an ``edge`` only those of that edge and of the floor as a whole.
    """
    others = [by_place(other.findings) for other in answers if other is not answer]
    return list(
        dict.fromkeys(
            finding.words
            for place, finding in by_place(answer.findings).items()
            if finding.words
            and (edge is None or finding.at.get("edge", edge) == edge)
            and any(place not in other or other[place].words != finding.words for other in others)
        )
    )


def by_place(findings: Iterable[Finding]) -> dict[Place, Finding]:
    """Findings by id and instance."""
    return {(finding.id, frozenset(finding.at.items())): finding for finding in findings}
