"""What the paper does not answer, so that silence is never read as "meets"."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from importlib.resources import files

from ..findings import Finding


def unchecked(findings: Sequence[Finding]) -> list[str]:
    """Findings that cannot be told with the key each one asks for, then whole subjects that nobody asked about."""
    subjects: dict[str, str] = tomllib.loads(files(__package__).joinpath("subjects.toml").read_text("utf-8"))
    answered = {f.id.partition(".")[0] for f in findings}
    open_ = [f"{f.title}: type {f.missing} in the brief." for f in findings if f.verdict == "cannot tell"]
    return open_ + [f"{words}." for subject, words in subjects.items() if subject not in answered]
