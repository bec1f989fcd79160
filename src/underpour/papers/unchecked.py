"""What the paper does not answer, so that silence is never read as "meets"."""

from __future__ import annotations

import tomllib
from collections import Counter
from collections.abc import Sequence
from functools import cache
from importlib.resources import files

from ..findings import Finding
from .counted import in_a_row


def unchecked(findings: Sequence[Finding]) -> list[str]:
    """Findings that cannot be told with the key each one asks for, then whole subjects that nobody asked about."""
    open_ = [f"{f.title}: type {f.missing} in the brief." for f in findings if f.verdict == "cannot tell"]
    return open_ + subjects_left(findings)


def subjects_left(findings: Sequence[Finding]) -> list[str]:
    """The whole subjects, a sentence each, of which no finding speaks."""
    return [f"{subject['says']}." for subject in _left(findings)]


def unlooked(findings: Sequence[Finding]) -> str:
    """The subjects without a finding in which harm can lie, in one short sentence; empty where there is none.

    Subjects that share a name, each with its own finding to come, are named together where none of them has one.

    Examples
    --------
    >>> seen = ("heat.loss", "moisture.mould", "moisture.drying", "bearing.soil", "code.frost")
    >>> unlooked([Finding(id, "", 1.0, "W") for id in seen])
    'Frost, foam below footings, the slab under loads and soil gas were not checked.'
    """
    left = [subject for subject in _left(findings) if "short" in subject]
    all_ = Counter(_name(subject) for subject in _subjects().values())
    wholly = {name for name, n in Counter(map(_name, left)).items() if n == all_[name]}
    named = [_name(subject).lower() if _name(subject) in wholly else subject["short"] for subject in left]
    names = list(dict.fromkeys(named))
    if not names:
        return ""
    words = f"{in_a_row(names)} {'was' if len(names) == 1 else 'were'} not checked."
    return words[:1].upper() + words[1:]


def _left(findings: Sequence[Finding]) -> list[dict[str, str]]:
    ids = [f"{finding.id}." for finding in findings]
    return [subject for start, subject in _subjects().items() if not any(id.startswith(f"{start}.") for id in ids)]


def _name(subject: dict[str, str]) -> str:
    return subject["says"].partition(":")[0]


@cache
def _subjects() -> dict[str, dict[str, str]]:
    """By the first words of a finding's id, what the subject says, and its short name where harm can lie in it."""
    return tomllib.loads(files(__package__).joinpath("subjects.toml").read_text("utf-8"))
