"""Numbers of findings turned into words, once, in the brief's own system with the other beside it.

Every ``unit`` here is one of `underpour.findings.UNITS`; how each is printed stands in ``printed.toml``.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from ..mistakes import Mistake
from . import tape
from .digits import THIN, fixed, places
from .measured import Measure
from .read import amount
from .table import System, Unit, printed, table

_OTHER: dict[System, System] = {"US": "SI", "SI": "US"}


def value(value: float, unit: str, system: System) -> str:
    """The value with its unit in one system.

    >>> value(13.9, "degC", "US").replace(THIN, " "), value(1.43, "m²·K/W", "US")
    ('57.0 °F', 'R-8.1')
    """
    if unit == "m":
        return tape.us(value) if system == "US" else tape.si(value)
    row = printed()[unit]
    rule = _rule(row, system)
    digits = _digits(number(value, unit, system), rule)
    if "letter" in rule and value >= 0:
        return f"{rule['letter']}{digits}"
    said = name(unit, system)
    return f"{digits}{THIN}{said}" if said else digits


def both(measured: float, unit: str, system: System) -> str:
    """The value in the brief's system, the other in brackets; once where both say the same.

    >>> both(13.9, "degC", "US").replace(THIN, " ")
    '57.0 °F (13.9 °C)'
    """
    own, other = value(measured, unit, system), value(measured, unit, _OTHER[system])
    return own if own == other else f"{own} ({other})"


def to_cut(metres: float, system: System) -> str:
    """A length to be marked on a board: to a sixteenth of an inch or a millimetre.

    >>> to_cut(0.3, "US").replace(THIN, " "), to_cut(1.2192, "SI").replace(THIN, " ")
    ('11-13/16 in', '1219 mm')
    """
    inch = table().unit("in", "length").si
    return tape.us(round(metres / inch * 16) / 16 * inch) if system == "US" else f"{round(1000 * metres)}{THIN}mm"


def of_any_unit(measured: float | str, unit: str, system: System) -> str:
    """What was taken or tabulated: words as they are, a number in both systems, one of an unprinted unit as it is.

    >>> of_any_unit("clay", "", "SI"), of_any_unit(3.0, "1/yr", "SI").replace(THIN, " ")
    ('clay', '3 1/yr')
    """
    if isinstance(measured, str):
        return measured
    return both(measured, unit, system) if unit in printed() else f"{measured:.4g}{THIN}{unit}"


def typed(measure: Measure, unit: str, system: System) -> str:
    """The words as they were typed, with the value in the other system beside them.

    ``unit`` is the finding unit of the same kind; ``system`` is the brief's, and says what a bare R was.

    >>> typed(Measure(0.0508, "2 in"), "m", "US").replace(THIN, " ")
    '2 in (51 mm)'
    >>> typed(Measure(0.05, "50 mm"), "m", "US").replace(THIN, " ")
    '50 mm (1.97 in)'
    """
    row = printed()[unit]
    if "kind" not in row:
        return measure.typed
    try:
        _, read = amount(measure.typed, table().kinds[row["kind"]], system)
    except Mistake:  # words that stand for a value of another kind, or a value nobody typed
        own = system
    else:
        if read.system == "both":
            return measure.typed
        own = read.system
    kept = _unit(row, row["unit"])
    in_unit = measure.si / kept.si + kept.zero
    return f"{measure.typed} ({value(in_unit, unit, _OTHER[own])})"


def difference(kelvin: float, system: System) -> str:
    """A temperature difference.

    >>> difference(1.0, "US").replace(THIN, " ")
    '1.8 °F'
    """
    return value(kelvin, "K", system)


def margin(margin: float, unit: str, system: System) -> str:
    """The distance to a limit, in words; that between temperatures is a difference.

    >>> margin(0.25, "degC", "SI").replace(THIN, " ")
    '0.2 K'
    """
    return value(margin, "K" if unit == "degC" else unit, system)


def within(error: float, unit: str, system: System) -> str:
    """A numerical error with one figure: more would claim to know it.

    >>> within(2.8508, "W", "US").replace(THIN, " "), within(0.000048, "1", "US"), within(0.055, "degC", "SI")
    ('10 Btu/h', '0.00005', '0.06\u2009K')
    """
    unit = "K" if unit == "degC" else unit
    said = name(unit, system)
    bare = number(error, unit, system)
    rounded = float(f"{bare:.1g}")
    return f"{fixed(rounded, places(rounded, 1))}{THIN}{said}" if said else fixed(rounded, places(rounded, 1))


def distance(metres: float, system: System) -> str:
    """A distance over land, in both systems; below half a mile or a kilometre it is said to be less.

    >>> distance(15000.0, "US").replace(THIN, " "), distance(300.0, "SI").replace(THIN, " ")
    ('9 mi (15 km)', 'less than 1 km (less than 1 mi)')
    """

    def in_unit(name: str) -> str:
        whole = round(metres / table().unit(name, "length").si)
        return f"{whole:,}{THIN}{name}" if whole else f"less than 1{THIN}{name}"

    own, other = ("mi", "km") if system == "US" else ("km", "mi")
    return f"{in_unit(own)} ({in_unit(other)})"


def number(value: float, unit: str, system: System) -> float:
    """The bare number in one system, not rounded, for tables and scales of pictures.

    >>> round(number(13.9, "degC", "US"), 6), name("degC", "US")
    (57.02, '°F')
    """
    row = printed()[unit]
    if "kind" not in row:
        return value
    kept, shown = _unit(row, row["unit"]), _unit(row, _rule(row, system)["unit"])
    return value if kept == shown else (value - kept.zero) * kept.si / shown.si + shown.zero


def name(unit: str, system: System) -> str:
    """The unit's printed name in one system; empty for plain numbers."""
    row = printed()[unit]
    return str(_rule(row, system)["unit"]) if "kind" in row else ""


def _rule(row: dict[str, Any], system: System) -> dict[str, Any]:
    rule: dict[str, Any] = row.get("plain") or row["us" if system == "US" else "si"]
    return rule


def _unit(row: dict[str, Any], name: str) -> Unit:
    return _unit_of(row["kind"], name)


@cache
def _unit_of(kind: str, name: str) -> Unit:
    return table().unit(name, kind)


def _digits(number: float, rule: dict[str, Any]) -> str:
    return fixed(number, max(rule.get("decimals", 0), places(number, rule["figures"]) if "figures" in rule else 0))
