"""What comparing the alternatives teaches, said beside the finding that shows it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .checks.ground import named
from .dossier import Answer
from .findings import Finding
from .measure import System, say
from .sections.parts import Section

BOARDS = ("foam-", "mineral-board")  # hatches of what a board may be made of


def told(answers: Sequence[Answer], system: System, room: float) -> list[Answer]:
    """The same answers, the words of each corner finding telling how it stands against the others.

    ``room`` is the room at its coolest [degC]; where a corner is no colder than that, there is nothing to teach.
    """
    return [
        replace(answer, findings=tuple(_said(finding, answer, answers, system, room) for finding in answer.findings))
        for answer in answers
    ]


def _said(finding: Finding, answer: Answer, answers: Sequence[Answer], system: System, room: float) -> Finding:
    if finding.id == "heat.ground-temperature":
        return _frost(finding, answer, answers, system)
    if finding.id != "heat.corner-coldest" or finding.value is None or finding.value >= room:
        return finding
    others = [(other, _same(other, finding)) for other in answers if other is not answer]
    values = [(other, found.value) for other, found in others if found is not None and found.value is not None]
    bare = [(other, value) for other, value in values if not _has_foam(other) and else_alike(other, answer)]
    warmest = max(values, key=lambda pair: pair[1], default=None)
    words = [f"Where floor and wall meet it falls to {say.value(finding.value, 'degC', system)} in the coldest month."]
    if _has_foam(answer) and bare and _warmer(bare[0][1], finding.value, system):
        words.append(
            f"Without any foam it stays at {say.value(bare[0][1], 'degC', system)}: "
            "foam that stops short makes this corner colder than none."
        )
    if warmest is not None and _warmer(warmest[1], finding.value, system):
        words.append(f"With “{warmest[0].name}” it stays at {say.value(warmest[1], 'degC', system)}.")
    elif bare and _has_foam(answer):
        words.append(f"Without any foam it would fall to {say.value(bare[0][1], 'degC', system)}.")
    return replace(finding, words=" ".join(words))


def _frost(finding: Finding, answer: Answer, answers: Sequence[Answer], system: System) -> Finding:
    """Ground that freezes here or elsewhere: how it stands without foam, or with the foam that keeps it warmest."""
    others = [(other, _same(other, finding)) for other in answers if other is not answer]
    values = [(other, found.value) for other, found in others if found is not None and found.value is not None]
    if finding.value is None or min([finding.value, *(value for _, value in values)]) >= 0.0:
        return finding
    place = named(str(finding.at["place"]), str(finding.at["edge"]))
    words = [finding.words or f"Under {place} it does not freeze in a year of mean weather."]
    bare = next((value for other, value in values if not _has_foam(other)), None)
    warmest = max(values, key=lambda pair: pair[1], default=None)
    if bare is not None and _has_foam(answer):
        words.insert(1, f"Without any foam it {_does(bare)} {say.value(bare, 'degC', system)}.")
    elif warmest is not None and _warmer(warmest[1], finding.value, system):
        words.insert(1, f"With “{warmest[0].name}” it {_does(warmest[1])} {say.value(warmest[1], 'degC', system)}.")
    return replace(finding, words=" ".join(words))


def _warmer(other: float, this: float, system: System) -> bool:
    """Whether it is warmer as printed: what reads the same teaches nothing. [degC in]

    >>> _warmer(8.64, 8.61, "SI"), _warmer(8.7, 8.6, "SI")
    (False, True)
    """
    return other > this and say.value(other, "degC", system) != say.value(this, "degC", system)


def _does(coldest: float) -> str:
    """Ground that freezes falls to its coldest; ground that does not stays at it. [degC in]"""
    return "falls to" if coldest < 0.0 else "stays at"


def _has_foam(answer: Answer) -> bool:
    """Whether any foam is left, below the floor or at an edge."""
    return any(part.hatch.startswith(BOARDS) for section in answer.sections.values() for part in section.parts)


def else_alike(one: Answer, other: Answer) -> bool:
    """Whether two alternatives are told apart by foam only, so that what differs between them is the foam's doing."""
    return all(
        letter in other.sections
        and _but_foam(section) == _but_foam(other.sections[letter])
        and one.fields[letter].airs == other.fields[letter].airs
        for letter, section in one.sections.items()
    )


def _but_foam(section: Section) -> list[str]:
    """What a section is made of without its foam; where foam is gone, its neighbours move."""
    return sorted(part.label for part in section.parts if not part.hatch.startswith(BOARDS))


def _same(answer: Answer, finding: Finding) -> Finding | None:
    return next((f for f in answer.findings if f.id == finding.id and f.at == finding.at), None)
