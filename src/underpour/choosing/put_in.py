"""The ways of a choice that are worth a look, written into the brief's text as alternatives."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from ..brief.alternatives import AS_BRIEFED
from ..brief.retyped import Change, as_text, retyped
from ..mistakes import Mistake, Mistakes
from ..toml_text import read_toml
from .records import Choice, Role, Row

NAMES: dict[Role, str] = {  # what is put in, in this order, and what it is called
    "recommended": "recommended",
    "cheapest that meets code": "cheapest that meets code",
    "least height": "least height",
    "no foam": "bare slab",
}
MARK = "chosen; choosing again puts another in its place, unless this remark is taken out"
_HEADING = re.compile(r"^[ \t]*\[\[[ \t]*alternative[ \t]*\]\][ \t]*(?:# ?(?P<remark>.*?))?\r?$", re.M)
_ITS_OWN = re.compile(rf"\n*^\[\[alternative\]\] # {re.escape(MARK)}\n(?:[^\n]+\n?)*", re.M)


@dataclass(frozen=True, slots=True)
class Alternative:
    """One that was put in."""

    name: str
    row: str  # what it is: the row's own name


@dataclass(frozen=True, slots=True)
class PutIn:
    """A brief's text with a choice in it, and what became of the alternatives that stood there."""

    text: str
    alternatives: tuple[Alternative, ...]
    as_briefed: tuple[str, ...]  # what the brief itself is already, and so was not put in again
    stay: tuple[str, ...]  # names of those that stood there, and stand there still
    replaced: tuple[str, ...]  # names of those that an earlier choice had put in, and that went


def put_in(text: str, choice: Choice) -> PutIn:
    """The brief's text with the winner, the cheapest that meets the code, the least height and the bare slab in it.

    Each is an ``[[alternative]]`` at the end of the text with a remark behind its heading. Those that bear that remark
    from an earlier choice make room; any other stays as it is, and a name that is taken is counted on.

    Parameters
    ----------
    text : str
        The brief that the choice was made for.
    choice : Choice
        What was chosen.

    Raises
    ------
    Mistake, Mistakes
        The text is no TOML, or one of its alternatives is written in a way that cannot be added to.
    """
    before = _names(text)
    old = _chosen_before(text, len(before))
    cleared = _without(text, old)
    stay = tuple(name for n, name in enumerate(before) if n not in old)
    made: list[tuple[Alternative, Row]] = []
    as_briefed: list[str] = []
    for row, said in _rows(choice):
        if not row.changes:
            as_briefed.append(said)
            continue
        name = _free(said, (*stay, *(each.name for each, _ in made), AS_BRIEFED))
        made.append((Alternative(name, row.name), row))
    return PutIn(
        _added(cleared, made),
        tuple(each for each, _ in made),
        tuple(as_briefed),
        stay,
        tuple(before[n] for n in old),
    )


def _rows(choice: Choice) -> list[tuple[Row, str]]:
    """Each row that has one of the roles, once, with the words for all of its roles."""
    words: dict[int, list[str]] = {}
    rows: dict[int, Row] = {}
    for role, said in NAMES.items():
        row = choice.with_role(role)
        if row is not None:
            rows[id(row)] = row
            words.setdefault(id(row), []).append(said)
    return [(row, ", ".join(words[key])) for key, row in rows.items()]


def _names(text: str) -> list[str]:
    listed = read_toml(text, "").get("alternative", [])
    tables = listed if isinstance(listed, list) else []
    return [str(each.get("name", "")) if isinstance(each, dict) else "" for each in tables]


def _chosen_before(text: str, many: int) -> list[int]:
    """Which of so many alternatives, from nought, an earlier choice put in and nobody has made his own."""
    remarks = [found["remark"] for found in _HEADING.finditer(text)]
    return [n for n, remark in enumerate(remarks) if remark == MARK] if len(remarks) == many else []


def _without(text: str, old: Sequence[int]) -> str:
    """The text without these. Each ends where a line is empty, so that a comment on what follows stays with that."""
    wanted = tomllib.loads(text)
    wanted["alternative"] = [each for n, each in enumerate(wanted.get("alternative", [])) if n not in old]
    if not wanted["alternative"]:
        del wanted["alternative"]
    cut = _ITS_OWN.sub("", text)
    if not old or tomllib.loads(cut) == wanted:
        return cut if old else text
    return retyped(text, [Change(f"alternative.{n + 1}", None, "left out") for n in reversed(old)])


def _free(name: str, taken: Iterable[str]) -> str:
    names = set(taken)
    return next(each for n in range(1, len(names) + 2) if (each := name if n == 1 else f"{name}, {n}") not in names)


def _added(text: str, made: Sequence[tuple[Alternative, Row]]) -> str:
    if not made:
        return text
    tables = [{"name": each.name, "set": _plain(dict(row.changes))} for each, row in made]
    new = text.rstrip("\n") + "\n" + "".join(f"\n{_table(each)}" for each in tables)
    wanted = tomllib.loads(text)
    wanted["alternative"] = [*wanted.get("alternative", []), *tables]
    try:
        if tomllib.loads(new) == wanted:
            return new
    except tomllib.TOMLDecodeError:  # a list of alternatives on one line takes no table with a heading
        pass
    try:
        return retyped(text, [Change("alternative", each, "added") for each in tables])
    except Mistakes:
        wrong = "The alternatives of this brief are written in a way that cannot be added to from here."
        raise Mistakes([Mistake("alternative", "", wrong, "Write each under a heading [[alternative]].")]) from None


def _plain(value: Any) -> Any:
    """Data as a TOML file holds it: lists for tuples."""
    if isinstance(value, dict):
        return {key: _plain(held) for key, held in value.items()}
    return [_plain(each) for each in value] if isinstance(value, list | tuple) else value


def _table(of: dict[str, Any]) -> str:
    """One alternative, each layer on a line of its own."""
    lines = [f"[[alternative]] # {MARK}", f"name = {as_text(of['name'])}", "[alternative.set]"]
    for path, value in of["set"].items():
        lines.append(f"{as_text(path)} = {_listed(value)}")
    return "\n".join(lines) + "\n"


def _listed(value: Any) -> str:
    if isinstance(value, list) and len(value) > 1:
        return "[\n" + "".join(f"  {as_text(each)},\n" for each in value) + "]"
    return as_text(value)
