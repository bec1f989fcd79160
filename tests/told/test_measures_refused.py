"""What users read where a measure cannot be taken."""

import pytest

from underpour import measure
from underpour.mistakes import Mistake

TOLD = [
    (measure.thickness, "2", "2 of what?", "Write 2 in or 2 mm, whichever is meant."),
    (measure.length, "1-1/2", "1-1/2 of what?", "Write 1-1/2 in or 1-1/2 mm, whichever is meant."),
    (measure.signed_length, "−8", "-8 of what?", "Write -8 in or -8 mm, whichever is meant."),
    (measure.temperature, "68", "68 of what?", "Write 68 F or 68 C, whichever is meant."),
    (measure.temperature, "68°", "68 of what?", "Write 68 F or 68 C, whichever is meant."),
    (measure.temperature, "68 deg", "68 of what?", "Write 68 F or 68 C, whichever is meant."),
    (measure.resistance, "10", "10 of what?", "Write R10 or RSI 10, whichever is meant."),
    (measure.temperature, "120", "120 of what?", "Write 120 F."),
    (measure.humidity, "0.4", "0.4 of what?", "Write 40 %."),
    (measure.humidity, "400", "400 of what?", "Write 50 %."),
    (measure.humidity, "50", "50 of what?", "Write 50 %."),
    (measure.length, "4' 3", "3 of what?", "Write 4 ft 3 in."),
    (measure.length, "", "Nothing is written here.", "Write 2 in or 50 mm."),
    (measure.length, "in", "How many in?", "Write 2 in or 50 mm."),
    (measure.length, "two in", "two in cannot be read as a length.", "Write 2 in or 50 mm."),
    (measure.length, "1/0 in", "1/0 in cannot be read as a length.", "Write 2 in or 50 mm."),
    (measure.length, "1 3/2 in", "1 3/2 in cannot be read as a length.", "Write 2 in or 50 mm."),
    (measure.length, "1.5 1/2 in", "1.5 1/2 in cannot be read as a length.", "Write 2 in or 50 mm."),
    (measure.length, "1 m 20 cm", "1 m 20 cm cannot be read as a length.", "Write 2 in or 50 mm."),
    (
        measure.length,
        "4 ft 13 in",
        "4 ft 13 in has a foot or more in its inches.",
        "Write 5 ft 1 in, if that is meant.",
    ),
    (
        measure.length,
        "4.5 ft 3 in",
        "4.5 ft 3 in has a part of a foot beside its inches.",
        "Write whole feet and inches, such as 4 ft 3-1/2 in.",
    ),
    (measure.length, "1,5 m", "1,5 has a comma in it.", "Write 1.5 m."),
    (measure.length, "0,125 m", "0,125 has a comma in it.", "Write 0.125 m."),
    (measure.length, "1,200 mm", "1,200 has a comma in it.", "Write 1200 mm, or 1.200 mm if that is meant."),
    (measure.length, "1,200.5 mm", "1,200.5 has a comma in it.", "Write 1200.5 mm."),
    (measure.length, "1.200,5 mm", "1.200,5 has a comma in it.", "Write 1200.5 mm."),
    (measure.length, "1 200 mm", "1 200 has a space in it.", "Write 1200 mm."),
    (measure.conductivity, "0,035 W/(m·K)", "0,035 has a comma in it.", "Write 0.035 W/(m·K)."),
    (measure.length, "2 inhc", "No unit is called inhc.", "The nearest is in. Write 2 in."),
    (measure.pressure, "25 psj", "No unit is called psj.", "The nearest is psi. Write 25 psi."),
    (
        measure.conductivity,
        "35 MW/mK",
        "No unit is called MW/mK.",
        "The nearest is mW/(m·K). Write 35 mW/(m·K).",
    ),
    (measure.length, "2 furlong", "No unit is called furlong.", "Write 2 in or 50 mm."),
    (measure.temperature, "3 in", "3 in is a length; a temperature is wanted.", "Write 68 F or 20 C."),
    (measure.thickness, "R10", "R10 is a thermal resistance; a thickness is wanted.", "Write 2 in or 50 mm."),
    (measure.mass, "65 kN", "65 kN is a force; a mass is wanted.", "Write 110 lb or 50 kg."),
    (measure.force, "65 kg", "65 kg is a mass; a force is wanted.", "Write 1500 lb or 6.7 kN."),
    (measure.flow_of_air, "20 gpm", "20 gpm is a flow of water; a flow of air is wanted.", "Write 20 cfm or 10 l/s."),
    (
        measure.permeance,
        "0.1 perm-in",
        "0.1 perm-in is a vapour permeability; a vapour permeance is wanted.",
        "Write 0.1 perm or 6 ng/(Pa·s·m²).",
    ),
    (
        measure.resistance,
        "R-4.2/in",
        "R-4.2/in is a thermal resistance for each inch or metre; a thermal resistance is wanted.",
        "Write R10 or RSI 1.76.",
    ),
    (
        measure.temperature_difference,
        "5 °C",
        "5 °C could be a temperature; a temperature difference is wanted.",
        "Write 5 K.",
    ),
    (
        measure.resistance,
        "RSI 10 h·ft²·F/Btu",
        "RSI is metric; h·ft²·°F/Btu is not.",
        "Write R10 h·ft²·°F/Btu or RSI 10, whichever is meant.",
    ),
    (
        measure.transmittance,
        "U 10 m²K/W",
        "U is a thermal transmittance; m²·K/W measures a thermal resistance.",
        "Write U-0.05 or U 0.28 W/(m²·K).",
    ),
    (measure.length, "-2 in", "-2 in is below zero; a length is not.", "Write 2 in or 50 mm."),
    (measure.length, "−2 in", "−2 in is below zero; a length is not.", "Write 2 in or 50 mm."),
    (measure.thickness, "0 in", "0 in is nothing; a thickness is above zero.", "Write 2 in or 50 mm."),
    (
        measure.thickness,
        "2000 in",
        "2000 in is too much: a thickness here lies between 0 m and 5 m (0 in and 16 ft 5 in).",
        "Write 2 in or 50 mm.",
    ),
    (
        measure.depth,
        "2000 in",
        "2000 in is too much: a depth here lies between 0 m and 50 m (0 in and 164 ft).",
        "Write 24 in or 600 mm.",
    ),
    (
        measure.temperature,
        "200 F",
        "200 F is too much: a temperature here lies between -60 °C and 80 °C (-76 °F and 176 °F).",
        "Write 68 F or 20 C.",
    ),
    (
        measure.temperature,
        "-61 C",
        "-61 C is too little: a temperature here lies between -60 °C and 80 °C (-76 °F and 176 °F).",
        "Write 68 F or 20 C.",
    ),
    (
        measure.humidity,
        "120 %",
        "120 % is too much: a humidity here lies between 0 % and 100 %.",
        "Write 50 %.",
    ),
    (measure.money_per_unit, "0.74 $/ft2", "$ is the sign of several currencies.", "Write 0.74 USD/ft² or 8 EUR/m²."),
    (measure.money_per_unit, "0.74/ft2", "0.74/ft2 has no currency.", "Write 0.74 USD/ft² or 8 EUR/m²."),
    (
        measure.money_per_unit,
        "0.74 USB/ft2",
        "No currency is called USB. The nearest is USD.",
        "Write 0.74 USD/ft² or 8 EUR/m².",
    ),
    (measure.money_per_unit, "0.74 USD/F", "No price is for each F.", "Write 0.74 USD/ft² or 8 EUR/m²."),
    (measure.money_per_unit, "0.74 USD", "0.74 USD cannot be read as a price.", "Write 0.74 USD/ft² or 8 EUR/m²."),
    (measure.money_per_unit, "0,74 EUR/m²", "0,74 has a comma in it.", "Write 0.74 EUR/m2."),
]


