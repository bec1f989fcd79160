"""Starter briefs: every word that leads to one, what each of them answers, and that each key says what it is."""

from __future__ import annotations

import re
import tomllib
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from test_words import wrong_words
from underpour import catalogue
from underpour.answer import answer
from underpour.brief import reads
from underpour.cli import exit_status, main
from underpour.dossier import Dossier
from underpour.mistakes import Mistake
from underpour.starters import starter, starters

SHELF = starters()
KEYS = [each.key for each in SHELF]
WORDS = sorted({word for use in catalogue.uses() for word in (use.key, *use.aliases)})
ASKED_FOR = (
    "house-raft", "church", "fire-station", "hangar", "farm-pens", "walk", "pool-surround", "greenhouse", "retrofit",
)  # fmt: skip
LEFT_OUT = re.compile(r"# ([a-z-]+) *= (.*)$")
GONE = {"ground": "ground", "monthly": "place", "height": "nothing"}  # what each of them takes the place of


@cache
def answered(key: str) -> Dossier:
    return answer(reads(starter(key).text, f"{key}.toml"))


@pytest.mark.parametrize("word", sorted({*WORDS, *ASKED_FOR, *(w for each in SHELF for w in (each.key, *each.words))}))
def test_every_word_gives_the_brief_of_its_use(word, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["new", word]) == 0
    said = capsys.readouterr().out
    assert f"underpour answer {word}.toml" in said and f"underpour compare {word}.toml -o {word}.svg" in said
    assert [path.name for path in tmp_path.iterdir()] == [f"{word}.toml"]
    written = (tmp_path / f"{word}.toml").read_text(encoding="utf-8")
    assert written == starter(word).text
    if word in WORDS:
        assert catalogue.use(tomllib.loads(written)["project"]["use"]) == catalogue.use(word)


def test_a_church_a_fire_station_and_a_terrace_have_starters_of_their_own():
    found = {word: starter(word).key for word in ("chapel", "school", "hangar", "house", "terrace", "Pool surround")}
    assert found == {
        "chapel": "church", "school": "assembly", "hangar": "hangar",
        "house": "dwelling", "terrace": "pool-surround", "Pool surround": "pool-surround",
    }  # fmt: skip


def test_no_word_leads_to_two_starters_and_no_file_lies_idle():
    words = [word for each in SHELF for word in (each.key, *each.words)]
    assert len(words) == len(set(words))
    folder = Path(catalogue.__file__).parents[1] / "starters" / "briefs"
    assert sorted(path.stem for path in folder.iterdir()) == sorted(KEYS)


@pytest.mark.parametrize("key", KEYS)
def test_a_starter_is_answered_with_little_open_and_nothing_assumed_without_a_reason(key):
    dossier = answered(key)
    assert exit_status.of(dossier) in (0, 1)
    for each in dossier.alternatives:
        assert sum(finding.verdict == "cannot tell" for finding in each.findings) <= 2
    assert all(a.why for a in dossier.assumed)
    assert all(isinstance(a.value, str) or (a.low is not None and a.high is not None) for a in dossier.assumed)
    listed = ("foam.water.", "site.surface")  # of what is in each brief that types nothing of it
    assert len([a for a in dossier.assumed if not a.path.startswith(listed)]) <= 4


@pytest.mark.parametrize("key", KEYS)
def test_a_starter_has_something_to_compare_and_is_small_enough_to_be_answered_in_seconds(key):
    dossier = answered(key)
    assert 2 <= len(dossier.alternatives) <= 4
    assert sum(len(each.sections) for each in dossier.alternatives) <= 6
    told = [{(f.id, *f.at.items(), f.value, f.limit) for f in each.findings} for each in dossier.alternatives]
    assert all(other != told[0] for other in told[1:]), "an alternative changes something"


def test_most_starters_hold_and_those_that_fall_short_have_an_alternative_that_holds():
    short = [key for key in KEYS if exit_status.of(answered(key))]
    assert len(short) <= len(KEYS) // 4
    for key in short:
        verdicts = [{f.verdict for f in each.findings} for each in answered(key).alternatives[1:]]
        assert any("falls short" not in found for found in verdicts), key


