"""The schema that editors read says what the reader says."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import jsonschema
import pytest

from underpour.brief import schema
from underpour.brief.later import _laid_down
from underpour.brief.model import fields

ROOT = Path(__file__).parents[2]


def test_the_committed_schema_is_fresh() -> None:
    told = "Write it again: python -m underpour.brief.schema"
    assert (ROOT / schema.PLACE).read_text("utf-8") == schema.text(), told


def test_the_schema_is_one_and_the_demo_brief_keeps_to_it() -> None:
    made = json.loads(schema.text())
    jsonschema.Draft202012Validator.check_schema(made)
    brief = tomllib.loads((Path(__file__).parent / "briefs" / "daylight.toml").read_text("utf-8"))
    jsonschema.Draft202012Validator(made).validate(brief)


@pytest.mark.parametrize("path", fields())
def test_every_key_has_a_help_text(path: str) -> None:
    description = fields()[path][1].description
    assert description is not None
    assert description.endswith(".")


def test_no_key_is_both_answered_and_laid_down_for_later() -> None:
    later = {f"{table}.{key}".removeprefix("brief.") for table, keys in _laid_down()["keys"].items() for key in keys}
    assert not later & set(fields())
