"""Data sheets and comparisons: the record's numbers, nothing plain that does not stand, marks, wrong words."""

from __future__ import annotations

import csv
import datetime
import io
import json
import re
from functools import cache
from pathlib import Path
from typing import Any

import hostile_line
import pypdf
import pytest
from sheets import sheets, words
from test_submittal_sheets import is_sound, is_well_set, squeezed

from product_lines import TODAY, evidence, record_of, shipped
from test_words import wrong_words
from underpour.catalogue.line import Line
from underpour.catalogue.line_file import _lists_as_tuples
from underpour.catalogue.products import shipped_products
from underpour.cli import main
from underpour.cli.catalogue.compare import as_csv, in_words
from underpour.conformity import ReadLine, validation
from underpour.conformity.rules import rules
from underpour.handouts.products import in_hand, picture_of
from underpour.laying.guide import guide
from underpour.laying.table import table
from underpour.papers import data_sheet, guided, product_comparison, product_guide
from underpour.papers.product_pages import compared
from underpour.particulars import GUIDE, Particulars, comparison, earlier, label, particulars, sheet, since

PAPERS = ("us-letter", "a4")
DAY = ["--date", "2026-11-27"]
KEYS = [product.key for product in shipped_products().products()]
HOSTILE = [product["key"] for product in hostile_line.products()]


def shown(*products: dict[str, Any], today: datetime.date = TODAY, invented: bool = False) -> tuple[Particulars, ...]:
    """Products as they are shown, of one line."""
    table = {"maker": {"name": "A maker", "invented": invented}, "priced": datetime.date(2026, 6, 1)}
    line = Line.model_validate(_lists_as_tuples({**table, "product": list(products)}))
    found = validation([ReadLine(line, "line.toml")], today, rules())
    return tuple(
        particulars(each, line, held, today, rules()) for each, held in zip(line.product, found.products, strict=True)
    )


@cache
def in_words_on(day: datetime.date) -> dict[str, Particulars]:
    """The products of the tool's own line as they are shown on a day."""
    return {each.product.key: each.shown() for each in in_hand(None, day)}


@cache
def line() -> dict[str, Particulars]:
    found = in_words_on(TODAY)
    return found | {each.product.key: each for each in shown(*hostile_line.products())}


def pdf(of: Particulars, paper: Any = "us-letter", **more: Any) -> bytes:
    return data_sheet(sheet(of), picture_of(of), paper=paper, draft=bool(of.short), **more).pdf


# ------------------------------------------------------------------------------------------------------------- on paper


@pytest.mark.parametrize("key", KEYS)
def test_a_data_sheet_is_two_sheets_at_most_sound_and_well_set(key):
    of = line()[key]
    for paper in PAPERS:
        made = pdf(of, paper)
        is_sound(made)
        is_well_set(made)
        assert len(list(sheets(made))) <= 2


@pytest.mark.parametrize("key", HOSTILE)
def test_a_hostile_record_is_set_within_its_margins(key):
    for paper in PAPERS:
        made = pdf(line()[key], paper)
        is_sound(made)
        is_well_set(made)


@pytest.mark.parametrize("key", [*KEYS, "sixty", "refused"])
def test_every_number_of_the_record_stands_on_the_sheet_with_its_test_certificate_and_days(key):
    of = line()[key]
    printed = squeezed(words(pdf(of)))
    for row in of.product.evidence:
        number = (
            f"{row.value:.10g}" if abs(row.value) >= 1e-3 else f"{row.value:e}".split("e")[0].rstrip("0").rstrip(".")
        )
        unit = "" if row.unit == "index" or abs(row.value) < 1e-3 else row.unit
        assert squeezed(f"{number}{unit}") in printed, row
        for said in (row.method, row.certificate, str(row.date), str(row.expires)):
            assert squeezed(said) in printed, (said, row)
    for made in of.product.made:
        assert squeezed(made.thickness.typed) in printed
        assert made.r_label is None or made.r_label.typed in printed


def test_the_number_beside_a_record_leads_to_its_place_in_the_list():
    told = sheet(line()["plain-15"])
    rows = line()["plain-15"].product.evidence
    assert [figure["record"] for figure in told["figures"]] == list(range(1, len(rows) + 1))
    assert all(made["record"] == 1 for made in told["made"])
    assert rows[0].property == "resistance-24C"


