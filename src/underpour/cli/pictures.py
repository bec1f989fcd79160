"""Which edge a command asks for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .parsing import unknown_word

if TYPE_CHECKING:
    from ..dossier import Dossier


def chosen_edge(dossier: Dossier, typed: str | None) -> str:
    """The edge asked for, or the one that tells most; a Mistake for a letter that the brief does not have."""
    edges = list(dossier.as_briefed.sections)
    if typed is None:
        from ..drawings.telling import telling_edge

        return telling_edge(dossier)
    if typed not in edges:
        listing = f"Its edges: {', '.join(edges)}."
        raise unknown_word("--edge", typed, edges, f"The brief has no edge {typed}.", listing)
    return typed
