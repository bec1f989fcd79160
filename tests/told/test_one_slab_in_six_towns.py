"""One slab in six towns: what its code asks there, with clause, edition, verdict and how it was seen, as it is printed.

A house on frost walls, 2 in of plain-15 (R-8.1 as labelled) under the floor and 4 ft down the outside, a film and
4 in of gravel. What the towns should say is written here from the tables, each with its source:

- Energy code of 2012 to 2018, table by zones: zone 7 asks R-10 for 4 ft at the edge, zone 5 R-10 for 2 ft, zone 2
  nothing (Building America Solution Center, City of Philadelphia, City of Boise; quoted).
- National Building Code of Canada, 9.36.2.8: RSI 1.96 above the frost line in every zone (zone 4 quoted, from memory).
- Approved Document L 2021: U of a new dwelling's floor at most 0.18; Technical Guidance Document L 2022: 0.18 (both
  quoted). Approved Document C asks 100 mm of hardcore, Technical Guidance Document C 150 mm (document); 4 in are
  102 mm.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from functools import cache

import pytest
from tests.told.test_bad_briefs import GOOD

from underpour.answer import answer
from underpour.brief import reads
from underpour.cli import main
from underpour.dossier import Dossier
from underpour.findings import Finding
from underpour.measure.digits import THIN

SEEN = {"document", "quoted", "memory", "practice", "derived"}
SAID = {
    "quoted": "(quoted at second hand)",
    "memory": "(from memory)",
}


@dataclass(frozen=True)
class Town:
    place: str
    code: tuple[str, ...]
    zone: str  # words of the zone; "" where the code has none
    verdicts: tuple[tuple[str, str, str], ...]  # id, what it asks, verdict; "" for the only one


TOWNS = [
    Town("Duluth, MN", ("irc-2018",), "Zone 7, of ZIP area 55805",
        (("code.slab-edge", "resistance", "falls short"), ("code.slab-edge", "depth", "meets"))),
    Town("Indianapolis, IN", ("irc-2018",), "Zone 5A, of ZIP area 46204",
        (("code.slab-edge", "resistance", "falls short"), ("code.slab-edge", "depth", "meets"))),
    Town("Austin, TX", ("irc-2018",), "Zone 2A, of ZIP area 78701",
        (("code.slab-edge", "resistance", "not required, advised"),)),
    Town("Toronto, ON", ("nbc-2020",), "Zone 5, by the degree-days of weather stations near by",
        (("code.slab-edge", "resistance", "falls short"),)),
    Town("Manchester, GB", ("uk-part-l-2021", "uk-part-c-2004"), "",
        (("code.under-slab", "", "falls short"), ("code.base-course", "", "meets"))),
    Town("Dublin, IE", ("ie-tgd-l-2022", "ie-tgd-c-2004"), "",
        (("code.under-slab", "", "falls short"), ("code.base-course", "", "falls short"))),
]  # fmt: skip
IN_EACH = pytest.mark.parametrize("town", TOWNS, ids=lambda town: town.place)


def brief(town: Town) -> str:
    code = json.dumps(list(town.code))
    text = GOOD.replace('use = "workshop"', f'use = "dwelling"\nwork = "new"\ncode = {code}').replace(
        "Duluth, MN", town.place
    )
    return text[: text.index("[[alternative]]")]


@cache
def answered(town: Town) -> Dossier:
    return answer(reads(brief(town), "brief.toml"))


def about_codes(town: Town) -> list[Finding]:
    return [finding for finding in answered(town).as_briefed.findings if finding.id.startswith("code.")]


def plain(text: str) -> str:
    return re.sub(r"\s+", " ", text.replace(THIN, " "))


@IN_EACH
def test_each_code_says_what_the_tables_say_of_this_slab(town):
    found = {(f.id, str(f.at.get("asks", ""))): f.verdict for f in about_codes(town)}
    for id_, asks, verdict in town.verdicts:
        assert found[id_, asks] == verdict, found


@IN_EACH
def test_each_finding_names_its_edition_its_clause_and_how_it_was_seen(town):
    found = about_codes(town)
    assert {f.at["edition"] for f in found} == set(town.code)
    for finding in found:
        assert finding.basis, finding.id
        for basis in finding.basis:
            assert basis.source and basis.clause and basis.seen in SEEN
        assert "authority having jurisdiction decide" in finding.caution


@IN_EACH
def test_the_zone_stands_beside_what_goes_by_it_and_nowhere_else(town):
    by_zone = [f for f in about_codes(town) if town.zone and town.zone in f.words]
    assert bool(by_zone) == bool(town.zone)
    if not town.zone:
        assert not any(re.search(r"\b[Zz]one \d", f.words) for f in about_codes(town))


@IN_EACH
def test_an_official_reads_each_line_on_the_terminal(town, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "brief.toml").write_text(brief(town), "utf-8")
    main(["answer", "brief.toml"])
    told = plain(capsys.readouterr().out)
    for finding in about_codes(town):
        assert finding.title in told
        assert plain(finding.words) in told
        for basis in finding.basis:
            assert plain(f"{basis.source}, {basis.clause} {SAID.get(basis.seen, '')}").rstrip() in told
    for verdict in {finding.verdict for finding in about_codes(town)}:
        assert verdict in told.casefold()


def test_in_duluth_the_edition_of_2021_asks_for_the_zone_and_is_answered_once_it_is_typed():
    duluth = Town("Duluth, MN", ("irc-2021",), "", ())
    (edge,) = [f for f in about_codes(duluth) if f.id == "code.slab-edge" and f.at.get("route") != "performance"]
    assert (edge.verdict, edge.missing) == ("cannot tell", "site.zone")
    assert "this was zone 7" in edge.words
    text = brief(duluth).replace('place = "Duluth, MN"', 'place = "Duluth, MN"\nzone = "7"')
    found = answer(reads(text, "brief.toml")).as_briefed.findings
    verdicts = {f.at.get("asks"): f.verdict for f in found if f.id == "code.slab-edge"}
    assert (verdicts["resistance"], verdicts["depth"]) == ("falls short", "meets")
