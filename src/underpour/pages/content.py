"""From the dossier to what the page is given: every number as text, nothing worked out."""

from __future__ import annotations

from collections.abc import Iterable

from ..dossier import Answer, Dossier
from ..drawings.damp_words import humid_places, humidity_in_words
from ..drawings.frost_words import frost_in_words
from ..drawings.gas_pipe import gas_in_words
from ..drawings.heated_words import cold_in_words, section_in_words, year_in_words
from ..drawings.legend import materials
from ..drawings.through_the_year import Compared, Moment, moments, through_the_year, year_scale
from ..findings import Finding
from ..measure import say
from ..measure.table import System
from ..papers.content import FONTS
from ..papers.counted import counted_aloud, frost_aloud
from ..papers.differing import differing, own_words
from ..papers.instance import named
from ..papers.measured import measured
from ..papers.unchecked import unchecked
from .given import Cell, Edge, Mark, Material, Panel, Readings, Row, Sheet, entries
from .packed import packed
from .picture import (
    damp_picture,
    frost_picture,
    gas_picture,
    heated_pictures,
    legend_picture,
    section_picture,
    swatch_picture,
    winter_pictures,
)
from .readings import AIRS, across_words, degree_words, edge_readings, height_words, label


def sheet(dossier: Dossier, edge: str, month: int) -> Sheet:
    """Everything on the page, with that edge in front and that month (1 to 12) shown first."""
    system, shown = dossier.units, moments()
    letters = list(dict.fromkeys([edge, *(e for answer in dossier.alternatives for e in answer.fields)]))
    scale = year_scale(dossier)
    compared = {letter: through_the_year(dossier, letter, scale) for letter in letters}
    first = month - 1
    bodies = materials(s for answer in dossier.alternatives for s in answer.sections.values())
    return Sheet(
        title=dossier.title or "A slab without a title",
        asked=f"{dossier.use[:1].upper()}{dossier.use[1:]}, {dossier.place}.",
        place=dossier.place,
        version=dossier.version,
        alternatives=tuple(answer.name for answer in dossier.alternatives),
        edges=tuple(_edge(dossier, letter, compared[letter], shown[first], first) for letter in letters),
        when=shown[first].words,
        months=tuple(Mark(m.letter or m.name, m.name) for m in shown),
        first_month=first,
        legend=legend_picture(scale),
        frost=frost_picture(scale),
        materials=tuple(Material(swatch_picture(kind, f"key-{n}"), name) for n, (kind, name) in enumerate(bodies)),
        rows=tuple(_rows(dossier, system)),
        counts=tuple(_count(answer.findings) for answer in dossier.alternatives),
        damp=damp_picture(dossier),
        damp_words=tuple(_damp_words(dossier)),
        cold=tuple(winter_pictures(dossier)),
        cold_words=tuple(_cold_words(dossier)),
        heated=tuple(heated_pictures(dossier)),
        heated_words=tuple(_heated_words(dossier)),
        gas=gas_picture(dossier),
        gas_words=tuple(_gas_words(dossier)),
        cautions=dossier.cautions,
        assumed=tuple(_assumed(dossier)),
        unchecked=tuple(unchecked(dossier.as_briefed.findings)),
        notes=dossier.notes,
        credits=(*dossier.credits, FONTS),
        packed=packed(entries(readings(dossier, compared, shown))),
    )


def readings(dossier: Dossier, compared: dict[str, Compared], shown: tuple[Moment, ...]) -> Readings:
    """All that the script is handed."""
    windows = [at.window for at in compared.values()]
    fields = [field for answer in dossier.alternatives for field in answer.fields.values()]
    return Readings(
        moments=[{"words": m.words, "cosine": round(m.cosine, 6), "sine": round(m.sine, 6)} for m in shown],
        degrees=degree_words(fields, dossier.units),
        heights=height_words(windows, dossier.units),
        across=across_words(windows, dossier.units),
        airs=AIRS,
        edges=[edge_readings(letter, at, shown) for letter, at in compared.items()],
    )


def _edge(dossier: Dossier, letter: str, compared: Compared, moment: Moment, first: int) -> Edge:
    kind = compared.answers[0].sections[letter].kind.replace("-", " ")
    return Edge(
        letter=letter,
        named=f"edge {letter}, {kind}",
        lesson=compared.lessons[first],
        panels=tuple(
            _panel(dossier, answer, letter, compared, n, moment, first) for n, answer in enumerate(compared.answers)
        ),
    )


