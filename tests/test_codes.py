"""Every row of the code tables says edition, clause, how it was seen and by whom, and reads as a measure."""

import tomllib
from pathlib import Path
from typing import get_args

import pytest

from underpour.catalogue import codes
from underpour.catalogue.codes import read
from underpour.catalogue.read import table
from underpour.findings import UNITS, Seen

SHIPPED = codes.shipped()
ROWS = read.rows()
ZONES = {"US": table("climate/zones")["names"]["US"], "CA": table("climate/zones")["names"]["CA"]}
EDITIONS = list(read.editions().values())


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.path)
def test_a_row_can_be_checked_by_an_official(row):
    assert row.edition in read.editions()
    assert row.clause.strip()
    assert row.asks, "it asks for something"
    assert row.seen in get_args(Seen)
    assert row.by or row.seen in ("memory", "practice"), "who said so is told"
    assert not row.by or row.seen in ("document", "quoted"), "what is remembered was told by nobody"
    assert set(row.from_memory) <= set(row.asks)
    assert not row.doubtful or row.doubtful.endswith("."), "a doubt is a sentence"


@pytest.mark.parametrize("row", [row for row in ROWS if row.zones], ids=lambda row: row.path)
def test_the_zones_of_a_row_are_of_its_editions_list(row):
    assert set(row.zones) <= set(ZONES[read.editions()[row.edition].zones])


def test_files_hold_no_row_that_another_subject_would_need_as_well():
    """A row's name is its edition, subject and number: each once."""
    assert len({row.path for row in ROWS}) == len(ROWS)


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.key)
def test_an_edition_stands_on_editions_that_are_there(edition):
    chain = [each.key for each in SHIPPED.chain(edition.key)]
    assert len(chain) == len(set(chain))
    assert edition.title and edition.dated and edition.covers
    assert edition.zones in ("", *ZONES)
    assert set(edition.needs) <= set(read.SUBJECTS)


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.key)
def test_an_edition_is_younger_than_the_one_that_it_amends(edition):
    if edition.amends:
        assert edition.date > read.editions()[edition.amends].date


def test_what_is_compared_has_a_unit_of_findings():
    assert {ask.unit for ask in codes.asks().values() if ask.compared} <= UNITS


def test_each_zone_of_a_table_is_asked_once():
    """No zone has two rows of one edition on one subject, route, place and trigger."""
    seen: dict[tuple[object, ...], str] = {}
    for row in ROWS:
        listed = ZONES.get(read.editions()[row.edition].zones, [""])
        for zone in listed if row.subject not in ("f-factors", "frost") else ():
            if row.zone_fits(zone):
                name = (row.edition, row.subject, row.route, row.place, row.when, row.unless, row.clause[-7:], zone)
                assert name not in seen, f"{row.path} and {seen[name]}"
                seen[name] = row.path


def test_rows_of_the_same_edition_are_kept_apart_from_those_of_another():
    """An older edition is not edited: what stands under its key is told by its own file's rows alone."""
    assert [row.edition for row in SHIPPED.rows("iecc-2018-residential", "slab-edge")] == ["iecc-2018-residential"] * 5


def test_the_residential_code_prints_the_energy_codes_clauses_by_its_own_numbers():
    standing = SHIPPED.standing("irc-2018", "slab-edge")
    assert standing is not None and standing.said == ""
    clause = standing.clause(standing.rows[0])
    assert clause == "Table N1102.1.2 and N1102.2.10, zones 1, 2, 3 (energy code: Table R402.1.2 and R402.2.10)"
    assert standing.basis(standing.rows[0], "resistance").source == "International Residential Code 2018"


def test_a_state_that_was_not_found_to_change_a_row_takes_the_model_codes_and_says_so():
    standing = SHIPPED.standing("in-2020", "vapour-retarder")
    assert standing is not None and standing.edition.key == "irc-2018"
    assert standing.said == (
        "Indiana Residential Code 2020 was not found to change this; "
        "International Residential Code 2018 stands behind it."
    )


def test_an_edition_without_a_row_anywhere_has_none():
    assert SHIPPED.standing("uk-part-l-2021", "slab-edge") is None


def test_values_from_memory_are_counted_one_by_one():
    """nbc-2020 soil gas: four values in one row, of which the level alone was seen."""
    (row,) = SHIPPED.rows("nbc-2020", "soil-gas")
    assert [row.seen_of(ask) for ask in row.asks] == ["memory", "memory", "memory", "quoted"]
    by_hand = [seen for r in ROWS if r.edition == "nbc-2020" for seen in (r.seen_of(ask) for ask in r.asks)]
    share = SHIPPED.share("nbc-2020")
    assert (share.memory, share.all) == (by_hand.count("memory"), len(by_hand))


@pytest.mark.parametrize("path", sorted(read.FOLDER.glob("*.toml")), ids=lambda path: path.stem)
def test_each_table_says_at_its_head_what_it_holds(path: Path):
    text = path.read_text(encoding="utf-8")
    assert text.startswith("# ")
    assert tomllib.loads(text)


def test_the_page_that_counts_the_rows_is_fresh():
    import code_rows_page

    assert code_rows_page.PAGE.read_text(encoding="utf-8") == code_rows_page.page(), (
        "The rows have changed since; this counts them anew: .venv/bin/python docs/making/code_rows_page.py"
    )


def test_the_page_names_what_is_missing_by_edition_and_by_subject():
    """Quebec's regulation of 1983 speaks of slab edges and no row of it is held; what is held is not missing."""
    import code_rows_page

    assert "slab-edge" in code_rows_page.missing(read.editions()["qc-e-1-1"])
    assert "basement-wall" not in code_rows_page.missing(read.editions()["qc-e-1-1"])
    (line,) = [line for line in code_rows_page.by_subject() if line.startswith("| `slab-edge`")]
    assert "`qc-e-1-1`" in line and "`irc-2018`" not in line
    (line,) = [line for line in code_rows_page.by_both() if line.startswith("| `qc-e-1-1`")]
    assert line.split(" | ")[1] == "missing" and line.split(" | ")[3] == "2 of 2"


def test_the_page_counts_every_value_once():
    import code_rows_page

    seen, doubtful, all_ = code_rows_page.counted(ROWS)
    assert all_ == sum(len(row.asks) for row in ROWS) == seen.total()
    assert 0 < doubtful < all_ and seen["document"] and seen["quoted"] and seen["memory"]
