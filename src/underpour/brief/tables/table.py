"""What every table of the brief is, and how its keys carry their help."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel, ConfigDict, Field


class Table(BaseModel):
    """A table of the brief: strict, frozen, keys written with hyphens."""

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        defer_build=True,
        arbitrary_types_allowed=True,
        alias_generator=lambda name: name.rstrip("_").replace("_", "-"),
    )


def key(help: str, *examples: object, **more: Any) -> Any:
    """One key of a table: its help text and how it may be written."""
    return Field(description=help, examples=list(examples) or None, **more)
