"""The floor month by month, as it is printed."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import drawing_cases as cases
import numpy as np
import pytest

from underpour.cli import compare
from underpour.drawings import month_by_month, month_middle
from underpour.drawings.floor_line import CAP
from underpour.drawings.when import MONTHS
from underpour.findings import Finding

SVG = "{http://www.w3.org/2000/svg}"
BRIEF = str(Path(__file__).parents[2] / "examples" / "daylight-basement" / "brief.toml")


def texts(svg: str):
    return [
        ((node.text or "").replace("\u00a0", " "), float(node.get("x", 0)), float(node.get("y", 0)))
        for node in ElementTree.fromstring(svg).iter(f"{SVG}text")
    ]


def lines(svg: str) -> list[np.ndarray]:
    """The floor lines, each as points on the sheet."""
    drawn = []
    for node in ElementTree.fromstring(svg).iter(f"{SVG}path"):
        if node.get("stroke-width") == "0.5":
            steps = re.findall(r"[Ml]([^Ml]+)", node.get("d") or "")
            drawn.append(np.cumsum(np.array([[float(v) for v in step.split()] for step in steps]), axis=0))
    return drawn


def test_every_alternative_has_twelve_months_from_january_on():
    svg = month_by_month(cases.dossier("SI"), "A")
    letters = [word for word, _, _ in texts(svg) if re.fullmatch("[A-Z]", word)]
    assert "".join(letters) == 3 * "JFMAMJJASOND"
    assert len(lines(svg)) == 36


def test_under_each_letter_stands_what_the_field_says_for_that_month():
    dossier = cases.dossier("SI")
    first = dossier.alternatives[0]
    svg = month_by_month(replace(dossier, alternatives=(first,)), "A")
    said = [word for word, _, _ in texts(svg) if re.fullmatch(r"\d+\.\d", word)]
    expected = [f"{first.fields['A'].floor_at(month_middle(month))[0]:.1f}" for month in range(1, 13)]
    expected[1] = "17.9"  # the finding's own number, in its month
    assert said == expected


def test_all_months_and_alternatives_are_drawn_on_one_scale():
    dossier = cases.dossier("SI")
    svg = month_by_month(dossier, "A")
    drawn, marks = lines(svg), [(int(w.split()[0]), y) for w, _, y in texts(svg) if re.fullmatch(r"\d+( °C)?", w)]
    rows = [marks[k : k + len(marks) // 3] for k in range(0, len(marks), len(marks) // 3)]
    assert [m for m, _ in rows[0]] == [m for m, _ in rows[1]] == [m for m, _ in rows[2]]
    for n, (answer, row) in enumerate(zip(dossier.alternatives, rows, strict=True)):
        (low, bottom), (high, top) = row[0], row[-1]
        each = (bottom - top) / (high - low)
        for month in range(12):
            line = drawn[12 * n + month]
            assert top - 0.02 <= line[:, 1].min() + CAP / 2 and line[:, 1].max() + CAP / 2 <= bottom + 0.02
            floor = answer.fields["A"].floor_at(month_middle(month + 1))
            expected = (floor[0] - floor[len(floor) // 2]) * each
            at = np.interp(
                answer.fields["A"].floor_x[len(floor) // 2], answer.fields["A"].floor_x, np.arange(len(floor))
            )
            assert at == len(floor) // 2
            assert line[-1, 1] - line[0, 1] == pytest.approx(expected, abs=0.35)


def test_the_coldest_and_the_warmest_month_are_named():
    said = " ".join(word for word, _, _ in texts(month_by_month(cases.dossier("SI"), "A")))
    assert "coldest 17.9 °C in February" in said
    assert re.search(r"warmest [\d.]+ °C in (July|August)", said)
    assert any(f"in {name}" in said for name in MONTHS)


def test_the_limit_is_drawn_and_said_once():
    svg = month_by_month(cases.dossier("SI"), "A")
    assert svg.count('stroke-dasharray="2.4 1.2"') == 3
    assert "Dashed: at least 12.6 °C." in " ".join(word for word, _, _ in texts(svg))
    free = replace(cases.dossier("SI"), alternatives=(cases.answer("as briefed", "wrapped", 17.9, 610.0, limit=None),))
    assert "Dashed" not in month_by_month(free, "A")


def test_how_much_of_the_floor_is_shown_is_said_in_round_lengths():
    assert " to 2.00 m inwards" in month_by_month(cases.dossier("SI"), "A").replace("\u00a0", " ")
    assert " to 6 ft inwards" in month_by_month(cases.dossier("US"), "A").replace("\u00a0", " ")


def test_nothing_is_written_over_the_border_of_the_sheet():
    svg = month_by_month(cases.dossier("US"), "A")
    wide, high = (float(v) for v in (ElementTree.fromstring(svg).get("viewBox") or "").split()[2:])
    for _, x, y in texts(svg):
        assert 0.0 <= x <= wide and 0.0 < y < high
    for line in lines(svg):
        assert line[:, 0].min() > 0.5 and line[:, 0].max() < wide


def test_the_command_draws_it(tmp_path):
    target = tmp_path / "months.svg"
    compare.told([BRIEF, "-o", str(target), "--months"])
    assert "Edge A, month by month" in target.read_text(encoding="utf-8")
    with pytest.raises(KeyError):
        month_by_month(cases.dossier(), "Z")


def with_a_year(answer, harmful, useful):
    """The answer with what of its year is harmful and useful, months in kWh."""
    year = [
        Finding("heat.loss-year", "", sum(months), "kWh", at={"of": "floor", "flow": flow}, months=months)
        for flow, months in (("harmful", harmful), ("useful", useful))
    ]
    return replace(answer, findings=(*answer.findings, *year))


def test_harmful_and_useful_heat_stand_as_columns_on_one_scale_with_their_kilowatt_hours():
    dossier = cases.dossier("SI")
    first, second, *_ = dossier.alternatives
    one = with_a_year(first, (400.0, 200.0, *9 * (0.0,), 100.0), (*5 * (0.0,), 50.0, *6 * (0.0,)))
    two = with_a_year(second, 12 * (100.0,), 12 * (0.2,))
    svg = month_by_month(replace(dossier, alternatives=(one, two)), "A")
    high = [float(node.get("height")) for node in ElementTree.fromstring(svg).iter(f"{SVG}rect")][-15:]
    assert high[:3] == pytest.approx([9.0, 4.5, 2.25]) and high[3:] == pytest.approx(12 * [2.25])
    said = [word for word, _, _ in texts(svg)]
    assert said.count("harmful") == said.count("useful") == 2
    assert {"400", "200", "50"} <= set(said) and "0" not in said
    told = " ".join(said).replace("\u2009", " ")
    assert f"{one.name} 700 kWh harmful, 50.0 kWh useful" in told
    assert "heat of the whole floor" in told


def test_without_a_year_of_losses_there_are_no_columns():
    said = " ".join(word for word, _, _ in texts(month_by_month(cases.dossier("SI"), "A")))
    assert "harmful" not in said and "Columns" not in said
