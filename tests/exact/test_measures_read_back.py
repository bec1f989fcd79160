"""What is written is read back the same, for every unit and fraction; and what is printed, to its last digit."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from underpour import measure
from underpour.findings import UNITS
from underpour.measure import say
from underpour.measure.read import amount
from underpour.measure.table import printed, table
from underpour.mistakes import Mistake

UNIT_ROWS = st.sampled_from(table().units)
NUMBERS = st.decimals(min_value=0, max_value=100000, places=4, allow_nan=False).map(
    lambda d: format(d.normalize(), "f")
)
PARTS = st.sampled_from([2, 4, 8, 16, 32, 64]).flatmap(
    lambda bottom: st.integers(1, bottom - 1).map(lambda top: (top, bottom))
)
SPACES = st.sampled_from(["", " ", "  ", "\u00a0", "\u202f", "\u2009"])
GLYPHS = {"½": (1, 2), "¼": (1, 4), "¾": (3, 4), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8), "⅓": (1, 3)}


@given(unit=UNIT_ROWS, number=NUMBERS, space=SPACES, sign=st.sampled_from(["", "-", "−"]))
def test_every_unit_reads_its_own_name(unit, number, space, sign):
    # "R4/in" is written around its number, and "1/h" starts with a digit
    if unit.name.startswith(("RSI/", "1")):
        space = " "
    text = f"{sign}{number}{space}{unit.name}"
    if unit.name.startswith("RSI/"):
        text = f"RSI {number}{unit.name.removeprefix('RSI')}"
        sign = ""
    si, read = amount(text, table().kinds[unit.kind], "US")
    assert read == unit
    value = -float(number) if sign else float(number)
    assert si == approx((value - unit.zero) * unit.si, rel=1e-12, abs=1e-15)


@given(
    whole=st.integers(0, 400),
    part=PARTS,
    join=st.sampled_from([" ", "-", "\u00a0", "  "]),
    unit=st.sampled_from(["in", '"', "″", "inches", "in."]),
    space=SPACES,
)
def test_whole_inches_and_a_fraction(whole, part, join, unit, space):
    top, bottom = part
    text = f"{whole}{join}{top}/{bottom}{space}{unit}" if whole else f"{top}/{bottom}{space}{unit}"
    assert measure.length(text).si == approx(float(whole + Fraction(top, bottom)) * 0.0254, rel=1e-12)


@given(whole=st.integers(0, 400), glyph=st.sampled_from(sorted(GLYPHS)), join=st.sampled_from(["", " ", "-", "\u202f"]))
def test_fraction_signs(whole, glyph, join):
    text = f"{whole}{join}{glyph} in" if whole else f"{glyph} in"
    assert measure.length(text).si == approx(float(whole + Fraction(*GLYPHS[glyph])) * 0.0254, rel=1e-12)


@given(
    feet=st.integers(1, 300),
    inches=st.integers(0, 11),
    part=PARTS,
    manner=st.sampled_from(
        [
            "{f} ft {i}-{t}/{b} in",
            "{f}' {i} {t}/{b}\"",
            "{f}′ {i}-{t}/{b}″",
            "{f}'-{i} {t}/{b}\"",
            "{f}ft {i} {t}/{b}in",
            "{f} feet, {i} {t}/{b} inches",
        ]
    ),
)
def test_feet_inches_and_a_fraction(feet, inches, part, manner):
    text = manner.format(f=feet, i=inches, t=part[0], b=part[1])
    assert measure.length(text).si == approx(float(feet * 12 + inches + Fraction(*part)) * 0.0254, rel=1e-12)


@given(feet=st.integers(1, 150), inches=st.integers(0, 11), sign=st.sampled_from(["-", "−", "- ", "+", ""]))
def test_a_level_below_keeps_its_sign(feet, inches, sign):
    below = -1 if sign.strip() in ("-", "−") else 1
    assert measure.signed_length(f"{sign}{feet} ft {inches} in").si == approx(below * (feet * 12 + inches) * 0.0254)
    assert measure.signed_length(f"{sign}{inches} in").si == approx(below * inches * 0.0254)


@given(sixteenths=st.integers(1, 16 * 12 * 300))
def test_a_length_on_a_sixteenth_is_printed_exactly(sixteenths):
    metres = sixteenths / 16 * 0.0254
    assert measure.length(say.value(metres, "m", "US")).si == approx(metres, rel=1e-12)


CONVERTED = sorted(unit for unit in UNITS if "kind" in printed()[unit])


@pytest.mark.parametrize("system", ["US", "SI"])
@given(unit=st.sampled_from(CONVERTED), value=st.floats(-60.0, 3e5, allow_nan=False, allow_subnormal=False))
def test_a_printed_value_is_read_back_to_its_last_digit(system, unit, value):
    text = say.value(value, unit, system)
    row = printed()[unit]
    kind = table().kinds[row["kind"]]
    si, _ = amount(text, kind, system)
    kept = table().unit(row["unit"], kind.name)
    expected = (value - kept.zero) * kept.si
    # Half of the last printed digit: the coarsest rule keeps one decimal, or two figures, or a whole number.
    shown_unit = table().unit((row["us"] if system == "US" else row["si"])["unit"], kind.name)
    assert si == approx(expected, rel=0.05, abs=max(0.5 * shown_unit.si, 1e-12))


@given(st.text(max_size=30))
def test_any_text_is_read_or_refused_in_words(text):
    for read in (measure.length, measure.temperature, measure.resistance, measure.conductivity, measure.money_per_unit):
        try:
            read(text)
        except Mistake as mistake:
            assert mistake.wrong and mistake.instead


@given(
    number=st.sampled_from(["2", "1/2", "1,5", "-3", "1e5", ".5", "4 ft 3", "0", "R10", "RSI 2", "U 3", "1 000"]),
    unit=st.sampled_from(
        ["", "in", "ft", "'", '"', "mm", "F", "C", "K", "/in", "W/mK", "psi", "%", "USD/ft2", "°", "--"]
    ),
    read=st.sampled_from([r for n, r in vars(measure).items() if callable(r) and n.islower()]),
)
def test_any_number_with_any_unit_is_read_or_refused_in_words(number, unit, read):
    for text in (f"{number} {unit}", f"{number}{unit}", f"{unit}{number}"):
        try:
            assert read(text).typed == text.strip()
        except Mistake as mistake:
            assert mistake.wrong and mistake.instead