@pytest.mark.parametrize("read, typed, wrong, instead", TOLD, ids=[f"{r.__name__} {t!r}" for r, t, *_ in TOLD])
def test_a_measure_is_sent_back_with_what_to_type(read, typed, wrong, instead):
    with pytest.raises(Mistake) as caught:
        read(typed)
    assert (caught.value.wrong, caught.value.instead) == (wrong, instead)
    assert caught.value.typed == f'"{typed}"'
    assert caught.value.at == ""


def test_a_bare_r_of_a_us_label_is_asked_about_in_a_metric_brief():
    with pytest.raises(Mistake) as caught:
        measure.resistance("R10", system="SI")
    assert caught.value.wrong == "R10 in a metric brief is 10 m²·K/W, more than floors are given."
    assert caught.value.instead == "Write RSI 1.76 if the label says R-10, or R10 m²·K/W."


def test_a_long_slip_is_answered_at_once():
    with pytest.raises(Mistake, match=r"No unit is called m{60}x"):
        measure.length("2 " + "m" * 60 + "x")


@pytest.mark.parametrize("text", ["2 " + "1" * 9000 + "/x", "1," * 9000, "1 " * 9000 + "in"])
@pytest.mark.parametrize("read", [measure.length, measure.money_per_unit])
def test_a_whole_page_in_place_of_a_measure_is_answered_at_once(read, text):
    with pytest.raises(Mistake) as caught:
        read(text)
    assert len(str(caught.value)) < 400
    assert "… cannot be read as a" in caught.value.wrong


