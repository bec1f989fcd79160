"""How boards are laid as a brief types it: kept, or told what is wrong; a takeoff that somebody stops half way."""

import json
import os
import re
import signal
from pathlib import Path

import pytest

from underpour.brief import read
from underpour.cli import hear
from underpour.cli import takeoff as command
from underpour.cli.stopping import stopped_by_key
from underpour.mistakes import Mistakes
from underpour.panels.over import over_each_other
from underpour.panels.proof import faults
from underpour.resolve import resolve
from underpour.takeoff import taken_off
from underpour.takeoff.cutting import numbered
from underpour.takeoff.told import as_json

EXAMPLES = Path(__file__).parents[2] / "examples"
BASEMENT = (EXAMPLES / "daylight-basement" / "brief.toml").read_text(encoding="utf-8")
TYPED = 'outline = ["0 0", "24 0", "24 12", "0 12"]'


def resolved_of(tmp_path, text):
    (tmp_path / "so.toml").write_text(text, encoding="utf-8")
    reading = read(tmp_path / "so.toml")
    return resolve(reading.brief, products=reading.products)


def test_rows_are_counted_from_the_corner_that_is_typed(tmp_path):
    for number, corner in enumerate([(0, 0), (24, 0), (24, 12), (0, 12)], start=1):
        resolved = resolved_of(tmp_path, f'{BASEMENT}\n[laying]\nrows = "x"\nstart = {number}\nbond = "half"\n')
        layout = taken_off(resolved).layers[0].layout
        first = numbered(layout)[0][1]
        assert (layout.from_right, layout.from_top) == (corner[0] > 0, corner[1] > 0)
        assert (first.x1 if corner[0] else first.x0, first.y1 if corner[1] else first.y0) == pytest.approx(corner)
        ends = {row: max(p.length for p in layout.pieces if p.row == row and p.x0 < 0.01) for row in range(3)}
        assert ends[0] == pytest.approx(ends[2])
        assert ends[0] != pytest.approx(ends[1])


@pytest.mark.parametrize(
    ("lines", "wrong"),
    [
        ("start = 5", "The outline has 4 corners."),
        ('start = "north"', "The corner to begin at is a number."),
        ("start = 0", "The corner to begin at is a number."),
        ('bond = "stack"', "stack"),
        ('stagger = "5 ft"', "With panels of 4 ft x 8 ft joints of neighbouring rows cannot be kept 5 ft apart."),
        ('least = "20 ft"', "With panels of 4 ft x 8 ft the ends of every piece cannot be kept 20 ft apart."),
        ('size = "2 ft x 8 ft"\nstagger = "50 in"', "No board of this floor comes in 2 ft x 8 ft."),
        ('kerf = "2 ft"', "No saw takes 2 ft."),
    ],
)
def test_a_way_of_laying_that_cannot_be_is_told(tmp_path, lines, wrong):
    with pytest.raises(Mistakes, match=re.escape(wrong)):
        resolved_of(tmp_path, f"{BASEMENT}\n[laying]\n{lines}\n")


@pytest.mark.parametrize(
    ("outline", "wrong"),
    [
        ('"0 0", "24 0", "24 12", "12 12", "12 16", "12 12", "0 12"', "Corner 6 lies on corner 4."),
        ('"0 0", "24 0", "24 12", "12 12", "12 16", "12 11", "0 12"', "Side 3 meets side 5 where it should not"),
        ('"0 0", "24 0", "24 0.0001", "0 0.0001"', "The outline encloses 0.0024 m²; no floor is that small."),
        ('"0 0", "24 0", "24 12", "12 12", "12 16", "12.0 16", "12 12", "0 12"', "Corner 6 lies on corner 5."),
    ],
)
def test_a_strip_of_floor_without_width_is_told(tmp_path, outline, wrong):
    assert TYPED in BASEMENT
    with pytest.raises(Mistakes, match=re.escape(wrong)):
        resolved_of(tmp_path, BASEMENT.replace(TYPED, f"outline = [{outline}]"))


