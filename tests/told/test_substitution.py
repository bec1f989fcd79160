"""What may stand in the place of a board: every refusal has its reason, every product that serves keeps what met."""

import io
from pathlib import Path

import pypdf
import pytest

from underpour.answer import answer
from underpour.brief import read, reads
from underpour.cli import main
from underpour.measure import say
from underpour.mistakes import Mistake
from underpour.substitution import substitution

ROOT = Path(__file__).parents[2]
WORKSHOP = ROOT / "examples/frost-wall-workshop/brief.toml"
FOOTING = ROOT / "examples/footing-on-foam/brief.toml"
TEXT = WORKSHOP.read_text("utf-8").split("[[alternative]]")[0]


def held(text: str, key: str, by: str | None = None):
    return substitution(reads(text), key, by)


def reasons(found, key: str) -> list[str]:
    return [each.words for sub in found.substitutes if sub.board.key == key for each in sub.refusals]


@pytest.fixture(scope="module")
def workshop():
    return substitution(read(WORKSHOP), "plain-25")


def test_a_softer_board_is_refused_by_the_number_of_the_class_that_it_does_not_reach(workshop):
    """ASTM C578 type IX: 25 psi at least, R-4.2 an inch, 1.8 lb/ft³; plain-15 is tested at 16.4 psi, 4.07 and 1.4."""
    told = " ".join(reasons(workshop, "plain-15"))
    assert "16.4 psi" in told and "25 psi at least" in told
    assert "1.4 lb/ft³" in told and "1.8 lb/ft³ at least" in told


def test_a_stiffer_board_serves_and_of_another_foam_its_density_is_not_asked(workshop):
    serving = {each.board.key for each in workshop.serving}
    assert {"plain-40", "plain-60", "graphite-25", "xps-25"} <= serving
    assert not serving & {"plain-10", "plain-15", "graphite-15", "cellglass-85"}


def test_the_thickness_is_the_thinnest_made_whose_labelled_r_is_no_less(workshop):
    for each in workshop.substitutes:
        for exchange in each.exchanges:
            assert exchange.r_after >= exchange.r_before * (1.0 - 1e-6)
            thinner = [m for m in each.board.made if m.r_label.value < exchange.r_after - 1e-9]
            assert all(made.r_label.value < exchange.r_before for made in thinner)


def test_what_may_stand_for_good_is_told_of_both_boards(workshop):
    """plain-25 is tested at 186.2 kPa and three tenths of that are 55.8; plain-40 at 293.0, of which 87.9."""
    found = next(each for each in workshop.substitutes if each.board.key == "plain-40")
    change = next(each for each in found.changes if "for good" in each.name)
    assert (change.before, change.after) == (pytest.approx(55.8, abs=0.1), pytest.approx(87.9, abs=0.1))


def test_what_serves_says_what_answering_the_changed_brief_says(workshop):
    """Differences on the first grid give the verdicts and the printed numbers of a whole answer."""
    changed = TEXT.replace('"plain-25"', '"graphite-25"')
    whole = {(f.id, frozenset(f.at.items())): f for f in answer(reads(changed)).as_briefed.findings}
    quick = next(each for each in workshop.substitutes if each.board.key == "graphite-25").findings
    left = set(whole) - {(f.id, frozenset(f.at.items())) for f in quick}
    assert {name for name, _ in left} <= {"heat.first-winters"}  # told of whole answers only
    for finding in quick:
        other = whole[finding.id, frozenset(finding.at.items())]
        assert finding.verdict == other.verdict
        if finding.value is not None:
            assert finding.value == pytest.approx(other.value, rel=2e-3, abs=0.02), finding.id


def test_a_board_without_the_facing_that_is_asked_for_is_refused():
    found = held(TEXT.replace('"plain-25"', '"film-25-barrier"'), "film-25-barrier")
    assert any("has a facing" in words for words in reasons(found, "plain-40"))


def test_thinner_foam_cannot_serve_where_no_thickness_reaches_the_labelled_r():
    found = held(TEXT.replace('"2 in" }', '"6 in" }').replace("10 in", "20 in", 1), "plain-25")
    assert any("as labelled is asked at floor, layer 2" in words for words in reasons(found, "xps-100"))


def test_a_board_that_no_longer_fits_the_depth_is_refused_by_that_finding():
    """10 in were dug for 4 + 2 + 4 in; 2 in of graphite-15 are more R than of plain-15, so 2-1/2 in are wanted."""
    found = held(TEXT.replace('"plain-25"', '"graphite-15"'), "graphite-15")
    refused = next(each for each in found.refused if each.board.key == "plain-15")
    assert refused.exchanges[0].after == "2-1/2 in"
    assert [each.what for each in refused.refusals] == ["height.depth"]


def test_a_footing_on_foam_keeps_its_wall_load_when_the_board_is_changed():
    found = substitution(read(FOOTING), "c578-xiv")
    assert {each.board.key for each in found.serving} == {"plain-40", "plain-60", "xps-40"}
    for each in found.serving:
        bearing = [f for f in each.findings if f.id == "bearing.foam-long" and f.limit is not None]
        assert bearing and all(f.verdict == "meets" for f in bearing)
    assert found.where == ("edge.A.insulation.3",)


def test_a_softer_board_is_refused_by_the_wall_that_stands_on_it():
    """Cellular glass claims no class that is held here; what met on it has to meet on foam of 16 psi as well."""
    text = FOOTING.read_text("utf-8").split("[[alternative]]")[0]
    found = held(text.replace('"c578-xiv", thickness = "100 mm"', '"cellglass-85", thickness = "4 in"'), "cellglass-85")
    assert found.classes == ()
    refused = next(each for each in found.refused if each.board.key == "plain-15")
    assert "bearing.foam-long" in [each.what for each in refused.refusals]
    assert "plain-60" in {each.board.key for each in found.serving}


