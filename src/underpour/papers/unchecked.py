"""What the paper does not answer, so that silence is never read as "meets"."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from importlib.resources import files

from ..findings import Finding


def unchecked(findings: Sequence[Finding]) -> list[str]:
    """Findings that cannot be told with the key each one asks for, then whole subjects that nobody asked about."""
    open_ = [f"{f.title}: type {f.missing} in the brief." for f in findings if f.verdict == "cannot tell"]
    return open_ + subjects_left(findings)


def subjects_left(findings: Sequence[Finding]) -> list[str]:
    """The whole subjects, a sentence each, of which no finding speaks."""
    subjects: dict[str, str] = tomllib.loads(files(__package__).joinpath("subjects.toml").read_text("utf-8"))
    return [
        f"{words}."
        for subject, words in subjects.items()
        if not any(f"{finding.id}.".startswith(f"{subject}.") for finding in findings)
    ]
