"""The process that works out everything: left, killed, closed."""

import pytest
from browser.sheets import DEMO

from underpour.desk.live import Told
from underpour.desk.live.answering import Answering
from underpour.desk.live.aside import Aside
from underpour.desk.shown import Look


@pytest.fixture
def aside():
    opened = Aside()
    yield opened
    opened.close()


def test_an_answer_comes_with_its_sheet_and_again_after_the_process_was_killed(aside):
    for _ in range(2):
        told, drawn = aside.told(DEMO, Look(), lambda: False)
        assert isinstance(told, Told)
        assert drawn["section"]["edge"] == "A"
        aside._process.kill()
        aside._process.wait()


def test_what_nobody_waits_for_is_left_between_two_versions(aside):
    assert aside.told(DEMO, Look(), lambda: True) == (None, {})
    assert aside.told(DEMO, Look(), lambda: bool(aside.leave())) == (None, {})
    assert aside.told(DEMO, Look(), lambda: False)[0] is not None


def test_it_ends_when_the_desk_is_gone(aside):
    aside.begin()
    aside._process.stdin.close()
    assert aside._process.wait(20) == 0


def test_a_text_that_was_answered_is_not_drawn_again(monkeypatch):
    answering = Answering()
    try:
        told = answering.whole(DEMO, Look(month=1), "one")
        assert isinstance(told, Told)
        monkeypatch.setattr("underpour.desk.shown.sheet", lambda *_: pytest.fail("drawn again"))
        assert answering.sheet(answering.first(DEMO, "as briefed", "two"), Look(month=1))["month"] == 1
    finally:
        answering.close()
