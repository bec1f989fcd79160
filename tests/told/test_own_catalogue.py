"""A user's own product lines in the folder beside the brief: never silent, held to the same checks."""

import datetime
import re
from pathlib import Path

import pytest

from underpour.answer import answer
from underpour.brief import read
from underpour.catalogue.products import products_beside, shipped_products
from underpour.cli import main
from underpour.mistakes import Mistakes
from underpour.papers import laid

EXAMPLE = Path(__file__).parents[2] / "examples/own-board-line"
BRIEF = (EXAMPLE / "brief.toml").read_text("utf-8")
LINE = (EXAMPLE / "catalogue/pinfold.toml").read_text("utf-8")


@pytest.fixture
def job(tmp_path):
    """A folder with a brief and lines of its own."""

    def made(*lines: str, brief: str = BRIEF) -> Path:
        (tmp_path / "catalogue").mkdir()
        (tmp_path / "brief.toml").write_text(brief, "utf-8")
        for n, text in enumerate(lines):
            (tmp_path / f"catalogue/line-{n}.toml").write_text(text, "utf-8")
        return tmp_path / "brief.toml"

    return made


def evidence(path: Path) -> dict[str, str]:
    found = answer(read(path)).as_briefed.findings
    return {each.at["product"]: each.verdict for each in found if each.id == "product.evidence"}


def test_an_own_line_stands_beside_the_tools_and_takes_the_place_of_a_board_of_the_same_key():
    products = products_beside(EXAMPLE)
    assert products.board("plain-15").label == "Fold Plain 15 (invented)"
    assert products.board("plain-25") is not shipped_products().board("plain-25")
    assert products.board("plain-25").label == shipped_products().board("plain-25").label
    assert products.board("c578-ix") is shipped_products().board("c578-ix")


@pytest.mark.parametrize("word", ["answer", "compare"])
def test_whose_boards_they_are_is_said_wherever_the_answer_is(word, capsys):
    main([word, str(EXAMPLE / "brief.toml")])
    said = " ".join(capsys.readouterr().out.split())
    assert "2 products of Pinfold Foam (catalogue/pinfold.toml) stand beside the line that comes with the tool." in said
    assert "Of the same key, plain-15 there takes the place of the tool's own." in said


def test_one_product_stands_and_several_stand(job):
    only = LINE[: LINE.rindex("[[product]]")]
    assert read(job(only)).products.notes() == (
        "1 product of Pinfold Foam (catalogue/line-0.toml) stands beside the line that comes with the tool.",
    )


def test_a_line_that_stands_alone_leaves_the_tools_out(job):
    brief = job("stands-alone = true\n" + LINE, brief=BRIEF.split("[[alternative]]")[0])
    assert "in place of the line that comes with the tool" in read(brief).products.notes()[0]
    brief.write_text(brief.read_text("utf-8").replace("fold-20", "plain-25"), "utf-8")
    with pytest.raises(Mistakes, match="No board is called plain-25"):
        answer(read(brief))


def test_an_expired_certificate_falls_short_and_one_in_date_meets(job):
    assert evidence(EXAMPLE / "brief.toml") == {"fold-20": "meets", "plain-15": "falls short"}
    assert evidence(
        job(LINE.replace('2024-05-02\n  certificate = "PF-15-2"', '2099-05-02\n  certificate = "PF-15-2"'))
    ) == {
        "fold-20": "meets",
        "plain-15": "meets",
    }


def test_product_data_of_a_submittal_say_what_falls_short_in_the_records():
    told = {p["name"]: p["short"] for p in laid.products(answer(read(EXAMPLE / "brief.toml")))}
    short = next(words for name, words in told.items() if name.startswith("Fold Plain 15"))
    assert "expired" in short[0]
    assert [name for name, words in told.items() if words] == ["Fold Plain 15 (invented)"]


def test_an_average_is_said_beside_its_record_wherever_that_is_named(job):
    before = 'statistic = "each"'
    assert before in LINE
    products = products_beside(job(LINE.replace(before, 'statistic = "average"')).parent)
    assert "an average, record" in products.board("fold-20").strength.where
    assert "average" not in products_beside(EXAMPLE).board("fold-20").strength.where