def test_an_invented_product_says_so_and_a_real_one_does_not():
    assert "nobodysellsit" in squeezed(words(pdf(line()["plain-15"])))
    (real,) = shown(shipped("plain-15"))
    assert "nobodysellsit" not in squeezed(words(pdf(real)))


def test_both_systems_stand_beside_each_other_and_neither_is_worked_out_twice():
    """16.4 psi are 113.07 kPa (1 psi = 6.894757 kPa, NIST SP 811): printed as 113."""
    figure = next(each for each in line()["plain-15"].figures if each.of.key == "strength")
    assert (figure.typed, figure.other) == ("16.4 psi", "113 kPa")


def test_embodied_carbon_is_worked_out_in_sight():
    """3.3 kgCO2e/kg times 1.4 lb/ft³ (16.0185 kg/m³ each) is 74.0 kgCO2e a cubic metre."""
    assert sheet(line()["plain-15"])["embodied"].endswith("(record 10) = 74 kgCO2e for each m³.")


# ------------------------------------------------------------------------------------------ nothing that does not stand


def spoilt(property: str, **changes: Any) -> Particulars:
    product = shipped("plain-15")
    record = record_of(product, property)
    for key, value in changes.items():
        record.pop(key, None) if value is None else record.update({key: value})
    return shown(product)[0]


@pytest.mark.parametrize(
    ("changes", "word"),
    [
        ({"expires": datetime.date(2026, 11, 26)}, "expired"),
        ({"statistic": "average"}, "average"),
        ({"unit": "perm"}, "refused"),
        ({"method": "ASTM C203"}, "refused"),
        ({"date": datetime.date(2027, 1, 1)}, "refused"),
        ({"certificate": None}, "not told whole"),
        ({}, "stands"),
    ],
)
def test_a_number_is_plain_only_where_its_record_stands(changes, word):
    of = spoilt("strength", **changes)
    figure = next(each for each in of.figures if each.of.key == "strength")
    assert figure.standing == word
    assert figure.words == (figure.both if word == "stands" else f"{word}: {figure.both}")
    assert bool(figure.why) == (word != "stands")
    cells = [row.cells[0].words for _, rows in comparison([of]).groups for row in rows]
    assert figure.words in cells
    assert figure.both not in cells or word == "stands"
    printed = squeezed(words(pdf(of)))
    assert word == "stands" or squeezed(f"{word.capitalize()}: {figure.typed}") in printed


def test_two_records_that_disagree_are_both_disputed():
    product = shipped("plain-15")
    product["evidence"].append(evidence("strength", 24.0, "psi", "ASTM D1621", conditions={"area": "gross"}))
    (of,) = shown(product)
    told = [
        (each.typed, each.standing) for each in of.figures if each.tests == ("ASTM D1621",) and "10" in each.of.printed
    ]
    assert told == [("16.4 psi", "disputed"), ("24 psi", "disputed")]


def test_a_label_stands_on_its_record():
    of = spoilt("resistance-24C", expires=datetime.date(2026, 1, 1))
    assert {made.standing for made in of.made} == {"expired"}
    product = shipped("plain-15")
    product["made"][2]["r-label"] = "R9"
    (of,) = shown(product)
    assert [made.standing for made in of.made] == [
        "stands",
        "stands",
        "refused",
        "stands",
        "stands",
        "stands",
        "stands",
    ]
    product["evidence"] = [row for row in product["evidence"] if row["property"] != "resistance-24C"]
    assert {made.standing for made in shown(product)[0].made} == {"no record"}


def test_a_refused_claim_is_shown_as_refused_on_sheet_and_label():
    of = line()["refused"]
    assert [(claim.words, claim.standing) for claim in of.claims] == [
        ("ASTM C578 type VII", "refused"),
        ("a class nobody knows", "cannot tell"),
    ]
    assert ("Class", "refused: ASTM C578 type VII") in label(of)
    assert "refused" in words(pdf(of))


def test_a_cell_without_a_record_says_so_and_of_several_records_the_worst_counts():
    product = shipped("plain-15")
    product["evidence"].append(evidence("strength", 16.0, "psi", "ASTM D1621", conditions={"area": "gross"}))
    of = comparison([shown(product)[0], line()["sheet-15"]])
    row = next(
        row for _, rows in of.groups for row in rows if row.name == "Compressive strength" and "D1621" in row.terms
    )
    assert [cell.words for cell in row.cells] == ["16 psi (110 kPa), the worst of 2", "no record"]


