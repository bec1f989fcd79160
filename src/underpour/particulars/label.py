"""The text that an inspector holds against the delivery ticket and the print on a pack."""

from __future__ import annotations

from collections.abc import Iterator

from ..catalogue.products import FLAT, SHAPED
from .figures import STANDS
from .shown import LABELLED_BY, Particulars


def label(of: Particulars) -> tuple[tuple[str, str], ...]:
    """Name and words of each line; what is written in on site has no words."""
    return tuple(_lines(of))


def _lines(of: Particulars) -> Iterator[tuple[str, str]]:
    yield "Maker", f"{of.maker} (invented)" if of.invented else of.maker
    yield "Product", f"{of.name}, {of.product.key}"
    yield "What it is", ", ".join(filter(None, (of.called.lower(), of.product.material or of.product.family)))
    for claim in of.claims:
        yield "Class", claim.words if claim.standing == STANDS else f"{claim.standing}: {claim.words}"
    if not of.claims:
        yield "Class", "none claimed"
    for made in of.made:
        height = f", {made.height} high" if made.height else ""
        r = f", {made.r_shown}" if made.r_words else ""
        yield "Thickness and R" if of.made[0].r_words else "Thickness", f"{made.words}{height}{r}"
    behind = [each for each in of.figures if each.of.key in (LABELLED_BY, "strength", "permeance-film", "tape-peel")]
    certificates = dict.fromkeys(f"{each.certificate}, to {each.expires}" for each in behind)
    yield "Certificates", "; ".join(certificates) or "no record"
    yield "Lot and day of making", ""
    if of.product.kind in (*FLAT, *SHAPED):
        yield "Thickness taped", ""
    yield "Delivery ticket", ""
