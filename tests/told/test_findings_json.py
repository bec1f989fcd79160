"""The JSON of a dossier against its published schema."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from dossier_cases import AS_BRIEFED, CORNER, DOSSIER, answer
from jsonschema import Draft202012Validator

from underpour import answer_brief, read_brief
from underpour.dossier_json import as_json
from underpour.findings import UNITS

SCHEMA = json.loads((Path(__file__).parents[2] / "schema" / "findings.schema.json").read_text("utf-8"))
EXAMPLE = Path(__file__).parents[2] / "examples" / "daylight-basement" / "brief.toml"
CONTRACT = {"format", "made_by", "title", "assumed", "alternatives"}
CONTRACT_OF_A_FINDING = {"id", "at", "title", "value", "unit", "within", "month", "months", "limit", "sense", "margin"}
CONTRACT_OF_A_FINDING |= {"verdict", "basis", "rests_on", "steps"}


def complaints(text: str) -> list[str]:
    return [error.message for error in Draft202012Validator(SCHEMA).iter_errors(json.loads(text))]


def test_the_schema_is_itself_a_schema():
    Draft202012Validator.check_schema(SCHEMA)


def test_the_json_of_a_dossier_follows_the_schema():
    assert complaints(as_json(DOSSIER)) == []


def test_the_schema_refuses_a_number_written_as_words_and_a_unit_of_its_own():
    text = as_json(DOSSIER)
    assert complaints(text.replace('"value": 13.4', '"value": "13.4"'))
    assert complaints(text.replace('"unit": "degC"', '"unit": "C"'))
    assert complaints(text.replace('"margin": null', '"margin": 1.0'))


def test_every_key_of_the_contract_is_there():
    read = json.loads(as_json(DOSSIER))
    assert read.keys() >= CONTRACT
    assert read["format"] == "findings/1"
    for alternative in read["alternatives"]:
        for finding in alternative["findings"]:
            assert finding.keys() >= CONTRACT_OF_A_FINDING


def test_the_schema_knows_every_unit_of_findings_and_no_other():
    assert set(SCHEMA["$defs"]["finding"]["properties"]["unit"]["enum"]) == UNITS


def test_numbers_come_back_as_they_were():
    corner = json.loads(as_json(DOSSIER))["alternatives"][0]["findings"][0]
    assert (corner["value"], corner["limit"], corner["within"]) == (13.4, 15.0, 0.02)
    assert corner["margin"] == CORNER.margin
    assert corner["months"] == list(CORNER.months)
    assert corner["verdict"] == "falls short"


def test_without_a_limit_limit_sense_and_margin_are_null():
    loss = json.loads(as_json(DOSSIER))["alternatives"][0]["findings"][3]
    assert (loss["limit"], loss["sense"], loss["margin"], loss["verdict"]) == (None, None, None, "stated")


def test_what_is_missing_is_named():
    assert json.loads(as_json(DOSSIER))["alternatives"][0]["findings"][1]["missing"] == "floor.humidity"


def test_letters_beyond_ascii_are_kept():
    assert "W/(m·K)" in as_json(DOSSIER)
    assert "θ" in as_json(DOSSIER)


def test_the_same_dossier_gives_the_same_text():
    again = replace(DOSSIER, alternatives=(answer("as briefed", *AS_BRIEFED.findings), DOSSIER.alternatives[1]))
    assert as_json(again) == as_json(DOSSIER)


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_a_number_that_is_none_is_never_written(value):
    with pytest.raises(ValueError):
        as_json(replace(DOSSIER, alternatives=(answer("as briefed", replace(CORNER, value=value)),)))


@pytest.fixture(scope="module")
def example() -> str:
    return as_json(answer_brief(read_brief(EXAMPLE)))


def test_the_json_of_an_example_follows_the_schema(example):
    assert complaints(example) == []


def test_id_and_at_together_are_unique_in_an_alternative(example):
    for alternative in json.loads(example)["alternatives"]:
        places = [(finding["id"], tuple(sorted(finding["at"].items()))) for finding in alternative["findings"]]
        assert len(places) == len(set(places))
