"""One product of the line with everything that its record says, as it is typed there."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from ..paragraphs import hung

if TYPE_CHECKING:
    from ...catalogue.line import Evidence, Line, Product

KINDS = {
    "board": "plain board",
    "faced-board": "board with a facing",
    "tube-panel": "panel with knobs for tube",
    "soil-gas-panel": "panel with channels for soil gas",
    "film": "film",
    "tape": "tape",
    "edge-strip": "edge strip",
    "gravel": "gravel",
    "drain": "drain",
    "clip": "clip for tube",
}
SAID_APART = ("key", "name", "kind", "evidence", "made", "note")


def one_line(product: Product, line: Line) -> str:
    """Name, kind and material."""
    of = f", {product.material}" if product.material else ""
    invented = ", an invented product" if line.maker.invented else ""
    return f"{product.name}: {KINDS[product.kind]}{of}{invented}"


def shown(product: Product, line: Line, width: int) -> Iterator[str]:
    """The whole record: what it is, how it is made and sold, and each test behind it."""
    from ...catalogue.properties import properties

    yield from hung(f"{one_line(product, line)} (catalogue.product.{product.key})", width)
    if product.note:
        yield from hung(product.note, width, 2)
    for name, field in type(product).model_fields.items():
        value = getattr(product, name)
        if name not in SAID_APART and value not in (None, (), ""):
            yield from hung(_words(value), width, 6, f"  {str(field.alias).replace('-', ' ').capitalize()}:")
    if product.made:
        yield "  Made in"
        for made in product.made:
            yield from hung(_words(made), width, 16, f"    {made.thickness.typed}")
    if product.evidence:
        yield "  Tests"
        for evidence in product.evidence:
            yield from hung(f"{properties()[evidence.property].name}: {_test(evidence)}", width, 6, "    ")


def _test(evidence: Evidence) -> str:
    number = "" if evidence.value is None else f"{evidence.value:g} {evidence.unit}".strip()
    days = [
        f"of {_words(evidence.date)}" if evidence.date else "",
        f"to {_words(evidence.expires)}" if evidence.expires else "",
    ]
    stands = [f"from {_words(evidence.holds_from)}" if evidence.holds_from else ""]
    stands += [f"up to {_words(evidence.holds_to)}" if evidence.holds_to else ""]
    parts = (
        number,
        evidence.method,
        {"each": "each specimen", "average": "average", "90/90": "90 % of the make with 90 % confidence"}.get(
            evidence.statistic or "", ""
        ),
        _words(evidence.conditions),
        " ".join(filter(None, stands)),
        f"laboratory: {evidence.laboratory}",
        evidence.certificate,
        " ".join(filter(None, days)),
    )
    return ", ".join(filter(None, parts))


def _words(value: Any) -> str:
    """A value as it was typed; a table as its keys and values."""
    if isinstance(value, tuple):
        return "; ".join(map(_words, value))
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime.date):
        return value.isoformat()
    if hasattr(type(value), "model_fields"):
        said = (
            (str(field.alias).replace("-", " "), getattr(value, name))
            for name, field in type(value).model_fields.items()
        )
        return ", ".join(f"{key} {_words(each)}" for key, each in said if each not in (None, "", (), False))
    return str(getattr(value, "typed", value))
