"""One cell: what is read from it, and how a value is written into it.

An apostrophe at the head of a cell means: letter by letter from here. It guards what a spreadsheet would take for a
formula and what would otherwise be asked about (spaces at the ends, letters that cannot be seen). Alone it says that
nothing is meant to stand here.
"""

from __future__ import annotations

import datetime
import math
import re
from collections.abc import Callable
from dataclasses import dataclass

from ..measure.numbers import asked_about
from ..mistakes import Mistake, nearest
from .columns import Column, Sort

GUARD = "'"
UNSEEN = {
    "\u00a0": "a space that does not break",
    "\u202f": "a narrow space that does not break",
    "\u2007": "a space as wide as a figure",
    "\u00ad": "a hyphen that is not seen",
    "\u200b": "a space without width",
    "\u200c": "a sign without width",
    "\u200d": "a sign without width",
    "\u2060": "a sign without width",
    "\ufeff": "a byte-order mark",
}
UNSEEN_SIGN = re.compile(f"[{''.join(UNSEEN)}]")
CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufffe\uffff]")  # all but tab and new line
NUMBER = re.compile(r"-?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
NUMBER_AND_UNIT = re.compile(rf"({NUMBER.pattern})\s*([^\s0-9,.].*)")
DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
DAY_AND_TIME = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})[T ][0-9:.]+Z?")
PARTED = re.compile(r"([0-9]{1,4})[-/. ]([0-9]{1,2})[-/. ]([0-9]{1,4})")
EARLIEST = datetime.date(1950, 1, 1)  # a workbook keeps an earlier day as text: as a number it may be a year
IN_A_SPREADSHEET = "In a spreadsheet, give the column the form yyyy-mm-dd, or import the .xlsx."
WIDEST = 120  # letters of a cell in a message


@dataclass(frozen=True, slots=True)
class Formula:
    """A cell that holds a formula, with what was stored of its last working-out."""

    words: str  # "=B2*2"
    stored: str = ""


@dataclass(frozen=True, slots=True)
class Broken:
    """A cell that holds what a spreadsheet shows in place of a value, such as #REF!"""

    words: str


Cell = str | float | int | bool | datetime.date | datetime.time | datetime.timedelta | Formula | Broken | None


class Nothing:
    """A cell that says that nothing is meant to stand there."""


NOTHING = Nothing()


def is_empty(cell: Cell) -> bool:
    return cell is None or cell == ""


def shown(cell: Cell) -> str:
    """A cell as a message shows it.

    >>> shown("1,5"), shown(2.0), shown(datetime.datetime(2025, 3, 18))
    ('"1,5"', '2', '2025-03-18')
    """
    if isinstance(cell, Formula | Broken):
        return _short(cell.words)
    if isinstance(cell, str):
        return f'"{_short(cell)}"'
    if isinstance(cell, bool):
        return "TRUE" if cell else "FALSE"
    if isinstance(cell, float | int):
        return number_words(cell)
    if isinstance(cell, datetime.datetime) and cell.time() == datetime.time():
        return cell.date().isoformat()
    return str(cell)


def _short(words: str) -> str:
    seen = UNSEEN_SIGN.sub(_code, CONTROL.sub(_code, words)).replace("\n", "\\n").replace("\t", "\\t")
    return seen if len(seen) <= WIDEST else f"{seen[:WIDEST]}…"


def _code(found: re.Match[str]) -> str:
    return f"\\u{ord(found[0]):04x}"


def number_words(value: float) -> str:
    """A number in the fewest signs that give it back.

    >>> number_words(26.0), number_words(0.1), number_words(-0.0), number_words(1e22)
    ('26', '0.1', '-0', '1e+22')
    """
    words = repr(float(value))
    return words[:-2] if words.endswith(".0") else words


# ---- reading ----


