"""What `choose` says: one recommendation, its reasons, and JSON that its schema holds."""

import json
import re
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from underpour.brief import read
from underpour.choosing import Choice, choose
from underpour.choosing.choice_json import as_json
from underpour.cli import main
from underpour.cli.choice_text import choice_text
from underpour.mistakes import Mistakes

ROOT = Path(__file__).parents[2]
SCHEMA = json.loads((ROOT / "schema" / "choice.schema.json").read_text("utf-8"))


@pytest.fixture(scope="module")
def workshop() -> Choice:
    return choose(read(ROOT / "examples" / "frost-wall-workshop" / "brief.toml"))


def test_the_recommendation_stands_first_and_holds_in_a_whole_answer(workshop: Choice) -> None:
    best = workshop.recommended
    assert best is not None and best is workshop.rows[0] and best.rank == 1
    assert (
        best.serves
        and workshop.serves
        and best.confirmed
        and not [each for each in best.findings if each.verdict == "falls short"]
    )
    assert workshop.says[0] == f"Take {best.name}. It is held to no code, for the brief names none (project.code)."


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
    assert workshop.candidates == 4660
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
    assert "4,660 ways were looked at" in text


def test_the_price_that_would_let_the_second_win_does(workshop: Choice, tmp_path: Path) -> None:
    """The product's record with a price just below the one that is told, in a line beside the brief; then it wins."""
    change = next(each for each in workshop.to_win if each.what == "price")
    first, second = workshop.recommended, workshop.runner_up
    assert first is not None and second is not None and change.then < change.now
    _, key, _, typed, _ = change.path.split(".")
    line = (ROOT / "src" / "underpour" / "catalogue" / "marlpit.toml").read_text("utf-8")
    at = line.index(f'key = "{key}"')
    row = line.index(f'{{ thickness = "{typed}"', at)
    end = line.index("}", row)
    old = line[row:end]
    cheaper = re.sub(r'price = "[^"]*"', f'price = "{change.then * 0.999:.6f} USD/m²"', old)
    (tmp_path / "catalogue").mkdir()
    alone = line[:row] + cheaper + line[end:]
    (tmp_path / "catalogue" / "own.toml").write_text(f"stands-alone = true\n{alone}", "utf-8")
    brief = (ROOT / "examples" / "frost-wall-workshop" / "brief.toml").read_text("utf-8")
    (tmp_path / "brief.toml").write_text(brief, "utf-8")
    now = choose(read(tmp_path / "brief.toml"))
    assert now.recommended is not None and now.recommended.changes == second.changes
    assert now.runner_up is not None and now.runner_up.changes == first.changes


BAD = [
    ('boards = ["plian-15"]', "choose.boards.1", "plain-15"),
    ('foams = ["EPX"]', "choose.foams.1", "EPS"),
    ('foams = ["XPS"]\nboards = ["plain-15"]', "choose", "no board of the lines is all of that"),
    ("layers = 3", "choose.layers", "1 or 2"),
    ('least-by = "cheapest"', "choose.least-by", "first cost"),
    ('least-by = "life-cycle cost"', "choose.least-by", "Nothing says what heat costs"),
    ('details = ["wraped"]', "choose.details.1", "slab-edge"),
    (
        'on-hand = [{ board = "plain-25", thickness = "7 in", area = "900 ft²" }]',
        "choose.on-hand.1.thickness",
        "not made",
    ),
    ('on-hand = [{ board = "plain-25", thickness = "2 in", area = "900" }]', "choose.on-hand.1.area", "of what"),
    (
        'boards = ["plain-15"]\non-hand = [{ board = "plain-25", thickness = "2 in", area = "900 ft²" }]',
        "choose.on-hand.1.board",
        "does not let it be taken",
    ),
    ('board = ["plain-15"]', "choose.board", "boards"),
]


@pytest.mark.parametrize(("typed", "at", "says"), BAD)
def test_a_choose_that_cannot_be_is_told_with_its_place(typed: str, at: str, says: str, tmp_path: Path) -> None:
    brief = (ROOT / "examples" / "frost-wall-workshop" / "brief.toml").read_text("utf-8")
    path = tmp_path / "brief.toml"
    path.write_text(f"{brief}\n[choose]\n{typed}\n", "utf-8")
    with pytest.raises(Mistakes) as told:
        choose(read(path))
    (mistake,) = told.value
    assert mistake.at == at and mistake.line > brief.count("\n")
    assert says in f"{mistake.wrong} {mistake.instead}"


FEW = 'boards = ["plain-15"]\nlayers = 1\ndetails = ["none", "outside"]\n'
MONEY = '[money]\ncurrency = "USD"\ndate = "2026-11-01"\n'


def written(folder: Path, more: str) -> Path:
    brief = (ROOT / "examples" / "frost-wall-workshop" / "brief.toml").read_text("utf-8")
    path = folder / "brief.toml"
    path.write_text(f"{brief}\n{more}\n", "utf-8")
    return path


def test_what_is_on_hand_is_not_paid_for_again(tmp_path: Path) -> None:
    """Enough of 3 in for the wall: it is then laid at the price of its hours alone, which is nought without [money]."""
    there = 'on-hand = [{ board = "plain-15", thickness = "3 in", area = "2000 ft²" }]\n'
    choice = choose(read(written(tmp_path, f"[choose]\n{FEW}{there}")))
    best = choice.recommended
    assert best is not None and best.edge.startswith("3 in") and best.first is not None and best.first.amount == 0.0
    assert any("On hand, and not paid for again: 2000 ft²" in words for words in choice.searched)


def test_a_budget_that_nothing_keeps_to_is_told_with_the_nearest(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = written(tmp_path, f'{MONEY}budget = "100 USD"\n[choose]\n{FEW}')
    assert main(["choose", str(path)]) == 1
    told = " ".join(capsys.readouterr().out.split())
    assert "No product of the lines in hand can serve here. The nearest is" in told
    assert re.search(r"\d+ by money\.first", told)


def test_the_exit_status_says_whether_something_serves(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = written(tmp_path, f'[choose]\n{FEW}least-by = "height"\n')
    assert main(["choose", str(path)]) == 0
    assert "as the brief asks" in capsys.readouterr().out
    assert main(["choose", str(path.with_name("none.toml"))]) == 2
    assert main(["choose"]) == 2
