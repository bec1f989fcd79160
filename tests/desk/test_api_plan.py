"""The plan at the desk's interface: one act, the brief's new text, and in words what is wrong."""

from __future__ import annotations

import pytest
from served import Served

from underpour.toml_text import read_toml

BRIEF = """\
[project]
title = "A garage"
use   = "garage"
units = "US"

[plan]
unit    = "ft"
outline = [
  "0 0",
  "12 ft 6 in, 0",   # the door's corner
  "12 ft 6 in, 20",
  "0 20",
]

[[edge]]             # all round
sides = "all"
kind  = "raft"
"""

TWO_EDGES = BRIEF.replace('"all"', "[1, 2, 4]") + '\n[[edge]]\nsides = [3]\nkind  = "free-edge"\n'


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    served = Served(tmp_path_factory.mktemp("book") / "desk.book")
    yield served
    served.stop()


@pytest.fixture
def ask(desk):
    def asked(brief: str, act: dict | None = None, step: str = "6 in", chain: tuple[str, ...] = ()) -> dict:
        answer = desk.ask("POST", "/api/plan", json={"brief": brief, "act": act, "step": step, "chain": list(chain)})
        assert answer.status_code == 200, answer.text
        return answer.json()

    return asked


def on_grid(x: int, y: int) -> dict:
    return {"x": {"steps": x}, "y": {"steps": y}}


def outline(text: str) -> list[str]:
    return read_toml(text, "")["plan"]["outline"]


def test_a_plan_is_looked_at_without_a_change(ask):
    said = ask(BRIEF)
    assert said["brief"] == BRIEF
    assert said["done"]
    assert not said["mistakes"]
    assert said["drawn"]["area"].startswith("250")
    assert [side["length"].replace("\u2009", " ") for side in said["drawn"]["rings"][0]["sides"]] == [
        "12 ft 6 in",
        "20 ft",
        "12 ft 6 in",
        "20 ft",
    ]


def test_a_corner_moves_and_every_other_figure_and_comment_stays_as_typed(ask):
    said = ask(BRIEF, {"do": "move-corner", "ring": 0, "corner": 4, "to": on_grid(-4, 41)})
    assert said["brief"] == BRIEF.replace('"0 20"', '"-2 20.5"')
    assert "-2 ft, 20.5 ft" in said["words"]


def test_a_corner_in_line_with_another_takes_over_its_figure(ask):
    to = {"x": {"ring": 0, "corner": 2}, "y": {"steps": 44}}
    said = ask(BRIEF, {"do": "move-corner", "ring": 0, "corner": 3, "to": to})
    assert outline(said["brief"])[2] == "12 ft 6 in, 22"


@pytest.mark.parametrize(
    ("typed", "corner"),
    [
        ("24 ft 6 in", "24 ft 6 in, 0"),  # from nought the figure is the length, in its words
        ("24' 6\"", "24' 6\", 0"),
        ("24", "24 0"),
        ("7.5 m", "7.5 m, 0"),
        ("30 ft 5-3/8 in", "30 ft 5-3/8 in, 0"),
    ],
)
def test_a_typed_length_is_written_in_its_own_words_and_the_next_side_goes_with_it(ask, typed, corner):
    said = ask(BRIEF, {"do": "length", "ring": 0, "side": 1, "typed": typed})
    x = corner.rsplit(",", 1)[0] if "," in corner else "24"
    assert outline(said["brief"])[1] == corner
    assert outline(said["brief"])[2] == (f"{x}, 20" if "," in corner else "24 20")


def test_a_length_that_does_not_start_at_nought_is_written_where_it_ends(ask):
    said = ask(BRIEF, {"do": "length", "ring": 0, "side": 3, "typed": "10 ft 3/8 in"})
    assert outline(said["brief"]) == [
        "2 ft 5-5/8 in, 0",
        "12 ft 6 in, 0",
        "12 ft 6 in, 20",
        "2 ft 5-5/8 in, 20",
    ]