def test_starters_stand_in_both_systems_and_places_abroad_in_si():
    by_system = {"US": 0, "SI": 0}
    for each in SHELF:
        brief = tomllib.loads(each.text)
        system, unit = brief["project"]["units"], brief["plan"]["unit"]
        assert unit == ("ft" if system == "US" else "m"), each.key
        assert (answered(each.key).place.split(",")[1][1:3].isupper()) or system == "SI"
        by_system[system] += 1
    assert min(by_system.values()) >= 5


@pytest.mark.parametrize("key", KEYS)
def test_each_key_of_a_starter_says_what_it_is_where_it_first_stands(key):
    bare, seen = [], {"insulation", "name", "set", "remove"}  # told in the lines above their tables
    for above, line in pairwise(starter(key).text.splitlines()):
        found = re.match(r"([a-z-]+) *= (.*)$", line)
        if found is None or found[1] in seen:
            continue
        seen.add(found[1])
        if " # " not in found[2] and not above.startswith("# "):
            bare.append(line)
    assert not bare
    assert "# set writes" in starter(key).text and "remove takes out" in starter(key).text


@pytest.mark.parametrize("key", KEYS)
def test_a_line_that_is_left_out_counts_once_its_mark_is_taken_away(key):
    text = starter(key).text
    for line in text.splitlines():
        found = LEFT_OUT.match(line)
        if found is None or found[1] not in GONE:
            continue
        changed = re.sub(rf"^{GONE[found[1]]} .*\n", "", text, count=1, flags=re.M).replace(line, line[2:])
        reads(changed, "brief.toml")
    mark = re.compile(r"^# (\[handover\]|(?:number|revision|to|from|prepared-by|references|deviations) *=)", re.M)
    handover = mark.sub(r"\1", text)
    brief = reads(handover, "brief.toml").brief
    assert brief.handover.number == "26-0412" and brief.handover.references == ("Drawing S-101, revision 2",)


@pytest.mark.parametrize("key", KEYS)
def test_a_starter_speaks_as_an_adviser_does_and_fits_a_window(key):
    text = starter(key).text
    assert not wrong_words(text)
    assert max(map(len, text.splitlines())) <= 120 and text.endswith("\n") and "\t" not in text
    assert "invented" not in str(answered(key).as_briefed.summary), "a starter names classes, not an invented maker"


@pytest.mark.parametrize(
    ("typed", "near"), [("garrage", "garage"), ("chruch", "church"), ("fire station 2", "fire-station")]
)
def test_an_unknown_use_offers_the_nearest(typed, near):
    with pytest.raises(Mistake) as refused:
        starter(typed)
    assert f"underpour new {near}" in str(refused.value)


def test_starters_take_the_edges_that_the_trade_would():
    kinds = {key: [cut.kind for cut in answered(key).as_briefed.sections.values()] for key in KEYS}
    for key in ("garage", "fire-station", "hangar"):
        assert kinds[key] == ["frost-wall", "threshold"], "the slab goes out under the door"
    assert kinds["church"] == ["ledge"] and kinds["house-raft"] == ["raft"] and kinds["basement"] == ["footing-wall"]
    assert any("old-slab" in layer for layer in tomllib.loads(starter("retrofit").text)["floor"]["build-up"])


@pytest.mark.parametrize("key", ["fire-station", "hangar", "farm-pens", "hospital", "retrofit"])
def test_a_use_whose_floor_is_heated_has_tubes_of_which_nothing_falls_short(key):
    found = [f for f in answered(key).as_briefed.findings if f.id.startswith("warm.")]
    assert {"warm.surface", "warm.supply", "warm.pressure"} <= {f.id for f in found}
    assert not [f.id for f in found if f.verdict in ("falls short", "cannot tell")]


@pytest.mark.parametrize(
    "key", ["dwelling", "basement", "garage", "workshop", "assembly", "church", "house-raft", "greenhouse"]
)
def test_tubes_that_are_left_out_count_once_their_marks_are_taken_away(key):
    text = starter(key).text
    above, _, block = text.partition("# [tube]\n")
    shut, _, after = block.partition("\n\n")
    opened = "\n".join(line.removeprefix("# ") for line in shut.splitlines())
    brief = reads(f"{above}[tube]\n{opened}\n\n{after}", "brief.toml").brief
    assert brief.tube is not None and brief.tube.load is not None and brief.tube.source == "boiler"
    assert reads(text, "brief.toml").brief.tube is None
