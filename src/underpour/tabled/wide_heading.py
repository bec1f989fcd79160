"""The heading of a wide table: which column holds what, and which of ours a heading of somebody's own may mean."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path

from ..catalogue.properties import Property, kinds_of, methods_in, properties
from ..mistakes import Mistake, nearest
from .cells import UNSEEN_SIGN, Formula, is_empty, shown
from .columns import KEY, LINE, PRODUCT, ROW, row_kinds
from .sheets import Sheet

USUAL = Path(__file__).with_name("usual-headings.toml")
IN_BRACKETS = r"(?:\[\s*(?P<square>[^\]]*?)\s*\]|\(\s*(?P<round>.*)\s*\))"
TEST = re.compile(rf"(?P<property>[a-z0-9-]+[A-Z]?)\s*{IN_BRACKETS}\s*,?\s*(?P<method>.*)")
OF_TEST = re.compile(r"(\S+?)(?:\s+(.+?))?\.([a-z-]+(?:\.[a-z-]+)?)")
SAID_BY_HEADING = ("property", "value", "unit")
MADE, EDGES, EVIDENCE = "made", "edges", "evidence"
HOW = "A test is headed by its property, unit and test: strength [psi] ASTM D1621."


@dataclass(frozen=True)
class Test:
    """A column that holds the numbers of one test."""

    at: int
    property: str
    unit: str
    method: str  # "" where a column says it


@dataclass
class Headings:
    """What each column holds: a word of a kind of row, the numbers of a test, or what is said of tests."""

    words: dict[str, dict[str, int]] = field(default_factory=lambda: {kind: {} for kind in row_kinds()})
    tests: list[Test] = field(default_factory=list)
    of_tests: dict[tuple[str, str], dict[str, int]] = field(default_factory=dict)  # by property and test
    typed: dict[int, str] = field(default_factory=dict)
    wrong: list[tuple[int, Mistake]] = field(default_factory=list)


def headings_of(sheet: Sheet) -> Headings:
    """What each column of a wide table holds; what cannot be read of its first row is told and left out."""
    found = Headings()
    for at, cell in enumerate(sheet.rows[0][1]):
        if is_empty(cell):
            below = [number for number, cells in sheet.rows[1:] if at < len(cells) and not is_empty(cells[at])]
            if below:
                wrong = f"This column has no heading, and row {below[0]} says something in it."
                found.wrong.append((at, Mistake("", "", wrong, "Write its heading, or take the column out.")))
            continue
        if isinstance(cell, Formula) or not isinstance(cell, str):
            found.wrong.append((at, Mistake("", shown(cell), "A heading is a word.", HOW)))
            continue
        typed = UNSEEN_SIGN.sub(" ", cell).strip()
        found.typed[at] = typed
        mistake = _take(found, at, typed)
        if mistake:
            found.wrong.append((at, replace(mistake, typed=shown(cell))))
    _whole(found, len(sheet.rows[0][1]))
    return found


def _take(found: Headings, at: int, typed: str) -> Mistake | None:
    """Put a column where it belongs, or say what is wrong with its heading."""
    if typed == ROW:
        return Mistake("", "", "This table says of each row what it is, so it is no wide one.", "Leave out --wide.")
    word = _word(typed)
    if word is not None:
        kind, name = word
        if name in found.words[kind]:
            return Mistake("", "", f"Two columns have the heading {typed}.", "Leave one of them.")
        found.words[kind][name] = at
        return None
    test = TEST.fullmatch(typed)
    if test and test["property"] in properties():
        return _take_test(found, Test(at, test["property"], _unit(test), test["method"].strip()))
    of_test = OF_TEST.fullmatch(typed)
    if of_test and of_test[1] in properties():
        return _take_of_test(found, at, of_test[1], of_test[2] or "", of_test[3])
    return _unknown(typed)


def _word(typed: str) -> tuple[str, str] | None:
    """The kind of row and the column that a heading names; a product goes before what is made, that before a test."""
    if typed == KEY:
        return PRODUCT, KEY
    kinds = row_kinds()
    if typed.startswith("edges.") and typed.removeprefix("edges.") in kinds[EDGES].columns:
        return EDGES, typed.removeprefix("edges.")
    for kind in (PRODUCT, LINE, MADE, EVIDENCE):
        if typed in kinds[kind].columns and typed not in SAID_BY_HEADING:
            return (MADE if typed == "price" else kind), typed
    return None


def _unit(bracketed: re.Match[str]) -> str:
    return (bracketed["square"] or bracketed["round"] or "").strip()


def _take_test(found: Headings, test: Test) -> Mistake | None:
    if not test.unit:
        units = properties()[test.property].usual_units
        return Mistake("", "", "No unit stands in the brackets.", f"Write the unit of the reports, such as {units}.")
    if not kinds_of(test.unit):
        units = properties()[test.property].usual_units
        return Mistake("", "", f"No unit is written {test.unit}.", f"Write the unit of the reports, such as {units}.")
    if any((each.property, each.unit, each.method) == (test.property, test.unit, test.method) for each in found.tests):
        return Mistake("", "", "Two columns have this heading.", "Leave one of them.")
    found.tests.append(test)
    return None


def _take_of_test(found: Headings, at: int, name: str, method: str, word: str) -> Mistake | None:
    columns = row_kinds()[EVIDENCE].columns
    if word in SAID_BY_HEADING or word not in columns:
        own = [each for each in columns if each not in SAID_BY_HEADING]
        near = nearest(word, own)
        hint = HOW if word in SAID_BY_HEADING else f"The nearest is {near[0]}." if near else f"Such as {name}.date."
        return Mistake("", "", f"A test says nothing that is called {word}.", hint)
    here = found.of_tests.setdefault((name, method), {})
    if word in here:
        return Mistake("", "", "Two columns have this heading.", "Leave one of them.")
    here[word] = at
    return None


def _unknown(typed: str) -> Mistake:
    """A heading of somebody's own: which of ours may be meant, by its words."""
    bare = re.split(r"[\[(,]", typed, maxsplit=1)[0].strip()
    bracketed = re.search(IN_BRACKETS, typed)
    unit = _unit(bracketed) if bracketed else ""
    told = f"No column is called {typed.rstrip('.')}."
    meant = _meant(bare)
    if meant in properties():
        return Mistake("", "", told, _as_a_test(properties()[meant], unit, methods_in(typed)))
    if meant:
        kinds = row_kinds().values()
        example = "plain-15" if meant == KEY else next(k.columns[meant].example for k in kinds if meant in k.columns)
        shown_so = f", its cells like {example}" if example else ""
        return Mistake("", "", told, f"Is it {meant}? Write {meant}{shown_so}.")
    return Mistake("", "", told, f"Take the column out, or write one of ours (docs/products.md). {HOW}")