def test_numbers_of_two_tests_never_share_a_row():
    of = comparison([line()["plain-15"]])
    terms = [row.terms for _, rows in of.groups for row in rows if row.name == "Compressive strength"]
    assert terms == ["ASTM D1621", "EN 826"]


# ------------------------------------------------------------------------------------------------------- the comparison


@pytest.mark.parametrize("width", [60, 80, 100])
def test_the_comparison_is_no_wider_than_the_terminal(width):
    text = in_words(comparison(list(line().values())), width)
    assert max(map(len, text.splitlines())) <= width


@pytest.mark.parametrize("paper", PAPERS)
def test_the_comparison_of_everything_is_sound_and_well_set(paper):
    of = comparison(list(line().values()))
    made = product_comparison(compared(of, "Made of records."), paper=paper).pdf
    is_sound(made)
    is_well_set(made)
    printed = squeezed(words(made)).replace("-", "")  # at the end of a line a hyphen is read as a mark
    for _, rows in of.groups:
        for row in rows:
            for cell in row.cells:
                assert squeezed(cell.words).replace("-", "") in printed, (row.name, cell.words)


def test_the_table_for_a_spreadsheet_holds_every_cell_and_no_formula():
    of = comparison([line()["markup"], line()["plain-15"]])
    rows = list(csv.reader(io.StringIO(as_csv(of))))
    assert rows[0][3:] == ["markup", "markup, evidence", "plain-15", "plain-15, evidence"]
    by_name = {(row[1], row[2]): row[3:] for row in rows[1:]}
    assert by_name["Material", ""][0] == "'=1+1"
    assert by_name["Evidence held to", ""] == ["2026-11-27", "", "2026-11-27", ""]
    assert by_name["Compressive strength", "ASTM D1621"] == [
        "no record",
        "",
        "16.4 psi (113 kPa)",
        "record 4, MB-02-COM",
    ]
    assert len({len(row) for row in rows}) == 1


# ------------------------------------------------------------------------------------------------------------- the mark


def test_the_same_record_has_the_same_mark_on_another_day_and_the_same_bytes_on_the_same_day():
    one, later = (sheet(in_words_on(day)["knob-15"]) for day in (TODAY, LATER))
    assert one["mark"] == later["mark"]
    assert one["day"] != later["day"]
    of = line()["knob-15"]
    assert pdf(of) == pdf(of)


LATER = datetime.date(2027, 6, 1)


def changes() -> list[Any]:
    def number(product: dict[str, Any]) -> None:
        product["evidence"][3]["value"] = 16.5

    def label_of_one(product: dict[str, Any]) -> None:
        product["made"][0]["r-label"] = "R4.0"

    def certificate(product: dict[str, Any]) -> None:
        product["evidence"][0]["certificate"] = "MB-02-THF"

    def word(product: dict[str, Any]) -> None:
        product["note"] += " "

    def gone(product: dict[str, Any]) -> None:
        product["attacked-by"] = product["attacked-by"][1:]

    return [number, label_of_one, certificate, word, gone]


@pytest.mark.parametrize("change", changes(), ids=lambda change: change.__name__)
def test_whatever_changes_gives_another_mark(change):
    product = shipped("plain-15")
    before = sheet(shown(product)[0])["mark"]
    change(product)
    assert sheet(shown(product)[0])["mark"] != before


def test_a_certificate_that_expires_gives_another_mark():
    after = in_words_on(datetime.date(2028, 3, 19))["plain-15"]
    assert sheet(after)["mark"] != sheet(line()["plain-15"])["mark"]


def test_what_moved_is_named_with_what_it_was():
    product = shipped("plain-15")
    last = sheet(shown(product)[0])
    product["evidence"][3]["value"] = 16.5
    _, moved = since(last, sheet(shown(product)[0]), "last.json")
    assert [(each.was, each.now) for each in moved] == [("16.4 psi (113 kPa)", "16.5 psi (114 kPa)")]
    assert moved[0].what == "properties, no. 4, Compressive strength, value"


# ---------------------------------------------------------------------------------------------------------- the command


