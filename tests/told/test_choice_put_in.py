"""A choice put into the brief's text: what is written, what stays, what makes room."""

import tomllib

import choice_cases as cases
import pytest

from underpour.brief.retyped import Change, retyped
from underpour.choosing.put_in import MARK, put_in
from underpour.mistakes import Mistake

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


def test_a_text_that_is_no_toml_is_told():
    with pytest.raises(Mistake):
        put_in("[floor\n", cases.choice())
