"""What a crew typed back from the site: the rest counted again, by hand and by the plan's own proof."""

import csv
import json
from io import StringIO
from pathlib import Path

import pytest

from underpour.brief import read
from underpour.cli import hear
from underpour.mistakes import Mistake, Mistakes
from underpour.resolve import resolve
from underpour.takeoff import taken_off
from underpour.takeoff.cutting import numbered

EXAMPLES = Path(__file__).parents[2] / "examples"
FOOT = 0.3048


def brief_with(tmp_path, lines, laying='rows = "x"\nkerf = "0 mm"', outline='["0 0", "40 0", "40 24", "0 24"]'):
    """A floor of 40 by 24 ft in sheets of 4 by 8 ft: six rows of five."""
    text = (EXAMPLES / "daylight-basement" / "brief.toml").read_text(encoding="utf-8")
    start = text.index("outline")
    end = text.index("\n", text.index("]", start))
    plan = f'outline = {outline}\nunit = "ft"'
    after = text[end:].replace('\nunit    = "m"', "", 1).replace('\nunit = "m"', "", 1)
    path = tmp_path / "so.toml"
    path.write_text(f"{text[:start]}{plan}{after}\n[laying]\n{laying}\nlaid = {{ {lines} }}\n", encoding="utf-8")
    return path


def layer_of(path):
    reading = read(path)
    return taken_off(resolve(reading.brief, products=reading.products)).layers[0]


def test_six_rows_of_five_counted_by_hand(tmp_path):
    """With two rows laid of ten panels, four rows of 40 ft are left: 20 panels, whatever the stagger."""
    layer = layer_of(brief_with(tmp_path, "rows = 2, panels = 10"))
    assert layer.layout.panels == 30
    assert (layer.rest.rows, layer.rest.of) == (2, 6)
    assert (layer.rest.panels, layer.rest.left, layer.rest.more) == (20, 20, 0)
    broken = layer_of(brief_with(tmp_path, "rows = 2, panels = 13")).rest
    assert (broken.panels, broken.left, broken.more) == (20, 17, 3)
    counted = layer_of(brief_with(tmp_path, "rows = 2, panels = 13, left = 25")).rest
    assert (counted.left, counted.more) == (25, 0)


def test_an_offcut_at_hand_takes_the_place_of_a_panel(tmp_path):
    """Rows that begin with half a sheet: two halves at hand are one panel less to open."""
    laying = 'rows = "x"\nkerf = "0 mm"\nbond = "half"\nstart = 1'
    without = layer_of(brief_with(tmp_path, "rows = 2, panels = 10", laying)).rest
    halves = layer_of(
        brief_with(tmp_path, 'rows = 2, panels = 11, offcuts = ["4 ft x 4 ft", "4 ft x 4 ft"]', laying)
    ).rest
    assert halves.panels == without.panels - 1
    assert halves.used == 2
    at_hand = [cut for cut in halves.cuts if cut.panel < 0]
    assert [(cut.length, cut.height) for cut in at_hand] == [pytest.approx((4 * FOOT, 4 * FOOT))] * 2


@pytest.mark.parametrize("rows", [0, 3, 7])
def test_the_rest_keeps_the_plan_s_pieces_and_is_cut_as_a_saw_can(tmp_path, rows):
    text = (EXAMPLES / "court-and-bay-house" / "brief.toml").read_text(encoding="utf-8")
    path = tmp_path / "so.toml"
    laid = f"\nlaid = {{ rows = {rows}, panels = 125 }}\nkerf "
    path.write_text(text.replace("\nkerf ", laid, 1), encoding="utf-8")
    layer = layer_of(path)
    lies = {number for number, _ in numbered(layer.layout) if int(number.split(".")[0]) <= rows}
    open_ = [piece for number, piece in numbered(layer.layout) if number not in lies]
    rules = layer.layout.rules
    whole = sum(piece.length * piece.height > rules.area - 1e-6 for piece in open_)
    assert len(layer.rest.cuts) == len(open_) - whole
    assert not lies & {cut.number for cut in layer.rest.cuts}
    by_panel = {}
    for cut in layer.rest.cuts:
        by_panel.setdefault(cut.panel, []).append(cut)
    assert len(by_panel) + whole == layer.rest.panels
    for cuts in by_panel.values():
        for n, one in enumerate(cuts):
            assert one.u + one.length <= rules.length + 1e-6
            assert one.v + one.height <= rules.width + 1e-6
            for other in cuts[n + 1 :]:
                along = max(other.u - one.u - one.length, one.u - other.u - other.length)
                across = max(other.v - one.v - one.height, one.v - other.v - other.height)
                assert max(along, across) >= rules.kerf - 1e-6
    if rows == 0:
        assert layer.rest.panels <= layer.layout.panels