def test_a_sheet_that_says_the_same_keeps_the_day_of_its_first_issue(tmp_path, capsys):
    out, kept = str(tmp_path / "a.pdf"), str(tmp_path / "a.json")
    assert main(["datasheet", "plain-15", "-o", out, "--keep", kept, *DAY]) == 0
    again = ["datasheet", "plain-15", "-o", out, "--since", kept, "--keep", kept, "--date", "2027-01-05"]
    assert main(again) == 0
    assert "first issued on 27 November 2026" in capsys.readouterr().out
    told = earlier(Path(kept).read_text("utf-8"), kept)
    assert (told["issued"], told["day"]) == ("2026-11-27", "2027-01-05")
    assert "firstissued27November2026" in squeezed(words(Path(out).read_bytes()))
    assert told["figures"][3]["value"] == "16.4 psi (113 kPa)"


def plain(text: str) -> str:
    return " ".join(text.split())


LINE_TEXT = (Path(__file__).parents[2] / "src/underpour/catalogue/marlpit.toml").read_text("utf-8")


def changed_line(folder: Path, old: str, new: str) -> str:
    """The line that comes with the tool with one text of plain-15 changed, as a line of one's own."""
    before, head, after = LINE_TEXT.partition('key = "plain-15"')
    assert old in after
    (folder / "changed.toml").write_text(before + head + after.replace(old, new, 1), "utf-8")
    return str(folder / "changed.toml")


def test_a_guide_that_says_the_same_keeps_the_day_of_its_first_issue_and_another_lists_what_moved(tmp_path, capsys):
    out, kept = str(tmp_path / "a.pdf"), str(tmp_path / "a.json")
    assert main(["guide", "plain-15", "-o", out, "--keep", kept, *DAY]) == 0
    capsys.readouterr()
    assert main(["guide", "plain-15", "-o", out, "--since", kept, "--keep", kept, "--date", "2027-01-05"]) == 0
    assert "It says what the older guide says, first issued on 27 November 2026." in capsys.readouterr().out
    assert "firstissued27November2026" in squeezed(words(Path(out).read_bytes()))
    assert earlier(Path(kept).read_text("utf-8"), kept, GUIDE)["issued"] == "2026-11-27"
    own = changed_line(tmp_path, 'note = "', 'note = "Known of old. ')
    assert main(["guide", "plain-15", "-o", out, "--since", kept, "--catalogue", own, "--date", "2027-01-05"]) == 0
    assert "1 thing has moved since the older guide; the last part lists what." in capsys.readouterr().out
    printed = squeezed(words(Path(out).read_bytes()))
    assert "Whatmovedsincetheguideof5January2027" in printed
    assert "Knownofold." in printed.partition("Whatmovedsince")[2]


def test_a_guide_of_another_product_is_not_held_against_this_one(tmp_path, capsys):
    out, kept = str(tmp_path / "a.pdf"), str(tmp_path / "a.json")
    assert main(["guide", "plain-15", "-o", out, "--keep", kept, *DAY]) == 0
    assert main(["guide", "plain-25", "-o", out, "--since", kept, *DAY]) == 2
    assert "It is the guide of plain-15, and this is plain-25." in capsys.readouterr().err
    assert main(["guide", "plain-25", "-o", out, "--keep", kept, *DAY]) == 2
    assert "It keeps the guide of plain-15." in capsys.readouterr().err
    assert main(["datasheet", "plain-15", "-o", out, "--since", kept, *DAY]) == 2
    assert "Its format is guide/1; datasheet/1 is read." in capsys.readouterr().err


def test_a_comparison_lists_each_cell_that_moved_and_products_that_came_or_went(tmp_path, capsys):
    kept, out = str(tmp_path / "a.json"), str(tmp_path / "a.pdf")
    assert main(["catalogue", "compare", "plain-15", "plain-25", "--keep", kept, *DAY]) == 0
    capsys.readouterr()
    same = ["catalogue", "compare", "plain-15", "plain-25", "--since", kept, "--date", "2026-12-24"]
    assert main(same) == 0
    assert "It says what the older comparison says, first issued on 27 November 2026." in capsys.readouterr().out
    own = changed_line(tmp_path, "value = 16.4", "value = 17.2")
    assert main([*same, "--catalogue", own]) == 0
    told = capsys.readouterr().out.partition("What moved since the comparison of 27 November 2026")[2]
    assert "plain-15, Compressive strength, ASTM D1621: 17.2 psi (119 kPa); record 4, MB-02-COM; was 16.4" in plain(
        told
    )
    assert "plain-25" not in told
    assert main(["catalogue", "compare", "plain-15", "xps-25", "--since", kept, "-o", out, *DAY]) == 0
    printed = squeezed(words(Path(out).read_bytes())).replace("-", "")
    assert "Whatmovedsincethecomparisonof27November2026" in printed
    assert "plain25compared" in printed and "xps25compared" in printed and "plain15compared" not in printed


