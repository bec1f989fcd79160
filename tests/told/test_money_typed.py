"""The table of money as typed: what it becomes in numbers, and what is said of what cannot be."""

import pytest
from pytest import approx

from underpour.answer import answer
from underpour.brief import reads
from underpour.mistakes import Mistakes
from underpour.resolve import resolve

BRIEF = """\
[project]
use = "dwelling"
units = "US"
[site]
place = "Duluth, MN"
[plan]
unit = "m"
outline = ["0 0", "12 0", "12 8", "0 8"]
[floor]
inside = "20 C"
build-up = [{ concrete = "4 in" }, { board = "plain-15", thickness = "2 in" }]
[[edge]]
sides = "all"
kind = "frost-wall"
depth = "60 in"

[money]
"""
GAS = {
    "currency": '"USD"',
    "date": '"2026-11-01"',
    "fuel": '"natural-gas"',
    "fuel-price": '"1.40 USD/therm"',
    "efficiency": '"92 %"',
    "labour": '"55 USD/h"',
}
ELECTRIC = {**GAS, "fuel": '"electricity"', "fuel-price": '"0.16 USD/kWh"', "efficiency": "3.0"}
PELLETS = {**GAS, "fuel": '"wood-pellets"', "fuel-price": '"380 USD/t"', "efficiency": '"80 %"'}


def typed(of=GAS, **more):
    """The brief with these keys of money; None takes one out."""
    keys = {**of, **{key.replace("_", "-"): value for key, value in more.items()}}
    return BRIEF + "".join(f"{key} = {value}\n" for key, value in keys.items() if value is not None)


def prices(of=GAS, **more):
    reading = reads(typed(of, **more))
    return resolve(reading.brief, products=reading.products)


def test_a_kilowatt_hour_of_heat_costs_its_share_of_a_therm():
    money = prices().money
    assert money.heat_price == approx(1.40 / 29.3071 / 0.92, rel=1e-5)  # a therm is 29.3071 kWh
    assert money.heat_carbon == approx(0.18105 / 0.92)
    assert (money.currency, money.day, money.labour) == ("USD", "2026-11-01", approx(55.0))


def test_by_the_lower_heating_value_there_is_less_in_a_cubic_metre_and_more_carbon_in_a_kilowatt_hour():
    higher = prices(fuel_price='"0.95 USD/m³"', efficiency='"90 %"').money
    lower = prices(fuel_price='"0.95 USD/m³"', efficiency='"90 %"', heating_value='"LHV"').money
    assert lower.heat_price / higher.heat_price == approx(1.0 / 0.902)
    assert lower.heat_carbon / higher.heat_carbon == approx(1.0 / 0.902)
    assert higher.heat_price == approx(0.95 / (38.23 / 3.6) / 0.90)


def test_pellets_are_bought_by_mass():
    assert prices(PELLETS).money.heat_price == approx(0.380 / (19.0 / 3.6) / 0.80)


def test_a_heat_pump_gives_three_for_one():
    assert prices(ELECTRIC).money.heat_price == approx(0.16 / 3.0)


def test_a_season_goes_over_the_end_of_the_year():
    assert prices(season='"October to April"').money.season == (10, 11, 12, 1, 2, 3, 4)
    assert prices(season='"Jan to Dec"').money.season == tuple(range(1, 13))
    assert prices().money.season is None


def test_what_nobody_typed_is_listed_with_its_ends_and_no_price_ever_is():
    listed = {each.path: each for each in prices(efficiency=None).assumed if each.path.startswith("money.")}
    assert set(listed) == {
        "money.heating-value",
        "money.efficiency",
        "money.growth",
        "money.discount",
        "money.years",
    }
    assert all(each.low < each.value < each.high for path, each in listed.items() if path != "money.heating-value")
    whole = prices(heating_value='"HHV"', growth='"0 %"', discount='"3 %"', years="30")
    assert not [each for each in whole.assumed if each.path.startswith("money.")]


@pytest.mark.parametrize(
    ("of", "without", "key"),
    [
        (GAS, "fuel", "money.fuel"),
        (GAS, "fuel_price", "money.fuel-price"),
        (ELECTRIC, "efficiency", "money.efficiency"),
    ],
)
def test_a_price_of_heat_lacks_one_key_at_a_time(of, without, key):
    assert prices(of, **{without: None}).money.lacks_price == key
    assert prices(of).money.lacks_price == ""


def test_a_grid_has_no_carbon_until_it_is_said_which_and_when():
    assert prices(ELECTRIC).money.lacks_carbon == "money.fuel-carbon"
    told = prices(ELECTRIC, fuel_carbon='"850 lb/MWh"', fuel_carbon_from='"state grid, 2024"').money
    assert told.heat_carbon == approx(850.0 * 0.45359237 / 1000.0 / 3.0)
    assert told.carbon_from == "state grid, 2024"


def test_a_brief_without_money_has_none():
    reading = reads(BRIEF.replace("[money]\n", ""))
    assert resolve(reading.brief, products=reading.products).money is None


