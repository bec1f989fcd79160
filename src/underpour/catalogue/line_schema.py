"""The JSON Schema of a product line, for editors; ``python -m underpour.catalogue.line_schema`` writes it down."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from .line import Line

DIALECT = "https://json-schema.org/draft/2020-12/schema"
PLACE = Path("schema") / "line.schema.json"


def schema() -> dict[str, Any]:
    """The schema as an object: every key with its help, its examples, and the measures as texts."""
    made = Line.model_json_schema(mode="validation", by_alias=True)
    made = {"$schema": DIALECT, **made, "title": "A product line of underpour"}
    for part in (made, *made.get("$defs", {}).values()):
        for key, entry in part.get("properties", {}).items():
            if entry.get("default", 0) in (None, {}):
                del entry["default"]
            if "anyOf" in entry:  # TOML has no null to write
                typed = [branch for branch in entry.pop("anyOf") if branch != {"type": "null"}]
                entry.update(typed[0] if len(typed) == 1 else {"anyOf": typed})
            entry["title"] = key
    return made


def text() -> str:
    """The schema as it stands in the repository."""
    return json.dumps(schema(), indent=2, ensure_ascii=False, default=str) + "\n"


if __name__ == "__main__":
    PLACE.parent.mkdir(exist_ok=True)
    PLACE.write_text(text(), "utf-8")