def read(column: Column, cell: Cell, *, typed_cells: bool) -> object:
    """What a cell holds, as the models of a line take it; `NOTHING` where it says so.

    Parameters
    ----------
    column : Column
        The column it stands in.
    cell : Cell
        Not an empty one.
    typed_cells : bool
        Whether numbers are kept as numbers here (a workbook), or all is text (CSV).

    Raises
    ------
    Mistake
        It cannot be read; where it stands is for the caller to say.
    """
    if isinstance(cell, Formula):
        raise _formula(cell)
    if isinstance(cell, Broken):
        wrong = f"The spreadsheet shows {cell.words} here: it has no value."
        raise Mistake("", shown(cell), wrong, "Write the value.")
    if not isinstance(cell, str):
        return _not_text(column, cell)
    letter_by_letter = cell.startswith(GUARD)
    words = cell[1:] if letter_by_letter else cell
    if CONTROL.search(words):
        sign = CONTROL.search(words)
        wrong = f"A control character (U+{ord(sign[0]):04X}) stands here." if sign else ""
        raise Mistake("", shown(cell), wrong, "Take it out.")
    if letter_by_letter and not words:
        return "" if column.sort == "words" else () if column.sort == "list" else NOTHING
    if not letter_by_letter:
        _tidy(cell)
        if DAY.fullmatch(cell) and column.sort in ("words", "list"):
            instead = (
                "Do the cells of this row stand beside their columns? A text like this has an apostrophe before it."
            )
            raise Mistake("", shown(cell), "A day stands here, where words are wanted.", instead)
    if typed_cells and column.sort in ("number", "whole") and NUMBER.fullmatch(words):
        instead = "Turn the cell into a number; a spreadsheet can do so for the whole column at once."
        raise Mistake("", shown(cell), "This number is stored as text.", instead)
    if column.sort == "list":
        return tuple(_word(column, column.items, item) for item in list_items(words))
    return _word(column, column.sort, words)


def _formula(cell: Formula) -> Mistake:
    stored = f" It last gave {cell.stored}." if cell.stored else " What it gave is not stored."
    instead = "A record holds what a report prints: write the value in its place."
    if not cell.stored:
        instead += " A text that begins with = has an apostrophe before it."
    return Mistake("", shown(cell), f"A formula stands here, not a value.{stored}", instead)


def _tidy(words: str) -> None:
    """Refuse what cannot be seen, before it makes two words of one."""
    unseen = UNSEEN_SIGN.search(words)
    if unseen:
        wrong = f"There is {UNSEEN[unseen[0]]} in it (U+{ord(unseen[0]):04X})."
        plain = UNSEEN_SIGN.sub(lambda found: " " if found[0] in "\u00a0\u202f\u2007" else "", words).strip()
        raise Mistake("", f'"{_short(words)}"', wrong, f"Write {plain}." if plain else "Leave the cell empty.")
    if words != words.strip():
        end = "before" if words[0].isspace() else "after"
        instead = f"Write {_short(words.strip())}." if words.strip() else "Leave the cell empty."
        raise Mistake("", f'"{_short(words)}"', f"There is a space {end} the words.", instead)
    meant = garbled(words)
    if meant:
        wrong = "These letters were saved in one alphabet and opened in another."
        raise Mistake("", f'"{_short(words)}"', wrong, f"Is {_short(meant)} meant? Save the table as UTF-8.")


def garbled(words: str) -> str:
    """What was meant, where UTF-8 was opened as the alphabet of western Windows; "" where nothing says so.

    >>> garbled("ftÂ²"), garbled("ft²")
    ('ft²', '')
    """
    if words.isascii():
        return ""
    try:
        meant = words.encode("cp1252").decode("utf-8")
    except (UnicodeEncodeError, UnicodeDecodeError):
        return ""
    return meant if meant != words else ""