def test_a_panel_that_holds_its_neighbours_is_cut_again_only_where_its_sides_are_whole(tmp_path):
    text = (EXAMPLES / "raft-with-channels" / "brief.toml").read_text(encoding="utf-8")
    bare, kept = (
        f'{text}\n[laying]\nlaid = {{ rows = 2, panels = 20, offcuts = ["760 mm x 1220 mm{sides}"] }}\n'
        for sides in ("", ", left end, right end, lower side, upper side")
    )
    told = []
    for n, words in enumerate((bare, kept)):
        (tmp_path / f"{n}.toml").write_text(words, encoding="utf-8")
        told.append(layer_of(tmp_path / f"{n}.toml").rest)
    assert told[0].used == 0
    assert told[1].used == 1


def test_terminal_json_and_table_say_the_same(tmp_path):
    path = brief_with(tmp_path, "rows = 2, panels = 13")
    said = " ".join(hear(["takeoff", str(path), "-o", str(tmp_path)]).text.split())
    assert "2 of 6 rows lie. The rest takes 20 panels of 4 ft x 8 ft." in said
    assert "17 are left, as the plan has it: order 3 more." in said
    rest = json.loads(hear(["takeoff", str(path), "--json"]).text)["layers"][0]["rest"]
    assert (rest["rows-laid"], rest["panels"], rest["left"], rest["more"]) == (2, 20, 17, 3)
    rows = list(csv.DictReader(StringIO((tmp_path / "rest.csv").read_text(encoding="utf-8-sig"))))
    assert [row["piece"] for row in rows] == [cut["number"] for cut in rest["cuts"]]
    done = hear(["takeoff", str(brief_with(tmp_path, "rows = 6, panels = 30"))]).text
    assert "All 6 rows lie; nothing is left to lay." in done


@pytest.mark.parametrize(
    ("lines", "wrong"),
    [
        ("rows = 7, panels = 30", "The plan has 6 rows."),
        ("rows = 3, panels = 14", "that is 15 panels at the least"),
        ('rows = 3, panels = 15, offcuts = ["4 ft x 4 ft"]', "that is 16 panels at the least"),
        ('rows = 3, panels = 20, offcuts = ["9 ft x 2 ft"]', "no offcut of it is so large"),
        ('rows = 3, panels = 20, offcuts = ["4 ft x 5 ft"]', "no offcut of it is so large"),
        ('rows = 3, panels = 20, offcuts = ["4 ft"]', "The size of an offcut is two lengths."),
        ('rows = 3, panels = 20, offcuts = ["4 ft x 2 ft, front"]', "A panel has no front."),
        ('rows = 3, panels = 20, offcuts = ["0 ft x 2 ft"]', "is nothing"),
        ("rows = 3, panels = 20, layer = 2", "The floor has 1 layer of panels."),
        ("rows = 3", "needs panels"),
        ("rows = 2.5, panels = 20", "How many is a whole number."),
        ("rows = -1, panels = 20", "How many is a whole number."),
        ("rows = 3, panels = 20, left = -1", "How many is a whole number."),
    ],
)
def test_what_cannot_be_is_told_and_nothing_is_written(tmp_path, lines, wrong):
    out = tmp_path / "out"
    out.mkdir()
    with pytest.raises((Mistake, Mistakes), match=wrong):
        hear(["takeoff", str(brief_with(tmp_path, lines)), "-o", str(out)])
    assert list(out.iterdir()) == []
