"""Products for pages made from records: which are meant, from which line, held to which day."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from ..mistakes import Mistake, Mistakes
from .parsing import unknown_word

if TYPE_CHECKING:
    from ..catalogue.line import Line
    from ..particulars import Particulars


def in_hand(path: str | None, today: datetime.date) -> tuple[Particulars, ...]:
    """Every product of a file or folder, or of the line that comes with the tool, as it is shown on a day.

    Raises
    ------
    Mistakes
        Every file that cannot be read, with file and line.
    """
    from ..conformity import ReadLine, validation
    from ..conformity.rules import rules
    from ..particulars import particulars

    lines = _lines(path)
    found = validation([ReadLine(line, file) for file, line in lines], today, rules())
    products = [(product, line) for _, line in lines for product in line.product]
    return tuple(
        particulars(product, line, held, today, rules())
        for (product, line), held in zip(products, found.products, strict=True)
    )


def _lines(path: str | None) -> list[tuple[str, Line]]:
    from ..catalogue.line_file import lines_in, read_line
    from ..catalogue.products import SHIPPED

    found: list[tuple[str, Line]] = []
    wrong: list[Mistake] = []
    for file, text in lines_in(SHIPPED if path is None else Path(path)).items():
        name = SHIPPED.name if path is None else file
        try:
            found.append((name, read_line(text, name)))
        except Mistakes as mistakes:
            wrong += mistakes
    if wrong:
        raise Mistakes(wrong)
    return found


def one(
    products: Sequence[Particulars], name: str, command: str, also: Iterable[str] = ()
) -> Particulars:
    """The product of that key; a Mistake with the nearest where none has it, or where two have.

    ``also`` are other words that could have been meant.
    """
    same = [each for each in products if each.product.key == name]
    if len(same) > 1:
        files = ", ".join(dict.fromkeys(each.file for each in same))
        wrong = f"{len(same)} products have the key {name} ({files}), so either could be meant."
        raise Mistake(f"{command} {name}", "", wrong, "Give each its own key.")
    if not same:
        keys = [*(each.product.key for each in products), *also]
        wrong, listing = f"No product is called {name}.", "All of them: underpour catalogue list products"
        raise unknown_word(command, name, keys, wrong, listing)
    return same[0]


def system_of(of: Particulars) -> Literal["US", "SI"]:
    """The system that a record is typed in, by its thicknesses and sizes."""
    made = [each.thickness.typed for each in of.product.made]
    typed = " ".join([*made, *(each.typed for each in of.product.sizes)])
    return "SI" if re.search(r"\d ?(mm|cm|m)\b", typed) else "US"


def paper_of(of: Particulars) -> Literal["a4", "us-letter"]:
    """The sheet that goes with that system."""
    return "us-letter" if system_of(of) == "US" else "a4"