def _panel(
    dossier: Dossier, answer: Answer, letter: str, compared: Compared, n: int, moment: Moment, first: int
) -> Panel:
    return Panel(
        name=answer.name,
        picture=section_picture(compared, compared.sections[n], first, label(answer, letter, moment)),
        layers=answer.summary,
        words=tuple(own_words(answer, dossier.alternatives, letter)),
        accepted=tuple(
            f"{named(finding, dossier.units)}. {finding.accepted.words}"
            for finding in answer.findings
            if finding.accepted and finding.at.get("edge", letter) == letter
        ),
    )


def _count(findings: tuple[Finding, ...]) -> str:
    """The verdicts counted, and before them where frost gets below the slab: no verdict tells that."""
    return " ".join(filter(None, (frost_aloud(findings), counted_aloud(findings))))


def _rows(dossier: Dossier, system: System) -> Iterable[Row]:
    for apart in differing(dossier.alternatives, system):
        cells = (_cell(name, finding, system) for name, finding in apart.found.items())
        yield Row(named(apart.named_by, system), tuple(cells))


def _cell(alternative: str, finding: Finding | None, system: System) -> Cell:
    if finding is None:
        return Cell(alternative, "not there", "")
    value = "" if finding.value is None else say.both(finding.value, finding.unit, system)
    return Cell(alternative, value, "" if finding.verdict == "stated" else finding.verdict)


def _gas_words(dossier: Dossier) -> Iterable[str]:
    """The same as the picture of soil gas, for those who do not see it, and what to mind."""
    if not any(answer.drawn_off for answer in dossier.alternatives):
        return
    for answer in dossier.alternatives:
        yield f"{answer.name[:1].upper()}{answer.name[1:]}: {gas_in_words(answer.drawn_off, dossier.units)}."
    found = (finding for answer in dossier.alternatives for finding in answer.findings)
    yield from dict.fromkeys(f.caution for f in found if f.id.startswith("soilgas.") and f.caution)


def _damp_words(dossier: Dossier) -> Iterable[str]:
    """A line for each alternative, then the cautions that stand beside their findings, each once."""
    cautions: dict[str, None] = {}
    for answer in dossier.alternatives:
        found = humid_places(answer.findings)
        cautions |= dict.fromkeys(f.caution for f in found if f.caution)
        if answer.vapour:
            yield f"{answer.name[:1].upper()}{answer.name[1:]}: {humidity_in_words(found, dossier.units)}"
    yield from cautions


def _cold_words(dossier: Dossier) -> Iterable[str]:
    """A line for each alternative and edge, then the cautions that stand beside their findings, each once."""
    cautions: dict[str, None] = {}
    for answer in dossier.alternatives:
        cautions |= dict.fromkeys(f.caution for f in answer.findings if f.id.startswith("frost.") and f.caution)
        for edge in dict.fromkeys(each.edge for each in answer.wintered):
            said = frost_in_words([each for each in answer.wintered if each.edge == edge], dossier.units)
            yield f"{answer.name[:1].upper()}{answer.name[1:]}, edge {edge}. {said}"
    if any(answer.wintered for answer in dossier.alternatives):
        yield from cautions


def _heated_words(dossier: Dossier) -> Iterable[str]:
    """A line for each alternative, then the cautions that stand beside their findings, each once."""
    cautions: dict[str, None] = {}
    for answer in dossier.alternatives:
        if answer.heated is None:
            continue
        cautions |= dict.fromkeys(f.caution for f in answer.findings if f.id.startswith("warm.") and f.caution)
        of = answer.heated
        told = [section_in_words(of, dossier.units), year_in_words({"": of}, dossier.units)]
        told.append(cold_in_words(of, dossier.units))
        yield f"{answer.name[:1].upper()}{answer.name[1:]}: {' '.join(told)}"
    yield from cautions


def _assumed(dossier: Dossier) -> Iterable[str]:
    for entry in dossier.assumed:
        ends = [measured(end, entry.unit, dossier.units) for end in (entry.low, entry.high) if end is not None]
        span = f", between {' and '.join(ends)}" if len(ends) == 2 else ""
        yield f"{entry.path}: {measured(entry.value, entry.unit, dossier.units)}{span} ({entry.why})"
