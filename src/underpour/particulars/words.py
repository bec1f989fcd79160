"""Measures and facts of a record as words: as typed first, the other system in brackets."""

from __future__ import annotations

import datetime
import tomllib
from collections.abc import Iterator
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from ..conformity.rows import day
from ..measure import say
from ..measure.digits import figured
from ..measure.table import table as units
from ..measure.words import plain

if TYPE_CHECKING:
    from ..catalogue.line import Channels, Edge, Evidence, Facing, Pattern, Product, Size, Tolerance
    from ..catalogue.properties import Property
    from ..measure import Measure

RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")
SMALL = 1e-3  # numbers below are written with a power of ten


@cache
def words() -> dict[str, Any]:
    """The table of words."""
    return tomllib.loads((files(__package__) / "words.toml").read_text(encoding="utf-8"))


def lists() -> dict[str, tuple[str, ...]]:
    """The kinds of product in each list that can be compared by its name."""
    return {name: tuple(kinds) for name, kinds in words()["lists"].items()}


def number(value: float) -> str:
    """A number as a report prints it.

    >>> number(16.4), number(27.0), number(3e-6), number(2650.0), number(-1.5)
    ('16.4', '27', '3 × 10⁻⁶', '2650', '−1.5')
    """
    if value and abs(value) < SMALL:
        digits, power = f"{value:.6e}".split("e")
        return f"{float(digits):g} × 10{str(int(power)).translate(RAISED)}".replace("-", "\N{MINUS SIGN}")
    text = f"{value:.10g}"
    return (f"{value:.0f}" if "e" in text else text).replace("-", "\N{MINUS SIGN}")


def typed(evidence: Evidence) -> str:
    """Number and unit as the report prints them.

    >>> from underpour.catalogue.line import Evidence
    >>> typed(Evidence(property="strength", value=16.4, unit="psi"))
    '16.4 psi'
    """
    if evidence.value is None:
        return "no number"
    return f"{number(evidence.value)} {'' if evidence.unit == 'index' else evidence.unit}".strip()


def other(evidence: Evidence, of: Property) -> str:
    """The same in the other system; empty where there is none, or no number to turn."""
    kind = units().kinds[of.kind].like
    found = next((unit for unit in units().find(plain(evidence.unit)) if unit.kind == kind), None)
    pair = words()["units"].get(kind)
    if found is None or pair is None or found.system == "both" or evidence.value is None:
        return ""
    name = pair["SI" if found.system == "US" else "US"]
    value = float(evidence.value) * found.si / units().unit(name, kind).si
    return f"{figured(value, 3)} {name}"


def conditions(evidence: Evidence) -> str:
    """What a number holds for, in one phrase."""
    told = evidence.conditions
    carried = f"carried forward to {told.reaches.typed}" if told.reaches else ""
    parts = (
        f"at {_length(told.thickness)}" if told.thickness else "",
        f"mean {say.typed(told.mean, 'degC', 'US')}" if told.mean else "",
        f"aged {told.age.typed}" if told.age and told.age.si else "fresh" if told.age else "",
        {"across": "through the board", "along": "in its plane"}.get(told.direction or "", ""),
        {"gross": "by gross area", "feet": "by the area of the feet", "solid": "of solid foam"}.get(
            told.area or "", ""
        ),
        f"under {told.stress.typed}" if told.stress else "",
        f"under {told.share.typed} of the strength" if told.share else "",
        f"held {told.lasted.typed}" if told.lasted else "",
        carried,
        f"air {told.slowest.typed} to {told.fastest.typed}" if told.slowest and told.fastest else "",
        f"to {told.to}" if told.to else "",
        told.note,
        _holds(evidence),
    )
    return ", ".join(filter(None, parts))


def in_short(evidence: Evidence) -> str:
    """The conditions without which a number says nothing beside those of other products."""
    told = evidence.conditions
    parts = (
        {"gross": "by gross area", "feet": "by the area of the feet"}.get(told.area or "", ""),
        f"under {told.stress.typed}" if told.stress else "",
        f"under {told.share.typed} of the strength" if told.share else "",
        f"in {told.reaches.typed}" if told.reaches else "",
        f"to {told.to}" if told.to else "",
    )
    return ", ".join(filter(None, parts))


def _holds(evidence: Evidence) -> str:
    """The boards that a number stands for."""
    low, high = evidence.holds_from, evidence.holds_to
    if low and high:
        return f"for {low.typed} to {high.typed}"
    return f"for {low.typed} and thicker" if low else f"for {high.typed} and thinner" if high else ""


def days(date: datetime.date | None) -> str:
    """A day in words; "not told" where there is none."""
    return day(date) if date else "not told"


def iso(date: datetime.date | None) -> str:
    """A day, year first; "not told" where there is none."""
    return date.isoformat() if date else "not told"


