"""Who must confirm what, and before when."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from ..findings import Finding
from ..measure import say
from ..measure.table import System
from .records import Confirmer
from .table import Row, asked, table
from .things import Things


@dataclass(frozen=True, slots=True)
class _Asked:
    """One thing that somebody is asked to confirm."""

    row: Row
    words: Mapping[str, str]
    rests_on: tuple[str, ...]


def confirmers(there: Things, findings: Sequence[Finding], system: System) -> tuple[Confirmer, ...]:
    """Everyone who must confirm something of this build-up, in the order of the table; each once for each moment."""
    together: dict[tuple[str, str], list[_Asked]] = {}
    for each in _all(there, findings, system):
        together.setdefault((each.row["who"], each.row["before"]), []).append(each)
    return tuple(
        Confirmer(
            who=who,
            what=_once(each.row["what"].format_map(each.words) for each in asks),
            before=before,
            why=" ".join(_once(each.row["why"] for each in asks)),
            rests_on=_once(path for each in asks for path in each.rests_on),
        )
        for (who, before), asks in together.items()
    )


def _all(there: Things, findings: Sequence[Finding], system: System) -> Iterator[_Asked]:
    for row in table("confirmers")["row"]:
        if row["each"] == "finding":
            for finding in findings:
                if ("accepted" if finding.accepted else finding.verdict) == row["verdict"]:
                    yield _Asked(row, _words(finding, system), (finding.id,))
            continue
        for thing in there.of(row["each"]):
            if asked(row, thing):
                yield _Asked(row, {**thing.words, "edge": thing.edge}, thing.paths)


def _words(finding: Finding, system: System) -> dict[str, str]:
    edge = finding.at.get("edge")
    words = {"title": finding.title, "at": f", edge {edge}" if edge is not None else "", "missing": finding.missing}
    if finding.accepted is not None:
        words["accepted"] = finding.accepted.words
    if finding.value is not None:
        words["value"] = say.both(finding.value, finding.unit, system)
    if finding.limit is not None:
        words["limit"] = f"{finding.sense} {say.both(finding.limit, finding.unit, system)}"
    return words


def _once(texts: Iterator[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(texts))
