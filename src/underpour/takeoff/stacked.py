"""What boards and panels weigh, how much room they take on a lorry, and what each R of them costs."""

from __future__ import annotations

from dataclasses import replace
from math import ceil

from ..catalogue.line import Made, Product, Size
from ..resolve import Slice
from .records import Item, Pack


def stacked(item: Item, layer: Slice, product: Product | None, sheet: Size) -> Item:
    """The item with its packs, its weight, its bulk, and its price for each R.

    Arguments
    ---------
    item
        Boards of one thickness, counted.
    layer
        What they are: thickness, density, R on the label.
    product
        Its record; None of a class.
    sheet
        Size of one board as it comes.
    """
    pieces = item.count or 0
    pack = packed(product, layer.thickness, pieces)
    each = sheet.width * sheet.length
    density = layer.record.density.value if layer.record and layer.record.density else None
    high = height(layer, product)
    return replace(
        item,
        packs=pack.words if pack else "",
        pack=pack,
        mass=density * pieces * each * foam(layer, product) if density is not None else None,
        bulk=pieces * each * high,
        thickness=layer.thickness,
        per_r=item.cost.amount / item.order / layer.r_label if item.cost and layer.r_label else None,
    )


def packed(product: Product | None, thickness: float, pieces: int) -> Pack | None:
    """Bundles and pallets, where the record says how high one is or what it holds. [m]"""
    if product is None or product.pack is None:
        return None
    pack = product.pack
    each = pack.pieces or (int(pack.bundle.si / thickness + 1e-9) if pack.bundle else 0)
    if not each:
        return None
    bundles = ceil(pieces / each)
    if not (pack.pallet and pack.bundle) or pack.pieces:
        return Pack(bundles, each, None)
    return Pack(bundles, each, ceil(bundles / max(int(pack.pallet.si / pack.bundle.si + 1e-9), 1)))


def height(layer: Slice, product: Product | None) -> float:
    """Of one panel over all, knobs or channels counted. [m]"""
    made = _made(layer, product)
    return made.height.si if made and made.height else layer.height


def foam(layer: Slice, product: Product | None) -> float:
    """Thickness of solid foam that weighs as much as the panel with its knobs or feet. [m]"""
    if product and product.channels:
        return layer.thickness + product.channels.depth.si * product.channels.foot_share.si
    if product and product.pattern:
        return layer.thickness + product.pattern.knob_height.si * product.pattern.knob_share.si
    return layer.thickness


def _made(layer: Slice, product: Product | None) -> Made | None:
    made = product.made if product else ()
    return next((each for each in made if abs(each.thickness.si - layer.thickness) < 1e-6), None)
