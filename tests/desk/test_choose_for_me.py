"""Choose for me: worked out aside, stopped for good, put beside the brief, told as the schema says."""

import io
import json
import tomllib
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from pypdf import PdfReader
from served import Served, until

from underpour.answer import answer
from underpour.brief import reads

ROOT = Path(__file__).parents[2]
SCHEMA = json.loads((ROOT / "schema" / "choice.schema.json").read_text("utf-8"))
BRIEF = (ROOT / "examples" / "frost-wall-workshop" / "brief.toml").read_text(encoding="utf-8")


def ended(desk: Served, job: str, said: set[str] | None = None) -> dict:
    """What came of it; ``said`` takes what was told on the way."""

    def looked():
        told = desk.ask("GET", f"/api/choose/{job}").json()
        if said is not None:
            said.add(told["words"])
        return told if told["state"] not in ("waiting", "working") else None

    return until(looked, 180)


def begun(desk: Served, text: str) -> dict:
    told = desk.ask("POST", "/api/choose", json={"brief": text})
    assert told.status_code == 201, told.text
    return told.json()


@pytest.fixture(scope="module")
def chosen(tmp_path_factory) -> dict:
    served = Served(tmp_path_factory.mktemp("choose") / "desk.book")
    said: set[str] = set()
    last = ended(served, begun(served, BRIEF)["job"], said)
    served.stop()
    assert last["state"] == "done", last
    return {**last["chosen"], "on the way": said}


def test_a_choice_is_handed_out_as_its_schema_says(chosen):
    Draft202012Validator(SCHEMA).validate(chosen["choice"])


def test_the_winner_and_the_bare_slab_stand_beside_the_brief_behind_the_users_own(chosen):
    assert chosen["brief"].startswith(BRIEF.rstrip("\n"))
    names = [each["name"] for each in tomllib.loads(chosen["brief"])["alternative"]]
    own = [each["name"] for each in tomllib.loads(BRIEF)["alternative"]]
    assert names == [*own, *chosen["put_in"]]
    roles = {role for row in chosen["choice"]["rows"] for role in row["roles"]}
    assert {"recommended", "no foam"} <= roles
    assert [each for each in chosen["put_in"] if each.startswith("recommended")]
    assert chosen["put_in"][-1] == "bare slab"
    assert chosen["notes"][0].startswith("Put beside the brief: “recommended")
    assert chosen["notes"][-1] == "Yours stay as they are: “wrapped outside”; “three inches below”."


def test_an_alternative_that_was_put_in_answers_as_its_row_says(chosen):
    dossier = answer(reads(chosen["brief"], alone=True))
    best = next(row for row in chosen["choice"]["rows"] if "recommended" in row["roles"])
    there = next(each for each in dossier.alternatives if each.name.startswith("recommended"))
    lost = sum(each.value for each in there.findings if each.id == "heat.loss-mean")
    assert lost == pytest.approx(best["heat"], abs=best["heat_within"])
    assert not [each.id for each in there.findings if each.verdict == "falls short"]
    height = next(each.value for each in there.findings if each.id == "height.total")
    assert height == pytest.approx(best["height"], abs=1e-6)


def test_it_says_on_the_way_how_far_it_is(chosen):
    assert [words for words in chosen["on the way"] if words.endswith("is answered wholly.")]


def test_every_refusal_is_told_with_its_finding_and_the_safety_line_stands_beside(chosen):
    said = chosen["said"]
    assert said["safety"] == chosen["choice"]["cautions"][0]
    assert said["refused"]
    for row in said["refused"]:
        assert row["reasons"], row["name"]
        for each in row["reasons"]:
            assert each["id"] and each["title"], each
    told = [each["id"] for row in said["refused"] for each in row["reasons"] if each["words"]]
    assert len(told) == len(set(told)), "a finding's words stand where it refuses first"
    assert set(told) == {each["id"] for row in said["refused"] for each in row["reasons"]}
    assert "height.depth" in {each["id"] for row in said["refused"] for each in row["reasons"]}


def test_a_brief_that_cannot_be_read_is_told_with_its_line(desk):
    wrong = BRIEF.replace('concrete = "', 'concrete = "x', 1)
    last = ended(desk, begun(desk, wrong)["job"])
    assert (last["state"], last["words"], last["chosen"]) == ("refused", "Nothing was chosen.", None)
    assert last["mistakes"][0]["line"] == wrong[: wrong.index('"x')].count("\n") + 1


def test_stopping_stops_it_and_nothing_is_chosen(desk):
    job = begun(desk, BRIEF)["job"]
    assert until(lambda: desk.ask("GET", f"/api/choose/{job}").json()["state"] == "working", 60)
    told = desk.ask("DELETE", f"/api/choose/{job}").json()
    assert (told["state"], told["chosen"]) == ("stopped", None)
    assert told["words"] == "Stopped. Nothing was chosen, and the brief is as it was."
    assert desk.ask("GET", f"/api/choose/{job}").json() == told


def test_a_submittal_says_what_is_recommended_where_it_is_asked_for(desk):
    asked = {"kind": "submittal", "brief": BRIEF, "draft": True, "choose": True}
    job = desk.ask("POST", "/api/jobs", json=asked).json()["job"]
    assert until(lambda: desk.ask("GET", f"/api/jobs/{job}").json()["state"] not in ("waiting", "working"), 240)
    pages = PdfReader(io.BytesIO(desk.ask("GET", f"/api/jobs/{job}/file").content)).pages
    assert "What we recommend, and why not the others" in "".join(page.extract_text() for page in pages)


def test_a_paper_is_no_choice_and_a_choice_no_paper(desk):
    paper = desk.ask("POST", "/api/jobs", json={"kind": "guide", "brief": BRIEF}).json()["job"]
    choice = begun(desk, BRIEF)["job"]
    assert desk.ask("GET", f"/api/choose/{paper}").status_code == 404
    assert desk.ask("DELETE", f"/api/choose/{paper}").status_code == 404
    for method, path in (("GET", ""), ("DELETE", ""), ("GET", "/file")):
        assert desk.ask(method, f"/api/jobs/{choice}{path}").status_code == 404
    desk.ask("DELETE", f"/api/choose/{choice}")
    desk.ask("DELETE", f"/api/jobs/{paper}")


def test_more_than_can_wait_are_not_taken(desk):
    told = [desk.ask("POST", "/api/choose", json={"brief": BRIEF}) for _ in range(9)]
    assert [each.status_code for each in told] == [201] * 8 + [429]
    for each in told[:8]:
        desk.ask("DELETE", f"/api/choose/{each.json()['job']}")
