"""Codes, zones and files of a county that cannot be meant, the whole way through the command.

One table: what is typed in a good brief or in a good county's file, and the words that a person then reads, with file
and line. Each ends with status 2, and the folder stays as it was.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.told.refused import contents
from tests.told.test_codes_told import WORKSHOP
from tests.told.test_local_codes import COUNTY

from underpour.cli import main

PLACED = WORKSHOP.replace('ground = "silty-clay-moist"', 'ground = "silty-clay-moist"\nzone = "7"')
NAMED = '"irc-2018"\nlocal-code = "county.toml"'
IN_THE_BRIEF = [  # what, was, typed, words
    ('an edition nobody knows', '"irc-2018"', '"irc-2081"',
     ('brief.toml:5  project.code', 'No edition is called irc-2081.', 'The nearest is irc-2021.')),
    ('one of several that nobody knows', '"irc-2018"', '["irc-2018", "nbc-2002"]',
     ('project.code.2', 'The nearest is nbc-20')),
    ('an edition twice', '"irc-2018"', '["irc-2018", "irc-2018"]',
     ('project.code.2', 'irc-2018 is named twice.')),
    ('a number for an edition', '"irc-2018"', '2018',
     ('brief.toml:5  project.code', 'A word in quotes is wanted here')),
    ('a zone outside its list', 'zone = "7"', 'zone = "9"',
     ('brief.toml:10  site.zone', 'That is none of the zones that codes of the United States have.', 'Known: ')),
    ('a code of one country for a place in another', '"Duluth, MN"', '"Toronto, ON"',
     ('is a code of the United States, and Toronto, ON lies in Canada.', 'Which of the two is meant?', 'nbc-2020')),
    ('a code of one state for a place in another', '"irc-2018"', '"in-2020"',
     ('Indiana Residential Code 2020 is a code of Indiana, and Duluth, MN lies in Minnesota.', 'mn-2015')),
    ("a county's file that is not there", '"irc-2018"', '"irc-2018"\nlocal-code = "conty.toml"',
     ('brief.toml:6  project.local-code', 'There is no file conty.toml.', 'county.toml')),
    ("a tube's key that nothing answers yet", 'size    = "1/2 in"', 'manifold = { at = "1 1" }',
     ('Nothing answers manifold in this version yet.',)),
    ('a work nobody knows', '"irc-2018"', '"irc-2018"\nwork = "extension"',
     ('No work is called extension.', 'new, addition')),
    ('words for yes', '"irc-2018"', '"irc-2018"\nheat-recovery = "yes"',
     ('project.heat-recovery',)),
]  # fmt: skip
IN_THE_FILE = [  # was, typed, words
    ('clause = "section 14-203"\n', "", ("county.toml:5: row.clause", "no clause", "section 14-203")),
    ("date = 2023-07-01\n", "", ("county.toml:1: date", "The file has no date.", "date = 2024-07-01")),
    ("date = 2023-07-01", 'date = "last July"', ("county.toml:2: date", "This is no day.")),
    ('amends = "irc-2018"', 'amends = "irc-2081"', ("county.toml:3: amends", "No edition is called irc-2081.")),
    ('subject = "slab-edge"', 'subject = "slab-ege"', ("county.toml:6", "No subject is called slab-ege.", "slab-edge")),
    ('subject = "slab-edge"\n', "", ("county.toml:5: row.subject", "does not say what it is about")),
    ('resistance = "R15"', 'resistance = "15 psi"', ("county.toml:9: row.1.resistance",)),
    ('resistance = "R15"', "resistance = 15", ("county.toml:9: row.1.resistance", "A measure is wanted here.")),
    ('resistance = "R15"\ndepth = "4 ft"\n', "", ("county.toml:5: row.1", "asks for nothing")),
    ('resistance = "R15"', 'continuous = "R15"', ("row.1.continuous", "does not ask for continuous", "width")),
    ('resistance = "R15"\ndepth = "4 ft"', 'f-factor = "0.5 Btu/(h·ft·F)"', ("another way", 'route = "F-factor"')),
    ('subject = "slab-edge"', 'subject = "heated-slab"', ("row.1.place", "does not say where", '"under" or "edge"')),
    ('subject = "slab-edge"', 'subject = "heated-slab"\nplace = "edge"', ('place = "edge" asks for added',)),
    ('"slab-edge"', '"foam-fire"', ("No subject is called foam-fire.",)),
    ('subject = "slab-edge"', 'subject = "vapour-retarder"', ("does not ask for resistance", "film or lap")),
    ('depth = "4 ft"', 'deepth = "4 ft"', ("county.toml:10", "No key of a row is called deepth.", "depth")),
    ('depth = "4 ft"', 'depth = "4 ft"\nzones = ["9"]', ("county.toml:11", "No climate zone is called 9.")),
    ('depth = "4 ft"', 'depth = "4 ft"\nwhen = ["heatedslab"]', ("county.toml:11", "The nearest is heated-slab.")),
    ('title = "Example County amendments"\n', "", ("title", "no title")),
    ("[[row]]", "[row]", ("county.toml:5: row", "[[row]]")),
    ('subject = "slab-edge"', 'subject = "slab-edge', ("county.toml:6",)),
    ('clause = "section 14-203"', "clause = 14", ("county.toml:7: row.clause", "no clause")),
    ('depth = "4 ft"', 'depth = "4 ft"\nzones = "5"', ("row.1.zones", "A list of words in quotes", '["5", "6A"]')),
    ('depth = "4 ft"', 'depth = "4 ft"\nzones = [5]', ("county.toml:11: row.1.zones", "A list of words in quotes")),
    ('depth = "4 ft"', 'depth = "4 ft"\nwhen = "heated-slab"', ("row.1.when", 'Write when = ["heated-slab"].')),
    ('depth = "4 ft"', 'depth = "4 ft"\nnote = 4', ("row.1.note", "A text is wanted here.", 'note = "..."')),
    ('depth = "4 ft"', 'depth = "4 ft"\nroute = 4', ("row.1.route", "A text is wanted here.")),
    ('depth = "4 ft"', 'depth = "4 ft"\ndoubtful = true', ("row.1.doubtful", "A text is wanted here.")),
    ('depth = "4 ft"', 'depth = "4 ft"\nplace = "edge"', ("row.1.place", "A row on slab-edge has no place.")),
    ('depth = "4 ft"', 'depth = "4 ft"\nfrom-memory = ["film"]', ("row.1.from-memory", "does not ask for film")),
    ('depth = "4 ft"', 'depth = "4 ft"\nseen = "guessed"', ("row.1.seen", "No way of seeing is called guessed.")),
    ('depth = "4 ft"', 'depth = "4 ft"\nedge-stops = "slab"', ("row.1.edge-stops", "The nearest is slab-bottom.")),
    ('depth = "4 ft"', 'depth = "4 ft"\nedge-stops = "slab-bottom"', ("edge-stops", "a matter of heated slabs")),
    ('resistance = "R15"', 'resistance = "R9999"', ("row.1.resistance", "R9999 is too much")),
    ('subject = "slab-edge"', "subject = 4", ("No subject is called 4.", "The subjects: slab-edge")),
    ('amends = "irc-2018"', 'amends = "irc-2018"\ncountry = "Narnia"', ("toml:4: country", "No country is written")),
    ('title = "Example County amendments"', 'title = ""', ("county.toml:1: title", "no title")),
    ("date = 2023-07-01", "date = 2023-07-01T08:00:00", ("county.toml:2: date", "This is no day.")),
    ("date = 2023-07-01", "date = 2017-08-01", ("are both of 2017-08-01: which is newer cannot be told.",)),
    ('amends = "irc-2018"', 'amends = "nbc-2020"', ("amends nbc-2020, and the brief is held to irc-2018.",)),
]  # fmt: skip
BAD = [
    *(pytest.param(PLACED, was, typed, COUNTY, words, id=what) for what, was, typed, words in IN_THE_BRIEF),
    *(
        pytest.param(PLACED.replace('"irc-2018"', NAMED, 1), "", "", (COUNTY, was, typed), ("brief.toml:6", *words),
                     id=f"{was[:18]!r} to {typed[:30]!r}")
        for was, typed, words in IN_THE_FILE
    ),
]  # fmt: skip


@pytest.mark.parametrize(("brief", "was", "typed", "county", "words"), BAD)
def test_what_cannot_be_meant_is_told_with_what_to_type_and_nothing_is_touched(
    tmp_path, capsys, monkeypatch, brief, was, typed, county, words
):
    monkeypatch.chdir(tmp_path)
    file, old, new = county if isinstance(county, tuple) else (county, "", "")
    assert was in brief and old in file
    Path("brief.toml").write_text(brief.replace(was, typed, 1) if was else brief, "utf-8")
    Path("county.toml").write_text(file.replace(old, new, 1) if old else file, "utf-8")
    before = contents(tmp_path)
    assert main(["answer", "brief.toml"]) == 2
    said = capsys.readouterr()
    assert said.out == "" and "Traceback" not in said.err
    told = " ".join(said.err.split())
    for word in ("brief.toml:", *words):
        assert " ".join(word.split()) in told, told
    assert contents(tmp_path) == before


def test_the_good_brief_and_the_good_county_are_answered(tmp_path, monkeypatch, capsys):
    """What the table changes stands before it is changed: nothing in it is told for another reason."""
    monkeypatch.chdir(tmp_path)
    Path("brief.toml").write_text(PLACED.replace('"irc-2018"', NAMED, 1), "utf-8")
    Path("county.toml").write_text(COUNTY, "utf-8")
    assert main(["answer", "brief.toml"]) == 1
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize(
    ("file", "words"),
    [
        (b"\xff\xfe", "This is not a text in UTF-8."),
        (b"", "The file has no title."),
        (None, "no file county.toml."),
    ],
)
def test_a_file_that_is_no_county_is_told(tmp_path, monkeypatch, capsys, file, words):
    monkeypatch.chdir(tmp_path)
    Path("brief.toml").write_text(PLACED.replace('"irc-2018"', NAMED, 1), "utf-8")
    if file is not None:
        Path("county.toml").write_bytes(file)
    before = contents(tmp_path)
    assert main(["answer", "brief.toml"]) == 2
    assert words in " ".join(capsys.readouterr().err.split())
    assert contents(tmp_path) == before
