"""A dossier as text for the terminal: what is asked, does it hold, what was assumed, what to mind."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from .foam_needed import foam_needed, listed
from .paragraphs import block, hung
from .spoken import against_limit, doubt, last_words, measured, named, stands_on

if TYPE_CHECKING:
    from ..dossier import Assumed, Dossier
    from ..findings import Basis, Finding
    from ..measure.table import System

HANG = 13  # room for the longest of the common verdict words


def answer_text(dossier: Dossier, width: int) -> str:
    """The brief as briefed, answered, in lines of at most ``width`` columns; the count stands last."""
    return _text(dossier, width, [])


def answer_text_with_steps(dossier: Dossier, width: int) -> str:
    """The same, with the calculation of every finding written out."""
    steps = [line for finding in _ordered(dossier) for line in _steps(finding, dossier.units, width)]
    return _text(dossier, width, block("How we know", steps))


def _text(dossier: Dossier, width: int, steps: list[str]) -> str:
    system = dossier.units
    findings = _ordered(dossier)
    told = listed(findings)
    sources = numbered(told)
    held = [line for _, group in groupby(told, lambda f: f.verdict) for line in _group(group, system, width, sources)]
    assumed = [line for entry in dossier.assumed for line in _assumed(entry, system, width)]
    lines = [
        *asked(dossier, width),
        "Does it hold?",
        *held,
        *block("What foam each load needs", foam_needed(dossier.as_briefed.findings, system, width)),
        *steps,
        *block(
            "Basis", (line for basis, n in sources.items() for line in hung(stands_on(basis), width, 6, f"  [{n}]"))
        ),
        *block("What was assumed, because the brief does not say", assumed),
        *unchecked(findings, width),
        *closing(dossier, width),
        *(line for words in last_words(findings) for line in hung(words, width)),
    ]
    return "\n".join(lines) + "\n"


def unchecked(findings: Sequence[Finding], width: int) -> list[str]:
    """Subjects of which nothing is said, so that "nothing falls short" is not read as more than it is."""
    from ..papers.unchecked import subjects_left

    return block("What was not checked", (line for said in subjects_left(findings) for line in hung(said, width, 2)))


def asked(dossier: Dossier, width: int) -> list[str]:
    """What is asked, in a line or two, and what is proposed."""
    proposed = [line for words in dossier.as_briefed.summary for line in hung(words, width, 2)]
    what = [*hung(dossier.title, width), *hung(f"{dossier.use.capitalize()}, {dossier.place}.", width), ""]
    return [*what, *block("What is proposed", proposed)]


def closing(dossier: Dossier, width: int) -> list[str]:
    """Notes on the data, cautions and credits; the cautions are never left out."""
    heads = (("What to know of the data", dossier.notes), ("Mind", dossier.cautions), ("Credits", dossier.credits))
    return [
        line
        for head, entries in heads
        for line in block(head, (part for words in entries for part in hung(words, width, 2)))
    ]


def numbered(findings: Iterable[Finding]) -> dict[Basis, int]:
    """Every source and clause that the findings stand on, numbered as they come, so that each is written out once."""
    named_once = dict.fromkeys(basis for finding in findings for basis in finding.basis)
    return {basis: number for number, basis in enumerate(named_once, 1)}


def finding_lines(finding: Finding, system: System, width: int, sources: Mapping[Basis, int]) -> list[str]:
    """One finding: the verdict first, then what it is about, the number against its limit, and what to do."""
    from ..drawings.margin import margin_rule

    said, name = finding.verdict.capitalize(), named(finding, system)
    lines = hung(name, width, HANG, said) if len(said) < HANG else [said, *hung(name, width, HANG)]
    lines += hung(against_limit(finding, system), width, HANG)
    rule = margin_rule(finding, system)
    lines += [" " * HANG + rule] if rule else []
    lines += hung(finding.words, width, HANG)
    if finding.missing and finding.missing not in finding.words:
        lines += hung(f"Give {finding.missing} in the brief.", width, HANG)
    lines += hung(f"Mind: {finding.caution}", width, HANG) if finding.caution else []
    lines += hung(finding.accepted.words, width, HANG) if finding.accepted else []
    if finding.verdict == "falls short" and not finding.accepted:
        lines += hung(f"Its name in [[accept]]: {finding.id}", width, HANG)
    if finding.basis:
        lines += hung("Basis " + " ".join(f"[{sources[basis]}]" for basis in finding.basis), width, HANG)
    return lines


def _group(findings: Iterable[Finding], system: System, width: int, sources: Mapping[Basis, int]) -> list[str]:
    """Findings of one verdict, an empty line after them."""
    return [*(line for finding in findings for line in finding_lines(finding, system, width, sources)), ""]


def _ordered(dossier: Dossier) -> list[Finding]:
    from ..papers.order import worst_first

    return worst_first(dossier.as_briefed.findings)


def _steps(finding: Finding, system: System, width: int) -> Iterator[str]:
    if not finding.steps:
        return
    yield from hung(named(finding, system), width, 2)
    for step in finding.steps:
        yield from hung(f"{step.symbol} = {step.formula}", width, 6)
        yield from hung(f"= {step.numbers}", width, 8) if step.numbers else ()
        yield from hung(f"= {step.result}", width, 8)
    if doubt(finding):
        yield from hung(f"Worked out to within {doubt(finding)}.", width, 6)
    if finding.rests_on:
        yield from hung(f"Rests on {', '.join(dict.fromkeys(finding.rests_on))}.", width, 6)


def _assumed(entry: Assumed, system: System, width: int) -> Iterator[str]:
    taken = measured(entry.value, entry.unit, system)
    span = ""
    if entry.low is not None and entry.high is not None:
        span = f", between {measured(entry.low, entry.unit, system)} and {measured(entry.high, entry.unit, system)}"
    yield from hung(f"{entry.path}: {taken}{span}.", width, 2)
    yield from hung(entry.why, width, 4)