def _not_text(
    column: Column, cell: float | int | bool | datetime.date | datetime.time | datetime.timedelta | None
) -> object:
    if isinstance(cell, bool):
        if column.sort == "yes or no":
            return cell
        raise Mistake("", shown(cell), f"TRUE or FALSE stands here, where {_wanted(column)}.", _example(column))
    if isinstance(cell, datetime.datetime) and cell.time() == datetime.time():
        cell = cell.date()
    if isinstance(cell, datetime.date | datetime.time | datetime.timedelta):
        if column.sort == "day" and type(cell) is datetime.date:
            if cell < EARLIEST:
                wrong = "So early a day stands here; a year typed alone into a cell of days becomes one."
                raise Mistake(
                    "", shown(cell), wrong, "Write the day. If this one is meant, make the cell a text first."
                )
            return cell
        if column.sort == "day":
            instead = "Write the day alone, year first: 2026-06-01."
            raise Mistake("", shown(cell), "A time of day stands here.", instead)
        of = "A day" if isinstance(cell, datetime.date) else "A time"
        wrong = f"{of} stands here, where {_wanted(column)}."
        instead = "A spreadsheet takes words such as 1-2 for one: make the cell a text, then type it again."
        raise Mistake("", shown(cell), wrong, instead)
    number = float(cell or 0)
    if column.sort == "measure":
        return number_words(number)  # "2 of what?"
    if column.sort == "number":
        return number
    if column.sort in ("whole", "day") or (column.sort == "one of" and column.among):
        return _word(column, column.sort, number_words(number))
    instead = "Make the cell a text, then type it again: as a number it would lose its noughts in front."
    raise Mistake("", shown(cell), f"A number stands here, where {_wanted(column)}.", instead)


def _wanted(column: Column) -> str:
    return {
        "words": "words are wanted",
        "one of": "a word is wanted",
        "measure": "a number with its unit is wanted",
        "number": "a number is wanted",
        "whole": "a whole number is wanted",
        "yes or no": "yes or no is wanted",
        "day": "a day is wanted",
        "list": "words are wanted",
    }[column.sort]


def _example(column: Column) -> str:
    return f"For example: {column.example}" if column.example else ""


def _word(column: Column, sort: Sort, words: str) -> object:
    readers: dict[Sort, Callable[[Column, str], object]] = {
        "one of": _one_of,
        "number": _number,
        "whole": _whole,
        "yes or no": _yes_or_no,
        "day": _day,
    }
    return readers[sort](column, words) if sort in readers else words


def _one_of(column: Column, words: str) -> str:
    if words in column.among:
        return words
    near = nearest(words, column.among)
    hint = f"The nearest is {near[0]}." if near else f"To choose from: {', '.join(column.among)}."
    raise Mistake("", f'"{_short(words)}"', f"{_short(words)} is none of the words that can stand here.", hint)


def _number(column: Column, words: str) -> float:
    if NUMBER.fullmatch(words):
        return float(words)
    asked = asked_about(words, words)
    if asked:
        raise asked
    with_unit = NUMBER_AND_UNIT.fullmatch(words)
    if with_unit:
        wrong = "The number has its unit beside it."
        raise Mistake("", f'"{_short(words)}"', wrong, f"Write {with_unit[1]} here, and {with_unit[2]} under unit.")
    raise Mistake(
        "", f'"{_short(words)}"', "This is no number.", f"Copy it from the report. {_example(column)}".strip()
    )


def _whole(column: Column, words: str) -> int:
    if re.fullmatch(r"-?[0-9]{1,15}", words) and (not column.among or words in column.among):
        return int(words)
    if column.among:
        raise Mistake(
            "", f'"{_short(words)}"', f"{_short(words)} cannot stand here.", f"Write {' or '.join(column.among)}."
        )
    raise Mistake("", f'"{_short(words)}"', "A whole number is wanted here.", _example(column))


def _yes_or_no(column: Column, words: str) -> bool:
    known = {"yes": True, "true": True, "no": False, "false": False}
    if words.casefold() in known:
        return known[words.casefold()]
    raise Mistake("", f'"{_short(words)}"', "Yes or no is wanted here.", "Write yes or no.")


