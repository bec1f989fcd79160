"""The crew sheet and the labels: what stands on them is what was counted, read back out of the papers."""

import re
from dataclasses import replace
from io import BytesIO
from math import ceil
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from sheets import sheets

from underpour.brief import read
from underpour.cli import hear
from underpour.handouts.crew import for_crew
from underpour.measure import say
from underpour.mistakes import Mistake
from underpour.papers.crew_sheet import LABELS, crew_sheet, labels
from underpour.resolve import resolve
from underpour.takeoff import taken_off
from underpour.takeoff.cutting import cuts, kept, numbered
from underpour.takeoff.edges import sawn_strips
from underpour.takeoff.lifting import loose_boards, weights

EXAMPLES = Path(__file__).parents[2] / "examples"
DAY = "2026-11-28"
NAMES = ["daylight-basement", "court-and-bay-house", "raft-with-channels"]


def sheets_of(pdf):
    """The text of each sheet, spaces and breaks as one space."""
    document = pypdfium2.PdfDocument(pdf)
    return [" ".join(page.get_textpage().get_text_bounded().replace("\ufffe", "").split()) for page in document]


def plain(words):
    return " ".join(words.replace("\u2009", " ").replace("\u00a0", " ").split())


@pytest.fixture(scope="module", params=NAMES)
def made(request):
    reading = read(EXAMPLES / request.param / "brief.toml")
    resolved = resolve(reading.brief, products=reading.products)
    takeoff = taken_off(resolved)
    of = for_crew(resolved, takeoff)
    return resolved, takeoff, of, crew_sheet(of, date=DAY, paper="a4").pdf, labels(takeoff, date=DAY, paper="a4").pdf


def test_each_paper_is_sound_tagged_and_the_same_twice(made):
    _, takeoff, of, sheet, labelled = made
    for pdf in (sheet, labelled):
        with pikepdf.open(BytesIO(pdf)) as document:
            assert document.Root.MarkInfo.Marked
            assert document.check_pdf_syntax() == []
    assert crew_sheet(of, date=DAY, paper="a4").pdf == sheet
    assert labels(takeoff, date=DAY, paper="a4").pdf == labelled


def test_the_sheet_says_every_count_cut_and_offcut(made):
    _, takeoff, _, sheet, _ = made
    text = " ".join(sheets_of(sheet))
    for item in takeoff.items:
        if item.count is not None:
            assert f"{item.count} {plain(item.of)}" in text
    for layer in takeoff.layers:
        layout, system = layer.layout, takeoff.system
        assert f"{layout.panels} of {layer.size}; no plan in rows takes fewer than {layer.bound[0]}" in text
        for cut in cuts(layout):
            size = f"{say.to_cut(cut.length, system)} x {say.to_cut(cut.height, system)}"
            assert f"{cut.number} {plain(size)}" in text
        for each in kept(layout):
            assert plain(f"{say.to_cut(each.length, system)} x {say.to_cut(each.height, system)}") in text


def test_each_row_adds_up_to_the_panels_in_it(made):
    """The rows' lists, read back: whole panels counted and sawn pieces named are all the pieces there are."""
    _, takeoff, of, _, _ = made
    from underpour.papers.crew_sheet import _rows

    for layer in takeoff.layers:
        rows = list(_rows(layer, of))
        for row in rows:
            said = row["pieces"].split(", ")
            there = sum(int(each.split()[0]) if each.endswith("whole") else 1 for each in said)
            assert there == sum(number.split(".")[0] == row["row"] for number, _ in numbered(layer.layout))


def test_plans_lie_on_sheets_of_their_own_with_every_number_that_finds_room(made):
    _, takeoff, of, sheet, _ = made
    for layer, (picture, *parts) in zip(takeoff.layers, of.panels, strict=True):
        assert parts == []
        shown = set(re.findall(r">(\d+\.\d+)</text>", picture.svg))
        assert len(shown) > 0.8 * layer.sawn
        on_sheets = [text for text in sheets_of(sheet) if "Begin at the heavy line" in text]
        assert any(all(number in text for number in shown) for text in on_sheets)


def test_a_large_floor_is_drawn_in_parts_in_which_every_sawn_piece_has_its_number():
    """rink-hall: over a thousand panels in rows of 2 ft; a place alone stands behind a point in its row."""
    reading = read(EXAMPLES / "rink-hall" / "brief.toml")
    resolved = resolve(reading.brief, products=reading.products)
    takeoff = taken_off(resolved)
    of = for_crew(resolved, takeoff)
    ((whole, *parts),) = of.panels
    assert len(parts) == len(re.findall(r">part \d+</text>", whole.svg)) == 6
    whole_numbers = {number for part in parts for number in re.findall(r">(\d+\.\d+)</text>", part.svg)}
    places = sum(len(re.findall(r">\.\d+</text>", part.svg)) for part in parts)
    sawn = {cut.number for cut in cuts(takeoff.layers[0].layout)}
    assert whole_numbers <= sawn
    assert len(whole_numbers) + places >= len(sawn)
    rows = {row for part in parts for row in re.findall(r">row (\d+)</text>", part.svg)}
    assert rows >= {number.split(".")[0] for number, _ in numbered(takeoff.layers[0].layout)}


