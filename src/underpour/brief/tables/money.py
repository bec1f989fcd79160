"""What things cost: prices with their currency and day, what heats the room, and how later years count."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial
from typing import Annotated, Literal, TypeVar

from pydantic import PlainValidator, WithJsonSchema

from ... import measure
from ...measure import Measure, Price, Sum
from ...measure.read import read
from ...mistakes import Mistake
from .. import kinds
from .handover import Day, Line
from .table import Table, key

_Read = TypeVar("_Read")
MONTHS = (
    *("January", "February", "March", "April", "May", "June", "July"),
    *("August", "September", "October", "November", "December"),
)
SEASON = 'Write the first month and the last: "October to April".'
YEAR = 365.2425 * 86400.0  # s
MOST_GAINED = 8.0  # no heat pump of a house gives more for what it takes, mean of the year
BELOW = re.compile(r"\s*[-−]\s*[\d.]|.*[^\w.]\s*[-−]\s*[\d.]")


def _typed(wanted: type[_Read], read: Callable[[str], _Read], what: str, example: str) -> Callable[[object], _Read]:
    """A reader of money: refuses what is no text, and what lies below nought, in its own words."""

    def reader(value: object) -> _Read:
        if isinstance(value, wanted):
            return value
        if not isinstance(value, str):
            raise kinds.as_error(Mistake("", "", f"{what} stands in quotes with its currency.", f"Write {example}."))
        if BELOW.match(value):
            paid = "; where one is paid at times for taking it, the mean of the year that one pays"
            instead = f"Write {example}{paid if wanted is Price else ''}."
            raise kinds.as_error(Mistake("", "", f"{what} below nought is not answered.", instead))
        try:
            return read(value)
        except Mistake as mistake:
            raise kinds.as_error(mistake) from None

    return reader


def efficiency(value: object) -> float:
    """Heat over what is bought for it: a share in %, or a plain number, such as a heat pump's of the year.

    Raises
    ------
    PydanticCustomError
        No number, nothing at all, or more than anything gives.
    """
    example = 'Write "92 %" of a boiler, 3.0 of a heat pump, 1 of electric heaters.'
    if isinstance(value, str):
        try:
            number = read(value, "gain").si
        except Mistake as mistake:
            raise kinds.as_error(Mistake("", "", mistake.wrong, example)) from None
    elif isinstance(value, int | float) and not isinstance(value, bool):
        number = float(value)
    else:
        raise kinds.as_error(Mistake("", "", "An efficiency is a share in % or a plain number.", example))
    if number == 0.0:
        raise kinds.as_error(Mistake("", "", "With an efficiency of nought nothing would ever be warm.", example))
    if not 0.05 <= number <= MOST_GAINED:
        wrong = f"{value} is no efficiency: heat over what is bought for it lies between 5 % and 8."
        raise kinds.as_error(Mistake("", "", wrong, example))
    return number


def season(value: object) -> tuple[int, ...]:
    """Months in which the heating is on, 1 to 12, in the order of the winter.

    Raises
    ------
    PydanticCustomError
        No two months, or no months of the year.
    """
    if isinstance(value, tuple):
        return value
    words = re.split(r"\s+(?:to|until|till|-|–)\s+", value.strip()) if isinstance(value, str) else []
    if len(words) != 2:
        raise kinds.as_error(Mistake("", "", "A season is told by two months.", SEASON))
    ends = []
    for word in words:
        found = [
            n for n, name in enumerate(MONTHS, 1) if len(word) >= 3 and name.casefold().startswith(word.casefold())
        ]
        if len(found) != 1:
            raise kinds.as_error(Mistake("", "", f"{word} is no month.", SEASON))
        ends += found
    count = (ends[1] - ends[0]) % 12 + 1
    return tuple((ends[0] - 1 + n) % 12 + 1 for n in range(count))


def years(value: object) -> int:
    """Whole years, as a number or as a time.

    Raises
    ------
    PydanticCustomError
        No whole number of years from 1 to 100.
    """
    example = "Write years = 30."
    number: object = value
    if isinstance(value, str):
        try:
            number = round(measure.time(value).si / YEAR, 2)
        except Mistake as mistake:
            raise kinds.as_error(Mistake("", "", mistake.wrong, example)) from None
    if isinstance(number, bool) or not isinstance(number, int | float) or number != int(number):
        raise kinds.as_error(Mistake("", "", "Years are counted whole.", example))
    if not 1 <= number <= 100:
        raise kinds.as_error(Mistake("", "", "From 1 to 100 years can be looked at.", example))
    return int(number)


def _currency(value: object) -> str:
    if not isinstance(value, str):
        raise kinds.as_error(Mistake("", "", "A currency is its code of three letters.", 'Write "USD" or "EUR".'))
    try:
        return measure.currency_code(value)
    except Mistake as mistake:
        raise kinds.as_error(mistake) from None


def _budget(value: object) -> Sum:
    found = _typed(Sum, measure.sum_of_money, "A sum of money", '"12000 USD"')(value)
    if found.amount == 0.0:
        raise kinds.as_error(
            Mistake("", "", "For nothing nothing is laid.", "Write what may be spent, or leave it out.")
        )
    return found


def _text(title: str, *examples: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "title": title, "examples": list(examples)})


PRICE = _typed(Price, measure.money_per_unit, "A price", '"1.40 USD/therm" or "8 EUR/m²"')
Priced = Annotated[Price, PlainValidator(PRICE), _text("Price", "1.40 USD/therm", "185 USD/m³")]
Paid = Annotated[
    Sum,
    PlainValidator(_typed(Sum, measure.sum_of_money, "A sum of money", '"12000 USD"')),
    _text("Sum of money", "500 USD"),
]
Budget = Annotated[Sum, PlainValidator(_budget), _text("Sum of money", "12000 USD")]
Currency = Annotated[str, PlainValidator(_currency), _text("Currency by its code", "USD", "EUR")]
Rate = Annotated[
    Measure, PlainValidator(kinds.typed_measure(partial(read, kind_name="yearly-rate"))), _text("Rate a year", "3 %")
]
Efficiency = Annotated[
    float,
    PlainValidator(efficiency),
    WithJsonSchema({"oneOf": [{"type": "string"}, {"type": "number"}], "title": "Efficiency", "examples": ["92 %", 3]}),
]
Years = Annotated[
    int,
    PlainValidator(years),
    WithJsonSchema(
        {"oneOf": [{"type": "integer", "minimum": 1, "maximum": 100}, {"type": "string"}], "title": "Years"}
    ),
]
Season = Annotated[tuple[int, ...], PlainValidator(season), _text("Months of heating", "October to April")]
CarbonByHeat = Annotated[
    Measure,
    PlainValidator(kinds.typed_measure(partial(read, kind_name="carbon-by-heat"))),
    _text("Carbon dioxide by heat or electricity", "0.39 kg/kWh", "850 lb/MWh"),
]
CarbonByMass = Annotated[
    Measure,
    PlainValidator(kinds.typed_measure(partial(read, kind_name="carbon-by-mass"))),
    _text("Greenhouse gas by mass", "4.6 kg/kg"),
]


class Replacement(Table):
    """Something that is bought again within the years that are looked at."""

    what: Line = key("What it is.", "floor covering")
    cost: Paid = key("What it costs at today's price.", "1800 USD")
    after: kinds.Time = key("After how long.", "15 years")


class Money(Table):
    """Prices with their currency and day, what heats the room, and how later years count."""

    currency: Currency | None = key("The currency of every price here.", "USD", "EUR", default=None)
    date: Day | None = key("The day on which the prices of this table hold.", "2026-11-01", default=None)
    fuel: str | None = key(
        "What heats the room; of a floor that is kept frozen what drives the cooling plant.",
        "natural-gas",
        "electricity",
        default=None,
    )
    fuel_price: Priced | None = key(
        "What it costs, by heat, volume or mass as it is billed.",
        "1.40 USD/therm",
        "0.16 USD/kWh",
        "0.95 EUR/L",
        default=None,
    )
    heating_value: Literal["HHV", "LHV"] | None = key(
        "Which heating value the efficiency, and a price by heat, go by: the higher or the lower one.",
        "HHV",
        "LHV",
        default=None,
    )
    efficiency: Efficiency | None = key(
        "Heat over what is bought for it, mean of the season: of a boiler in %, of a heat pump as a number.",
        "92 %",
        3.0,
        default=None,
    )
    season: Season | None = key(
        "The months in which the heating is on; those in which outdoors is colder than the room unless this says.",
        "October to April",
        default=None,
    )
    growth: Rate | None = key(
        "By how much the price of energy grows a year, over what everything grows.", "1 %", default=None
    )
    discount: Rate | None = key("What later money is worth less a year, inflation taken off.", "3 %", default=None)
    years: Years | None = key("How many years are looked at.", 30, "30 years", default=None)
    labour: Priced | None = key("What an hour of whoever lays it costs; 0 for one's own.", "55 USD/h", default=None)
    budget: Budget | None = key("The most that may be spent at first.", "12000 USD", default=None)
    price: dict[str, Priced] = key(
        "Prices as quoted: of a board or film by its name in the catalogue, going before its record's, and of "
        "concrete, screed, gravel, sand, tape, joint strip and excavation.",
        {"concrete": "185 USD/m³", "plain-25": "0.70 USD/ft²"},
        default={},
    )
    replacement: tuple[Replacement, ...] = key(
        "What is bought again within the years.",
        [{"what": "floor covering", "cost": "1800 USD", "after": "15 years"}],
        default=(),
    )
    residual: Paid | None = key(
        "What is left of the first cost at the end of the years, at today's price.", "500 USD", default=None
    )
    fuel_carbon: CarbonByHeat | None = key(
        "Carbon dioxide of what is bought, for each kilowatt hour of it.", "0.39 kg/kWh", "850 lb/MWh", default=None
    )
    fuel_carbon_from: Line = key(
        "Where that comes from: of electricity the grid and the year.", "state grid, 2024", default=""
    )
    embodied: dict[str, CarbonByMass] = key(
        "Greenhouse gas of making a board, by its maker's declaration; it goes before every other figure.",
        {"c578-iv": "4.6 kg/kg"},
        default={},
    )
