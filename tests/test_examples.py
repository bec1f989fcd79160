"""Every example is answered, and its numbers hold.

``held.toml`` has rows found another way than by our own solver: a formula, a source, a second method; ``by`` says
which; ``number = "limit"`` means the limit instead of the value. ``kept.toml`` has our own earlier numbers, so that a
change is seen; they prove nothing.
"""

import tomllib
from pathlib import Path
from typing import get_args

import ledger_page
import pytest

import ledger
from answered import once
from underpour.brief.tables.edge import Kind
from underpour.dossier import Answer, Dossier
from underpour.findings import UNITS

FOLDERS = sorted(path for path in Path(__file__).parents[1].glob("examples/*") if path.is_dir())

# Ids that do not yet meet in one example and fall short in another. This list may only get shorter.
ONE_SIDED: set[str] = set()


def answered(folder: Path) -> Dossier:
    return once(folder / "brief.toml")


def rows(name: str) -> list:
    """Each row of the folders' ``held.toml`` or ``kept.toml``, named for its place."""
    found = []
    for folder in FOLDERS:
        file = folder / name
        table = tomllib.loads(file.read_text(encoding="utf-8")) if file.exists() else {}
        for number, row in enumerate(table.get("row", []), start=1):
            found.append(pytest.param(folder, row, id=f"{folder.name}-{number}-{row['id']}"))
    return found


def alternative(dossier: Dossier, name: str) -> Answer:
    return next(each for each in dossier.alternatives if each.name == name)


def check(folder: Path, row: dict) -> None:
    """The row's value is met within its tolerance, in its unit; an error estimate of ours never widens it."""
    finding = alternative(answered(folder), row.get("alternative", "as briefed")).find(row["id"], **row.get("at", {}))
    assert finding.unit == row["unit"]
    assert getattr(finding, row.get("number", "value")) == pytest.approx(row["value"], rel=0.0, abs=row["tolerance"])


@pytest.mark.parametrize(("folder", "row"), rows("held.toml"))
def test_a_number_found_another_way_holds(folder, row):
    check(folder, row)


@pytest.mark.parametrize(("folder", "row"), rows("kept.toml"))
def test_our_own_earlier_number_has_not_moved(folder, row):
    check(folder, row)


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_the_ledger_tells_what_we_give_for_each_number_that_was_found_another_way(folder):
    """To two digits of what is allowed; docs/making/ledger_page.py --anew writes the ledger anew."""
    kept = [row for row in ledger.read(ledger_page.TABLE) if row.file == f"examples/{folder.name}"]
    now = ledger_page.of_example(folder, ledger_page.given(answered(folder)))
    assert len(kept) == len(now)
    assert not [pair for pair in zip(kept, now, strict=True) if ledger.moved(*pair)]


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_an_example_says_what_it_shows_and_how_its_numbers_were_found(folder):
    assert f"examples/{folder.name}/brief.toml" in (folder / "README.md").read_text(encoding="utf-8")
    held = tomllib.loads((folder / "held.toml").read_text(encoding="utf-8"))["row"]
    assert held, "an example holds at least one number that was found another way"
    for row in held:
        assert row["by"].strip(), row
        assert row["unit"] in UNITS, row
        assert row["tolerance"] > 0.0, row


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_each_finding_of_an_example_can_be_named_and_opened(folder):
    for each in answered(folder).alternatives:
        names = [(finding.id, tuple(sorted(finding.at.items()))) for finding in each.findings]
        assert len(names) == len(set(names)), "id and at name one finding"
        for finding in each.findings:
            assert finding.value is None or finding.value == finding.value, finding.id  # not NaN
            if finding.verdict in ("meets", "falls short", "stated"):
                assert finding.basis, f"{finding.id} has no basis"
                assert finding.steps, f"{finding.id} has no steps"


def test_each_finding_with_a_limit_meets_in_one_example_and_falls_short_in_another():
    seen: dict[str, set[str]] = {}
    for folder in FOLDERS:
        for each in answered(folder).alternatives:
            for finding in each.findings:
                if finding.limit is not None:
                    seen.setdefault(finding.id, set()).add(finding.verdict)
    one_sided = {name for name, verdicts in seen.items() if not {"meets", "falls short"} <= verdicts}
    assert one_sided == ONE_SIDED, "shorten the list, or add the example that is wanting"


def test_every_kind_of_edge_stands_in_an_example():
    kinds = {cut.kind for folder in FOLDERS for cut in answered(folder).as_briefed.sections.values()}
    assert kinds == set(get_args(Kind))


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_each_finding_has_its_look_or_a_reason(folder):
    for each in answered(folder).alternatives:
        looked = {name for point in each.inspection for name in point.rests}
        reasons = {left.finding: left.why for left in each.unseen}
        assert looked | set(reasons) == {finding.id for finding in each.findings}
        assert not looked & set(reasons)
        assert all(reasons.values())


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_a_look_at_a_layer_bears_on_every_finding_that_rests_on_the_layer(folder):
    answered_ = answered(folder).as_briefed
    for path in (path for work in answered_.sequence for path in work.laid if path.startswith("floor.")):
        resting = {f.id for f in answered_.findings if any(p.startswith(f"{path}.") for p in f.rests_on)}
        assert not resting or any(resting <= set(point.rests) for point in answered_.inspection), path
