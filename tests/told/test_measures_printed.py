"""What users read where a number is printed."""

import pytest

from underpour import measure
from underpour.measure import say

PRINTED = [
    (13.9, "degC", "57.0 °F", "13.9 °C"),
    (-20.0, "degC", "−4.0 °F", "−20.0 °C"),
    (-0.01, "degC", "32.0 °F", "0.0 °C"),
    (1.0, "K", "1.8 °F", "1.0 K"),
    (0.04, "K", "0.07 °F", "0.04 K"),
    (1.43, "m²·K/W", "R-8.1", "RSI 1.43"),
    (0.25, "W/(m²·K)", "0.0440 Btu/(h·ft²·°F)", "0.250 W/(m²·K)"),
    (0.0356, "W/(m·K)", "0.0206 Btu/(h·ft·°F)", "0.0356 W/(m·K)"),
    (155.0, "W", "529 Btu/h", "155 W"),
    (12345.0, "W", "42 123 Btu/h", "12 345 W"),
    (172.3, "kPa", "25.0 psi", "172 kPa"),
    (10.0, "Pa", "0.040 in. w.c.", "10 Pa"),
    (148.0, "Bq/m³", "4.0 pCi/L", "148 Bq/m³"),
    (0.0094, "m³/s", "19.9 cfm", "9.40 l/s"),
    (4375.0, "degC·d", "7875 °F·d", "4375 K·d"),
    (57.3, "%", "57 %", "57 %"),
    (38.0, "count", "38", "38"),
    (0.7467, "1", "0.747", "0.747"),
    (0.0508, "m", "2 in", "51 mm"),
    (0.0889, "m", "3½ in", "89 mm"),
    (0.0238125, "m", "15/16 in", "24 mm"),
    (0.0492125, "m", "1-15/16 in", "49 mm"),
    (0.05, "m", "1.97 in", "50 mm"),
    (0.6, "m", "23.6 in", "600 mm"),
    (1.3081, "m", "4 ft 3½ in", "1.31 m"),
    (1.524, "m", "5 ft", "1.52 m"),
    (4.0, "m", "13.1 ft", "4.00 m"),
    (0.000381, "m", "0.015 in", "0.38 mm"),
    (-0.2032, "m", "−8 in", "−203 mm"),
    (0.0, "m", "0 in", "0 mm"),
]


@pytest.mark.parametrize("value, unit, us, si", PRINTED, ids=[f"{v:g} {u}" for v, u, *_ in PRINTED])
def test_a_value_is_printed_in_the_briefs_system_with_the_other_beside(value, unit, us, si):
    def plain(text: str) -> str:
        return text.replace("\u2009", " ")

    assert (plain(say.value(value, unit, "US")), plain(say.value(value, unit, "SI"))) == (us, si)
    assert plain(say.both(value, unit, "US")) == (f"{us} ({si})" if us != si else us)
    assert plain(say.both(value, unit, "SI")) == (f"{si} ({us})" if us != si else us)


def test_the_space_before_a_unit_is_thin():
    assert say.value(13.9, "degC", "US") == "57.0\u2009°F"


@pytest.mark.parametrize(
    "measured, unit, system, printed",
    [
        (measure.length("2 in"), "m", "US", "2 in (51 mm)"),
        (measure.length("2 in"), "m", "SI", "2 in (51 mm)"),
        (measure.length("50 mm"), "m", "US", "50 mm (1.97 in)"),
        (measure.signed_length("-8 in"), "m", "US", "-8 in (−203 mm)"),
        (measure.temperature("68 F"), "degC", "US", "68 F (20.0 °C)"),
        (measure.resistance("R10"), "m²·K/W", "US", "R10 (RSI 1.76)"),
        (measure.resistance("R1.5", "SI"), "m²·K/W", "SI", "R1.5 (R-8.5)"),
        (measure.pressure("25 psi"), "kPa", "US", "25 psi (172 kPa)"),
        (measure.humidity("50 %"), "%", "US", "50 %"),
        (measure.permeance("0.1 perm"), "ng/(Pa·s·m²)", "US", "0.1 perm (5.7 ng/(Pa·s·m²))"),
    ],
)
def test_typed_words_are_kept_with_the_other_system_beside(measured, unit, system, printed):
    assert say.typed(measured, unit, system).replace("\u2009", " ") == printed


def test_a_margin_between_temperatures_is_a_difference():
    assert say.margin(1.0, "degC", "US") == "1.8\u2009°F"
    assert say.margin(-0.25, "degC", "SI") == "−0.2\u2009K"
    assert say.margin(-0.5, "m²·K/W", "US") == "−2.8\u2009h·ft²·°F/Btu"
    assert say.difference(5.0, "US") == "9.0\u2009°F"


def test_tables_and_scales_get_the_bare_number_and_the_units_name():
    assert say.number(20.0, "degC", "US") == pytest.approx(68.0)
    assert (say.name("degC", "US"), say.name("degC", "SI"), say.name("count", "US")) == ("°F", "°C", "")
    assert say.number(3.048, "m", "US") == pytest.approx(10.0)
    assert (say.name("m", "US"), say.number(3.048, "m", "SI")) == ("ft", 3.048)
