"""The order and the cut lists as tables: CSV and a workbook."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from io import BytesIO, StringIO

from .cutting import Cut, cuts, kept
from .records import LaidLayer, Takeoff

ORDER = (
    "what",
    "where",
    "product",
    "needed",
    "unit",
    "count",
    "of",
    "ordered",
    "packs",
    "cost",
    "currency",
    "price",
    "priced",
    "not priced",
    "how",
    "spare",
    "waste",
    "kg",
    "m³ stacked",
)
CUTS = (
    "layer",
    "piece",
    "sawn panel",
    "length mm",
    "height mm",
    "from left mm",
    "from lower side mm",
    "keeps",
    "trimmed further",
)
KEPT = ("layer", "sawn panel", "length mm", "height mm", "from left mm", "from lower side mm", "kerf mm")

Row = tuple[str | float | int, ...]


def order_rows(takeoff: Takeoff) -> Iterator[Row]:
    """Heading, then a row for each item. [m, m², m³]"""
    yield ORDER
    for item in takeoff.items:
        cost = item.cost
        yield (
            *(item.what, item.where, item.key, round(item.net, 3), item.unit),
            *("" if item.count is None else item.count, item.of, round(item.order, 3), item.packs),
            *((round(cost.amount, 2), cost.currency, cost.price, cost.day) if cost else ("", "", "", "")),
            *(item.unpriced, item.why, round(item.spare, 3), round(item.waste, 3)),
            *("" if each is None else round(each, 2) for each in (item.mass, item.bulk)),
        )


def cut_rows(layers: Sequence[LaidLayer]) -> Iterator[Row]:
    """Heading, then a row for each sawn piece. [mm]"""
    yield CUTS
    for layer in layers:
        yield from (_cut_row(layer, cut) for cut in cuts(layer.layout))


def rest_rows(layers: Sequence[LaidLayer]) -> Iterator[Row]:
    """The cut list of what is still to be laid; a panel below nought is an offcut at hand, as typed. [mm]"""
    yield CUTS
    for layer in layers:
        yield from (_cut_row(layer, cut) for cut in (layer.rest.cuts if layer.rest else ()))


def _cut_row(layer: LaidLayer, cut: Cut) -> Row:
    lengths = (round(1000 * each) for each in (cut.length, cut.height, cut.u, cut.v))
    return layer.path, cut.number, cut.panel, *lengths, cut.keeps, "yes" if cut.slanted else ""


def kept_rows(layers: Sequence[LaidLayer]) -> Iterator[Row]:
    """Heading, then a row for each offcut that is kept whole. [mm]"""
    yield KEPT
    for layer in layers:
        kerf = round(1000 * layer.layout.rules.kerf, 1)
        for each in kept(layer.layout):
            lengths = (round(1000 * size) for size in (each.length, each.height, each.u, each.v))
            yield layer.path, each.panel, *lengths, kerf


def as_csv(rows: Iterator[Row]) -> bytes:
    """Comma-separated, with the mark that spreadsheets know UTF-8 by; a cell never begins a formula."""
    text = StringIO()
    csv.writer(text, lineterminator="\r\n").writerows([[_safe(cell) for cell in row] for row in rows])
    return text.getvalue().encode("utf-8-sig")


def as_workbook(takeoff: Takeoff) -> bytes:
    """The order, the cuts and the offcuts that are kept as sheets of one workbook."""
    from xlsxwriter import Workbook

    content = BytesIO()
    with Workbook(content, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}) as book:
        bold = book.add_format({"bold": True})
        sheets = ("order", order_rows(takeoff)), ("cuts", cut_rows(takeoff.layers)), ("kept", kept_rows(takeoff.layers))
        for name, rows in sheets:
            sheet = book.add_worksheet(name)
            sheet.freeze_panes(1, 1)
            for n, row in enumerate(rows):
                sheet.write_row(n, 0, row, None if n else bold)
            sheet.autofit()
    return content.getvalue()


def _safe(cell: str | float) -> str | float:
    return f"'{cell}" if isinstance(cell, str) and cell[:1] in "=+-@" and cell else cell
