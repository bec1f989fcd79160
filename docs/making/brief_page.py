"""Writes docs/brief.md, every key of the brief, from the help texts of its model.

.venv/bin/python docs/making/brief_page.py
"""

import inspect
import json
from collections.abc import Iterator
from pathlib import Path

from pydantic.fields import FieldInfo

from underpour.brief import model
from underpour.brief.tables.table import Table

PAGE = Path(__file__).parents[1] / "brief.md"

HEAD = """\
# The brief

The one file that says what is asked: what the floor is for, where it is poured, what lies under it and how its
edges are made. It is TOML: a heading in brackets, then a key and its words on each line. Measures are written as
the trade writes them, always with their unit: `"2 in"`, `"50 mm"`, `"R10"`, `"-20 F"`. What is left out and has a
usual value is assumed, and the answer lists it as assumed. A key that is not on this page is sent back with the
nearest one that is.

Lists are counted from 1 where a key is named in a message or an alternative: `floor.build-up.2.thickness` is the
thickness of the second layer. Edges are lettered A, B, C in the order of the file, or called by their `name`.

The plan is the floor seen from above. Corners stand in order round it, either way; side 3 goes from corner 3 to
corner 4. Behind a corner stands the arc that begins there, if one does: `"14 0 rise 4"` bows out by 4 in the middle,
`rise -4` bows in, `"14 0 radius 6.5"` is the shorter arc of that radius, `"14 0 through 20 -4"` goes through that
point, and `"14 0 bulge 0.667"` is the arc as drawing files (DXF) keep it: the tangent of a quarter of its angle,
above nought where it turns left on its way. A round floor is two corners with an arc each. Holes are taken off the
area, and their sides are edges too, `"hole.1.side.2"` or `"hole.1"` for all of them. An edge takes whole sides, sides
by name, and parts of one, counted along the side from the corner where it begins:

```toml
[plan]
unit    = "ft"
outline = ["0 0", "14 0 rise 4", "26 0", "52 0", "52 28", "0 28"]

[[plan.hole]]
outline = ["34 10", "44 10", "44 20", "34 20"]

[[plan.side]]
side = 6
name = "garage wall"

[[edge]]
sides  = ["garage wall", { side = 4, from = "12 ft", to = "15 ft 6 in" }]
kind   = "raft"
beside = "unheated"
```

Every point of the outline and of each hole has exactly one edge; a stretch that has none, or two, is told. Areas and
lengths are exact, those of arcs too. What stands in the floor (`[[plan.obstacle]]`) is counted as floor.

This page is made from the program's own help texts by `docs/making/brief_page.py`.
"""


def page() -> str:
    """The whole page."""
    return "\n".join([HEAD, *tables()])


def tables() -> Iterator[str]:
    """One table of keys for each table of the brief; one that stands in several places comes once."""
    places: dict[type[Table], list[str]] = {}
    for path, (table, _) in model.fields().items():
        places.setdefault(table, [])
        place = path.rpartition(".")[0]
        if place not in places[table]:
            places[table].append(place)
    for table, names in places.items():
        if table is not model.Brief:
            yield one_table(table, names)


def one_table(table: type[Table], places: list[str]) -> str:
    heads = ", ".join(f"`{place}`" for place in places)
    lines = [
        f"## {heads}",
        "",
        inspect.cleandoc(table.__doc__ or ""),
        "",
        "| key | what it says | for example |",
        "| --- | --- | --- |",
    ]
    for field in table.model_fields.values():
        needed = "" if not field.is_required() else " Needed."
        lines.append(f"| `{field.alias}` | {(field.description or '').replace('|', '¦')}{needed} | {examples(field)} |")
    return "\n".join([*lines, ""])


def examples(field: FieldInfo) -> str:
    return ", ".join(f"`{toml(example)}`" for example in field.examples or [])


def toml(value: object) -> str:
    """A value as it is typed in the file."""
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key_typed(key)} = {toml(inner)}" for key, inner in value.items()) + " }"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(map(toml, value)) + "]"
    return json.dumps(value, ensure_ascii=False)


def key_typed(key: str) -> str:
    return key if key.replace("-", "").isalnum() else json.dumps(key)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
