"""A choice put into the brief's text: what is written, what stays, what makes room."""

import tomllib
from pathlib import Path

import choice_cases as cases
import pytest

from underpour.brief import read
from underpour.brief.retyped import Change, retyped
from underpour.choosing import choose
from underpour.choosing.put_in import MARK, put_in
from underpour.cli import main
from underpour.mistakes import Mistake
from underpour.papers.recommended import recommended

EXAMPLES = Path(__file__).parents[2] / "examples"
WORKSHOP = (EXAMPLES / "frost-wall-workshop" / "brief.toml").read_text("utf-8")
RINK = EXAMPLES / "rink-hall" / "brief.toml"
OWN = '[[alternative]]  # mine\nname = "bare slab"\nremove = ["board"]\n'
BRIEF = f"""\
# the shed
[floor]
build-up = [{{ concrete = "4 in" }}, {{ gravel = "4 in" }}]  # as drawn

[[edge]]
sides = "all"
kind = "free-edge"

{OWN}"""


def alternatives(text: str) -> list[dict]:
    return tomllib.loads(text)["alternative"]


def test_each_role_is_put_in_once_behind_what_the_user_typed_and_named_for_all_that_it_is():
    put = put_in(BRIEF, cases.choice())
    assert put.text.startswith(BRIEF)
    assert [each["name"] for each in alternatives(put.text)] == [
        "bare slab",
        "recommended, cheapest that meets code",
        "bare slab, 2",
    ]
    assert alternatives(put.text)[1]["set"] == {"floor.build-up": cases.BUILD_UP, "edge.A.insulation": []}
    assert put.as_briefed == ("least height",)
    assert put.stay == ("bare slab",)
    assert put.replaced == ()


def test_choosing_again_replaces_what_a_choice_put_in_and_nothing_else():
    once = put_in(BRIEF, cases.choice())
    other = cases.choice(rows=(cases.row("1 in of Grey 15", "recommended", rank=1),))
    twice = put_in(once.text, other)
    assert [each["name"] for each in alternatives(twice.text)] == ["bare slab", "recommended"]
    assert twice.stay == ("bare slab",)
    assert twice.replaced == ("recommended, cheapest that meets code", "bare slab, 2")
    assert OWN in twice.text
    assert put_in(once.text, cases.choice()).text == once.text


def test_one_whose_remark_was_taken_out_is_the_users_own_and_stays():
    once = put_in(BRIEF, cases.choice()).text.replace(f" # {MARK}", "", 1)
    twice = put_in(once, cases.choice())
    assert twice.stay == ("bare slab", "recommended, cheapest that meets code")
    assert "recommended, cheapest that meets code, 2" in [each["name"] for each in alternatives(twice.text)]


def test_what_the_user_puts_behind_a_choice_stays_with_its_comment():
    once = put_in(BRIEF, cases.choice()).text
    mine = '\n# for the owner\n[[alternative]]\nname = "dearer"\nremove = ["gravel"]\n'
    twice = put_in(once + mine, cases.choice())
    assert mine in twice.text
    assert [each["name"] for each in alternatives(twice.text)][:2] == ["bare slab", "dearer"]


def test_alternatives_in_one_list_are_added_to_in_that_list():
    brief = 'alternative = [{ name = "mine", remove = ["gravel"] }]\n' + BRIEF.replace(OWN, "")
    put = put_in(brief, cases.choice())
    assert [each["name"] for each in alternatives(put.text)] == [
        "mine", "recommended, cheapest that meets code", "bare slab",
    ]  # fmt: skip
    assert "# as drawn" in put.text


def test_what_is_put_in_can_be_typed_over_and_taken_out_like_any_other():
    text = put_in(BRIEF, cases.choice()).text
    thicker = retyped(text, [Change("alternative.2.set.floor.build-up.2.thickness", "3 in")])
    assert alternatives(thicker)[1]["set"]["floor.build-up"][1]["thickness"] == "3 in"
    assert len(alternatives(retyped(text, [Change("alternative.2", None, "left out")]))) == 2


def test_a_choice_that_changes_nothing_leaves_the_text_as_it_is():
    put = put_in(BRIEF, cases.choice(rows=(cases.row("as briefed", "as briefed", "recommended", changes=()),)))
    assert (put.text, put.alternatives, put.as_briefed) == (BRIEF, (), ("recommended",))


def test_below_a_floor_that_is_kept_frozen_nothing_is_recommended():
    """Frost lifts it unless somebody designs against that: no alternative may seem to be the answer."""
    text = RINK.read_text("utf-8")
    chosen = choose(read(RINK))
    assert chosen.word == "not this tool" and chosen.recommended is None
    assert [each.name for each in put_in(text, chosen).alternatives] == ["bare slab"]
    told = recommended(chosen)
    assert (told["best"], told["second"], told["instead"], told["proposed"]) == ("", None, None, "")
    assert not [row for row in told["rows"] if row["rank"] or "recommended" in row["name"]]


def test_a_text_that_is_no_toml_is_told():
    with pytest.raises(Mistake):
        put_in("[floor\n", cases.choice())


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """A folder with a brief, where choosing takes no time: what is looked at here is what is written."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("underpour.choosing.choose", lambda reading: cases.choice())
    (tmp_path / "brief.toml").write_text(WORKSHOP, "utf-8")
    return tmp_path


def test_a_copy_of_the_brief_is_written_with_what_was_chosen_and_can_be_read(folder, capsys):
    assert main(["choose", "brief.toml", "--write", "copy.toml"]) in (0, 1)
    last = "copy.toml is the brief with these beside it: recommended, cheapest that meets code; bare slab."
    assert capsys.readouterr().out.splitlines()[-1] == last
    names = [name for name, _ in read(folder / "copy.toml").alternatives]
    assert names[-2:] == ["recommended, cheapest that meets code", "bare slab"]
    assert (folder / "brief.toml").read_text("utf-8") == WORKSHOP


@pytest.mark.parametrize(
    ("typed", "wrong"),
    [
        ("brief.toml", "That is the brief itself."),
        ("copy.txt", "What is written here is TOML."),
        ("nowhere/copy.toml", "There is no folder nowhere."),
    ],
)
def test_a_copy_is_refused_before_anything_is_worked_out(folder, capsys, monkeypatch, typed, wrong):
    monkeypatch.setattr("underpour.choosing.choose", lambda reading: pytest.fail("it was chosen"))
    assert main(["choose", "brief.toml", "--write", typed]) == 2
    assert wrong in capsys.readouterr().err
    assert [each.name for each in folder.iterdir()] == ["brief.toml"]