def test_what_is_laid_last_comes_off_the_lorry_first():
    reading = read(EXAMPLES / "court-and-bay-house" / "brief.toml")
    resolved = resolve(reading.brief, products=reading.products)
    of = for_crew(resolved, taken_off(resolved))
    from underpour.papers.crew_sheet import _unloading

    listed = [row["what"] for row in _unloading(of)]
    order = [work.key for work in of.works]
    assert order.index("film") < order.index("boards")
    film = next(n for n, what in enumerate(listed) if "film" in what.lower())
    board = next(n for n, row in enumerate(_unloading(of)) if row["where"] == "floor" and "Plain" in row["what"])
    assert board < film


def test_weights_by_hand():
    """daylight-basement: a sheet of 4 by 8 ft, 2 in thick, of 1.4 lb/ft³ weighs 8 x 4 x 2/12 x 1.4 lb."""
    reading = read(EXAMPLES / "daylight-basement" / "brief.toml")
    resolved = resolve(reading.brief, products=reading.products)
    panel, bundle = weights(resolved, taken_off(resolved))
    assert panel.mass == pytest.approx(8 * 4 * 2 / 12 * 1.4 * 0.45359237)
    assert bundle.mass == pytest.approx(12 * panel.mass)
    assert (panel.people, bundle.people) == (1, ceil(bundle.mass / 23.0)) == (1, 2)
    (loose,) = loose_boards(resolved)
    assert 0.5 * 1.25 * loose.lifts**2 == pytest.approx(loose.by_area * 9.80665)
    area = 1.2192 * 2.4384
    assert loose.held == pytest.approx(0.5 * 1.25 * 10.0**2 / 9.80665 * area - panel.mass)


def test_letters_lie_within_the_margins_and_off_each_other(made):
    *_, sheet, _ = made
    for n, one in enumerate(sheets(sheet), start=1):
        assert not one.off_the_margins(), n
        assert not one.on_each_other(), n


def test_a_title_that_would_like_to_be_markup_is_set_as_text(made):
    resolved, takeoff, _, _, _ = made
    title = '#eval("1") *bold* <b> $x$ @cite // \N{SNOWMAN}' + "W" * 80
    of = for_crew(resolved, replace(takeoff, title=title))
    for pdf in (crew_sheet(of, date=DAY, paper="a4").pdf, labels(of.takeoff, date=DAY, paper="a4").pdf):
        text = "".join(" ".join(sheets_of(pdf)).split())
        assert '#eval("1")*bold*<b>$x$@cite//' in text


def test_foam_of_the_edges_is_sawn_into_the_pieces_that_cover_it(made):
    resolved, takeoff, _, sheet, _ = made
    text = "".join(" ".join(sheets_of(sheet)).split())
    counts = {item.where: item.count for item in takeoff.items if item.bulk is not None}
    for strip in sawn_strips(resolved):
        covered = sum(long * high * count for long, high, count in strip.pieces)
        assert covered == pytest.approx(strip.length * strip.height, rel=1e-3)
        assert counts[strip.where] == strip.boards
        long, high, count = strip.pieces[0]
        said = f"{count} of {say.to_cut(long, takeoff.system)} x {say.to_cut(high, takeoff.system)}"
        assert "".join(said.split()) in text


def test_there_is_a_label_for_each_sawn_piece_and_no_more(made):
    _, takeoff, _, _, labelled = made
    sheets = sheets_of(labelled)
    every = [cut for layer in takeoff.layers for cut in cuts(layer.layout)]
    assert len(sheets) == ceil(len(every) / (LABELS[0] * LABELS[1]))
    text = " ".join(sheets)
    assert text.count("from sawn panel") == len(every)
    for cut in every:
        size = plain(f"{say.to_cut(cut.length, takeoff.system)} x {say.to_cut(cut.height, takeoff.system)}")
        assert f"{cut.number} {size} from sawn panel {cut.panel}" in text


def test_a_crew_that_saws_is_told_what_can_hurt(made):
    *_, sheet, _ = made
    first = sheets_of(sheet)[0]
    for words in ("Backs are hurt", "Wind takes loose boards", "A hot wire sets foam alight", "Local code"):
        assert words in first


def test_paper_and_day_are_as_asked(tmp_path):
    brief = str(EXAMPLES / "raft-with-channels" / "brief.toml")
    hear(["takeoff", brief, "-o", str(tmp_path), "--paper", "us-letter", "--date", "2026-12-01"])
    document = pypdfium2.PdfDocument((tmp_path / "crew-sheet.pdf").read_bytes())
    assert [round(side) for side in document[0].get_size()] == [612, 792]
    assert "1 December 2026" in sheets_of((tmp_path / "crew-sheet.pdf").read_bytes())[0]
    with pytest.raises(Mistake, match="not a day"):
        hear(["takeoff", brief, "-o", str(tmp_path), "--date", "2026-13-01"])
