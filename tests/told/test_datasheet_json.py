"""What ``datasheet --keep`` writes down: the same numbers as the record, in a form that a schema holds."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest
from test_product_pages import HOSTILE, KEYS, in_words_on, line

from product_lines import TODAY
from underpour.particulars import sheet

SCHEMA = json.loads((Path(__file__).parents[2] / "schema" / "datasheet.schema.json").read_text("utf-8"))


@pytest.mark.parametrize("key", [*KEYS, *HOSTILE])
def test_a_kept_sheet_is_of_its_schema(key):
    told = json.loads(json.dumps(sheet(line()[key], prices=True)))
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    jsonschema.validate(told, SCHEMA)


def test_the_schema_refuses_what_no_sheet_says():
    told = json.loads(json.dumps(sheet(in_words_on(TODAY)["plain-15"])))
    for spoilt in ({"mark": "abc"}, {"format": "datasheet/2"}, {"figures": [{"record": "4"}]}, {"more": 1}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate({**told, **spoilt}, SCHEMA)


def test_each_figure_is_the_record_at_its_number():
    of = in_words_on(TODAY)["knob-15"]
    for figure in sheet(of)["figures"]:
        row = of.product.evidence[figure["record"] - 1]
        assert figure["value"].startswith(f"{row.value:.10g}")
        assert (figure["certificate"], figure["date"], figure["expires"]) == (
            row.certificate,
            str(row.date),
            str(row.expires),
        )
