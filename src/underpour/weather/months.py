"""Monthly means as they stand in a file: normals of the United States, or a plain table."""

from __future__ import annotations

import re
from calendar import month_abbr, month_name
from collections.abc import Sequence

from ..measure.digits import fixed
from ..mistakes import Mistake
from .hours import unlikely_months
from .limits import limit, missing_between
from .rows import cells, number
from .station import Station
from .text import shown

MEAN = "MLY-TAVG-NORMAL"
TWELVE = "Twelve rows are wanted, January first."
HEADING = "Write month,temperature C or month,temperature F as the first row."
_UNIT = re.compile(r"temperature\s*[,\[(]?\s*°?\s*(?:deg\s*)?([CF])(?:elsius|ahrenheit)?\s*[\])]?", re.IGNORECASE)


def normals_recognised(lines: Sequence[str]) -> bool:
    return "DATE" in cells(lines[0]) and any(name.startswith("MLY-T") for name in cells(lines[0]))


def table_recognised(lines: Sequence[str]) -> bool:
    heading = next((line for line in lines if line.strip() and not line.startswith("#")), "")
    first, *others = _split(heading)
    return first.casefold() == "month" and (len(others) == 1 or "temperature" in heading.casefold())


def normals(lines: Sequence[str], file: str) -> Station:
    """The station of a file of monthly normals of the United States, whose means are in °F.

    Raises
    ------
    Mistake
        With the line: no column of means, several stations, a month without a value or out of order, or means that are
        no °F.
    """
    columns = cells(lines[0])
    if MEAN not in columns:
        wrong = f"There is no column {MEAN}, the means of the months."
        raise Mistake("", "", wrong, "Fetch the file with the averages of temperature in it.", file, 1)
    rows = [(n, dict(zip(columns, cells(line), strict=False))) for n, line in enumerate(lines[1:], 2) if line.strip()]
    stations = {row.get("STATION", "") for _, row in rows}
    if len(stations) > 1:
        wrong = f"The file holds {len(stations)} stations: {shown(', '.join(sorted(stations)))}."
        raise Mistake("", "", wrong, "Keep the twelve rows of one of them.", file, 2)
    none_from, none_to = missing_between("normals")
    fahrenheit: list[float] = []
    for line, row in rows:
        _in_order(row.get("DATE", "")[-2:], row.get("DATE", ""), len(fahrenheit) + 1, file, line)
        mean = _degrees(row.get(MEAN, ""), MEAN, file, line)
        if none_from <= mean <= none_to:
            wrong = f"{month_name[len(fahrenheit) + 1]} has no mean; {row[MEAN]} says that there is none."
            raise Mistake("", "", wrong, "Take another station.", file, line)
        fahrenheit.append(mean)
    _twelve(len(fahrenheit), file, len(lines))
    if max(fahrenheit) < limit("warmest-normal"):
        wrong = f"The warmest month has {fixed(max(fahrenheit), 1)}: far too cold for °F, likely for °C."
        instead = "Fetch the file in standard units, or write a table: month,temperature C."
        raise Mistake("", "", wrong, instead, file)
    months = tuple((mean - 32.0) / 1.8 for mean in fahrenheit)
    unlikely_months(months, file)
    first = rows[0][1]
    return Station(
        file=file,
        kind="monthly normals in °F",
        title=first.get("NAME") or first.get("STATION", ""),
        country="US",
        latitude=_found(first, "LATITUDE", file, 90.0),
        longitude=_found(first, "LONGITUDE", file, 180.0),
        height=_found(first, "ELEVATION", file, 9000.0),
        months=months,
        not_taken=("the other columns; nothing is worked out from them yet.",) if len(columns) > 3 else (),
    )


def table(lines: Sequence[str], file: str) -> Station:
    """The months of a plain table: ``month,temperature C``, then a row for each; a line with # before it is its title.

    Raises
    ------
    Mistake
        With the line: no unit in the heading, a month out of order, no number, not twelve rows.
    """
    remarks = [line.lstrip("# ").strip() for line in lines if line.startswith("#")]
    rows = [(n, _split(line)) for n, line in enumerate(lines, 1) if line.strip() and not line.startswith("#")]
    at, heading = rows[0]
    units = [(n, found[1].upper()) for n, name in enumerate(heading) if (found := _UNIT.fullmatch(name.strip()))]
    if len(units) != 1:
        wrong = f'The heading is "{shown(lines[at - 1])}".'
        raise Mistake("", "", wrong, f"Its temperatures need a unit. {HEADING}", file, at)
    column, unit = units[0]
    months: list[float] = []
    for line, row in rows[1:]:
        _in_order(row[0].strip(), row[0].strip(), len(months) + 1, file, line)
        typed = row[column].strip() if len(row) > column else ""
        decimal = typed if "," in lines[at - 1] else typed.replace(",", ".")
        mean = _degrees(decimal, "temperature", file, line)
        months.append(mean if unit == "C" else (mean - 32.0) / 1.8)
    _twelve(len(months), file, len(lines))
    unlikely_months(tuple(months), file)
    return Station(
        file=file,
        kind=f"table of months in °{unit}",
        title=remarks[0].rstrip(".") if remarks else "",
        country="",
        latitude=None,
        longitude=None,
        height=None,
        months=tuple(months),
    )


def _split(line: str) -> list[str]:
    mark = next((mark for mark in ("\t", ";", ",") if mark in line), ",")
    return cells(line, mark)


def _in_order(month: str, typed: str, expected: int, file: str, line: int) -> None:
    """Refuse a row that is not of the month expected, by number or by name."""
    names = [str(expected), f"{expected:02d}"]
    if expected <= 12:
        names += [month_name[expected].casefold(), month_abbr[expected].casefold()]
    if month.casefold() in names[: len(names) if expected <= 12 else 0]:
        return
    wrong = f'This row is of month "{shown(typed)}"'
    after = f"; {month_name[expected]} is wanted here." if expected <= 12 else ", after the twelfth."
    raise Mistake("", "", wrong + after, TWELVE, file, line)


def _degrees(typed: str, what: str, file: str, line: int) -> float:
    try:
        return float(typed.replace("\u2212", "-"))
    except ValueError:
        wrong = f"{what} is left empty." if not typed else f'"{shown(typed)}" is no temperature.'
        raise Mistake("", "", wrong, "A number with a point belongs there: -11.5.", file, line) from None


def _twelve(count: int, file: str, line: int) -> None:
    if count != 12:
        what = f"The months end after {month_name[count]}." if count else "There are no months below the heading."
        raise Mistake("", "", what, TWELVE, file, line)


def _found(row: dict[str, str], key: str, file: str, most: float) -> float | None:
    return number(row[key], key.lower(), file, 2, most) if row.get(key) else None