def test_an_own_line_beside_the_brief_is_asked_too():
    found = substitution(read(ROOT / "examples/own-board-line/brief.toml"), "fold-20")
    by_key = {each.board.key: each for each in found.substitutes}
    assert by_key["plain-15"].board.maker == "Pinfold Foam"
    assert any("expired" in each.words for each in by_key["plain-15"].refusals)
    assert by_key["plain-25"].serves


def test_only_the_product_that_is_proposed_is_told():
    found = held(TEXT, "plain-25", "graphite-25")
    assert [each.board.key for each in found.substitutes] == ["graphite-25"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["catalogue", "replace"], "Which brief?"),
        (["catalogue", "replace", "{brief}"], "Which of its boards?"),
        (["catalogue", "replace", "{brief}", "plain-52"], "No board of this brief is called plain-52."),
        (["catalogue", "replace", "{brief}", "plain-15"], "No board of this brief is called plain-15."),
        (["catalogue", "replace", "{brief}", "plain-25", "--by", "plian-40"], "The nearest is plain-40."),
        (["catalogue", "replace", "{brief}", "plain-25", "--by", "plain-25"], "is what the brief has there already"),
        (["catalogue", "replace", "{brief}", "plain-25", "--by", "knob-15"], "is no flat board"),
        (["catalogue", "replace", "{brief}", "plain-25", "--by", "c578-ix"], "is a class and no product"),
        (["catalogue", "replace", "{brief}", "plain-25", "-o", "x.pdf"], "Name it with --by."),
        (["catalogue", "replace", "{brief}", "plain-25", "--by", "plain-40", "-o", "x.txt"], "written here is PDF."),
        (["catalogue", "replace", "{brief}", "plain-25", "--by", "plain-40", "--date", "3/4/5"], "That is no day"),
        (["catalogue", "replace", "nowhere.toml", "plain-25"], "no such file"),
    ],
)  # fmt: skip
def test_what_cannot_be_asked_is_refused_in_words_and_changes_nothing(words, said, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "brief.toml").write_text(TEXT, "utf-8")
    assert main([word.format(brief="brief.toml") for word in words]) == 2
    assert said.casefold() in " ".join(capsys.readouterr().err.split()).casefold()
    assert [path.name for path in tmp_path.iterdir()] == ["brief.toml"]


def test_the_terminal_lists_who_can_serve_and_every_reason_against_the_others(capsys):
    assert main(["catalogue", "replace", str(WORKSHOP), "plain-25"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "Can serve (7)" in said and "Cannot (5)" in said
    assert "every number of ASTM C578 type IX, shown by its records" in said
    assert "A structural engineer signs" in said


def test_the_page_for_a_reviewer_prints_the_numbers_that_were_worked_out(tmp_path, capsys):
    page = tmp_path / "page.pdf"
    words = ["catalogue", "replace", str(WORKSHOP), "plain-25", "--by", "graphite-25", "--date", "2026-11-27", "-o"]
    assert main([*words, str(page)]) == 0
    first = page.read_bytes()
    text = " ".join(" ".join(sheet.extract_text() for sheet in pypdf.PdfReader(io.BytesIO(first)).pages).split())
    found = held(TEXT, "plain-25", "graphite-25")
    for change in found.substitutes[0].changes:
        if isinstance(change.after, float):
            assert say.value(change.after, change.unit, "US").replace("\N{THIN SPACE}", " ") in text.replace(
                "\N{NO-BREAK SPACE}", " "
            )
    assert "The reviewer’s decision" in text or "The reviewer's decision" in text
    assert "Accepted, on these conditions" in text
    assert "combustible" in text
    assert main([*words, str(page)]) == 0
    assert page.read_bytes() == first


def test_a_refused_product_gets_a_page_with_each_reason_and_its_source(tmp_path, capsys):
    page = tmp_path / "page.pdf"
    assert main(["catalogue", "replace", str(WORKSHOP), "plain-25", "--by", "plain-15", "-o", str(page)]) == 0
    text = " ".join(" ".join(sheet.extract_text() for sheet in pypdf.PdfReader(page).pages).split())
    assert "It cannot serve, for 6 reasons." in text
    assert "ASTM C578-10" in text


def test_a_class_can_be_asked_for_and_products_are_held_to_its_numbers():
    found = held(TEXT.replace('"plain-25"', '"c578-ix"'), "c578-ix")
    assert "plain-25" in {each.board.key for each in found.serving}
    assert found.classes == ("ASTM C578 type IX",)


def test_an_unknown_product_is_a_mistake_with_the_nearest():
    with pytest.raises(Mistake, match="No board is called plain-52"):
        held(TEXT, "plain-25", "plain-52")


def test_where_the_brief_wants_an_r_that_r_is_asked_and_not_what_the_board_gives_over():
    """plain-25 reaches R-8 in 2 in with R-8.5; a board of R-8.1 in 2 in is thick enough."""
    text = TEXT.replace('board = "plain-25", thickness = "2 in"', 'board = "plain-25", r = "R8"')
    assert text != TEXT
    found = held(text, "plain-25", "plain-15")
    assert any(each.startswith("R-8.0 (RSI") for each in found.needs)
    assert not any("as labelled is asked" in each for each in reasons(found, "plain-15"))