def test_a_bare_r_follows_the_brief_and_words_beside_it_win():
    assert measure.resistance("R1.5", system="SI").si == 1.5
    assert round(measure.resistance("R1.5", system="US").si, 4) == 0.2642
    assert measure.resistance("R1.5 m²K/W", system="US").si == 1.5
    assert round(measure.resistance("R-10 h·ft²·F/Btu", system="SI").si, 4) == 1.7611


@pytest.mark.parametrize(
    "typed, kilograms_or_newtons",
    [(measure.mass, 2948.350405), (measure.force, 28913.440499193246)],
    ids=["mass", "force"],
)
def test_pounds_are_what_is_asked_for(typed, kilograms_or_newtons):
    assert typed("6500 lb").si == pytest.approx(kilograms_or_newtons, rel=1e-12)


@pytest.mark.parametrize(
    "words",
    [
        "10 h·ft²·°F/Btu",
        "10 h·ft²·F/Btu",
        "10 hr-ft2-F/BTU",
        "10 ft2 h F / Btu",
        "10 h ft² deg F/Btu",
        "10 sq ft·hr·°F/Btu",
        "R10",
        "R-10",
        "r 10",
        "R=10",
        "R‑10",
    ],
)
def test_one_resistance_however_it_is_typed(words):
    assert measure.resistance(words).si == pytest.approx(1.7611018368, rel=1e-9)


@pytest.mark.parametrize(
    "words",
    ["0.28 W/(m²·K)", "0.28 W/m2K", "0.28 W/m².K", "0.28 W m⁻² K⁻¹", "0.28 W/m²/K", "U 0.28 W/(m²K)", "USI 0.28"],
)
def test_one_transmittance_however_it_is_typed(words):
    assert measure.transmittance(words).si == pytest.approx(0.28, rel=1e-12)


@pytest.mark.parametrize("words", ["0.04 in. w.c.", "0.04 in wc", '0.04 "wc', "0.04 inches of water", "0.04 IN. W.G."])
def test_inches_of_water_however_they_are_typed(words):
    assert measure.gas_pressure(words).si == pytest.approx(9.9635564, rel=1e-9)


@pytest.mark.parametrize(
    "words, amount, currency, per",
    [
        ("0.74 USD/ft2", 7.965293, "USD", "m²"),
        ("12 €/m²", 12.0, "EUR", "m²"),
        ("€12 per m²", 12.0, "EUR", "m²"),
        ("NZD 12/m2", 12.0, "NZD", "m²"),
        ("1.40 USD/therm", 1.326944e-8, "USD", "J"),
        ("150 usd per cu yd", 196.1926, "USD", "m³"),
        ("2 CAD/lb", 4.409245, "CAD", "kg"),
        ("35 USD each", 35.0, "USD", "1"),
        ("35 USD/board", 35.0, "USD", "1"),
    ],
)
def test_money_keeps_its_currency(words, amount, currency, per):
    price = measure.money_per_unit(words)
    assert (price.currency, price.per, price.typed) == (currency, per, words)
    assert price.amount == pytest.approx(amount, rel=1e-6)