def test_a_product_is_shown_with_what_falls_short_in_its_records(capsys):
    own = str(EXAMPLE / "catalogue")
    for words in (["show", "plain-15"], ["thickness", "R8", "plain-15"], ["thickness", "2 in", "plain-15"]):
        assert main(["catalogue", *words, "--catalogue", own]) == 0
        assert "short in the records of Fold Plain 15" in " ".join(capsys.readouterr().out.split())
        assert main(["catalogue", *words]) == 0
        assert "short in the records" not in capsys.readouterr().out


def test_certificates_are_held_to_the_day_of_the_reading():
    early = products_beside(EXAMPLE, datetime.date(2024, 5, 1))
    assert early.day < datetime.date(2024, 5, 2) and early.board("plain-15").strength.value == pytest.approx(
        106.9, abs=0.1
    )


def test_a_record_that_does_not_say_its_laboratory_cannot_be_told_until_it_does(job):
    silent = LINE.replace('  laboratory = "third party"\n', "", 1)
    brief = job(silent)
    found = {
        each.at["product"]: each for each in answer(read(brief)).as_briefed.findings if each.id == "product.evidence"
    }
    assert (found["fold-20"].verdict, found["fold-20"].missing) == (
        "cannot tell",
        "catalogue.product.fold-20.evidence.1.laboratory",
    )
    (brief.parent / "catalogue/line-0.toml").write_text(LINE, "utf-8")
    assert evidence(brief)["fold-20"] == "meets"


def test_a_line_that_is_there_as_a_table_only_is_not_passed_over(job):
    brief = job()
    (brief.parent / "catalogue/line.CSV").write_text("row,key\n", "utf-8")
    with pytest.raises(Mistakes) as told:
        read(brief)
    assert "underpour catalogue import" in next(iter(told.value)).instead


def test_a_folder_without_a_line_changes_nothing(job):
    assert read(job(brief=BRIEF.replace("fold-20", "plain-25"))).products is shipped_products()


def without(property_: str) -> str:
    """The line without one record of its first product."""
    return re.sub(rf'  \[\[product\.evidence\]\]\n  property = "{property_}"\n(  (?!\[\[).*\n)*', "", LINE, count=1)


SECOND = LINE.replace("Pinfold", "Another").replace("Fold", "Wold")
REFUSED = [
    (
        "two files, one key",
        [LINE, SECOND],
        "fold-20 is a product of line-0.toml already, so a brief could mean either.",
    ),
    ("the key of a class", [LINE.replace('"plain-15"', '"c578-ix"')], "c578-ix is a class of a standard already"),
    ("not TOML", ["[maker\n"], "line-0.toml:1"),
    ("no maker", [LINE.replace("[maker]", "[makr]")], "Nothing here is called makr."),
    ("no R", [without("resistance-24C")], "Fold 20 cannot be worked with: its record in"),
    ("no strength", [without("strength")], "lacks compressive strength."),
    ("no water", [without("water")], "lacks water taken up, by volume."),
    ("no density", [without("density")], "lacks density."),
    ("no foam", [LINE.replace('family = "EPS"\n', "", 1)], "lacks the foam it is made of (family)."),
    ("a number without unit", [LINE.replace('  unit = "psi"\n', "", 1)], "The record has no number with its unit."),
    (
        "a thickness that is not made",
        [LINE.replace('{ thickness = "2 in", r-label = "R8.2" }, ', "")],
        "is not made 2 in thick",
    ),
]


@pytest.mark.parametrize(("lines", "words"), [row[1:] for row in REFUSED], ids=[row[0] for row in REFUSED])
def test_a_line_that_cannot_be_used_is_refused_in_words_and_changes_nothing(lines, words, job, capsys):
    brief = job(*lines)
    before = {path: path.read_bytes() for path in brief.parent.rglob("*") if path.is_file()}
    assert main(["answer", str(brief)]) == 2
    said = " ".join(capsys.readouterr().err.split())
    assert words in said, said
    assert {path: path.read_bytes() for path in brief.parent.rglob("*") if path.is_file()} == before


def test_mistakes_of_the_brief_and_of_the_line_are_told_together(job, capsys):
    brief = job(LINE.replace("[maker]", "[makr]"), brief=BRIEF.replace('units = "US"', 'units = "UK"'))
    assert main(["answer", str(brief)]) == 2
    said = capsys.readouterr().err
    assert "units" in said and "makr" in said
