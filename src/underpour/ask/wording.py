"""The words of each question, and the line of the brief that answers it."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from ..measure import System, say
from ..resolve import Resolved
from .questions import Open

_VALUE = re.compile(r"<([a-z-]+)>")


@dataclass(frozen=True, slots=True)
class Wording:
    """How an open input is asked for. Texts of questions.toml."""

    question: str
    look: str
    write: str  # the line to type, "<humidity>" standing for the value of that key beside it
    caution: str = ""
    plausible: Mapping[str, Any] | None = None  # for a missing input: low, high, unit, where
    example: Mapping[str, Any] | None = None  # for a key neither taken nor tried: key, with value and unit or a word
    when_ordered: bool = False  # it is known once a product is chosen: named as open, not asked on the telephone

    @property
    def key(self) -> str:
        """The key that the line writes; the name of the table where it writes one of its own."""
        return self.write.splitlines()[0].strip("[]") if self.own_table else self.write.split("=")[0].strip()

    @property
    def own_table(self) -> bool:
        """Whether what is to be typed is a table of the brief, not a line in one."""
        return self.write.startswith("[[")

    def table(self, path: str) -> str:
        """The table in which the line stands: "edge.A" for "edge.A.footing.width"; "" for one of its own."""
        if self.own_table:
            return ""
        steps = path.split(".")
        last = len(steps) - 1 - steps[::-1].index(self.key)  # an edge may be named as the key is
        return ".".join(steps[:last])

    def place(self, path: str) -> str:
        """The path of the key that the line writes: "edge.A.footing" for "edge.A.footing.width"."""
        return ".".join(filter(None, (self.table(path), self.key)))

    def line(
        self,
        path: str,
        values: Mapping[str, Open],
        typed: Callable[[str], str],
        edges: Sequence[str],
        system: System,
        standing: Mapping[str, str] = MappingProxyType({}),
    ) -> str:
        """The line, with the values that are taken meanwhile; what is missing stands in the middle of its range.

        ``values`` are the open inputs by path; ``typed`` gives the words at a path that is not open, for a table of
        which a part is typed. A table of its own that names an edge is written once for each of ``edges``. "<each>"
        stands for every open input in the table that the line writes, beside what is ``standing`` there already, by
        its key.
        """
        above = path.rpartition(".")[0]

        def word(key: str, edge: str) -> str:
            if key == "edge":
                return edge
            if key == "each":
                return ", ".join(f'{name} = "{said}"' for name, said in {**standing, **dict(opened())}.items())
            if self.example is not None and key == self.example["key"] and "word" in self.example:
                return str(self.example["word"])
            if self.example is not None and key == self.example["key"]:
                return as_typed(self.example["value"], self.example["unit"], system)
            each = values.get(f"{above}.{key}")
            return as_typed(each.middle, each.unit, system) if each is not None else typed(f"{above}.{key}")

        def opened() -> Iterator[tuple[str, str]]:
            for at, each in values.items():
                if at.rpartition(".")[0] == above:
                    if self.example is not None and "word" in self.example:
                        yield at.rpartition(".")[2], str(self.example["word"])
                        continue
                    taken = self.example["value"] if self.example is not None else each.middle
                    unit = self.example["unit"] if self.example is not None else each.unit
                    yield at.rpartition(".")[2], as_typed(taken, unit, system)

        def written(edge: str) -> str:
            return _VALUE.sub(lambda found: word(found[1], edge), self.write)

        return "\n\n".join(map(written, edges)) if "<edge>" in self.write else written("")


def as_typed(value: float, unit: str, system: System) -> str:
    """A value as a person types it in the brief.

    >>> as_typed(-0.2, "m", "SI"), as_typed(20.0, "degC", "US")
    ('-200 mm', '68.0 °F')

    >>> as_typed(44482.0, "N", "SI")
    '44482 N'
    """
    said = re.sub(r"(?<=\d)\s(?=\d{3})", "", say.value(value, unit, system))
    return " ".join(said.replace("\N{MINUS SIGN}", "-").split())


@cache
def wordings() -> dict[str, Wording]:
    """Every row of questions.toml, by the path of its input without letters and numbers."""
    text = (files(__package__) / "questions.toml").read_text(encoding="utf-8")
    return {path: Wording(**row) for path, row in tomllib.loads(text)["question"].items()}


def row_of(path: str, resolved: Resolved) -> str:
    """The row that asks for the input at a path: that of its edge's kind or of an old slab, if there is one."""
    own = pattern(path)
    suffixes = [f"at a {edge.kind}" for edge in resolved.edges if path.startswith(f"{edge.path}.")]
    suffixes += ["above an old slab"] if resolved.on_old_slab else []
    return next((row for suffix in suffixes if (row := f"{own} {suffix}") in wordings()), own)


def pattern(path: str) -> str:
    """The path without the names of edges, the keys of boards and the numbers of lists.

    >>> pattern("edge.door side.footing.width"), pattern("floor.build-up.2.thickness")
    ('edge.footing.width', 'floor.build-up.thickness')
    """
    steps = path.split(".")
    named = {"edge": 1, "foam": 2, "money": 2}.get(steps[0], -1)  # an edge's name, a board's key
    return ".".join(step for n, step in enumerate(steps) if n != named and not step.isdecimal())


def missing_input(path: str, row: str) -> Open:
    """A missing input with the range in which it plausibly lies, where one is known."""
    plausible = wordings()[row].plausible
    if plausible is None:
        return Open(path, None, None, None, "", "", row)
    return Open(path, None, plausible["low"], plausible["high"], plausible["unit"], plausible["where"], row)
