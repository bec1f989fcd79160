"""The alternatives side by side: what each one is, and the few findings that tell them apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from ..measure import say
from ..measure.table import System
from .instance import instance
from .order import worst_first

if TYPE_CHECKING:
    from ..dossier import Answer, Dossier
    from ..findings import Finding

# In the order of reading: is it warm, is it dry, what is lost, does it fit.
TELLING = (
    "heat.corner-coldest",
    "heat.floor-coldest",
    "heat.ground-temperature",
    "moisture.surface-factor",
    "heat.loss-peak",
    "heat.loss-mean",
    "heat.loss-year",
    "heat.edge-loss",
    "heat.edge-psi",
    "heat.u-floor",
    "height.total",
    "height.depth",
    "money.first",
    "money.life",
    "money.payback",
    "carbon.embodied",
    "carbon.payback",
)
LESSONS = (
    "heat.corner-coldest",
    "heat.ground-temperature",
    "heat.loss-mean",
)  # findings whose words say what an alternative does
BESIDE = 2  # alternatives that fit beside the brief itself on one sheet of paper


def compared(dossier: Dossier, system: System) -> list[dict[str, Any]]:
    """Tables of as briefed and at most ``BESIDE`` alternatives; empty where the brief has none."""
    others = dossier.alternatives[1:]
    groups = [others[k : k + BESIDE] for k in range(0, len(others), BESIDE)]
    return [_table((dossier.as_briefed, *group), system) for group in groups]


def _table(answers: tuple[Answer, ...], system: System) -> dict[str, Any]:
    rows = [f for f in answers[0].findings if f.id in TELLING and not _said_by_the_net(f, answers)]
    rows.sort(key=lambda f: TELLING.index(f.id))
    return {
        "names": [a.name for a in answers],
        "summaries": [list(a.summary) for a in answers],
        "rows": [
            {
                "title": row.title,
                "where": instance(row, system),
                "cells": [_cell(_same(answer, row), system) for answer in answers],
            }
            for row in rows
        ],
        "words": [_words(a) for a in answers],
    }


def _said_by_the_net(finding: Finding, answers: Sequence[Answer]) -> bool:
    """Whether a year's harmful heat is all of the net in every alternative, or its useful heat none in any."""
    if finding.id != "heat.loss-year" or finding.at["flow"] == "net":
        return False
    same = [found.value for a in answers if (found := _same(a, finding)) is not None]
    if finding.at["flow"] == "useful":
        return not any(same)
    net = replace(finding, at={**finding.at, "flow": "net"})
    return same == [found.value for a in answers if (found := _same(a, net)) is not None]


def _same(answer: Answer, wanted: Finding) -> Finding | None:
    return next((f for f in answer.findings if f.id == wanted.id and dict(f.at) == dict(wanted.at)), None)


def _cell(finding: Finding | None, system: System) -> dict[str, str]:
    if finding is None:
        return {"value": "\N{EN DASH}", "verdict": ""}
    value = "" if finding.value is None else say.both(finding.value, finding.unit, system)
    return {"value": value, "verdict": "" if finding.verdict == "stated" else finding.verdict}


def _words(answer: Answer) -> list[str]:
    """What the coldest corner and the ground teach, then what falls short, as an adviser says it."""
    told = [f for f in answer.findings if f.id in LESSONS and f.words and f.at.get("of") != "wall"]
    told += [f for f in worst_first(answer.findings) if f.verdict == "falls short"]
    return list(dict.fromkeys(f.words or f"{f.title}: falls short." for f in told))