def test_a_comparison_with_another_mark_always_lists_what_moved(tmp_path, capsys):
    kept = str(tmp_path / "a.json")
    assert main(["catalogue", "compare", "plain-15", "--keep", kept, *DAY]) == 0
    capsys.readouterr()
    own = changed_line(tmp_path, 'certificate = "MB-02-COM"', 'certificate = "MB-92-COM"')
    assert main(["catalogue", "compare", "plain-15", "--since", kept, "--catalogue", own, *DAY]) == 0
    assert "record 4, MB-92-COM; was 16.4 psi (113 kPa); record 4, MB-02-COM" in plain(capsys.readouterr().out)
    late = ["catalogue", "compare", "plain-15", "--since", kept, "--date", "2028-03-19"]
    assert main(late) == 0
    told = plain(capsys.readouterr().out.partition("What moved since")[2])
    assert "expired: 16.4 psi (113 kPa); record 4, MB-02-COM; was 16.4 psi" in told
    assert "why a number does not stand plain: plain-15" in told


def test_a_comparison_of_a_spreadsheet_says_its_mark_and_what_moved(tmp_path, capsys):
    kept, out = str(tmp_path / "a.json"), str(tmp_path / "a.csv")
    assert main(["catalogue", "compare", "plain-15", "--keep", kept, "-o", out, *DAY]) == 0
    mark = json.loads(Path(kept).read_text("utf-8"))["mark"]
    assert f"The comparison is in {out}, mark {mark}." in capsys.readouterr().out
    own = changed_line(tmp_path, "value = 16.4", "value = 17.2")
    assert main(["catalogue", "compare", "plain-15", "--since", kept, "-o", out, "--catalogue", own, *DAY]) == 0
    assert "was 16.4 psi (113 kPa)" in plain(capsys.readouterr().out)


def test_a_sheet_of_what_falls_short_is_made_as_a_draft_only(tmp_path, capsys):
    out = tmp_path / "a.pdf"
    asked = ["datasheet", "plain-15", "-o", str(out), "--date", "2028-03-19"]
    assert main(asked) == 2
    said = capsys.readouterr().err
    assert "Nothing was made" in said
    assert "marlpit.toml:" in said
    assert not out.exists()
    assert main([*asked, "--draft"]) == 0
    printed = squeezed(words(out.read_bytes()))
    assert "Draft:therecordsdonotcarry" in printed
    assert "Expired:16.4psi" in printed


def test_prices_stand_on_a_sheet_only_where_they_are_wanted(tmp_path):
    for more, there in (([], False), (["--prices"], True)):
        out = tmp_path / "a.pdf"
        assert main(["datasheet", "plain-15", "-o", str(out), *DAY, *more]) == 0
        assert ("0.74USD/ft²" in squeezed(words(out.read_bytes()))) == there


def test_the_label_names_maker_class_thickness_and_certificate(capsys):
    assert main(["catalogue", "show", "knob-15", "--label", *DAY]) == 0
    said = " ".join(capsys.readouterr().out.split())
    for part in ("Marlpit Board Works (invented)", "ASTM C578 type II", "3-3/4 in", "R10.1", "MB-11-THE", "Lot"):
        assert part in said


def test_only_what_a_tape_can_measure_is_taped():
    names = {key: [name for name, _ in label(line()[key])] for key in ("plain-15", "knob-15", "sheet-15", "tape-butyl")}
    assert {key: "Thickness taped" in each for key, each in names.items()} == {
        "plain-15": True,
        "knob-15": True,
        "sheet-15": False,
        "tape-butyl": False,
    }


def test_a_name_that_only_an_own_line_has_says_how_to_name_that_line(tmp_path, capsys):
    assert main(["datasheet", "dunmore-25", "-o", str(tmp_path / "a.pdf"), *DAY]) == 2
    assert "--catalogue FILE" in capsys.readouterr().err