def _length(measure: Measure) -> str:
    return say.typed(measure, "m", "US")


def length(measure: Measure) -> str:
    """A length as typed with the other system beside it; what is thinner than a film keeps its own words.

    >>> from underpour.measure import length as read
    >>> length(read("2 in")).replace("\\u2009", " ")
    '2 in (51 mm)'
    """
    return _length(measure)


def temperature(measure: Measure) -> str:
    """A temperature as typed with the other system beside it."""
    return say.typed(measure, "degC", "US")


def size(of: Size) -> str:
    """A size as typed, the metric one beside it.

    >>> from underpour.catalogue.line import size as read
    >>> size(read("4 ft x 8 ft")).replace("\\u2009", " ")
    '4 ft x 8 ft (1.22 m x 2.44 m)'
    """
    metric = " x ".join(say.value(each, "m", "SI") for each in (of.width, of.length))
    return of.typed if "m" in of.typed.replace("mil", "") else f"{of.typed} ({metric})"


def edge(of: Edge) -> str:
    """How pieces meet, in one phrase."""
    on = f" on {of.sides} sides" if of.sides else ""
    parts = (
        f"{of.profile}{on}",
        f"one lies {_length(of.lap)} over the other" if of.lap else "",
        f"loses {_length(of.loses)} of cover each way" if of.loses else "",
        f"from {of.from_.typed}" if of.from_ else "",
        "to order only" if of.to_order else "",
    )
    return ", ".join(filter(None, parts))


def facing(of: Facing) -> str:
    """The facing in one phrase."""
    thick = f"{of.thickness.typed} of " if of.thickness else ""
    faces = "both faces" if of.faces == "both" else "one face"
    taped = f"; tape for its joints: {', '.join(of.tapes)}" if of.tapes else "; no tape was tested to it"
    return f"{thick}{of.film} on {faces}: {of.role}{taped}"


def facts(of: Product) -> tuple[tuple[str, str], ...]:
    """What a record says beside thicknesses, tests and prices: name and words, in the order of reading."""
    rows = [
        ("Material", of.material or (of.family or "")),
        ("Sizes", "; ".join(size(each) for each in of.sizes)),
        ("Edges", "; ".join(edge(each) for each in of.edges)),
        ("Lap", _length(of.lap) if of.lap else ""),
        ("Facing", facing(of.facing) if of.facing else ""),
        *(_pattern(of.pattern) if of.pattern else ()),
        *(_channels(of.channels) if of.channels else ()),
        ("Tolerance", _tolerance(of.tolerance) if of.tolerance else ""),
        ("Pack", pack(of)),
    ]
    return tuple((name, said) for name, said in rows if said)


def _pattern(of: Pattern) -> Iterator[tuple[str, str]]:
    yield "Knobs", f"{_length(of.knob_height)} high, {of.knob_share.typed} of the area; concrete is the rest"
    yield "Tube", f"{', '.join(of.tubes)}; spaced by {_length(of.pitch)} and its multiples"
    yield "Tube above the foam", f"its centre {_length(of.centre_above_base)} above the solid foam"
    yield "Bend", f"radius of {_length(of.least_bend)} at least"


def _channels(of: Channels) -> Iterator[tuple[str, str]]:
    ways = "along and across" if of.directions == 2 else "along"
    meet = "they meet across joints" if of.aligned else "they do not meet across joints"
    sizes = f"{_length(of.depth)} deep, {_length(of.width)} wide, one each {_length(of.pitch)}"
    yield "Channels", f"{sizes}, {ways}; {meet}"
    yield "Void and feet", f"{of.void_share.typed} air in their layer; feet are {of.foot_share.typed} by area"


def _tolerance(of: Tolerance) -> str:
    named = (("thickness", of.thickness), ("width", of.width), ("length", of.length))
    sizes = ", ".join(f"{name} ± {_length(each)}" for name, each in named)
    return f"{sizes}, out of square {of.out_of_square}" if of.out_of_square else sizes


def pack(of: Product) -> str:
    """Bundle, pallet, pieces and lead time."""
    told = of.pack
    parts = (
        f"bundle {_length(told.bundle)} high" if told and told.bundle else "",
        f"pallet {_length(told.pallet)} high" if told and told.pallet else "",
        f"{told.pieces} to a pack" if told and told.pieces else "",
        f"from order to delivery {of.lead_time.typed.replace(' d', ' days')}" if of.lead_time else "",
    )
    return ", ".join(filter(None, parts))


def service(of: Product) -> str:
    """The temperatures that it may be used at; empty where the record does not say."""
    if of.service is None:
        return ""
    low, high = of.service.low, of.service.high
    said = f"{temperature(low)} to {temperature(high)}"
    loaded = of.service.high_loaded
    return f"{said}; under load up to {temperature(loaded)}" if loaded else said