def test_a_slanted_side_is_as_long_as_typed_to_a_hundredth_of_a_millimetre(ask):
    brief = BRIEF.replace('"0 20"', '"3 17"')
    said = ask(brief, {"do": "length", "ring": 0, "side": 4, "typed": "5 m"})
    (x0, y0), (x1, y1) = (side["corner"] for side in (said["drawn"]["rings"][0]["sides"][n] for n in (3, 0)))
    assert abs(((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 - 5.0) < 2e-5


def test_a_side_moves_parallel_to_itself_and_the_sides_beside_it_stay_in_line(ask):
    brief = BRIEF.replace('"12 ft 6 in, 20"', '"22 ft 6 in, 20"')  # the right side slants by 10 in 20
    said = ask(brief, {"do": "move-side", "ring": 0, "side": 3, "to": on_grid(0, 20)})
    assert outline(said["brief"]) == ["0 0", "12 ft 6 in, 0", "17.5 10", "0 10"]


def test_a_side_is_pushed_out_by_steps(ask):
    said = ask(BRIEF, {"do": "push-side", "ring": 0, "side": 2, "steps": 3})
    assert outline(said["brief"])[1:3] == ["14 0", "14 20"]


def test_a_floor_is_drawn_from_nothing_by_steps_and_lengths(ask):
    chain: tuple[str, ...] = ()
    text = '[project]\nuse = "garage"\nunits = "US"\n\n[floor]\ninside = "60 F"\n'
    for at, long in [
        (on_grid(0, 0), ""),
        (on_grid(9, 0), "24 ft"),
        (on_grid(48, 9), "7 ft 6 in"),
        (on_grid(0, 15), ""),
    ]:
        said = ask(text, {"do": "next", "at": at, "long": long}, chain=chain)
        chain = tuple(said["drawn"]["chain"]["typed"])
        assert said["brief"] == text
    assert chain == ("0 0", "24 ft, 0", "24 ft, 7 ft 6 in", "0 7.5")
    said = ask(text, {"do": "close", "becomes": "outline"}, chain=chain)
    assert outline(said["brief"]) == list(chain)
    assert said["brief"].index("[plan]") < said["brief"].index("[floor]")
    assert said["drawn"]["area"].startswith("180")
    assert said["drawn"]["bare"].startswith("No edge has side 1")


def test_a_hole_is_cut_and_taken_out_again(ask):
    square = ("2 2", "4 2", "4 4", "2 4")
    cut = ask(BRIEF, {"do": "close", "becomes": "hole"}, chain=square)
    assert cut["drawn"]["area"].startswith("246")
    assert not cut["mistakes"]
    assert ask(cut["brief"], {"do": "take-hole", "ring": 1})["brief"].rstrip() == BRIEF.rstrip()


def test_an_arc_bows_out_and_is_made_straight_again(ask):
    bowed = ask(BRIEF, {"do": "bend", "ring": 0, "side": 1, "typed": "2 ft"})
    assert not bowed["done"], "a bare length tells no arc"
    bowed = ask(BRIEF, {"do": "bend", "ring": 0, "side": 1, "typed": "rise 2 ft"})
    assert outline(bowed["brief"])[1 - 1] == "0 0 rise 2 ft"
    assert bowed["drawn"]["rings"][0]["sides"][0]["lines"][0]["radius"] > 0.0
    assert ask(bowed["brief"], {"do": "bend", "ring": 0, "side": 1})["brief"] == BRIEF
    assert outline(ask(BRIEF, {"do": "bend", "ring": 0, "side": 1, "steps": -3})["brief"])[0] == "0 0 rise -1.5"


def test_sides_are_counted_anew_where_a_corner_comes_or_goes(ask):
    more = ask(TWO_EDGES, {"do": "add-corner", "ring": 0, "side": 2})
    plan = read_toml(more["brief"], "")
    assert [edge["sides"] for edge in plan["edge"]] == [[1, 2, 3, 5], [4]]
    assert plan["plan"]["outline"][2] == "12 ft 6 in, 10"
    again = ask(more["brief"], {"do": "take-corner", "ring": 0, "corner": 3})
    assert again["brief"] == TWO_EDGES


def test_a_part_of_a_side_follows_the_side_that_a_corner_divides(ask):
    brief = TWO_EDGES.replace("[3]", '[3, { side = 2, from = "4 ft", to = "12 ft" }]').replace(
        "[1, 2, 4]", '[1, { side = 2, to = "4 ft" }, { side = 2, from = "12 ft" }, 4]'
    )
    assert not ask(brief)["mistakes"]
    said = ask(brief, {"do": "add-corner", "ring": 0, "side": 2, "steps": 10})
    assert not said["mistakes"]
    assert read_toml(said["brief"], "")["edge"][1]["sides"] == [
        4,
        {"side": 2, "from": "4 ft"},
        {"side": 3, "to": "7 ft"},
    ]


def test_a_side_given_to_another_edge_leaves_the_one_that_had_it(ask):
    said = ask(TWO_EDGES, {"do": "give", "edge": "B", "ring": 0, "side": 4})
    assert [edge["sides"] for edge in read_toml(said["brief"], "")["edge"]] == [[1, 2], [3, 4]]
    assert "edge B" in said["words"]


def test_a_part_of_a_side_is_given_and_both_edges_say_where(ask):
    said = ask(TWO_EDGES, {"do": "give", "edge": "B", "ring": 0, "side": 2, "start": "4", "end": "2 m"})
    edges = read_toml(said["brief"], "")["edge"]
    assert edges[0]["sides"] == [1, {"side": 2, "to": "4 ft"}, {"side": 2, "from": "2 m"}, 4]
    assert edges[1]["sides"] == [3, {"side": 2, "from": "4 ft", "to": "2 m"}]
    assert not said["mistakes"]


def test_the_next_letter_makes_an_edge_like_the_one_that_had_the_side(ask):
    said = ask(BRIEF, {"do": "give", "edge": "B", "ring": 0, "side": 1})
    edges = read_toml(said["brief"], "")["edge"]
    assert [edge["sides"] for edge in edges] == ["rest", [1]]
    assert edges[1]["kind"] == "raft"
    assert not said["mistakes"]


def test_a_side_that_no_edge_has_is_said(ask):
    said = ask(TWO_EDGES.replace("[1, 2, 4]", "[1, 2]"))
    assert "side 4" in said["drawn"]["bare"]
    assert said["mistakes"][0]["wrong"] == "No edge takes side 4."


def test_an_edge_is_taken_out_unless_a_later_one_is_spoken_of_by_its_letter(ask):
    said = ask(TWO_EDGES, {"do": "take-edge", "edge": "B"})
    assert len(read_toml(said["brief"], "")["edge"]) == 1
    spoken = TWO_EDGES + '\n[[alternative]]\nname = "other"\nset = { "edge.B.kind" = "raft" }\n'
    refused = ask(spoken, {"do": "take-edge", "edge": "A"})
    assert refused["mistakes"][0]["wrong"] == "The brief speaks of edge B elsewhere, by its letter."
    assert refused["brief"] == spoken


def test_an_obstacle_is_put_in_moved_sized_and_taken_out(ask):
    act = {"do": "stand", "kind": "post", "at": on_grid(10, 10), "size": "4 in"}
    text = ask(BRIEF, act)["brief"]
    assert read_toml(text, "")["plan"]["obstacle"] == [{"kind": "post", "at": "5 5", "size": "4 in"}]
    text = ask(text, {"do": "move-obstacle", "number": 1, "to": on_grid(11, 10)})["brief"]
    text = ask(text, {"do": "size-obstacle", "number": 1, "size": "12 in x 16 in"})["brief"]
    assert read_toml(text, "")["plan"]["obstacle"] == [{"kind": "post", "at": "5.5 5", "size": "12 in x 16 in"}]
    assert ask(text, {"do": "take-obstacle", "number": 1})["brief"].rstrip() == BRIEF.rstrip()


def test_a_side_gets_a_name_and_edges_that_call_it_so_keep_it(ask):
    text = ask(TWO_EDGES, {"do": "name", "ring": 0, "side": 3, "typed": "north wall"})["brief"]
    text = text.replace("sides = [3]", 'sides = ["north wall"]')
    text = ask(text, {"do": "name", "ring": 0, "side": 3, "typed": "barn wall"})["brief"]
    assert read_toml(text, "")["edge"][1]["sides"] == ["barn wall"]
    text = ask(text, {"do": "name", "ring": 0, "side": 3, "typed": ""})["brief"]
    assert text.rstrip() == TWO_EDGES.rstrip()


BAD = {
    "an outline that crosses itself": (
        BRIEF,
        {"do": "move-corner", "ring": 0, "corner": 4, "to": on_grid(60, 20)},
        "Side 2 meets side 4 where it should not: the outline crosses or touches itself.",
    ),
    "a hole that lies outside": (
        BRIEF + '\n[[plan.hole]]\noutline = ["50 50", "52 50", "52 52"]\n',
        None,
        "This hole lies outside the outline.",
    ),
    "a side that two edges have": (
        TWO_EDGES.replace("sides = [3]", "sides = [3, 4]"),
        None,
        "Side 4 belongs to edge A already.",
    ),
    "a part that a length has left behind": (
        TWO_EDGES.replace("[3]", '[{ side = 3, from = "6 ft" }]').replace("[1, 2, 4]", '"rest"'),
        {"do": "length", "ring": 0, "side": 1, "typed": "4 ft"},
        "6 ft lies beyond the end of side 3, which is 4 ft long.",
    ),
}

REFUSED = {
    "a word that is no length": (
        {"do": "length", "ring": 0, "side": 1, "typed": "twelve feet"},
        "twelve feet cannot be read as a length.",
    ),
    "inches of what": ({"do": "length", "ring": 0, "side": 1, "typed": "12 ft 6"}, "6 of what?"),
    "no length at all": ({"do": "length", "ring": 0, "side": 1, "typed": "0 ft"}, "A side is longer than nothing."),
    "a side that is not there": ({"do": "length", "ring": 0, "side": 7, "typed": "4 ft"}, "There is no corner 7."),
    "an arc by another word": ({"do": "bend", "ring": 0, "side": 1, "typed": "sag 3"}, "No arc is told by sag."),
    "a letter far off": ({"do": "give", "edge": "F", "ring": 0, "side": 1}, "There is no edge F."),
    "the only side of an edge": ({"do": "give", "edge": "A", "ring": 0, "side": 3}, "This is all that edge B has."),
    "a part beyond the side": (
        {"do": "give", "edge": "B", "ring": 0, "side": 2, "start": "18 ft", "end": "22 ft"},
        "22 ft lies beyond the end of the side.",
    ),
    "a size that is none": (
        {"do": "stand", "kind": "post", "at": on_grid(4, 4), "size": "wide"},
        "wide cannot be read as a length.",
    ),
    "two corners left": ({"do": "close", "becomes": "outline"}, "0 corners enclose nothing."),
    "a hole in a corner that is none": ({"do": "take-hole", "ring": 3}, "There is no corner 1 of hole 3."),
}


@pytest.mark.parametrize(("brief", "act", "words"), BAD.values(), ids=BAD)
def test_a_plan_that_cannot_stand_is_drawn_and_told(ask, brief, act, words):
    said = ask(brief, act)
    assert said["done"]
    assert words in [mistake["wrong"] for mistake in said["mistakes"]]
    assert said["drawn"]["rings"][0]["sides"]
    assert bool(said["drawn"]["area"]) == (said["mistakes"][0]["at"].startswith("edge"))
    assert all(mistake["line"] for mistake in said["mistakes"])


@pytest.mark.parametrize(("act", "words"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_done_leaves_the_brief_as_it_is(ask, act, words):
    said = ask(TWO_EDGES, act)
    assert not said["done"]
    assert said["brief"] == TWO_EDGES
    assert words in said["mistakes"][0]["wrong"]
    assert said["mistakes"][0]["instead"]
    assert said["drawn"]["area"].startswith("250")


def test_an_outline_has_at_most_so_many_corners(ask, desk):
    chain = tuple(f"{n} {n * n}" for n in range(401))
    said = ask(BRIEF, {"do": "close", "becomes": "outline"}, chain=chain)
    assert said["mistakes"][0]["wrong"] == "An outline drawn here has at most 400 corners."
    more = desk.ask("POST", "/api/plan", json={"brief": BRIEF, "chain": ["0 0"] * 1001})
    assert more.status_code == 422


@pytest.mark.parametrize("step", ["0 in", "1 mile", "six inches", "-1 ft"])
def test_a_snap_that_is_none_is_told(ask, step):
    said = ask(BRIEF, {"do": "push-side", "ring": 0, "side": 2, "steps": 3}, step=step)
    assert not said["done"]
    assert said["mistakes"][0]["wrong"]
    assert said["drawn"]["area"]


def test_an_act_that_nobody_knows_is_refused(desk):
    assert desk.ask("POST", "/api/plan", json={"brief": BRIEF, "act": {"do": "stretch"}}).status_code == 422
    assert desk.ask("POST", "/api/plan", json={"brief": BRIEF}, headers={"X-Desk-Token": "other"}).status_code == 403


@pytest.mark.parametrize(
    "brief",
    [
        "[plan\n",
        "plan = 3\n",
        'plan = { unit = "ft", outline = ["0 0", "4 0", "4 4"] }\n',
        '[plan]\noutline = ["0 0", "1e3 2", "nowhere"]\n',
        '[plan]\nunit = "ft"\noutline = ["0 0", "99999999999 0", "4 4"]\n',
        '[plan]\nunit = "ft"\noutline = ["0 0", "4 0", "4 0", "4 4"]\n[[edge]]\nsides = [3]\n',
        '[plan]\nunit = "ft"\noutline = ["0 0", "0 0"]\n',
        '[plan]\nunit = "ft"\noutline = ["0 0", "9 0", "9 9"]\nhole = [{ outline = ["1 1"] }]\n',
        '[plan]\nunit = "ft"\noutline = ["0 0", "9 0", "9 9"]\nobstacle = [{ kind = "post" }]\n',
        'plan.unit = "ft"\nplan.outline = ["0 0", "9 0", "9 9"]\n',
        '[edge]\nsides = "all"\n[plan]\nunit = "m"\noutline = ["0 0", "9 0", "9 9"]\n',
    ],
)
def test_a_text_that_holds_no_good_plan_is_told_or_drawn_and_nothing_breaks(ask, brief):
    for act in (
        None,
        {"do": "push-side", "ring": 0, "side": 2, "steps": 2},
        {"do": "add-corner", "ring": 0, "side": 1},
        {"do": "take-corner", "ring": 0, "corner": 1},
        {"do": "give", "edge": "B", "ring": 0, "side": 1},
        {"do": "stand", "kind": "post", "at": on_grid(4, 4), "size": "4 in"},
        {"do": "name", "ring": 0, "side": 1, "typed": "wall"},
        {"do": "length", "ring": 0, "side": 1, "typed": "12 ft"},
    ):
        said = ask(brief, act)
        assert said["done"] or said["mistakes"]
