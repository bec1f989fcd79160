"""Sources that several findings share; each is a row of the catalogue's sources."""

from __future__ import annotations

from .. import catalogue
from ..findings import Basis


def basis(key: str, clause: str) -> Basis:
    """A source of the catalogue with the clause that is meant."""
    source = catalogue.source(key)
    return Basis(source.title, clause, source.seen)


def conduction() -> tuple[Basis, ...]:
    """How sections are solved."""
    return (
        basis("iso-10211-2017", "two-dimensional calculation of the section"),
        basis("iso-13370-2017", "annual harmonic of the outdoor temperature"),
    )
