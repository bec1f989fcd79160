"""What to look at before it is covered, what each look bears on, and the findings that no look bears on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..findings import Finding
from .records import Point, Unseen
from .sequence import Act, Stage, capital, edges_of
from .table import Row, table

FINISHED = "before it is handed over"  # looked at when everything else is done, whichever work it belongs to


def points(stages: Sequence[Stage], findings: Sequence[Finding]) -> tuple[Point, ...]:
    """The looks of all works, each once: in the order of the work, those of the finished building last.

    A look bears on a finding that rests on what the work puts in place, or on a path that the table names beside it, or
    whose id begins as the table says. Those of one edge do not bear on the findings of another.
    """
    found: dict[tuple[str, ...], Point] = {}
    for stage in stages:
        for look in stage.acts[0].looks:
            point = _point(look, stage.acts, findings)
            found.setdefault((point.look_at, point.wanted, point.how, point.before), point)
    in_order = sorted(found.values(), key=lambda point: point.before == FINISHED)
    return tuple(replace(point, number=number) for number, point in enumerate(in_order, start=1))


def unseen(points: Sequence[Point], findings: Sequence[Finding]) -> tuple[Unseen, ...]:
    """The findings, by id, that no look bears on, each with the reason."""
    seen = {id for point in points for id in point.rests}
    why = table("sequence")["unseen"]
    found: dict[str, Unseen] = {}
    for finding in findings:
        if finding.id not in seen and finding.id not in found:
            reason = why.get(finding.verdict) or why.get(finding.id) or why["otherwise"]
            found[finding.id] = Unseen(finding.id, finding.title, reason)
    return tuple(found.values())


def _point(look: Row, acts: Sequence[Act], findings: Sequence[Finding]) -> Point:
    words = acts[0].words
    edges = edges_of(acts)
    at = look["at"].format_map(words)
    return Point(
        number=0,  # given once all are in order
        before=look["before"].format_map(words),
        look_at=f"{capital(edges)}: {at[:1].lower()}{at[1:]}" if edges else capital(at),
        wanted=capital(look["wanted"].format_map(words)),
        how=look["how"].format_map(words),
        rests=tuple(dict.fromkeys(f.id for f in findings if any(_bears(look, act, f) for act in acts))),
        who=look["who"],
    )


def _bears(look: Row, act: Act, finding: Finding) -> bool:
    if act.thing.edge and finding.at.get("edge", act.thing.edge) != act.thing.edge:
        return False
    laid = () if look.get("only", False) else act.lays
    looked_at = [*laid, *(path.format_map(act.words) for path in look.get("bears", ()))]
    on_it = any(_within(path, whole) for path in finding.rests_on for whole in looked_at)
    return on_it or any(_within(finding.id, start, "-") for start in look.get("ids", ()))


def _within(name: str, whole: str, *more: str) -> bool:
    """Whether a dotted name is another or stands under it.

    >>> _within("edge.A.ground", "edge.A"), _within("edge.AB.ground", "edge.A")
    (True, False)
    >>> _within("heat.edge-psi", "heat.edge", "-")
    True
    """
    return name == whole or any(name.startswith(f"{whole}{mark}") for mark in (".", *more))