def test_the_head_of_a_group_goes_overleaf_with_its_rows():
    heads = {"What it is", "Thicknesses made, and R as labelled at 75 °F mean", "As tested", "In use"}
    heads |= {"What may stand on it for good"}
    keys = ["plain-15", "plain-25", "film-15", "xps-25", "xps-40"]
    for count in range(2, len(keys) + 1):
        of = comparison([line()[key] for key in keys[:count]])
        made = product_comparison(compared(of, "Made of records."), paper="us-letter").pdf
        for page in pypdf.PdfReader(io.BytesIO(made)).pages:
            lines = [each.strip() for each in page.extract_text().splitlines() if each.strip()]
            body = lines[: next((n for n, each in enumerate(lines) if each == "Products"), len(lines))]
            assert body[-1] not in heads


def test_an_own_line_is_compared_and_has_its_sheets(tmp_path, capsys):
    own = Path(__file__).parents[2] / "examples" / "own-board-line" / "catalogue"
    assert main(["catalogue", "compare", "--catalogue", str(own), *DAY]) == 0
    said = capsys.readouterr().out
    assert "pinfold" in said.lower()
    assert "Marlpit" not in said


FILE = "there.json"
BAD = [  # typed, and what has to be said: where, what is wrong, what to type
    (["datasheet"], ["Which product?", "underpour datasheet plain-15"]),
    (["datasheet", "plain-15"], ["Where to?", "-o FILE.pdf"]),
    (["datasheet", "plian-15", "-o", "a.pdf"], ["No product is called plian-15.", "Did you mean plain-15?"]),
    (["datasheet", "plain-15", "-o", "a.doc"], ["What is written here is PDF.", ".pdf"]),
    (["datasheet", "plain-15", "-o", "nowhere/a.pdf"], ["There is no folder nowhere."]),
    (["datasheet", "plain-15", "-o", "a.pdf", "--date", "soon"], ["--date soon", "2026-11-25"]),
    (["datasheet", "plain-15", "-o", "a.pdf", "--paper", "a3"], ["--paper a3", "a4, us-letter"]),
    (["datasheet", "plain-15", "-o", "a.pdf", "--catalogue", "none.toml"], ["There is no such file or folder."]),
    (["datasheet", "plain-15", "-o", "a.pdf", "--since", "none.json"], ["none.json"]),
    (["datasheet", "plain-15", "-o", "a.pdf", "--since", FILE], ["This is no JSON.", "--keep"]),
    (["datasheet", "plain-15", "-o", "a.pdf", "--keep", FILE], ["What stands there is no sheet that was kept."]),
    (["datasheet", "plain-15", "-o", "a.pdf", "--keep", "a.pdf"], ["What is written here is JSON."]),
    (["datasheet", "plain-15", "-o", "a.pdf", "--drafts"], ["Did you mean --draft?"]),
    (["datasheet", "c578-ii", "-o", "a.pdf"], ["No product is called c578-ii."]),
    (["guide"], ["Which product?", "underpour guide plain-15"]),
    (["guide", "plain-15"], ["Where to?"]),
    (["guide", "plian-15", "-o", "a.pdf"], ["No product is called plian-15.", "Did you mean plain-15?"]),
    (["guide", "plain-15", "-o", "a.pdf", "--use", "wharehouse"], ["No use is called", "Did you mean warehouse?"]),
    (["guide", "plain-15", "-o", "a.txt"], ["What is written here is PDF."]),
    (["guide", "plain-15", "-o", "a.pdf", "--fonts", "none"], ["There is no such folder."]),
    (["guide", "plain-15", "-o", "a.pdf", "--since", FILE], ["This is no JSON.", "Give what guide --keep wrote"]),
    (["guide", "plain-15", "-o", "a.pdf", "--since", "none.json"], ["none.json"]),
    (["guide", "plain-15", "-o", "a.pdf", "--keep", FILE], ["What stands there is no guide that was kept."]),
    (["catalogue", "compare", "--since", FILE], ["This is no JSON.", "Give what catalogue compare --keep wrote"]),
    (["catalogue", "compare", "--keep", FILE], ["What stands there is no comparison that was kept."]),
    (["catalogue", "compare", "--keep", "a.csv"], ["What is written here is JSON."]),
    (["catalogue", "compare", "plian-15"], ["No product is called plian-15.", "Did you mean plain-15?"]),
    (["catalogue", "compare", "bords"], ["Did you mean boards?"]),
    (["catalogue", "compare", "-o", "a.xls"], ["PDF or CSV", ".pdf or .csv"]),
    (["catalogue", "compare", "--json"], ["The command does not take this.", "underpour catalogue compare --help"]),
    (["catalogue", "list", "--label"], ["underpour catalogue list --label", "The command does not take this."]),
    (["catalogue", "show", "plain-15", "-o", "a.pdf"], ["The command does not take this."]),
    (["catalogue", "show", "plain-15", "--date", "2026-11-27"], ["Only the label is held to a day."]),
    (["catalogue", "show", "plain-15", "xps-25"], ["The command does not take this."]),
    (["catalogue", "compare", "--paper", "a3"], ["--paper a3"]),
]


