"""A building that nobody heats: its floor is as cold as outdoors, wants nothing of the ground, and asks about frost."""

from pathlib import Path

import pytest

from underpour.answer import answer
from underpour.brief import reads
from underpour.cli import main
from underpour.dossier import Answer

ROOT = Path(__file__).parents[2]
SHED = (ROOT / "examples" / "unheated-shed" / "brief.toml").read_text("utf-8")
GARAGE = ROOT / "examples" / "cool-garage-by-hours"
INSIDE = 'inside          = "unheated"'


def made(text: str = SHED) -> Answer:
    return answer(reads(text)).as_briefed


def test_it_is_as_cold_as_outdoors_and_that_is_listed_as_assumed():
    assumed = {each.path: each for each in answer(reads(SHED)).assumed}
    winter, summer = (assumed[f"floor.inside.{season}"] for season in ("winter", "summer"))
    assert (winter.low, winter.high - winter.low) == (winter.value, pytest.approx(3.0))
    assert winter.value < 0.0 < summer.value
    assert made().find("heat.floor-coldest", edge="A", distance=1.0).value == pytest.approx(winter.value, abs=2.0)


def test_it_wants_nothing_of_the_ground_in_any_month():
    found = made().find("heat.loss-year", of="floor", flow="harmful")
    assert found.value == 0.0
    assert "wants nothing of the ground in any month" in found.words
    assert made().find("heat.u-floor").verdict == "does not apply"


def test_frost_is_asked_about_without_a_word_of_it_and_the_index_turns_the_verdict():
    silent = SHED.replace('freezing-index = "1000 °F·d"', "").replace('fines          = "2 %"', "")
    assert 'index = "' not in silent
    asked = made(silent).find("frost.depth", edge="A", place="footing")
    assert (asked.verdict, asked.missing) == ("cannot tell", "site.freezing-index")
    assert made().find("frost.depth", edge="A", place="footing").verdict == "meets"
    kept = made(silent.replace(INSIDE, 'inside = "50 F"'))
    assert not [each for each in kept.findings if each.id == "frost.depth"]


def test_a_winter_below_freezing_that_was_measured_is_taken_and_the_room_stays_unheated():
    typed = SHED.replace(INSIDE, 'inside = { winter = "26 F", summer = "75 F" }')
    measured = answer(reads(typed))
    assert not [each for each in measured.assumed if each.path.startswith("floor.inside")]
    found = measured.as_briefed
    assert found.find("frost.depth", place="middle").value > 0.2
    assert found.find("heat.loss-year", of="floor", flow="harmful").value == 0.0


def test_frost_goes_through_its_floor_as_it_does_through_a_slab_outdoors():
    bare, foam = (each.find("frost.depth", place="middle") for each in alternatives("as briefed", "two inches of foam"))
    assert bare.value > 0.3
    assert foam.value == 0.0


def alternatives(*names: str) -> list[Answer]:
    dossier = answer(reads(SHED))
    return [next(each for each in dossier.alternatives if each.name == name) for name in names]


def test_walls_that_do_not_reach_below_the_frost_fall_short():
    (short,) = alternatives("walls at 18 inches")
    assert short.find("frost.depth", place="footing").verdict == "falls short"


def test_it_follows_the_hours_of_a_weather_file():
    where = GARAGE / "brief.toml"
    text = where.read_text("utf-8").replace('inside          = "40 F"', 'inside = "unheated"')
    hour = answer(reads(text, str(where)), "19 december 4:00").as_briefed.hour
    airs = {name: mean for name, mean, _ in hour.fields["A"].airs}
    assert airs["room"] == pytest.approx(hour.outdoors, abs=1e-6)


@pytest.mark.parametrize(
    ("change", "wrong", "instead"),
    [
        ((INSIDE, 'inside = "unheatd"'), "unheatd is no temperature.", 'The nearest is "unheated".'),
        (('use   = "barn"', 'use = "cold-store"'), "A cold store is kept cold all year.", "Write the temperature"),
        ((INSIDE, f"{INSIDE}\ncooled = true"), "kept cool in summer is kept at a temperature.", "Take cooled out"),
        (
            ("[[edge]]", '[tube]\nsize = "1/2 in"\nspacing = "12 in"\n\n[[edge]]'),
            "the room over it is typed as unheated.",
            "Take [tube] out",
        ),
    ],
)
def test_what_does_not_go_with_it_is_told(change, wrong, instead, tmp_path, capsys):
    text = SHED.replace(*change)
    (tmp_path / "brief.toml").write_text(text, "utf-8")
    assert main(["answer", str(tmp_path / "brief.toml")]) == 2
    told = " ".join(capsys.readouterr().err.split())
    assert wrong in told
    assert instead in told
    assert [each.name for each in tmp_path.iterdir()] == ["brief.toml"]
