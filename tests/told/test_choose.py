"""What `choose` says: one recommendation, its reasons, and JSON that its schema holds."""

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from underpour.brief import read
from underpour.choosing import Choice, choose
from underpour.choosing.choice_json import as_json
from underpour.cli.choice_text import choice_text

ROOT = Path(__file__).parents[2]
SCHEMA = json.loads((ROOT / "schema" / "choice.schema.json").read_text("utf-8"))


@pytest.fixture(scope="module")
def workshop() -> Choice:
    return choose(read(ROOT / "examples" / "frost-wall-workshop" / "brief.toml"))


def test_the_recommendation_stands_first_and_holds_in_a_whole_answer(workshop: Choice) -> None:
    best = workshop.recommended
    assert best is not None and best is workshop.rows[0] and best.rank == 1
    assert best.confirmed and not [each for each in best.findings if each.verdict == "falls short"]
    assert workshop.says[0] == f"Take {best.name}."


def test_what_serves_stands_in_order_of_its_cost(workshop: Choice) -> None:
    ranked = [row for row in workshop.rows if row.rank is not None]
    costs = [row.first.amount for row in ranked if row.first is not None]
    assert [row.rank for row in ranked] == list(range(1, 11))
    assert len(costs) == 10 and costs == sorted(costs)


def test_no_foam_and_the_brief_itself_always_stand_in_the_table(workshop: Choice) -> None:
    for role in ("no foam", "as briefed"):
        row = workshop.with_role(role)
        assert row is not None and row.confirmed and row.refusals  # both are too cold at the wall in this brief


def test_every_refused_way_names_a_finding(workshop: Choice) -> None:
    assert workshop.refused
    for row in workshop.refused:
        assert row.refusals and all(each.id and each.title for each in row.refusals)


def test_bounds_are_counted_once_each(workshop: Choice) -> None:
    assert workshop.candidates > 5000
    assert sum(each.count for each in workshop.bounds) == workshop.put_aside < workshop.candidates
    assert {"product.belongs", "height.depth"} <= {each.id for each in workshop.bounds}


def test_its_json_is_what_the_schema_says(workshop: Choice) -> None:
    Draft202012Validator.check_schema(SCHEMA)
    told = json.loads(as_json(workshop))
    Draft202012Validator(SCHEMA).validate(told)
    assert told["rows"][0]["set"]["floor.build-up"]


def test_the_text_says_what_it_is_not(workshop: Choice) -> None:
    text = choice_text(workshop, 80)
    assert max(map(len, text.splitlines())) <= 80
    assert "A recommendation is not a design." in text
    assert "5,164 ways were looked at" in text