@pytest.mark.parametrize(("typed", "said"), BAD, ids=lambda each: " ".join(each)[:60])
def test_words_that_are_wrong_are_answered(typed, said, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    (tmp_path / FILE).write_text("{", "utf-8")
    before = sorted(tmp_path.iterdir())
    assert main(typed) == 2
    heard = capsys.readouterr()
    assert not heard.out
    for part in said:
        assert part in heard.err, heard.err
    assert sorted(tmp_path.iterdir()) == before


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"key": "plain-25"}, "It is the sheet of plain-25"),
        ({"name": "Another"}, "changed by hand"),
        ({"day": "yesterday"}, "changed by hand"),
        ({"format": "findings/1"}, "Its format is findings/1; datasheet/1 is read."),
    ],
)
def test_an_older_sheet_that_is_not_one_is_refused(change, said, tmp_path, capsys):
    from underpour.particulars import mark

    told = {**sheet(line()["plain-15"]), **change}
    told["mark"] = mark(told) if "key" in change else told["mark"]
    (tmp_path / "last.json").write_text(json.dumps(told), "utf-8")
    out = str(tmp_path / "a.pdf")
    assert main(["datasheet", "plain-15", "-o", out, "--since", str(tmp_path / "last.json"), *DAY]) == 2
    assert said in capsys.readouterr().err


# ----------------------------------------------------------------------------------------------------------- the guide


def guide_of(of: Particulars, use: Any = None) -> dict[str, Any]:
    return guided(of, guide(of.product, use, "US"), use)


@pytest.mark.parametrize("key", [*KEYS, *HOSTILE])
def test_a_guide_is_sound_and_well_set_and_says_every_work_and_look(key):
    of = line()[key]
    told = guide_of(of)
    for paper in PAPERS:
        made = product_guide(told, picture_of(of, 112.0), paper=paper, draft=bool(of.short)).pdf
        is_sound(made)
        is_well_set(made)
        assert len(list(sheets(made))) <= (2 if key in KEYS else 9)
    printed = squeezed(words(made)).replace("-", "")
    if key in KEYS:  # what is endless may go on overleaf in the middle of a sentence
        for work in told["works"]:
            assert all(squeezed(line).replace("-", "") in printed for line in work["how"]), work["what"]
        assert all(squeezed(point["wanted"]).replace("-", "") in printed for point in told["points"])


@pytest.mark.parametrize("key", KEYS)
def test_each_guide_says_how_it_is_stored_and_laid_without_a_slot_left(key):
    told = guide_of(line()[key])
    works = [work["what"] for work in told["works"]]
    assert "Store it" in works
    assert len(works) > 2
    assert [work["number"] for work in told["works"]] == list(range(1, len(works) + 1))
    texts = [text for work in told["works"] for text in (*work["how"], work["mind"] or "No caution.")]
    texts += [point[name] + "." for point in told["points"] for name in ("wanted", "how", "look_at")]
    for text in texts:
        assert text[0].isupper() and not re.search(r"[{}]|None|  | [,.;:]", text), text
        assert not wrong_words(text)


def test_a_guide_names_what_attacks_the_product_its_temperatures_and_the_tested_tape():
    told = " ".join(text for work in guide_of(line()["film-15"])["works"] for text in work["how"])
    for part in ("hot bitumen", "165\N{NO-BREAK SPACE}F", "tape-acrylic: no other tape was tested"):
        assert part in told
    told = " ".join(text for work in guide_of(line()["sheet-15"])["works"] for text in work["how"])
    assert "6 in (150 mm) and tape every lap" in told
    assert "Its record does not say what attacks it." in told


def test_a_guide_has_the_words_of_the_submittal_and_no_others():
    rows = {row["key"]: row for group in ("before", "layer", "slab-edge", "after") for row in table("sequence")[group]}
    for work in guide(line()["graphite-15"].product, None, "US").works:
        if work.key in rows:
            said = [text["say"] if isinstance(text, dict) else text for text in rows[work.key]["how"]]
            assert len(work.how) <= len(said)
            assert work.what == rows[work.key]["what"]
    assert "Keep them covered: grey foam warps in the sun." in str(guide_of(line()["graphite-15"])["works"])
    assert "grey foam" not in str(guide_of(line()["plain-15"])["works"]).lower()


