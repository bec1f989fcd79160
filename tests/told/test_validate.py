"""``underpour catalogue validate``: what it prints, what it ends with, what it says of files that cannot be used."""

from __future__ import annotations

import json
import random
import re
import shutil
import subprocess
import sys
import tomllib
from collections import Counter
from pathlib import Path
from typing import get_args

import jsonschema
import pytest

from underpour.catalogue import line_schema
from underpour.catalogue.line import Kind
from underpour.catalogue.products import SHIPPED
from underpour.cli import main

ROOT = Path(__file__).parents[2]
FAULTY = Path(__file__).parent / "lines" / "faulty.toml"
SCHEMA = json.loads((ROOT / "schema" / "validation.schema.json").read_text("utf-8"))
DAY = ("--date", "2026-11-27")

LINE = '[maker]\nname = "A maker"\n'
PRODUCT = '[[product]]\nkey = "board-1"\nkind = "board"\n'


def plain(text: str) -> str:
    return " ".join(text.split())


def test_the_shipped_line_ends_with_0_and_says_what_each_product_stands_for(capsys):
    assert main(["catalogue", "validate", *DAY]) == 0
    told = plain(capsys.readouterr().out)
    assert "plain-15 Marlpit Plain 15: stands for ASTM C578 type II, EN 13163 EPS 100" in told
    assert "26 products, held to 27 November 2026: nothing falls short, 1 cannot tell." in told
    assert "It tests no board and opens no certificate" in told


def test_a_line_that_falls_short_ends_with_1_and_names_record_line_and_way_out(capsys):
    assert main(["catalogue", "validate", str(FAULTY), *DAY]) == 1
    out = capsys.readouterr().out
    at = FAULTY.read_text("utf-8").splitlines().index("  [[product.evidence]]") + 1
    assert f"falls short: Compressive strength (line {at})" in out
    assert "23.1 psi read; 25 psi wanted at least for ASTM C578 type IX. The claim is refused." in plain(out)
    assert "Refused: ASTM C578 type IX" in out
    assert "11 fall short" in out


