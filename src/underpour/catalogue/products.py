"""Products in hand: the line that comes with the tool, and a user's own lines in a folder beside the brief."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, fields
from functools import cache, cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from ..mistakes import Mistake, Mistakes
from .read import FOLDER, absent, one
from .records import Source
from .sources import source

if TYPE_CHECKING:
    from .line import Line, Product
    from .records import Board, Retarder

FLAT = ("board", "faced-board")  # thickness is foam
CHANNELLED = "soil-gas-panel"  # its channels lie below its foam, so that it lies in a floor like a board
SHAPED = ("tube-panel", CHANNELLED)  # a pattern stands beyond the foam
SHIPPED = FOLDER / "marlpit.toml"
OWN = "catalogue"  # the folder beside the brief


@dataclass(frozen=True, eq=False)
class OfMaker:
    """A product line with the file that it stands in."""

    line: Line
    source: Source  # that its numbers are said to come from
    file: str
    text: str = field(repr=False)


@dataclass(frozen=True, eq=False)
class Products:
    """The products that a brief can name, and the day that their certificates are held to."""

    own: tuple[OfMaker, ...] = ()  # of the folder beside the brief
    day: datetime.date = field(default_factory=lambda: today())

    def __getstate__(self) -> dict[str, object]:
        """What it was made of: what was looked up since is looked up anew in another process."""
        return {each.name: getattr(self, each.name) for each in fields(self)}

    @cached_property
    def lines(self) -> tuple[OfMaker, ...]:
        """Own lines first, then the one that comes with the tool, unless one of them stands alone."""
        alone = any(each.line.stands_alone for each in self.own)
        return self.own if alone else (*self.own, _shipped_line())

    @cached_property
    def _by_key(self) -> dict[str, tuple[Product, OfMaker]]:
        found: dict[str, tuple[Product, OfMaker]] = {}
        for of in self.lines:
            for product in of.line.product:
                found.setdefault(product.key, (product, of))
        return found

    def products(self) -> tuple[Product, ...]:
        """Every product, own ones first, in the order of the files."""
        return tuple(product for product, _ in self._by_key.values())

    def product(self, key: str) -> Product:
        """The product of that key; a key that is not known is a Mistake with the nearest one.

        >>> shipped_products().product("knob-15").pattern.knob_height.typed
        '1-1/4 in'
        """
        return one(self._by_key, key, "product", "products")[0]

    def line_of(self, key: str) -> OfMaker:
        """The line that the product of that key stands in."""
        return one(self._by_key, key, "product", "products")[1]

    def has(self, key: str) -> bool:
        """Whether a product has that key; a class or a generic film is none."""
        return key in self._by_key

    @cached_property
    def _retarders(self) -> dict[str, Retarder]:
        return {}

    @cached_property
    def _boards(self) -> dict[str, Board]:
        return {}

    def board(self, key: str) -> Board:
        """The board of that key: a product, a class or an unsuited one; an unknown key is a Mistake with the nearest.

        >>> round(shipped_products().board("c578-ix").r_label_per_metre.value, 2)  # R 4.2 an inch
        29.12
        """
        from .belonging import unsuited, unsuited_board
        from .boards import class_board, product_board, unknown_board

        if key not in self._boards:
            product, of = self._by_key.get(key, (None, None))
            if product is None or of is None:
                known = [*self._flat, *_class_keys(), *(each.key for each in unsuited())]
                self._boards[key] = class_board(key) or unsuited_board(key) or unknown_board(key, known)
            elif product.kind in (*FLAT, CHANNELLED):
                self._boards[key] = product_board(product, of)
            else:
                wrong = (
                    f"{product.name} is no flat board, and a build-up takes flat boards and panels with channels below."
                )
                raise Mistake("", f'"{key}"', wrong, "All of them: underpour catalogue list boards")
        return self._boards[key]

    def retarder(self, key: str) -> Retarder:
        """The vapour retarder of that key, a film of a line or a generic one; an unknown key is a Mistake.

        >>> shipped_products().retarder("sheet-15").label, shipped_products().retarder("film-15-mil").brings
        ('Marlpit Sheet 15 (invented)', '')
        """
        from .retarders import film_retarder, retarders

        if key not in self._retarders:
            product, of = self._by_key.get(key, (None, None))
            if product is not None and of is not None:
                self._retarders[key] = film_retarder(product, of)
            else:
                films = [each.key for each in self.products() if each.kind == "film"]
                generic = {each.key: each for each in retarders()}
                known = dict.fromkeys([*generic, *films])
                self._retarders[key] = generic[key] if key in generic else absent(known, key, "film", "retarders")
        return self._retarders[key]

    def retarders(self) -> tuple[Retarder, ...]:
        """Every vapour retarder that a brief can name: films of the lines, then the generic ones."""
        from .retarders import retarders

        films = [each.key for each in self.products() if each.kind == "film"]
        return tuple(self._workable_films([*films, *(each.key for each in retarders())]))

    def _workable_films(self, keys: Sequence[str]) -> Iterator[Retarder]:
        for key in keys:
            try:
                yield self.retarder(key)
            except Mistake:
                continue

    @property
    def _flat(self) -> list[str]:
        return [product.key for product in self.products() if product.kind in FLAT]

    def boards(self) -> tuple[Board, ...]:
        """Every board whose records are enough to work with: products first, then the standard classes."""
        return tuple(self._workable([*self._flat, *_class_keys()]))

    def _workable(self, keys: Sequence[str]) -> Iterator[Board]:
        for key in keys:
            try:
                yield self.board(key)
            except Mistake:
                continue

    def notes(self) -> tuple[str, ...]:
        """What is to be said wherever own lines are in hand."""
        return tuple(self._note(of) for of in self.own)

    def _note(self, of: OfMaker) -> str:
        shipped = {product.key: product for product in _shipped_line().line.product}
        taken = [product.key for product in of.line.product if product.key in shipped]
        number = f"{len(of.line.product)} product" + ("s" if len(of.line.product) != 1 else "")
        stand = "stands" if len(of.line.product) == 1 else "stand"
        beside = "in place of the line" if of.line.stands_alone else "beside the line"
        said = (
            f"{number} of {of.line.maker.name} ({OWN}/{Path(of.file).name}) {stand} {beside} that comes with the tool."
        )
        if taken and not of.line.stands_alone:
            verb = "takes" if len(taken) == 1 else "take"
            said += f" Of the same key, {', '.join(taken)} there {verb} the place of the tool's own."
        return said


def _class_keys() -> list[str]:
    from .boards import class_keys

    return class_keys()


def today() -> datetime.date:
    """The day of the clock."""
    return datetime.date.today()


@cache
def _shipped_line() -> OfMaker:
    from .line_file import line_text, read_line

    text = line_text(SHIPPED)
    return OfMaker(read_line(text, str(SHIPPED)), source("marlpit"), SHIPPED.name, text)


def shipped_products() -> Products:
    """The line that comes with the tool, held to the day of the clock; read on first use."""
    return _shipped_on(today())


@cache
def _shipped_on(day: datetime.date) -> Products:
    return Products(day=day)


def products_beside(folder: Path, day: datetime.date | None = None) -> Products:
    """The products that a brief in this folder can name.

    Parameters
    ----------
    folder : Path
        Folder of the brief. A folder ``catalogue`` in it holds the user's own lines, one TOML file each.
    day : date, optional
        The day that certificates are held to; today unless it is given.

    Raises
    ------
    Mistakes
        A line that cannot be read, with file and line, a folder that holds a line as a table only, two products of
        one key.
    """
    from .line_file import TABLES

    beside = folder / OWN
    held = {each.suffix.lower() for each in beside.iterdir()} if beside.is_dir() else set()
    if held.isdisjoint((".toml", *TABLES)):
        return _shipped_on(day or today())
    return Products(own_lines(beside), day or today())


def own_lines(path: Path) -> tuple[OfMaker, ...]:
    """The lines in a file or a folder.

    Raises
    ------
    Mistakes
        As `products_beside`.
    """
    from .line_file import lines_in, read_line

    found: list[OfMaker] = []
    wrong: list[Mistake] = []
    for file, text in lines_in(path).items():
        try:
            line = read_line(text, file)
        except Mistakes as mistakes:
            wrong += mistakes
            continue
        found.append(OfMaker(line, _source(line, file), file, text))
    wrong += _twice(found)
    if wrong:
        raise Mistakes(wrong)
    return tuple(found)


def _source(line: Line, file: str) -> Source:
    years = [row.date.year for product in line.product for row in product.evidence if row.date is not None]
    name = Path(file).name
    title = f"{line.maker.name}: test records as typed in {name}"
    return Source(f"own-{Path(file).stem}", title, line.maker.name, max(years, default=0), "quoted")


def _twice(lines: Sequence[OfMaker]) -> Iterator[Mistake]:
    """Two products of one key, or one with the key of a class: a brief could mean either."""
    from .belonging import unsuited
    from .line_file import heads

    known: dict[str, str] = dict.fromkeys(_class_keys(), "a class of a standard")
    known |= dict.fromkeys((each.key for each in unsuited()), "a kind of board that does not belong below slabs")
    for of in lines:
        rows = sum(len(product.evidence) for product in of.line.product)
        at, _ = heads(of.text, len(of.line.product), rows)
        for n, product in enumerate(of.line.product):
            if product.key in known:
                wrong = f"{product.key} is {known[product.key]} already, so a brief could mean either."
                line = at[n] if at else 0
                yield Mistake(f"product.{n + 1}.key", f'"{product.key}"', wrong, "Give it its own key.", of.file, line)
            known.setdefault(product.key, f"a product of {Path(of.file).name}")
