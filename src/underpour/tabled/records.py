"""From the sheets of a table to a product line, or everything that is wrong with them at once."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from ..mistakes import Mistake, Mistakes, nearest
from .cells import NOTHING, Cell, is_empty, read, shown
from .columns import KEY, LINE, PRODUCT, ROW, RowKind, kinds_with, row_kinds
from .heading import Heading, heading, required_of
from .sheets import Sheet, stretches

if TYPE_CHECKING:
    from ..catalogue.line import Line

Path = tuple[str | int, ...]
Place = tuple[int, int, int, str]  # sheet, row, column, and the name of one that is not there: their order when told
ALIKE = 4  # rows with the same mistake in one column that are told as one
HINTED = 50  # rows of which it is asked whether their cells stand beside their columns


@dataclass
class Record:
    """What a row says, and where."""

    sheet: int
    number: int
    key: str
    says: dict[str, Any] = field(default_factory=dict)
    path: Path = ()
    where: Mapping[str, int] | None = None  # the column of each word, where the headings do not say it


@dataclass(frozen=True)
class Assembled:
    """A product line, and where each of its products and tests stands in the table."""

    line: Line
    products: tuple[str, ...]  # "row 7", "evidence, row 7"
    rows: tuple[str, ...]  # tests, product after product


class Reading:
    """A table while it is read: its records so far, and what was found wrong."""

    def __init__(self, sheets: Sequence[Sheet]):
        self.sheets = sheets
        self.headings: list[Heading] = []
        self.wrong: dict[Place, Mistake] = {}
        self.records: dict[str, list[Record]] = {word: [] for word in row_kinds()}
        self.unread: set[str] = set()  # keys of rows that could not be read
        self.hinted = 0
        self.cells = [dict(sheet.rows) for sheet in sheets]

    def tell(self, sheet: int, row: int, column: int, mistake: Mistake, name: str = "") -> None:
        of = self.sheets[sheet]
        columns = self.headings[sheet].columns if sheet < len(self.headings) else {}
        place = (sheet, row, column, "" if column in columns else name)
        if place not in self.wrong:
            called = name or columns.get(column, "")
            self.wrong[place] = mistake.placed(at=of.at(row, column, "" if row == of.rows[0][0] else called))


def line_of(sheets: Sequence[Sheet]) -> Assembled:
    """The product line that a table holds.

    Parameters
    ----------
    sheets : sequence of Sheet
        The one table of a CSV file, or the sheets of a workbook; each with a heading of its own.

    Raises
    ------
    Mistakes
        All that is wrong, in the order of sheets, rows and columns, each with its place.
    """
    reading = Reading(sheets)
    for at, sheet in enumerate(sheets):
        found = heading(sheet)
        reading.headings.append(found)
        for row, column, mistake in sheet.wrong:
            reading.tell(at, row, column, mistake)
        for column, mistake in found.wrong:
            reading.tell(at, sheet.rows[0][0], column, mistake)
        if ROW in found.names and KEY in found.names:
            _read_rows(reading, at, sheet, found)
        else:
            reading.unread.add("")
    return assembled(reading)


def gathered(reading: Reading) -> list[Mistake]:
    """What is wrong in its order; the same of many rows of a column is told once, with all of the rows."""
    alike: dict[tuple[int, int, str, str], list[int]] = {}
    for (sheet, row, column, _), mistake in sorted(reading.wrong.items()):
        alike.setdefault((sheet, column, mistake.wrong, mistake.instead), []).append(row)
    told = []
    for (sheet, row, column, _), mistake in sorted(reading.wrong.items()):
        rows = alike[sheet, column, mistake.wrong, mistake.instead]
        if len(rows) < ALIKE:
            told.append(mistake)
        elif row == rows[0]:
            others = ", ".join(f"{a}" if a == b else f"{a} to {b}" for a, b in stretches(rows[1:]))
            told.append(replace(mistake, instead=f"{mistake.instead} The same in rows {others}.".strip()))
    return told


def rows_in(reading: Reading, at: int, sheet: Sheet, key_at: int, told_at: int) -> Iterator[tuple[int, Sequence[Cell]]]:
    """The rows below the heading that can be read; a torn one, an empty one and the heading again are left out."""
    first = sheet.rows[0][1]
    for number, cells in sheet.rows[1:]:
        if number in sheet.torn:
            key = cells[key_at] if key_at < len(cells) else None
            reading.unread |= {key} if isinstance(key, str) else set()
            reading.unread |= {""} if is_empty(key) else set()
            continue
        if all(map(is_empty, cells)):
            wrong = "This row is empty, and others follow."
            reading.tell(at, number, 0, Mistake("", "", wrong, "Take it out; a second table needs a file of its own."))
            continue
        if list(cells) == list(first):
            wrong = "The heading stands here again."
            reading.tell(at, number, told_at, Mistake("", shown(cells[told_at]), wrong, "Take this row out."))
            continue
        yield number, cells


def _read_rows(reading: Reading, at: int, sheet: Sheet, found: Heading) -> None:
    where = {name: column for column, name in found.columns.items()}
    stood = {
        cell
        for number, cells in sheet.rows[1:]
        if number in sheet.torn
        for cell in cells
        if isinstance(cell, str) and cell in row_kinds()
    }
    first = sheet.rows[0][1]
    for number, cells in rows_in(reading, at, sheet, where[KEY], where[ROW]):
        kind = _kind(reading, at, number, cells, where)
        if kind is not None:
            stood.add(kind.word)
            _read_row(reading, at, number, cells, kind, where)
    for n, mistake in enumerate(required_of(sheet, found, stood)):
        reading.tell(at, sheet.rows[0][0], len(first) + 1 + n, mistake)


def _kind(reading: Reading, at: int, number: int, cells: Sequence[Cell], where: Mapping[str, int]) -> RowKind | None:
    word, key = cells[where[ROW]], cells[where[KEY]]
    if isinstance(word, str) and word in row_kinds():
        return row_kinds()[word]
    reading.unread.add(key if isinstance(key, str) else "")
    listed = ", ".join(row_kinds())
    if is_empty(word):
        mistake = Mistake("", "", "This row does not say what it is.", f"Write one of: {listed}.")
    else:
        near = nearest(word.strip(), row_kinds()) if isinstance(word, str) else []
        hint = f"The nearest is {near[0]}." if near else f"To choose from: {listed}."
        mistake = Mistake("", shown(word), f"No kind of row is called {shown(word).strip(chr(34))}.", hint)
    reading.tell(at, number, where[ROW], mistake)
    return None


def _read_row(
    reading: Reading, at: int, number: int, cells: Sequence[Cell], kind: RowKind, where: Mapping[str, int]
) -> None:
    names = reading.headings[at].columns
    says, wrong = _said(cells, kind, names, typed_cells=reading.sheets[at].typed_cells)
    if len(wrong) > 1 and reading.hinted < HINTED:
        reading.hinted += 1
        hint = _beside(cells, kind, names, typed_cells=reading.sheets[at].typed_cells)
        if hint is not None:
            column, which = hint
            instead = f"From column {names[column]} on the cells stand one column too far to the {which}: move them."
            worst = min(wrong)
            wrong = {worst: Mistake("", wrong[worst].typed, wrong[worst].wrong, instead)}
            reading.unread.add(says.get(KEY, ""))
    for column, mistake in wrong.items():
        reading.tell(at, number, column, mistake)
    record = Record(at, number, _key(reading, at, number, cells[where[KEY]], kind, where[KEY]), says)
    reading.records[kind.word].append(record)


def _said(
    cells: Sequence[Cell], kind: RowKind, names: Mapping[int, str], *, typed_cells: bool
) -> tuple[dict[str, Any], dict[int, Mistake]]:
    """What the cells of a row say by column, and what is wrong with them."""
    says: dict[str, Any] = {}
    wrong: dict[int, Mistake] = {}
    for column, name in names.items():
        cell = cells[column]
        if cell is None or cell == "" or name in (ROW, KEY):
            continue
        of = kind.columns.get(name)
        if of is None:
            others = " and ".join(each.article for each in kinds_with(name))
            wrong[column] = Mistake(
                "", shown(cell), f"{kind.article.capitalize()} has no {name}; {others} has.", "Leave this cell empty."
            )
            continue
        try:
            says[name] = read(of, cell, typed_cells=typed_cells)
        except Mistake as mistake:
            wrong[column] = mistake
    return says, wrong


def _beside(
    cells: Sequence[Cell], kind: RowKind, names: Mapping[int, str], *, typed_cells: bool
) -> tuple[int, str] | None:
    """From which column on the cells of a row stand one too far to the left or right; None where they do not."""

    def reads(moved: Sequence[Cell], lost: str = "") -> bool:
        says, wrong = _said(moved, kind, names, typed_cells=typed_cells)
        return not wrong and _stands(kind, says, lost)

    for column in range(2, len(cells)):
        if column not in names:
            continue
        if is_empty(cells[column]) and reads([*cells[:column], *cells[column + 1 :], None]):
            return column, "right"
        if is_empty(cells[-1]) and reads([*cells[:column], None, *cells[column:-1]], names[column]):
            return column, "left"
    return None


def _stands(kind: RowKind, says: Mapping[str, Any], lost: str = "") -> bool:
    """Whether the models take what a row says, but for one column whose cell was lost."""
    from pydantic import ValidationError

    beside: dict[str, dict[str, Any]] = {LINE: {PRODUCT: ()}, PRODUCT: {KEY: "a"}}
    try:
        kind.model.model_validate({**_nested(says), **beside.get(kind.word, {})})
    except ValidationError as cause:
        errors = cause.errors(include_url=False)
        return all(error["type"] == "missing" and ".".join(map(str, error["loc"])) == lost for error in errors)
    return True


def _key(reading: Reading, at: int, number: int, cell: Cell, kind: RowKind, column: int) -> str:
    if kind.word == LINE:
        if not is_empty(cell):
            wrong = "The line row belongs to no product."
            reading.tell(at, number, column, Mistake("", shown(cell), wrong, "Leave this cell empty."))
        return ""
    if isinstance(cell, str) and cell:
        return cell
    reading.unread.add("")
    if is_empty(cell):
        wrong = f"This {kind.word} row names no product."
        instead = "Write the key of its product in each row; cells that were merged have to be parted."
        reading.tell(at, number, column, Mistake("", "", wrong, instead))
    else:
        instead = "Make the cell a text, then type the key again; it is like plain-15."
        reading.tell(at, number, column, Mistake("", shown(cell), "A key is a word.", instead))
    return ""


def _nested(says: Mapping[str, Any]) -> dict[str, Any]:
    """Columns with dots as tables within tables."""
    made: dict[str, Any] = {}
    for name, value in says.items():
        *tables, last = name.split(".")
        here = made
        for table in tables:
            here = here.setdefault(table, {})
        if value is not NOTHING:
            here[last] = value
    return made


def assembled(reading: Reading) -> Assembled:
    """The records of a table put together and read by the models.

    Raises
    ------
    Mistakes
        All that is wrong, what the models find of a value at the cell that it came from.
    """
    line = _modelled(reading)
    if reading.wrong or line is None:
        raise Mistakes(gathered(reading))
    of = reading.records
    tests = sorted(of["evidence"], key=lambda record: (record.path[1], record.path[-1]))
    return Assembled(line, tuple(_at(reading, each) for each in of[PRODUCT]), tuple(_at(reading, e) for e in tests))


def _at(reading: Reading, record: Record) -> str:
    return reading.sheets[record.sheet].at_row(record.number)


def _modelled(reading: Reading) -> Line | None:
    from pydantic import ValidationError

    from ..catalogue.line import Line

    records = reading.records
    raw = _the_line(reading)
    products: dict[str, dict[str, Any]] = {}
    seen: dict[str, Record] = {}
    for record in records[PRODUCT]:
        if record.key in seen and record.key:
            before = seen[record.key]
            where = reading.sheets[before.sheet].at_row(before.number)
            wrong = f"{record.key} stands in {where} already; evidence would not know whose it is."
            _tell_key(reading, record, Mistake("", f'"{record.key}"', wrong, "Give one of them another key."))
            _hold_alone(reading, record, row_kinds()[PRODUCT])
            continue
        seen[record.key] = record
        record.path = (PRODUCT, len(products))
        products[record.key] = {KEY: record.key, **_nested(record.says)}
    for kind in row_kinds().values():
        for record in records[kind.word] if kind.within else ():
            if record.key not in products:
                _belongs_nowhere(reading, record, list(products))
                _hold_alone(reading, record, kind)
                continue
            here = products[record.key]
            for step in kind.within[:-1]:
                here = here.setdefault(step, {})
            rows = here.setdefault(kind.within[-1], [])
            record.path = (*seen[record.key].path, *kind.within, len(rows))
            rows.append(_nested(record.says))
    raw[PRODUCT] = tuple(_lists_as_tuples(product) for product in products.values())
    if not products and not reading.unread and not reading.wrong:
        reading.tell(
            0, reading.sheets[0].rows[0][0], 0, Mistake("", "", "There is no product row.", "Write one a product.")
        )
    try:
        return Line.model_validate(raw)
    except ValidationError as cause:
        by_path = {record.path: (record, word) for word, of in records.items() for record in of if record.path}
        by_path |= {(): (records[LINE][0], LINE)} if records[LINE] else {}
        for error in cause.errors(include_url=False):
            _tell(reading, by_path, error)
    return None


def _the_line(reading: Reading) -> dict[str, Any]:
    lines = reading.records[LINE]
    for again in lines[1:]:
        where = reading.sheets[lines[0].sheet].at_row(lines[0].number)
        wrong = f"The line stands in {where} already."
        instead = "A table holds the line of one maker; put another into a file of its own."
        reading.tell(again.sheet, again.number, 0, Mistake("", "", wrong, instead))
    if lines:
        return _nested(lines[0].says)
    if "" not in reading.unread:
        instead = "Write a row line, without key, with the maker under maker.name."
        row = reading.sheets[0].rows[0][0]
        reading.tell(0, row, _column_of(reading, 0, ROW), Mistake("", "", "There is no line row.", instead))
    return {"maker": {"name": "not told"}}


def _belongs_nowhere(reading: Reading, record: Record, keys: Sequence[str]) -> None:
    if not record.key or record.key in reading.unread or (not keys and reading.unread):
        return  # told already
    near = nearest(record.key, keys)
    hint = f"The nearest is {near[0]}." if near else "Write a product row with this key."
    wrong = f"No product row has the key {record.key}."
    _tell_key(reading, record, Mistake("", f'"{record.key}"', wrong, hint))


def _hold_alone(reading: Reading, record: Record, kind: RowKind) -> None:
    """What the models find wrong with a record that belongs to no product: that is no reason to tell it later."""
    from pydantic import ValidationError

    says = {**_nested(record.says), **({KEY: record.key} if kind.word == PRODUCT else {})}
    try:
        kind.model.model_validate(_lists_as_tuples(says))
    except ValidationError as cause:
        for error in cause.errors(include_url=False):
            _tell_of(reading, record, kind, error["loc"], error)


def _tell_key(reading: Reading, record: Record, mistake: Mistake) -> None:
    reading.tell(record.sheet, record.number, _column_of(reading, record.sheet, KEY), mistake)


def _column_of(reading: Reading, sheet: int, name: str) -> int:
    """Where a column stands in a sheet; behind the last where it does not."""
    of = reading.headings[sheet].columns
    return next((column for column, each in of.items() if each == name), len(of))


def _tell(reading: Reading, records: Mapping[Path, tuple[Record, str]], error: Mapping[str, Any]) -> None:
    """Put what the models say of a value to the cell that it came from."""
    path: Path = error["loc"]
    length = next(n for n in range(len(path), -1, -1) if path[:n] in records or n == 0)
    if path[:length] not in records:
        return  # the line row is missing, which is told
    record, word = records[path[:length]]
    _tell_of(reading, record, row_kinds()[word], path[length:], error)


def _tell_of(reading: Reading, record: Record, kind: RowKind, path: Path, error: Mapping[str, Any]) -> None:
    name = ".".join(step for step in path if isinstance(step, str))
    if name not in kind.columns:  # a table that is missing is told of its first column
        name = next((each for each in kind.columns if each.startswith(f"{name}.")), name)
    names = reading.headings[record.sheet].columns.values() if record.where is None else record.where
    column = kind.columns.get(name)
    if error["type"] == "missing" and (name == KEY or (column and column.required and name not in names)):
        return  # told of the heading
    own = record.where.get(name) if record.where is not None else None
    at = _column_of(reading, record.sheet, name) if own is None else own
    cells = reading.cells[record.sheet][record.number]
    typed = shown(cells[at]) if at < len(cells) and not is_empty(cells[at]) else ""
    for mistake in _words(error, name, kind, record.key):
        told = Mistake("", mistake.typed or typed, mistake.wrong, mistake.instead)
        reading.tell(record.sheet, record.number, at, told, name if own is None else "")


def _words(error: Mapping[str, Any], name: str, kind: RowKind, key: str) -> list[Mistake]:
    from ..catalogue.line_file import WANTED

    if error["type"] == "mistake":
        return list(error["ctx"]["mistakes"])
    if error["type"] == "missing":
        column = kind.columns.get(name)
        said = column.said if column else ""
        example = f" For example: {column.example}" if column and column.example else ""
        return [Mistake("", "", f"There is no {name}.", f"{said}{example}")]
    fitting = "-".join(re.findall(r"[a-z0-9]+", key.lower()))
    if name == KEY and fitting:
        return [Mistake("", "", WANTED[error["type"]][0], f"Write {fitting}, in every row of this product.")]
    wrong, instead = WANTED.get(error["type"], ("This cannot be read.", ""))
    return [Mistake("", "", wrong, instead)]


def _lists_as_tuples(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _lists_as_tuples(each) for key, each in value.items()}
    return tuple(map(_lists_as_tuples, value)) if isinstance(value, list) else value
