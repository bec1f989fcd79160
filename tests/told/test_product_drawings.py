"""A product cut through: to its scale, with its measures, and no picture where the record says too little."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import pytest
from hostile_line import products as hostile

from product_lines import shipped
from underpour.catalogue.line import Product
from underpour.catalogue.line_file import _lists_as_tuples
from underpour.catalogue.products import shipped_products
from underpour.drawings.product import product_section

INCH = 25.4  # mm
SVG = "{http://www.w3.org/2000/svg}"


def extents(data: str) -> tuple[float, float]:
    """Breadth and height of a path of one M and relative l. [mm]"""
    x = y = 0.0
    xs, ys = [], []
    for a, b in re.findall(r"[Ml](-?[\d.]+) (-?[\d.]+)", data):
        x, y = x + float(a), y + float(b)
        xs.append(x)
        ys.append(y)
    return max(xs) - min(xs), max(ys) - min(ys)


def bodies(svg: str) -> list[str]:
    return [path.attrib["d"] for path in ET.fromstring(svg).iter(f"{SVG}path") if "url(" in path.attrib.get("fill", "")]


def words(svg: str) -> list[str]:
    return [text.text or "" for text in ET.fromstring(svg).iter(f"{SVG}text")]


def made(key: str, **changes: object) -> Product:
    return Product.model_validate(_lists_as_tuples({**shipped(key), **changes}))


def test_two_inches_of_board_are_as_thick_on_paper_as_the_scale_says():
    drawn = product_section(made("plain-15"), "US")
    assert drawn is not None
    assert drawn.ratio == 4
    assert {round(extents(data)[1], 2) for data in bodies(drawn.svg)} == {2 * INCH / 4}
    assert {"2 in", "lap 1/2 in", "Square", "Ship-lap, to order", 'Scale 3" = 1\'-0" (1:4)'} <= set(words(drawn.svg))


@pytest.mark.parametrize(("key", "high", "said"), [("knob-15", 3.25, "1-1/4 in"), ("gas-15", 3.5, "1-1/2 in")])
def test_a_shaped_panel_is_as_high_as_its_record_says(key, high, said):
    """2 in of foam and 1-1/4 in of knobs are 3-1/4 in; 2 in and 1-1/2 in of channels are 3-1/2 in."""
    drawn = product_section(made(key), "US")
    assert drawn is not None
    (body,) = bodies(drawn.svg)
    assert extents(body)[1] == pytest.approx(high * INCH / drawn.ratio, abs=0.02)
    assert {"2 in", said} <= set(words(drawn.svg))


def test_knobs_take_the_share_of_the_area_that_the_record_says():
    """Five knobs of pitch 3 in: each is 3 in times the root of 22 % wide, so that its square is 22 % of the pitch's."""
    drawn = product_section(made("knob-15"), "US")
    assert drawn is not None
    steps = re.findall(r"l(-?[\d.]+) 0(?=l|z|$)", bodies(drawn.svg)[0])
    tops = [abs(float(step)) for step in steps]
    assert any(abs(step - 3.0 * INCH / drawn.ratio * 0.22**0.5) < 0.03 for step in tops)


def test_a_metric_line_is_drawn_to_a_metric_scale():
    board = made("plain-15", made=[{"thickness": "50 mm", "r-label": "RSI 1.4"}])
    drawn = product_section(board, "SI")
    assert drawn is not None
    assert drawn.words == "1:5"
    assert {round(extents(data)[1], 2) for data in bodies(drawn.svg)} == {10.0}


@pytest.mark.parametrize("width", [112.0, 170.0])
@pytest.mark.parametrize("product", shipped_products().products(), ids=lambda each: each.key)
def test_every_drawing_stays_on_its_paper(product, width):
    drawn = product_section(product, "US", width=width)
    if product.kind in ("tape", "edge-strip", "gravel", "drain", "clip"):
        assert drawn is None
        return
    assert drawn is not None
    root = ET.fromstring(drawn.svg)
    _, _, wide, high = map(float, root.attrib["viewBox"].split())
    assert wide == width
    for path in root.iter(f"{SVG}path"):
        data = path.attrib["d"]
        if re.fullmatch(r"M[-\d. ]+(L[-\d. ]+)+", data):
            for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", data):
                assert -0.1 <= float(x) <= wide + 0.1 and -0.1 <= float(y) <= high + 0.1, data


@pytest.mark.parametrize("record", hostile(), ids=lambda each: each["key"][:12])
def test_a_hostile_record_is_drawn_or_left_out(record):
    drawn = product_section(Product.model_validate(_lists_as_tuples(record)), "US")
    assert (drawn is None) == (record["key"] in ("bare", "empty", "markup"))
    assert drawn is None or ET.fromstring(drawn.svg) is not None