REFUSED = [
    ({"date": None}, "money.date", "Prices hold on a day", "2026-11-01"),
    ({"currency": None}, "money.currency", "in which currency", "USD"),
    ({"currency": '"USB"'}, "money.currency", "The nearest is USD", "three letters"),
    ({"currency": "5"}, "money.currency", "three letters", "USD"),
    ({"date": '"soon"'}, "money.date", "no day of the calendar", "2026-11-25"),
    ({"discount": '"-120 %"'}, "money.discount", "too little", "-99.9 %"),
    ({"discount": '"3"'}, "money.discount", "3 of what?", "3 %"),
    ({"growth": '"-100 %"'}, "money.growth", "too little", "3 %"),
    ({"fuel-price": '"-1.40 USD/therm"'}, "money.fuel-price", "below nought", "mean of the year"),
    ({"fuel-price": '"1.40 EUR/therm"'}, "money.fuel-price", "is in EUR", "never added"),
    ({"fuel-price": '"1.40"'}, "money.fuel-price", "cannot be read as a price", "USD"),
    ({"fuel-price": '"1.40 USD/kg"'}, "money.fuel-price", "no price of natural gas", "as billed"),
    ({"fuel-price": "1.4"}, "money.fuel-price", "in quotes", "USD/therm"),
    ({"fuel": '"natural-gass"'}, "money.fuel", "No fuel is called", "The nearest is natural-gas"),
    ({"efficiency": "0"}, "money.efficiency", "nothing would ever be warm", "92 %"),
    ({"efficiency": '"0 %"'}, "money.efficiency", "nothing would ever be warm", "92 %"),
    ({"efficiency": "92"}, "money.efficiency", "between 5 % and 8", "92 %"),
    ({"efficiency": '"107 %"'}, "money.efficiency", "more than there is", "LHV"),
    ({"efficiency": "true"}, "money.efficiency", "a share in %", "heat pump"),
    ({"years": "0"}, "money.years", "From 1 to 100", "30"),
    ({"years": "2.5"}, "money.years", "counted whole", "30"),
    ({"years": '"4 m"'}, "money.years", "a length of time is wanted", "30"),
    ({"budget": '"0 USD"'}, "money.budget", "nothing is laid", "may be spent"),
    ({"budget": '"12000"'}, "money.budget", "no currency", "12000 USD"),
    ({"budget": '"9000 EUR"'}, "money.budget", "is in EUR", "never added"),
    ({"labour": '"55 USD/m²"'}, "money.labour", "no price of an hour", "USD/h"),
    ({"season": '"winter"'}, "money.season", "two months", "October to April"),
    ({"season": '"Smarch to April"'}, "money.season", "Smarch is no month", "October to April"),
    ({"price": '{ concrete = "185 USD/m²" }'}, "money.price.concrete", "by cubic metre", "Ask"),
    ({"price": '{ "plain-155" = "0.7 USD/ft²" }'}, "money.price.plain-155", "Nothing that is laid", "plain-15"),
    ({"price": '{ gravel = "40 EUR/m³" }'}, "money.price.gravel", "is in EUR", "never added"),
    ({"embodied": '{ "c578-5" = "3 kg/kg" }'}, "money.embodied.c578-5", "Nothing that is laid", "catalogue"),
    ({"residual": '"5 EUR"'}, "money.residual", "is in EUR", "never added"),
    (
        {"replacement": '[{ what = "covering", cost = "5 USD", after = "40 years" }]', "years": "30"},
        "money.replacement.1.after",
        "after the 30 years",
        "more years",
    ),
    ({"fuell": '"x"'}, "money.fuell", "no key fuell", "fuel"),
    ({"heating-value": '"gross"'}, "money.heating-value", "gross", "HHV"),
]


@pytest.mark.parametrize(
    ("change", "at", "wrong", "instead"), REFUSED, ids=[f"{at}-{n}" for n, (_, at, *_) in enumerate(REFUSED)]
)
def test_what_cannot_be_is_told_with_its_place_and_what_to_type(change, at, wrong, instead):
    with pytest.raises(Mistakes) as told:
        answer(reads(typed({**GAS, **change})))
    (mistake,) = told.value
    assert mistake.at == at
    assert mistake.line > 0
    assert wrong in f"{mistake.wrong} {mistake.instead}"
    assert instead in f"{mistake.wrong} {mistake.instead}"


def test_a_grid_without_its_year_and_a_heating_value_of_a_current_are_asked_about():
    for change, at in (
        ({"fuel-carbon": '"0.4 kg/kWh"'}, "fuel-carbon-from"),
        ({"heating-value": '"HHV"'}, "heating-value"),
    ):
        with pytest.raises(Mistakes) as told:
            reads(typed({**ELECTRIC, **change}))
        assert [each.at for each in told.value] == [f"money.{at}"]


def test_several_mistakes_are_told_at_once():
    with pytest.raises(Mistakes) as told:
        reads(typed({**GAS, "date": None, "efficiency": "0", "fuel": '"gas"'}))
    assert {each.at for each in told.value} == {"money.date", "money.efficiency", "money.fuel"}
