"""What may stand in the place of a board, in words: the same for the terminal and for the reviewer's page."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import TYPE_CHECKING, Any

from ..drawings.when import MONTHS
from ..measure import say
from .differing import by_place, in_a_line
from .instance import named
from .known import SEEN
from .letters import Letters
from .typefaces import Typefaces
from .write import Paper, Printed, compiled, day_of

if TYPE_CHECKING:
    from ..findings import Finding
    from ..substitution import Change, Exchange, Refusal, Substitute, Substitution

UNTOLD = "no record"
NO_FACING = "not faced"


def substitution_page(
    of: Substitution, version: str, *, date: str, paper: Paper = "a4", typefaces: Typefaces | None = None
) -> Printed:
    """One product proposed in the place of a board, for a reviewer to accept or to refuse, as PDF.

    ``of`` holds that product alone. Takes and refuses what ``submittal`` does.
    """
    day, words = day_of(date)
    letters = Letters(typefaces.drawn if typefaces else frozenset())
    told = page(of, words, version, draft=False, letters=letters)
    return compiled("substitution.typ", told, letters, day=day, paper=paper, typefaces=typefaces)


def page(of: Substitution, day: str, version: str, *, draft: bool, letters: Letters) -> dict[str, Any]:
    """What the page for a reviewer prints of one product that is proposed."""
    proposed = of.substitutes[0]
    told: dict[str, Any] = letters.fit(
        {
            "title": of.title,
            "day": day,
            "version": version,
            "draft": draft,
            "place": f"{of.use}, {of.place}.",
            "asked": of.board.label,
            "proposed": proposed.board.label,
            "where": [where(each) for each in proposed.exchanges] or [_place(path) for path in of.where],
            "wanted": list(wanted(of)),
            "verdict": verdict(proposed),
            "serves": proposed.serves,
            "refusals": [
                {"what": each.what, "words": each.words, "source": source(each)} for each in proposed.refusals
            ],
            "changes": [[each.name, *both_told(each, of)] for each in proposed.changes],
            "moved": [list(row) for row in moved(of, proposed)],
            "cautions": [*of.cautions, *cautions_beside(of, proposed)],
            "notes": list(of.notes),
            "held": f"Certificates are held to {of.day.day} {MONTHS[of.day.month - 1]} {of.day.year}.",
        }
    )
    return {**told, "absent": letters.named()}


def wanted(of: Substitution) -> Iterator[str]:
    """What another product has to keep, one line each."""
    for name in of.classes:
        yield f"every number of {name}, shown by its records"
    if not of.classes:
        yield "no class: none is claimed that is held here"
    yield from of.needs


def where(exchange: Exchange) -> str:
    """One place with both thicknesses: "floor, layer 2: 2 in, now 2-1/2 in"."""
    if not exchange.after:
        return f"{_place(exchange.path)}: as drawn"
    return f"{_place(exchange.path)}: {exchange.before}, now {exchange.after}"


def verdict(substitute: Substitute) -> str:
    """Whether it can serve, in a sentence.

    A page says it, a terminal heads its list with it; the decision stays the reviewer's.
    """
    if substitute.serves:
        return "It can serve: its records show every number that is asked for, and what met here meets still."
    reasons = "one reason" if len(substitute.refusals) == 1 else f"{len(substitute.refusals)} reasons"
    return f"It cannot serve, for {reasons}."


def both_told(change: Change, of: Substitution) -> tuple[str, str]:
    """A property of both products, in the reader's own units."""

    def told(value: float | str | None) -> str:
        if value is None:
            return NO_FACING if "facing" in change.name else UNTOLD
        return value if isinstance(value, str) else say.both(value, change.unit, of.system)

    return told(change.before), told(change.after)


def differs(change: Change, of: Substitution) -> bool:
    """Whether a reader sees a difference."""
    before, after = both_told(change, of)
    return before != after


def moved(of: Substitution, substitute: Substitute, ids: Collection[str] = ()) -> list[tuple[str, str, str]]:
    """The findings that are said otherwise with the other board: title, as briefed, with it.

    Findings of a product by itself are left out: where the other's fall short, that is a reason of its own. ``ids``
    names those that are wanted, whole or by their first word; all where it is empty.
    """
    before, after = by_place(of.findings), by_place(substitute.findings)
    if not after:
        return []
    rows = []
    for which, finding in {**before, **after}.items():
        if "product" in finding.at:
            continue
        if ids and finding.id not in ids and finding.id.partition(".")[0] not in ids:
            continue
        was, now = in_a_line(before.get(which), of.system), in_a_line(after.get(which), of.system)
        if was != now:
            rows.append((named(finding, of.system), was, now))
    return rows


def cautions_beside(of: Substitution, substitute: Substitute) -> list[str]:
    """Cautions of findings that are said otherwise, each once."""
    before, after = by_place(of.findings), by_place(substitute.findings)
    beside: Sequence[Finding] = [finding for which, finding in after.items() if before.get(which) != finding]
    return list(
        dict.fromkeys(finding.caution for finding in beside if finding.caution and finding.caution not in of.cautions)
    )


def source(refusal: Refusal) -> str:
    """What a reason stands on: "ASTM C578-19, Table 1 (from memory)"; "" where it is the record itself."""
    basis = refusal.basis
    if basis is None:
        return ""
    return ", ".join(filter(None, (basis.source, basis.clause))) + f" ({SEEN[basis.seen]})"


def _place(path: str) -> str:
    """A place of the brief in words. What substitutes is loaded only where it is printed."""
    from ..substitution.places import place

    return place(path)