def _day(column: Column, words: str) -> datetime.date:
    if DAY.fullmatch(words):
        try:
            return datetime.date.fromisoformat(words)
        except ValueError:
            wrong = "There is no such day in the calendar."
            raise Mistake("", f'"{words}"', wrong, "Write it year first: 2026-06-01.") from None
    timed = DAY_AND_TIME.fullmatch(words)
    if timed:
        raise Mistake("", f'"{words}"', "A time of day stands beside it.", f"Write {timed[1]}.")
    if re.fullmatch(r"(19|20)[0-9]{2}", words):
        raise Mistake("", f'"{words}"', f"{words} is a year; a day is wanted.", f"Write it year first: {words}-06-01.")
    if NUMBER.fullmatch(words):
        wrong = "A number stands here, where a day is wanted."
        raise Mistake("", f'"{_short(words)}"', wrong, "Write it year first: 2026-06-01.")
    parted = PARTED.fullmatch(words)
    meant = days_meant(parted[1], parted[2], parted[3]) if parted else []
    if len(meant) > 1:
        listed = f"{', '.join(meant[:-1])} or {meant[-1]}"
        wrong = f"{words} may be {listed}."
        raise Mistake("", f'"{words}"', wrong, f"Write the day that is meant, year first. {IN_A_SPREADSHEET}")
    if meant:
        raise Mistake("", f'"{words}"', "A day is written year first.", f"Write {meant[0]}. {IN_A_SPREADSHEET}")
    raise Mistake("", f'"{_short(words)}"', "No day can be read here.", "Write it year first: 2026-06-01.")


def days_meant(first: str, second: str, third: str) -> list[str]:
    """The days that three numbers may be: day first, month first, and year first where the last is no year.

    >>> days_meant("03", "04", "05")
    ['2005-04-03', '2005-03-04', '2003-04-05']
    >>> days_meant("13", "4", "2025")
    ['2025-04-13']
    """
    orders = [(third, second, first), (third, first, second)]
    orders += [(first, second, third)] if len(third) < 3 else []
    found = []
    for year, month, day in orders:
        if len(month) > 2 or len(day) > 2:
            continue
        in_full = int(year) + (0 if len(year) > 2 else 2000 if int(year) < 70 else 1900)
        try:
            found.append(datetime.date(in_full, int(month), int(day)).isoformat())
        except ValueError:
            continue
    return list(dict.fromkeys(found))


def list_items(words: str) -> list[str]:
    """The items of a list, parted by semicolons; one that holds a semicolon stands in quotes.

    >>> list_items('hot bitumen; "petrol; diesel"')
    ['hot bitumen', 'petrol; diesel']
    """
    found, at = [], 0
    while True:
        quoted = re.compile(r'\s*"((?:[^"]|"")*)"\s*(?=;|$)').match(words, at)
        if quoted:
            found.append(quoted[1].replace('""', '"'))
            at = quoted.end()
        else:
            end = words.find(";", at)
            end = len(words) if end < 0 else end
            item = words[at:end].strip()
            if not item:
                instead = "Write one semicolon between two items, and none at the end."
                raise Mistake("", f'"{_short(words)}"', "An item of this list is empty.", instead)
            found.append(item)
            at = end
        if at >= len(words):
            return found
        at += 1


# ---- writing ----


def written(column: Column, value: object) -> str | float | datetime.date:
    """A value as it stands in a cell; text is guarded where reading would not give it back.

    Raises
    ------
    Mistake
        A control character, which no table holds.
    """
    if column.sort == "list":
        assert isinstance(value, tuple)
        return guarded("; ".join(_item(_typed(item)) for item in value))
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float) and column.sort in ("number", "whole"):
        assert math.isfinite(value)
        return value
    if isinstance(value, datetime.date):
        return value
    return guarded(_typed(value))


def _typed(value: object) -> str:
    """A text, or the words that a measure was typed in."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return number_words(value)
    words = str(getattr(value, "typed", value))
    control = CONTROL.search(words)
    if control:
        wrong = f"A control character (U+{ord(control[0]):04X}) stands in it, and no table holds that."
        raise Mistake("", f'"{_short(words)}"', wrong, "Take it out of the line first.")
    return words


def _item(words: str) -> str:
    plain = words and words == words.strip() and ";" not in words and not words.startswith('"')
    return words if plain else '"' + words.replace('"', '""') + '"'


def guarded(words: str) -> str:
    """A text with an apostrophe before it where it would be asked about, or be nothing."""
    try:
        if words and not words.startswith(GUARD) and not DAY.fullmatch(words):
            _tidy(words)
            return words
    except Mistake:
        pass
    return GUARD + words