@pytest.mark.parametrize(
    ("foam", "wrong"),
    [
        ('face = "wing", out = "0 in", at = "14 in"', "0 in is nothing."),
        ('face = "inside", down = "0 in"', "0 in is nothing."),
    ],
)
def test_a_strip_of_foam_without_width_is_told(tmp_path, foam, wrong):
    whole = '{ board = "plain-15", thickness = "2 in", face = "inside" }'
    typed = BASEMENT.replace(whole, f'{{ board = "plain-15", thickness = "2 in", {foam} }}')
    assert typed != BASEMENT
    with pytest.raises(Mistakes, match=re.escape(wrong)):
        resolved_of(tmp_path, typed)


def test_an_arm_of_a_millimetre_is_laid_and_told(tmp_path):
    arm = '"0 0", "24 0", "24 12", "12.001 12", "12.001 16", "12 16", "12 12", "0 12"'
    layer = taken_off(resolved_of(tmp_path, BASEMENT.replace(TYPED, f"outline = [{arm}]"))).layers[0]
    assert any("are narrower than 3.94 in (100 mm)" in note.replace("\u2009", " ") for note in layer.notes), layer.notes


def pressed_at_first(monkeypatch):
    """Ctrl-C as the terminal sends it, while the first plan is looked at."""
    pressed = []

    def press(_words, _done):
        if not pressed:
            pressed.append(True)
            os.kill(os.getpid(), signal.SIGINT)

    monkeypatch.setattr(command, "_progress", lambda: press)


def test_ctrl_c_keeps_and_prints_the_best_plan_so_far(tmp_path, monkeypatch, capsys):
    (tmp_path / "b.toml").write_text(BASEMENT, encoding="utf-8")
    pressed_at_first(monkeypatch)
    before = signal.getsignal(signal.SIGINT)
    told = hear(["takeoff", str(tmp_path / "b.toml"), "-o", str(tmp_path)])
    assert told.status == 130
    assert "Stopped after" in told.text
    assert "% of the looking: this is the best plan until then." in " ".join(told.text.split())
    assert "Gravel" in told.text  # and all the rest of the order
    assert (tmp_path / "panels-1.svg").exists()
    assert "Stopping: the best plan so far is kept." in capsys.readouterr().err
    assert signal.getsignal(signal.SIGINT) is before


def test_what_is_not_stopped_does_not_say_so(tmp_path):
    (tmp_path / "b.toml").write_text(BASEMENT, encoding="utf-8")
    told = hear(["takeoff", str(tmp_path / "b.toml")])
    assert (told.status, "Stopped" in told.text) == (0, False)


def test_ctrl_c_a_second_time_ends_at_once():
    with pytest.raises(KeyboardInterrupt), stopped_by_key() as stopped:
        os.kill(os.getpid(), signal.SIGINT)
        assert stopped()
        os.kill(os.getpid(), signal.SIGINT)


CHANNELS = (EXAMPLES / "raft-with-channels" / "brief.toml").read_text(encoding="utf-8")


def raft(tmp_path, old="", new=""):
    assert old in CHANNELS
    layer = taken_off(resolved_of(tmp_path, CHANNELS.replace(old, new, 1))).layers[0]
    return layer, " ".join(layer.notes)


def test_channels_that_lead_from_every_panel_to_the_suction_point_are_said_to(tmp_path):
    layer, notes = raft(tmp_path)
    assert "Its channels lead from every panel to the suction point." in notes
    assert (layer.channels.nets, layer.channels.missed) == (1, ())
    assert layer.channels.reached == pytest.approx(layer.channels.length)
    assert layer.layout.rules.pitch == pytest.approx(4 * 0.0254)
    assert faults(layer.plan.floor, layer.layout) == []


FOOTING = '[[soil-gas.footing]]\nfrom = "0 4"\nto = "10 4"\nwidth = "500 mm"\n'
PIPE = '[[soil-gas.footing.crossing]]\nat = "3 4"\nsize = "100 mm"\n'