def test_the_guides_of_one_line_tell_one_order():
    """As in the starter briefs: the film right under the concrete; below the boards where the room is kept cold."""
    from underpour.catalogue import use

    keys = ("plain-15", "film-15", "sheet-15", "stone-clean")
    for of, usual in (("garage", "gravel, boards, film, concrete"), ("cold-store", "gravel, film, boards, concrete")):
        assert {guide(line()[key].product, use(of), "US").usual for key in keys} == {usual}
    assert guide(line()["plain-15"].product, use("drive"), "US").usual == "gravel, boards, concrete"
    told = {of: str(guide_of(line()["plain-15"], use(of))["works"]) for of in ("garage", "cold-store", "drive")}
    assert "on the gravel, tight" in told["garage"] and "no concrete runs through" not in told["garage"]
    assert "on the film, tight" in told["cold-store"] and "no concrete runs through" in told["cold-store"]
    assert "on the gravel, tight" in told["drive"] and "no concrete runs through" in told["drive"]


def test_boards_are_laid_before_the_next_boards():
    keys = [work.key for work in guide(line()["plain-15"].product, None, "US").works]
    assert keys.index("boards") < keys.index("boards-again")


def test_what_the_slab_is_for_turns_the_cautions():
    from underpour.catalogue import use

    gas = line()["gas-15"]
    assert any("radon" in each for each in guide_of(gas)["cautions"])
    assert not any("radon" in each for each in guide_of(gas, use("drive"))["cautions"])
    assert any("freezer" in each for each in guide_of(line()["plain-25"], use("cold-store"))["cautions"])
    minds = [
        [work["mind"] for work in guide_of(line()["sheet-15"], floor)["works"]]
        for floor in (use("garage"), use("drive"))
    ]
    assert ["radon" in " ".join(each) for each in minds] == [True, False]


def test_the_guide_command_writes_its_paper(tmp_path, capsys):
    out = tmp_path / "g.pdf"
    assert main(["guide", "knob-15", "-o", str(out), "--use", "church", *DAY]) == 0
    assert "The guide of Marlpit Knob 15 is in" in capsys.readouterr().out
    printed = squeezed(words(out.read_bytes()))
    assert "Foraslabofthisuse:Assembly" in printed
    assert main(["guide", "plain-15", "-o", str(out), "--date", "2028-03-19"]) == 2
    assert "Nothing was made" in capsys.readouterr().err


# ----------------------------------------------------------------------------------- what may stand on a board for good


def test_what_may_stand_on_a_board_for_good_is_that_of_its_design_values_with_its_records():
    """16.4 psi are 113.07 kPa; three tenths of it are 33.9 kPa, less than a third and than 52 kPa at 1 % strain."""
    of = line()["plain-15"]
    told = {each.title: (each.words.replace("\N{THIN SPACE}", " "), each.records) for each in of.lasting}
    assert told["three tenths of the strength at 10 % strain"] == ("4.92 psi (33.9 kPa)", (4,))
    assert told["the stress of a creep test that stays small"] == ("4.92 psi (33.9 kPa)", (6,))
    assert told["a third of the strength"] == ("5.47 psi (37.7 kPa)", (4,))
    assert told["the resistance at 1 % strain"] == ("7.54 psi (52.0 kPa)", (5,))
    assert [each.governs for each in of.lasting] == [True, False, False, False, False]
    printed = squeezed(words(pdf(of)))
    assert all(squeezed(said) in printed for said, _ in told.values())
    row = next(row for _, rows in comparison([of, line()["knob-15"]]).groups for row in rows if "Long-term" in row.name)
    assert row.cells[0].words.replace("\N{THIN SPACE}", " ").startswith("4.92 psi (33.9 kPa), three tenths")
    assert row.cells[1].words == "not worked out"


def test_a_stress_for_good_that_leans_on_an_expired_record_is_not_plain():
    late = in_words_on(datetime.date(2028, 3, 19))["plain-15"]
    by = {each.title: each for each in late.lasting}
    assert by["a third of the strength"].standing == "expired"
    assert by["a third of the strength"].shown.startswith("expired: ")
    assert by["the stress of a creep test that stays small"].standing == "stands"  # to 2029