def _as_a_test(of: Property, unit: str, tests: Sequence[str]) -> str:
    """How a column of this property is headed; a test that nobody typed is an example and no more."""
    fitting = next((each for each in tests if each in of.methods), "")
    usual = of.usual_units.split(" or ")
    measured = unit if kinds_of(unit) else usual[-1 if (fitting or of.methods[0]).startswith("ASTM") else 0]
    said = "" if of.printed == of.key else f" ({of.printed})"
    head = f"Is it {of.key}{said}? Write {of.key} [{measured}]"
    return f"{head} {fitting}." if fitting else f"{head} and the test of its report, such as {of.methods[0]}."


def _meant(words: str) -> str:
    """The column or the property that words may mean: by the trade's names for it, or by what looks like it."""
    names = {each.name.casefold(): key for key, each in properties().items()}
    names |= {key.replace("-", " "): key for key in properties()}
    kinds = row_kinds()
    names |= {name.replace("-", " "): name for kind in (PRODUCT, LINE, MADE) for name in kinds[kind].columns}
    names |= usual_headings()
    folded = re.sub(r"[ _-]+", " ", words).casefold()
    if folded in names:
        return names[folded]
    near = nearest(folded, names)
    return names[near[0]] if near else ""


@cache
def usual_headings() -> dict[str, str]:
    """Headings that are common in lists of products, each with the column or property that it means."""
    listed = tomllib.loads(USUAL.read_text("utf-8"))["heading"]
    return {word: key for key, words in listed.items() for word in words}


def _whole(found: Headings, end: int) -> None:
    """What no wide table stands without, and columns of tests that belong to none or to several."""
    needed = ((PRODUCT, KEY, "plain-15"), (PRODUCT, "kind", "board"), (LINE, "maker.name", "A maker"))
    for n, (kind, name, example) in enumerate(needed):
        meant = any(f"Write {name}" in mistake.instead for _, mistake in found.wrong)
        if name not in found.words[kind] and not meant:
            found.wrong.append((end + n, Mistake("", "", f"There is no column {name}.", f"For example: {example}")))
    for (name, method), columns in found.of_tests.items():
        fits = [test for test in found.tests if test.property == name and (not method or test.method == method)]
        first = min(columns.values())
        meant = any(name in str(found.typed.get(at, "")).split(" ") for at, _ in found.wrong)
        if not fits and not meant:
            wrong = f"No column holds the numbers of {f'{name} {method}'.strip()}."
            found.wrong.append((first, Mistake("", shown(found.typed[first]), wrong, HOW)))
        if len(fits) > 1:
            wrong = f"{len(fits)} columns hold numbers of {name}, and this does not say of which it is."
            word = next(iter(columns))
            instead = " or ".join(f"{name} {test.method}.{word}" for test in fits)
            found.wrong.append((first, Mistake("", shown(found.typed[first]), wrong, f"Write {instead}.")))