def test_what_a_footing_parts_is_named_until_a_pipe_goes_through_it(tmp_path):
    at = '[[soil-gas.suction]]\nat  = "5 4"'
    moved = at.replace("5 4", "5 2")
    layer, notes = raft(tmp_path, at, f"{FOOTING}\n{moved}")
    assert layer.channels.nets == 2
    assert "of its pieces have no channel that leads to a suction point" in notes
    data = json.loads(as_json(taken_off(resolved_of(tmp_path, CHANNELS.replace(at, f"{FOOTING}\n{moved}", 1)))))
    numbers = data["layers"][0]["channels"]["pieces-not-reached"]
    named = dict(numbered(layer.layout))
    angle = layer.layout.angle
    for number, piece in named.items():
        middle = layer.layout.on_plan(((piece.x0 + piece.x1) / 2, (piece.y0 + piece.y1) / 2))
        if number in numbers:
            assert middle[1] > 3.5, angle
        elif number not in numbers:
            assert middle[1] < 4.6
    layer, notes = raft(tmp_path, at, f"{FOOTING}{PIPE}\n{moved}")
    assert (layer.channels.nets, layer.channels.missed) == (1, ())
    assert "lead from every panel" in notes


def test_rows_of_a_raft_begin_at_the_corner_below_its_walls(tmp_path):
    """The panels reach out below the wall; the corner that is typed is that of the room."""
    layer, _ = raft(tmp_path, "[soil-gas]", "[laying]\nstart = 3\n\n[soil-gas]")
    outer = max(layer.plan.floor.outline.corners)
    assert min(outer) > 8.0
    assert outer[0] > 10.0
    first = numbered(layer.layout)[0][1]
    at = layer.layout.on_plan(
        (first.x1 if layer.layout.from_right else first.x0, first.y1 if layer.layout.from_top else first.y0)
    )
    assert at == pytest.approx(outer)


def test_no_suction_point_is_said(tmp_path):
    text = CHANNELS[: CHANNELS.index("[[soil-gas.suction]]")].replace('system       = "fan"', 'system       = "none"')
    layer = taken_off(resolved_of(tmp_path, text)).layers[0]
    assert any("are one net; no suction point is typed" in note for note in layer.notes), layer.notes


def test_a_record_whose_cover_is_no_whole_pitch_is_told(tmp_path):
    """A line of one's own: knobs each 3 in on a panel that covers 47-1/2 in."""
    from underpour.catalogue.line import Size
    from underpour.takeoff.layers import lined_up

    inch = 0.0254
    length, width, pitch = lined_up(Size(24 * inch, 48 * inch, "2 ft x 4 ft"), 0.5 * inch, 3 * inch)
    assert (length, width, pitch) == pytest.approx((47.5 * inch, 23.5 * inch, 0.0))
    length, width, pitch = lined_up(Size(24.5 * inch, 48.5 * inch, ""), 0.5 * inch, 3 * inch)
    assert (length, width, pitch) == pytest.approx((48 * inch, 24 * inch, 3 * inch))


def test_a_plan_proved_the_fewest_for_its_rows_says_so(tmp_path):
    """The raft's rows of channelled panels: more than the bound by strips, and no start takes fewer."""
    layer, _ = raft(tmp_path)
    why = layer.items[0].why
    assert layer.layout.panels > layer.bound[0]
    assert layer.bound[0] <= layer.proved <= layer.layout.panels
    proved = layer.proved == layer.layout.panels
    told = "Proved the fewest for rows that lie where these do." if proved else f"take {layer.proved} or more"
    assert told in why
    data = json.loads(as_json(taken_off(resolved_of(tmp_path, CHANNELS))))
    assert data["layers"][0]["fewest-for-these-rows"] == layer.proved


def test_joints_over_joints_of_a_second_layer_are_told_in_metres(tmp_path):
    line = next(each for each in BASEMENT.splitlines() if 'board = "plain-15"' in each and "face" not in each)
    resolved = resolved_of(tmp_path, BASEMENT.replace(line, f"{line}\n{line}", 1))
    first, second = taken_off(resolved).layers
    measured = over_each_other(first.layout, second.layout, 0.1)
    assert second.over == pytest.approx(measured, abs=0.5)
    assert (second.over > 0.01) == any("parallel ones of the layer below" in note for note in second.notes)
    assert measured < 0.1 * second.layout.seams
    assert faults(second.plan.floor, second.layout) == []
