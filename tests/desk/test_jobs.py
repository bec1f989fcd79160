"""Papers from the page: made in the background, one after another, stopped for good, fetched as files."""

import time
from pathlib import Path

import pytest
from served import until

from underpour.desk.jobs import Bench, Busy, Order
from underpour.desk.jobs.bench import WAITING

ROOT = Path(__file__).parents[2]
DEMO = (ROOT / "examples" / "daylight-basement" / "brief.toml").read_text(encoding="utf-8")
SHORT = DEMO[: DEMO.index("[[alternative]]")]


def ended(desk, job: str) -> dict:
    def looked():
        told = desk.ask("GET", f"/api/jobs/{job}").json()
        return told if told["state"] not in ("waiting", "working") else None

    return until(looked, 180)


@pytest.mark.parametrize(
    ("kind", "begins", "name"),
    [
        ("submittal", b"%PDF", "daylight-basement-three-ways-to-end-the-foam-submittal.pdf"),
        ("one-page", b"%PDF", "daylight-basement-three-ways-to-end-the-foam-one-page.pdf"),
        ("guide", b"%PDF", "daylight-basement-three-ways-to-end-the-foam-guide.pdf"),
        ("page", b"<!doctype html>", "daylight-basement-three-ways-to-end-the-foam-page.html"),
    ],
)
def test_a_paper_is_made_and_handed_out_as_a_file(desk, kind, begins, name):
    brief = DEMO if kind == "page" else SHORT
    told = desk.ask("POST", "/api/jobs", json={"kind": kind, "brief": brief, "day": "2026-11-27"})
    assert told.status_code == 201
    last = ended(desk, told.json()["job"])
    assert (last["state"], last["done"]) == ("done", last["of"]), last
    file = desk.ask("GET", f"/api/jobs/{last['job']}/file")
    assert file.content.lstrip().startswith(begins)
    assert file.headers["content-disposition"] == f'attachment; filename="{name}"'
    assert file.headers["content-security-policy"].startswith("sandbox")


def test_a_paper_that_is_not_ready_says_what_to_type(desk):
    brief = SHORT.replace('prepared-by = "A. Example"\n', "")
    told = desk.ask("POST", "/api/jobs", json={"kind": "submittal", "brief": brief}).json()
    last = ended(desk, told["job"])
    assert (last["state"], last["words"]) == ("refused", "Nothing was made yet.")
    assert [m["at"] for m in last["mistakes"]] == ["handover.prepared-by"]
    assert desk.ask("GET", f"/api/jobs/{told['job']}/file").status_code == 404


def test_a_brief_that_cannot_be_read_is_told_with_its_line(desk):
    told = desk.ask("POST", "/api/jobs", json={"kind": "page", "brief": DEMO.replace('"2 in"', '"2"', 1)}).json()
    last = ended(desk, told["job"])
    assert last["state"] == "refused"
    assert "2 of what?" in last["mistakes"][0]["wrong"]
    assert last["mistakes"][0]["line"] == DEMO[: DEMO.index('"2 in"')].count("\n") + 1


@pytest.fixture
def bench():
    bench = Bench()
    yield bench
    bench.close()


def order() -> Order:
    return Order("submittal", DEMO, "2026-11-27")


def test_stopping_ends_the_process_at_once_and_the_next_paper_begins(bench):
    first, second = bench.begin(order()), bench.begin(order())
    assert until(lambda: bench._process is not None and first.done >= 0 and bench._process.poll() is None)
    process = bench._process
    began = time.monotonic()
    assert bench.stop(first.job).state == "stopped"
    assert process.wait(10) != 0
    assert time.monotonic() - began < 5
    assert until(lambda: second.state == "working")
    bench.stop(second.job)
    assert not first.file.exists()


def test_a_paper_that_waits_is_stopped_without_being_begun(bench):
    bench.begin(order())
    waiting = bench.begin(order())
    assert bench.stop(waiting.job).state == "stopped"
    assert bench.look(waiting.job).done == 0


def test_more_than_eight_papers_are_not_taken(bench):
    for _ in range(WAITING):
        bench.begin(order())
    with pytest.raises(Busy):
        bench.begin(order())


def test_a_process_that_dies_is_told_and_not_waited_for(bench):
    work = bench.begin(order())
    assert until(lambda: bench._process is not None)
    bench._process.kill()
    assert until(lambda: work.state == "broken")


def test_closing_leaves_no_process_and_no_file(bench):
    work = bench.begin(order())
    assert until(lambda: bench._process is not None)
    process = bench._process
    bench.close()
    assert process.poll() is not None
    assert not work.file.parent.exists()
