"""A county's own file: whose row stands by date, and what is told of a file that cannot be used."""

from pathlib import Path

import pytest

from code_briefs import BASEMENT, FROST_WALL, found, text
from underpour.catalogue.codes import Codes, own_file, read
from underpour.catalogue.codes import asks as asks_of
from underpour.mistakes import Mistakes

COUNTY = """\
title = "Example County amendments"
date = 2023-07-01
amends = "irc-2018"

[[row]]
subject = "slab-edge"
clause = "section 14-203"
less-below-grade = "12 in"
resistance = "R15"
depth = "4 ft"
"""


def made(tmp_path: Path, text: str = COUNTY, name: str = "county.toml") -> Path:
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    return path


def codes(tmp_path: Path, *texts: str) -> Codes:
    return Codes(tuple(own_file(made(tmp_path, text, f"county-{n}.toml")) for n, text in enumerate(texts)))


def test_a_newer_county_stands_before_the_edition_and_says_so(tmp_path):
    standing = codes(tmp_path, COUNTY).standing("irc-2018", "slab-edge")
    assert standing.edition.key == "county-0"
    assert standing.rows[0].asks["resistance"].typed == "R15"
    assert standing.said == (
        "Example County amendments of 2023-07-01 is newer than International Residential Code 2018 of 2017-08-01, "
        "and stands here."
    )


def test_an_older_county_gives_way_to_the_edition_and_says_so(tmp_path):
    standing = codes(tmp_path, COUNTY.replace("2023-07-01", "2014-01-01")).standing("irc-2018", "slab-edge")
    assert standing.edition.key == "iecc-2018-residential"
    assert standing.said == (
        "Example County amendments of 2014-01-01 is older than International Residential Code 2018 of 2017-08-01, "
        "and gives way to it."
    )


def test_a_county_that_amends_the_model_code_is_held_against_the_states_date(tmp_path):
    """Indiana's code is of 2019-12-26: a county of 2018 gives way to it, one of 2023 does not."""
    older = codes(tmp_path, COUNTY.replace("2023-07-01", "2018-07-01")).standing("in-2020", "slab-edge")
    newer = codes(tmp_path, COUNTY).standing("in-2020", "slab-edge")
    assert (older.edition.key, newer.edition.key) == ("in-2020", "county-0")


def test_of_two_newer_files_the_newest_stands(tmp_path):
    newest = COUNTY.replace("2023-07-01", "2025-01-01").replace("R15", "R20")
    assert codes(tmp_path, COUNTY, newest).standing("irc-2018", "slab-edge").rows[0].asks["resistance"].typed == "R20"


def test_a_county_says_nothing_of_what_its_file_leaves_out(tmp_path):
    standing = codes(tmp_path, COUNTY).standing("irc-2018", "vapour-retarder")
    assert standing.edition.key == "irc-2018" and standing.said == ""


def test_what_a_county_types_counts_as_read_in_the_document_unless_it_says_otherwise(tmp_path):
    _, rows = own_file(made(tmp_path))
    assert rows[0].seen == "document"
    _, rows = own_file(made(tmp_path, COUNTY + 'seen = "quoted"\nby = "the newspaper"\n'))
    assert rows[0].seen == "quoted"


def test_all_that_is_wrong_is_told_at_once(tmp_path):
    text = COUNTY.replace("date = 2023-07-01\n", "").replace('clause = "section 14-203"\n', "")
    with pytest.raises(Mistakes) as told:
        own_file(made(tmp_path, text))
    assert len(told.value.found) == 2


def test_a_file_that_is_not_there_is_told_with_the_nearest_name(tmp_path):
    made(tmp_path)
    with pytest.raises(Mistakes) as told:
        own_file(tmp_path / "conty.toml")
    assert "There is no file conty.toml." in str(told.value) and "The nearest is county.toml." in str(told.value)


TYPED = {
    "m²·K/W": "R10", "m": "4 in", "mm": "10 mil", "W/(m²·K)": "0.2 W/(m²·K)", "W/(m·K)": "0.5 Btu/(h·ft·F)",
    "%": "10 %", "Bq/m³": "200 Bq/m³",
}  # fmt: skip
FORMS = [
    (subject, place, ask)
    for subject, form in read.forms().items()
    for place, needed in form.get("places", {"": []}).items()
    for ask in form["one-of"]
    if not needed or ask in needed
]


@pytest.mark.parametrize(("subject", "place", "ask"), FORMS)
@pytest.mark.parametrize("more", ["", "[tube]"])
def test_a_row_of_every_form_is_held_to(tmp_path, subject, place, ask, more):
    """Each form that a file may have gives a finding of its own edition, or stands behind one; none is passed over."""
    form = read.forms()[subject]
    needed = dict.fromkeys([*form.get("places", {}).get(place, ()), ask])
    asks = "".join(f'{name} = "{TYPED[asks_of()[name].unit]}"\n' for name in needed)
    route = f'route = "{form["routes"][ask]}"\n' if ask in form.get("routes", {}) else ""
    where = f'place = "{place}"\n' if place else ""
    row = f'[[row]]\nsubject = "{subject}"\nclause = "1"\n{asks}{route}{where}'
    made(tmp_path, f'title = "House rules"\ndate = 2026-01-01\n{row}', "house.toml")
    kind = BASEMENT if subject == "basement-wall" else FROST_WALL
    ground = "5 ft" if subject == "basement-wall" else "-8 in"
    brief = text(project='local-code = "house.toml"', more=more, kind=kind, ground=ground, site='frost-depth = "40 in"')
    told = [f for f in found(brief, str(tmp_path / "brief.toml")) if f.at["edition"] == "house"]
    behind = ("edge-placing", "f-factors") if not more else ("edge-placing", "f-factors", "under-slab")
    if subject == "heated-slab":
        behind = () if more and place == "under" else ("heated-slab",)
    assert told or subject in behind
    assert all(f.basis[0].source == "House rules" for f in told if "by" not in f.at)