@pytest.mark.parametrize("width", ["60", "100"])
def test_no_line_is_wider_than_the_terminal(width, capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", width)
    main(["catalogue", "validate", str(FAULTY), *DAY])
    out = capsys.readouterr().out.replace(str(FAULTY), "faulty.toml")
    assert max(map(len, out.splitlines())) <= int(width)


@pytest.mark.parametrize("file", [FAULTY, SHIPPED], ids=["faulty", "shipped"])
def test_the_data_keep_to_their_schema_and_say_what_the_words_say(file, capsys):
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    status = main(["catalogue", "validate", str(file), *DAY, "--json"])
    told = json.loads(capsys.readouterr().out)
    jsonschema.Draft202012Validator(SCHEMA).validate(told)
    assert main(["catalogue", "validate", str(file), *DAY]) == status
    words = plain(capsys.readouterr().out)
    findings = [finding for product in told["products"] for finding in product["findings"]]
    for finding in findings:
        assert plain(finding["wrong"]) in words
        assert plain(finding["instead"]) in words
    assert status == int(any(finding["verdict"] == "falls short" for finding in findings))
    assert told["counts"]["falls short"] == sum(finding["verdict"] == "falls short" for finding in findings)


def test_the_day_decides_what_has_expired(capsys):
    assert main(["catalogue", "validate", "--date", "2028-01-01"]) == 0
    assert "expires on 18 March 2028, in 77 days" in plain(capsys.readouterr().out)
    assert main(["catalogue", "validate", "--date", "2028-03-19"]) == 1
    assert "expired on 18 March 2028" in plain(capsys.readouterr().out)


def test_a_folder_is_one_line_and_two_products_of_one_name_in_it_are_told(tmp_path, capsys):
    for name in ("a.toml", "b.toml"):
        (tmp_path / name).write_text(LINE + PRODUCT, "utf-8")
    assert main(["catalogue", "validate", str(tmp_path), *DAY]) == 1
    assert plain(capsys.readouterr().out).count("2 products have the key board-1") == 2


def test_lines_are_known_where_the_records_are_headed(tmp_path, capsys):
    written = tmp_path / "line.toml"
    row = '  [[product.evidence]]\n  property = "density"\n  value = 1.4\n  method = "ASTM D1622"\n'
    written.write_text(LINE + PRODUCT + row + row + PRODUCT + row, "utf-8")
    main(["catalogue", "validate", str(written), *DAY, "--json"])
    products = json.loads(capsys.readouterr().out)["products"]
    assert [product["line"] for product in products] == [3, 14]
    found = [[f["line"] for f in product["findings"] if f["id"] == "record.unit"] for product in products]
    assert found == [[6, 10], [17]]


def test_a_line_without_headings_of_its_own_is_held_all_the_same(tmp_path, capsys):
    written = tmp_path / "line.toml"
    written.write_text(
        'product = [{ key = "board-1", kind = "board", evidence = [{ property = "density", value = 1.4 }] }]\n' + LINE,
        "utf-8",
    )
    assert main(["catalogue", "validate", str(written), *DAY, "--json"]) == 1
    (product,) = json.loads(capsys.readouterr().out)["products"]
    assert product["line"] is None


BAD = [
    (LINE + "[[product]\n", "This heading is not closed."),
    (LINE, "There is no product."),
    (PRODUCT, "There is no maker."),
    ("product = 3\n" + LINE, "A list is wanted here."),
    (LINE + PRODUCT.replace("board-1", "Board 1"), "A key is in lower-case letters, numbers and hyphens."),
    (LINE + PRODUCT.replace('"board"', '"bord"'), "This is none of the words that can stand here."),
    (LINE + PRODUCT + 'famly = "EPS"\n', "The nearest is family."),
    (LINE + PRODUCT + 'family = "ESP"\n', "The nearest is EPS."),
    (LINE + PRODUCT + 'sizes = ["4 ft"]\n', "Two lengths are wanted, width first."),
    (LINE + PRODUCT + 'made = [{ thickness = "2" }]\n', "2 of what?"),
    (LINE + PRODUCT + "made = [{ thickness = true }]\n", "A measure is wanted here."),
    (LINE + PRODUCT + 'made = [{ thickness = "2 in", r-label = "8.1 psi" }]\n', "psi"),
    (LINE + PRODUCT + 'lap = "4 in to 6 in"\n', "cannot be read"),
    (LINE + PRODUCT + 'evidence = [{ property = "strengt" }]\n', "The nearest is strength."),
    (LINE + PRODUCT + 'evidence = [{ property = "strength", value = "16.4" }]\n', "A number is wanted here."),
    (LINE + PRODUCT + 'evidence = [{ property = "strength", value = nan }]\n', "A number is wanted here."),
    (LINE + PRODUCT + 'evidence = [{ property = "strength", date = "03/04/05" }]\n', "year first: 2026-06-01"),
    (LINE + PRODUCT + 'evidence = [{ property = "strength", conditions = { age = "old" } }]\n', "old"),
    (LINE + PRODUCT + "pack = { pieces = 0 }\n", "It is 1 at least."),
]


@pytest.mark.parametrize(("text", "words"), BAD, ids=[words for _, words in BAD])
def test_a_file_that_cannot_be_read_is_told_by_line_and_nothing_is_written(text, words, tmp_path, capsys):
    written = tmp_path / "line.toml"
    written.write_text(text, "utf-8")
    assert main(["catalogue", "validate", str(written), *DAY]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert words in plain(told.err)
    assert str(written) in told.err
    assert [each.name for each in tmp_path.iterdir()] == ["line.toml"]
    assert written.read_text("utf-8") == text


def test_every_mistake_of_every_file_is_told_at_once(tmp_path, capsys):
    (tmp_path / "a.toml").write_text(LINE + PRODUCT + 'famly = "EPS"\nlap = "2"\n', "utf-8")
    (tmp_path / "b.toml").write_text("[", "utf-8")
    assert main(["catalogue", "validate", str(tmp_path)]) == 2
    err = capsys.readouterr().err
    assert "a.toml:6" in err
    assert "a.toml:7" in err
    assert "b.toml:1" in err


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["no-such.toml"], "There is no such file or folder."),
        (["--date", "27/11/26"], "Write it year first: --date 2026-11-27"),
        (["--date"], "Something has to follow it."),
        (["--jsn"], "--json"),
    ],
)
def test_words_that_cannot_be_used_are_told(words, told, capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert main(["catalogue", "validate", *words]) == 2
    assert told in plain(capsys.readouterr().err)


JUNK = [
    "",
    "=",
    "x",
    "0",
    "-1",
    "1e99",
    "nan",
    "true",
    '""',
    '"2 in"',
    '"50 %"',
    '"EPS EN 13163 CS(10)-CC(2/1,5/50)"',
    "[",
    "]",
    "{}",
    "1900-01-01",
    "9999-12-31",
    "\u00ad",
    "\ufeff",
]


def spoilt(text: str, seed: int) -> str:
    """A text with one or two of its lines lost, doubled, cut or given another value."""
    chance = random.Random(seed)
    lines = text.splitlines()
    for _ in range(chance.randint(1, 2)):
        n = chance.randrange(len(lines))
        key = lines[n].partition("=")[0]
        other = chance.choice(lines).partition("=")[2]
        lines[n : n + 1] = chance.choice(
            (
                [],
                [],
                [f"{key}={other}"],
                [f"{key}= {chance.choice(JUNK)}"],
                [lines[n][: chance.randint(0, len(lines[n]))]],
                [lines[n], lines[n]],
            )
        )
    return "\n".join(lines)


def test_a_line_that_is_spoilt_anyhow_is_held_or_told_and_never_our_fault(tmp_path, capsys):
    text = SHIPPED.read_text("utf-8")
    (head, *products) = re.split(r"^(?=\[\[product\]\])", text, flags=re.MULTILINE)
    written = tmp_path / "line.toml"
    ends = Counter()
    for seed in range(200):
        written.write_text(spoilt(head + products[seed % len(products)], seed), "utf-8")
        status = main(["catalogue", "validate", str(written), *DAY])
        told = capsys.readouterr()
        ends[status] += 1
        assert status in (0, 1, 2), (seed, told.err)
        if status == 2:
            assert re.match(rf"{re.escape(str(written))}:\d+  ", told.err) or "There is no" in told.err, (
                seed,
                told.err,
            )
            assert len(told.err.splitlines()) >= 2
    assert all(ends[status] > 10 for status in (0, 1, 2)), ends


def test_a_file_beside_is_offered_and_a_folder_without_lines_told(tmp_path, capsys):
    shutil.copy(FAULTY, tmp_path / "my-line.toml")
    assert main(["catalogue", "validate", str(tmp_path / "my-lines.toml")]) == 2
    assert "The nearest is" in capsys.readouterr().err
    (tmp_path / "empty").mkdir()
    assert main(["catalogue", "validate", str(tmp_path / "empty")]) == 2
    assert "There is no product line in this folder." in capsys.readouterr().err


def test_what_is_no_text_is_told(tmp_path, capsys):
    (tmp_path / "line.toml").write_bytes(b"\xff\xfe\x00")
    assert main(["catalogue", "validate", str(tmp_path / "line.toml")]) == 2
    assert "save it as UTF-8" in capsys.readouterr().err


@pytest.mark.parametrize("option", [["--json"], ["--date", "2026-11-27"]])
def test_options_of_validate_belong_to_it(option, capsys):
    assert main(["catalogue", "list", *option]) == 2
    assert "The command does not take this." in capsys.readouterr().err


def test_a_shaped_panel_is_not_taken_for_a_flat_board():
    from underpour import catalogue
    from underpour.mistakes import Mistake

    with pytest.raises(
        Mistake, match="is no flat board, and a build-up takes flat boards and panels with channels below"
    ):
        catalogue.shipped_products().board("knob-15")


def test_the_committed_schema_of_a_line_is_fresh_and_the_shipped_line_keeps_to_it():
    told = "Write it again: python -m underpour.catalogue.line_schema"
    assert (ROOT / line_schema.PLACE).read_text("utf-8") == line_schema.text(), told
    made = json.loads(line_schema.text())
    jsonschema.Draft202012Validator.check_schema(made)
    line = json.loads(json.dumps(tomllib.loads(SHIPPED.read_text("utf-8")), default=str))
    jsonschema.Draft202012Validator(made).validate(line)
    line["product"][0]["famly"] = "EPS"
    assert not jsonschema.Draft202012Validator(made).is_valid(line)


def test_each_finding_of_a_line_stands_in_its_document():
    sources = (ROOT / "src" / "underpour" / "conformity").glob("*.py")
    told = set(
        re.findall(r'"((?:class|label|product|record)\.[a-z-]+)"', "".join(p.read_text("utf-8") for p in sources))
    )
    page = (ROOT / "docs" / "products.md").read_text("utf-8")
    assert told
    assert not [each for each in told if f"`{each}`" not in page]


def test_the_record_in_the_document_is_read_and_its_claim_refused_until_the_rest_is_tested(tmp_path, capsys):
    page = (ROOT / "docs" / "products.md").read_text("utf-8")
    (block,) = re.findall(r"```toml\n(.*?)```", page, re.DOTALL)
    (tmp_path / "my-line.toml").write_text(block, "utf-8")
    assert main(["catalogue", "validate", str(tmp_path / "my-line.toml"), *DAY]) == 1
    told = plain(capsys.readouterr().out)
    assert "ASTM C578 type II asks for what the records do not show: thermal resistance by thickness" in told
    assert "1 product, held to 27 November 2026: 1 falls short." in told


def test_each_kind_of_product_stands_in_its_document():
    page = (ROOT / "docs" / "products.md").read_text("utf-8")
    assert not [kind for kind in get_args(Kind) if f"`{kind}`" not in page]


def test_validating_loads_no_numpy():
    ask = "import sys; from underpour.cli import main; main(['catalogue', 'validate', '--json']); "
    ask += "print('loaded', 'numpy' in sys.modules, 'scipy' in sys.modules)"
    told = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True).stdout
    assert told.splitlines()[-1] == "loaded False False"
