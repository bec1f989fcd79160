"""What to ask the caller, in the background: told how far it is, stopped, and giving way to any answer."""

import threading

from browser.sheets import DEMO
from served import until

from underpour.ask import asked_of
from underpour.brief import reads
from underpour.brief.alternatives import AS_BRIEFED
from underpour.desk.live import Told
from underpour.desk.live.answering import Answering
from underpour.desk.live.asking import Asking
from underpour.desk.shown import Look
from underpour.trying import as_taken

COLDER = DEMO.replace('"20 C"', '"19 C"')


def test_how_far_it_is_counts_every_open_input_once():
    heard = []
    asked = asked_of(reads(DEMO), as_taken(reads(DEMO)), lambda done, of: heard.append((done, of)))
    assert heard == [(n, len(asked.open)) for n in range(len(asked.open))]


def test_it_is_told_how_far_it_is_until_it_is_there_and_then_at_once(desk):
    told = [desk.ask("POST", "/api/ask", json={"brief": DEMO}).json()]
    while told[-1]["state"] != "done":
        told.append(desk.ask("POST", "/api/ask", json={"brief": DEMO}).json())
    assert {each["state"] for each in told} <= {"waiting", "working", "done"}
    assert all(0 <= each["done"] <= each["of"] for each in told)
    assert told[-1]["questions"]
    assert desk.ask("POST", "/api/ask", json={"brief": DEMO}).json() == told[-1]


def test_stopped_it_is_told_so_and_begun_again_when_it_is_asked_for(desk):
    held = threading.Thread(target=lambda: desk.ask("POST", "/api/ask", json={"brief": DEMO}))
    held.start()
    stopped = desk.ask("POST", "/api/ask", json={"brief": DEMO, "stop": True}).json()
    assert stopped["state"] == "stopped" and stopped["questions"] == []
    held.join()
    assert desk.what_to_ask(DEMO)["questions"]


def test_it_gives_way_to_an_answer_that_somebody_waits_for():
    answering = Answering()
    try:
        held = answering.ask(DEMO)
        assert until(lambda: held.of > 0, 60), "it has begun"
        assert isinstance(answering.whole(COLDER, Look(), "another sheet"), Told)
        assert (held.state, held.said) == ("left", None)
        again = answering.ask(DEMO)
        assert again is not held
        again.wait(60)
        assert again.state == "done" and answering.asked_before(DEMO) is again.said
    finally:
        answering.close()


def test_typing_on_leaves_it_before_the_whole_answer_is_asked_for():
    answering = Answering()
    try:
        held = answering.ask(DEMO)
        assert until(lambda: held.of > 0, 60)
        answering.first(COLDER, AS_BRIEFED, "sheet")
        assert held.state == "left"
    finally:
        answering.close()


def test_what_comes_after_the_end_changes_nothing():
    held = Asking()
    assert held.stop() is False, "nothing was worked out yet"
    held.begun()
    held.ended(None)
    assert (held.state, held.over, held.left) == ("stopped", True, True)
    other = Asking()
    other.begun()
    other.on(3, 9)
    assert (other.state, other.done, other.of, other.over) == ("working", 3, 9, False)
    assert other.give_way() and other.state == "left"
