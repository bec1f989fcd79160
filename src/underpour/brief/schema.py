"""The JSON Schema of a brief, for editors; ``python -m underpour.brief.schema`` writes it into the repository."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from .model import Brief

DIALECT = "https://json-schema.org/draft/2020-12/schema"
PLACE = Path("schema") / "brief.schema.json"


def schema() -> dict[str, Any]:
    """The schema as an object: every key with its help, its examples, and the measures as texts."""
    made = Brief.model_json_schema(mode="validation", by_alias=True)
    made = {"$schema": DIALECT, **made, "title": "A brief of underpour"}
    _as_typed(made)
    return made


def text() -> str:
    """The schema as it stands in the repository."""
    return json.dumps(schema(), indent=2, ensure_ascii=False) + "\n"


def _as_typed(table: dict[str, Any]) -> None:
    """Keys are titled by their own name; what may be left out is left out, for TOML has no null to write."""
    for part in (table, *table.get("$defs", {}).values()):
        for key, entry in part.get("properties", {}).items():
            if entry.get("default", 0) is None:
                del entry["default"]
            if "anyOf" in entry:
                (typed,) = (branch for branch in entry.pop("anyOf") if branch != {"type": "null"})
                entry.update({name: value for name, value in typed.items() if name not in entry})
            entry["title"] = key


if __name__ == "__main__":
    PLACE.parent.mkdir(exist_ok=True)
    PLACE.write_text(text(), "utf-8")
