"""What is said of a code: verdicts, doubt, what is asked, whose row stands, and what cannot be meant."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest

from code_briefs import BASEMENT, FROST_WALL, board, found, one, text
from underpour.answer import answer
from underpour.brief import reads
from underpour.catalogue import codes
from underpour.cli import main
from underpour.resolve import resolve
from underpour.starters import starters

R = 0.1761101837  # m²·K/W for R-1
WORKSHOP = """\
[project]
title = "Boat workshop, north shore"
use   = "workshop"
units = "US"
code  = "irc-2018"

[site]
place  = "Duluth, MN"
ground = "silty-clay-moist"

[plan]
outline = ["0 0", "40 0", "40 28", "24 28", "24 36", "0 36"]
unit    = "ft"

[floor]
inside = "68 F"
build-up = [
  { concrete = "5 in" },
  { board = "plain-25", thickness = "2 in" },
  { vapour-retarder = "film-15-mil" },
  { gravel = "4 in" },
]

[[edge]]
sides  = "all"
kind   = "frost-wall"
depth  = "60 in"
ground = "-8 in"
insulation = [{ board = "plain-15", thickness = "2 in", face = "outside", down = "48 in" }]

[tube]
size    = "1/2 in"
spacing = "9 in"
fluid   = "propylene-glycol-30"
"""


def test_a_workshop_in_duluth_falls_short_at_its_edge():
    """R-8 where zone 7 asks for R-10; as deep as asked."""
    edge = one(WORKSHOP, "code.slab-edge", asks="resistance")
    assert (edge.verdict, edge.basis[0].doubtful) == ("falls short", "")
    assert edge.value == pytest.approx(8.1 * R, abs=0.05 * R) and edge.limit == pytest.approx(10 * R, abs=1e-4)
    assert one(WORKSHOP, "code.slab-edge", asks="depth").verdict == "meets"
    assert "Zone 7, of ZIP area 55" in edge.words


def test_what_a_heated_slab_adds_by_the_2018_edition_is_shown_as_doubtful_both_ways():
    """The row found for 2012 to 2018 adds R-5 at the edge; the 2018 text, from memory, puts it under the slab."""
    edge = one(WORKSHOP, "code.heated-slab", asks="edge")
    under = one(WORKSHOP, "code.heated-slab", asks="under")
    assert (edge.verdict, under.verdict) == ("falls short", "meets")
    assert edge.limit == pytest.approx(15 * R, abs=1e-4) and under.limit == pytest.approx(5 * R, abs=1e-4)
    for finding in (edge, under):
        assert finding.basis[0].doubtful and f"Doubtful: {finding.basis[0].doubtful}" in finding.words


def test_without_a_code_nothing_is_said_of_codes():
    bare = WORKSHOP.replace('code  = "irc-2018"\n', "")
    dossier = answer(reads(bare))
    assert not [f for f in dossier.as_briefed.findings if f.id.startswith("code.")]
    assert dossier.editions == ()
    with_code = answer(reads(WORKSHOP))
    others = [f for f in with_code.as_briefed.findings if not f.id.startswith("code.")]
    assert others == list(dossier.as_briefed.findings)
    assert with_code.editions == ("International Residential Code 2018",)


def test_each_finding_says_who_decides_how_it_was_seen_and_how_much_is_from_memory():
    dossier = answer(reads(WORKSHOP.replace('"irc-2018"', '["irc-2018", "good-practice"]')))
    every = [f for f in dossier.as_briefed.findings if f.id.startswith("code.")]
    for finding in every:
        assert finding.caution == "Local code and the authority having jurisdiction decide."
        assert "that are from memory: " in finding.words, finding.words
        assert finding.basis[0].clause
    told = [f for f in every if f.at.get("route") != "performance"]
    assert len(told) > 10
    for finding in told:
        assert any(how in finding.words for how in ("From memory", "Quoted from", "Read in", "Common practice"))


def test_several_editions_stand_side_by_side_each_with_its_own_verdict():
    both = WORKSHOP.replace('"irc-2018"', '["irc-2018", "mn-2015"]')
    depths = [one(both, "code.slab-edge", edition=key, asks="depth").verdict for key in ("irc-2018", "mn-2015")]
    assert depths == ["meets", "falls short"]


def test_codes_read_the_label_and_never_what_the_foam_does_in_place():
    def at(conductivity: str):
        piece = f'{{ board = "plain-15", thickness = "2 in"{conductivity}, face = "outside", down = "48 in" }}'
        brief = WORKSHOP.replace('{ board = "plain-15", thickness = "2 in", face = "outside", down = "48 in" }', piece)
        return one(brief, "code.slab-edge", asks="resistance")

    assert at(', conductivity = "0.020 W/(m·K)"').value == at("").value
    assert "as labelled" in at("").title


def test_a_u_value_for_a_code_is_that_of_the_label_whatever_conductivity_is_typed():
    def at(conductivity: str):
        layer = f'{{ board = "plain-15", thickness = "4 in"{conductivity} }}'
        layers = ('{ concrete = "4 in" }', layer)
        return one(text(code="uk-part-l-2021", layers=layers, project='work = "new"'), "code.under-slab").value

    assert at(', conductivity = "0.020 W/(m·K)"') == at("") > 0.0


def test_foam_that_thins_within_the_depth_counts_as_its_thinnest():
    """R-10 for two feet and R-5 for two more is R-5 within four."""
    pieces = [board(10, "outside", down="24 in"), board(5, "outside", **{"from": "-24 in", "down": "24 in"})]
    edge = one(text(code="iecc-2021-residential", zone="5A", pieces=pieces), "code.slab-edge", asks="resistance")
    assert edge.value == pytest.approx(5 * R, abs=1e-4) and edge.verdict == "falls short"


def test_how_high_the_ground_stands_is_asked_and_never_taken_from_what_is_usual():
    bare = text(code="irc-2018", zone="6A").replace('ground = "-8 in"\n', "")
    for id in ("code.slab-edge", "code.base-course", "code.frost"):
        assert one(bare, id).missing == "edge.A.ground"


def test_what_holds_only_where_it_is_adopted_is_advised_and_never_falls_short():
    bare = text(code="irc-2018", zone="6A", layers=('{ concrete = "4 in" }',))
    layer = one(bare, "code.soil-gas", asks="layer")
    assert (layer.verdict, layer.limit, layer.value) == ("not required, advised", None, 0.0)
    assert "It holds where adopted." in layer.words


def test_where_no_foam_is_asked_it_is_advised_with_its_reason():
    edge = one(text(code="irc-2021", zone="2A"), "code.slab-edge", asks="resistance")
    assert edge.verdict == "not required, advised" and edge.limit is None
    assert edge.words.startswith("Foam at the edge keeps the strip along the wall warm and dry")


def test_a_basement_is_not_taken_for_a_slab_on_the_ground():
    brief = text(code="iecc-2021-residential", zone="6A", use="basement", kind=BASEMENT, ground="6 ft")
    edge = one(brief, "code.slab-edge")
    assert edge.verdict == "does not apply"
    said = "lies 1.83 m (6 ft) below the ground; this is asked of floors less than 12 in (305 mm) below it"
    assert said in edge.words.replace("\N{THIN SPACE}", " ")
    assert one(brief, "code.basement-wall").verdict == "falls short"


def test_foam_that_begins_below_the_top_of_the_slab_is_said_to_leave_it_bare():
    brief = text(code="irc-2018", zone="6", pieces=[board(10, "outside", **{"from": "-4 in", "down": "48 in"})])
    edge = one(brief, "code.slab-edge", asks="resistance")
    assert (edge.value, edge.verdict) == (0.0, "falls short")
    told = edge.words.replace("\N{THIN SPACE}", " ")
    assert "The foam begins 102 mm (4 in) below it; an edge that is left bare above it counts as bare." in told
    whole = one(brief.replace('from = "-4 in", ', ""), "code.slab-edge", asks="resistance")
    assert whole.verdict == "meets" and "begins" not in whole.words


@pytest.mark.parametrize(("ground", "kind", "said"), [("30 in", "frost-wall", True), ("30 in", "footing-wall", False)])
def test_a_frost_wall_in_the_ground_is_said_to_be_held_to_nothing(ground, kind, said):
    brief = text(code="irc-2018", zone="6", ground=ground, kind=f'kind = "{kind}"\ndepth = "60 in"')
    edge = one(brief, "code.slab-edge")
    assert edge.verdict == "does not apply"
    assert ('basement\'s wall, its edge is kind = "footing-wall"' in edge.words) == said
    assert bool([f for f in found(brief) if f.id == "code.basement-wall"]) != said


def test_of_several_edges_each_says_its_share_of_the_perimeter():
    """Two sides of 40 ft and two of 28 ft; the second edge has one of 28."""
    more = '[[edge]]\nsides = [2]\nkind = "frost-wall"\ndepth = "72 in"\nground = "-8 in"\n'
    brief = text(code="irc-2018", zone="6A", more=more).replace('sides = "all"', 'sides = "rest"')
    assert "This edge is 21 % of the perimeter." in one(brief, "code.slab-edge", edge="B").words
    assert "of the perimeter" not in one(text(code="irc-2018", zone="6A"), "code.slab-edge").words


def test_a_row_that_does_not_apply_is_told_by_its_table_and_not_by_the_line_of_another_zone():
    """Of heated floors in zone 5 the first line of the table is that of zone 4."""
    cold = one(text(code="nbc-2020", zone="5"), "code.heated-slab")
    assert (cold.verdict, cold.basis[0].clause) == ("does not apply", "9.36.2.8.(5), Tables A and B")
    warm = one(text(code="nbc-2020", zone="5", more="[tube]"), "code.heated-slab", asks="under")
    assert warm.basis[0].clause == "9.36.2.8.(5), Tables A and B, zone 5"


@pytest.mark.parametrize(("frost", "said"), [("42 in", True), ("10 in", False)])
def test_a_frost_line_that_is_deeper_than_the_codes_own_depth_is_said_to_be_the_limit(frost, said):
    footing = one(text(code="irc-2018", zone="6A", site=f'frost-depth = "{frost}"'), "code.frost")
    assert footing.limit == pytest.approx((42 if said else 12) * 0.0254, abs=1e-4)
    assert ("The frost line as typed, 42 in, is deeper than the code's own least depth." in footing.words) == said


def test_a_drive_is_no_floor_of_a_building_and_nothing_is_asked_for_it():
    brief = text(code="irc-2018", zone="6A", use="drive", inside="", kind='kind = "free-edge"')
    told = {f.id: f for f in found(brief)}
    for id in ("code.slab-edge", "code.frost", "code.vapour-retarder", "code.soil-gas"):
        assert told[id].verdict == "does not apply", id
    assert told["code.frost"].words.startswith("It is not asked where the slab lies outdoors; that is so here.")


def test_a_room_that_is_hardly_heated_is_no_conditioned_space():
    cold = text(code="iecc-2021-residential", zone="6A", use="barn", inside='inside = "45 F"')
    warm = text(code="iecc-2021-residential", zone="6A", use="barn", inside='inside = "55 F"')
    assert one(cold, "code.slab-edge").verdict == "does not apply"
    assert one(warm, "code.slab-edge").verdict == "falls short"


FROST = text(code="irc-2018", zone="6A")
OLD = text(code="uk-part-l-2021", layers=('{ concrete = "4 in" }', board(8.0), '{ old-slab = "4 in" }'))
WALL = text(code="nbc-2020", zone="6", use="basement", kind=BASEMENT, ground="5 ft", pieces=[board(17.5, "inside")])
ENGLISH = text(code="uk-part-l-2021", layers=('{ concrete = "4 in" }', board(16)))  # U 0.23
OAKLAND = text(code="irc-2018", place='place = "Oakland, CA"\nground = "clay-or-silt"')
GARAGE = text(code="irc-2018", zone="6A", use="garage", inside="")
ASKED = [  # brief, finding, key, what was typed there, what is typed instead, the verdict then
    (text(code="irc-2021"), "code.slab-edge", "site.zone", "[site]", '[site]\nzone = "2A"', "not required, advised"),
    (text(code="irc-2018", zone="6A", use="barn", inside=""), "code.slab-edge", "floor.inside",
     "[floor]", '[floor]\ninside = "45 F"', "does not apply"),
    (text(code="irc-2018", zone="6A").replace('ground = "-8 in"\n', ""), "code.slab-edge", "edge.A.ground",
     "sides =", 'ground = "-8 in"\nsides =', "falls short"),
    (FROST, "code.frost", "site.frost-depth", "[site]", '[site]\nfrost-depth = "42 in"', "meets"),
    (FROST, "code.frost", "site.frost-depth", "[site]", '[site]\nfrost-depth = "80 in"', "falls short"),
    (OLD, "code.under-slab", "project.work", "[project]", '[project]\nwork = "addition"', "falls short"),
    (WALL, "code.basement-wall", "project.heat-recovery", "[project]", "[project]\nheat-recovery = true", "meets"),
    (WALL, "code.basement-wall", "project.heat-recovery", "[project]", "[project]\nheat-recovery = false",
     "falls short"),
    (OLD, "code.under-slab", "project.work", "[project]", '[project]\nwork = "alteration"', "falls short"),
    (ENGLISH, "code.under-slab", "project.work", "[project]", '[project]\nwork = "new"', "falls short"),
    (ENGLISH, "code.under-slab", "project.work", "[project]", '[project]\nwork = "alteration"', "meets"),
    (OAKLAND, "code.slab-edge", "site.zip", "[site]", '[site]\nzip = "94612"', "not required, advised"),
    (text(code="mn-2015", zone="5A"), "code.slab-edge", "site.zone", 'zone = "5A"', 'zone = "7"', "falls short"),
    (GARAGE, "code.vapour-retarder", "floor.inside", "[floor]", '[floor]\ninside = "40 F"', "does not apply"),
    (GARAGE, "code.vapour-retarder", "floor.inside", "[floor]", '[floor]\ninside = "55 F"', "falls short"),
    (text(code="irc-2018", zone="6A").replace('ground = "-8 in"\n', ""), "code.base-course", "edge.A.ground",
     "sides =", 'ground = "-8 in"\nsides =', "does not apply"),
    (text(code="ab-2018", zone="7A", kind=BASEMENT, ground="5 ft", more="[tube]"), "code.heated-slab",
     "site.frost-depth", "[site]", '[site]\nfrost-depth = "48 in"', "falls short"),
    (text(code="irc-2018", place='place = "Oakland, CA"\nground = "clay-or-silt"', pieces=[board(20, "outside")]),
     "code.termites", "site.termites", "[site]", '[site]\ntermites = "very-heavy"', "falls short"),
]  # fmt: skip


@pytest.mark.parametrize(("brief", "id", "key", "was", "typed", "then"), ASKED, ids=[f"{a[2]}-{a[5]}" for a in ASKED])
def test_a_trigger_is_asked_by_one_key_and_typing_it_turns_the_verdict(brief, id, key, was, typed, then):
    if key == "project.heat-recovery":
        brief = brief.replace('zone = "6"', 'zone = "8"')
    before = one(brief, id)
    assert (before.verdict, before.missing) == ("cannot tell", key)
    assert one(brief.replace(was, typed, 1), id).verdict == then


SILENT_AT = 'place = "{}"\nground = "clay-or-silt"'
PLACES = {"US": "Oakland, CA", "CA": "Calgary, AB", "GB": "Manchester, GB", "IE": "Dublin, IE", "": "Oakland, CA"}
STATES = {"IN": "Gary, IN", "MN": "Duluth, MN", "NY": "Albany, NY", "WA": "Spokane, WA", "ON": "Toronto, ON",
          "AB": "Calgary, AB", "QC": "Montreal, QC"}  # fmt: skip


@pytest.mark.parametrize("edition", codes.every_edition(), ids=lambda edition: edition.key)
def test_whatever_a_silent_brief_leaves_open_is_asked_by_one_key_of_the_table(edition):
    """Every `cannot tell` of every edition, on floors of which a brief says little, names a key tried above."""
    tried = {row[2] for row in ASKED} | {"project.local-code"}
    place = STATES.get(edition.state) or PLACES[edition.country]
    seen = 0
    for use, kind, tube, foam in itertools.product(
        ("dwelling", "garage"), (FROST_WALL, BASEMENT), ("", "[tube]"), ((), (board(20, "outside"),))
    ):
        brief = text(
            code=edition.key, use=use, inside="", place=SILENT_AT.format(place), kind=kind, more=tube, pieces=foam
        )
        above, deep = 'ground = "-8 in"\n', 'ground = "5 ft"\n'  # a basement's ground is asked before anything else
        for finding in found(brief.replace(above, deep if kind == BASEMENT else "")):
            seen += 1
            assert (finding.verdict == "cannot tell") == bool(finding.missing), finding
            if finding.missing:
                assert finding.missing in tried, finding.missing
                assert finding.value is None and finding.words and finding.basis
    assert seen, "an edition that a floor is held to says something"


def test_a_row_of_f_factors_that_is_wanting_is_asked_by_a_file_and_the_file_answers(tmp_path: Path):
    """A heated slab with foam, which the table of the standard was not found to have."""
    heated = {"code": "ny-2025", "zone": "6A", "more": "[tube]", "pieces": [board(10, "outside", down="48 in")]}
    before = one(text(**heated), "code.slab-edge", route="F-factor")
    assert (before.verdict, before.missing) == ("cannot tell", "project.local-code")
    row = '[[row]]\nsubject = "f-factors"\nclause = "1"\nplace = "edge"\nwhen = ["heated-slab"]\n'
    asks = 'resistance = "R10"\ndepth = "48 in"\nf-factor = "{} Btu/(h·ft·F)"\n'
    for factor, verdict in (("0.54", "meets"), ("0.56", "falls short")):
        (tmp_path / "own.toml").write_text(f'title = "Own"\ndate = 2019-01-01\n{row}{asks.format(factor)}', "utf-8")
        after = text(**heated, project='local-code = "own.toml"')
        held = one(after, "code.slab-edge", tmp_path / "brief.toml", route="F-factor")
        assert held.verdict == verdict and "Read from Own" in held.words


def test_a_file_of_f_factors_that_this_edge_does_not_fill_cannot_tell(tmp_path: Path):
    row = '[[row]]\nsubject = "f-factors"\nclause = "1"\nplace = "edge"\nresistance = "R10"\ndepth = "48 in"\n'
    (tmp_path / "own.toml").write_text(
        f'title = "Own"\ndate = 2026-01-01\n{row}f-factor = "0.5 Btu/(h·ft·F)"\n', "utf-8"
    )
    bare = text(code="ny-2025", zone="6A", project='local-code = "own.toml"')
    edge = one(bare, "code.slab-edge", tmp_path / "brief.toml", route="F-factor")
    assert (edge.verdict, edge.missing) == ("cannot tell", "project.local-code")
    assert "Own: no row was found for this edge." in edge.words


@pytest.mark.parametrize("edition", ["hud-fpsf-1994", "iso-13793-2001"])
def test_an_edition_whose_rows_no_finding_reads_says_that_it_cannot_tell(edition):
    (footing,) = found(text(code=edition))
    assert (footing.id, footing.verdict, footing.missing) == ("code.frost", "cannot tell", "project.local-code")


def test_a_slab_without_tube_is_said_to_be_held_to_as_not_heated():
    cold = one(text(code="irc-2018", zone="6A"), "code.heated-slab")
    assert cold.verdict == "does not apply"
    assert "The brief has no [tube]; with one the slab is a heated one." in cold.words


def test_what_no_row_was_found_for_is_asked_by_a_file_and_the_file_answers(tmp_path: Path):
    brief = text(code="uk-part-c-2004")
    edition = text(code="qc-e-1-1", zone="6")
    before = one(edition, "code.slab-edge")
    assert (before.verdict, before.missing) == ("cannot tell", "project.local-code")
    rows = '[[row]]\nsubject = "slab-edge"\nclause = "1"\nresistance = "R5"\n'
    (tmp_path / "local.toml").write_text(f'title = "Q"\ndate = 2020-01-01\namends = "qc-e-1-1"\n{rows}', "utf-8")
    after = text(code="qc-e-1-1", zone="6", project='local-code = "local.toml"')
    assert one(after, "code.slab-edge", tmp_path / "brief.toml").verdict == "falls short"
    assert not [f for f in found(brief) if f.id == "code.slab-edge"], (
        "an edition that does not speak of it is not asked"
    )


def test_house_rules_stand_beside_the_code_as_an_edition_of_their_own(tmp_path: Path):
    rows = '[[row]]\nsubject = "vapour-retarder"\nclause = "rule 3"\nfilm = "15 mil"\n'
    (tmp_path / "house.toml").write_text(f'title = "House rules"\ndate = 2026-01-01\n{rows}', "utf-8")
    layers = ('{ concrete = "4 in" }', '{ vapour-retarder = "film-10-mil" }', '{ gravel = "4 in" }')
    brief = text(code="irc-2021", zone="6A", layers=layers, project='local-code = "house.toml"')
    file = tmp_path / "brief.toml"
    verdicts = [one(brief, "code.vapour-retarder", file, edition=key).verdict for key in ("irc-2021", "house")]
    assert verdicts == ["meets", "falls short"]
    assert "As the file says." in one(brief, "code.vapour-retarder", file, edition="house").words


def test_a_newer_county_is_held_to_and_named_in_the_finding(tmp_path: Path):
    rows = '[[row]]\nsubject = "slab-edge"\nclause = "14-2"\nresistance = "R15"\ndepth = "4 ft"\n'
    (tmp_path / "county.toml").write_text(
        f'title = "A county"\ndate = 2024-01-01\namends = "irc-2018"\n{rows}', "utf-8"
    )
    brief = text(code="irc-2018", zone="6A", project='local-code = "county.toml"')
    edge = one(brief, "code.slab-edge", tmp_path / "brief.toml", asks="resistance")
    assert edge.limit == pytest.approx(15 * R, abs=1e-4) and edge.basis[0].source == "A county"
    assert "A county of 2024-01-01 is newer than International Residential Code 2018 of 2017-08-01" in edge.words


def test_the_tube_is_said_to_be_the_mark_of_a_heated_slab_told_by_itself():
    notes = resolve(reads(WORKSHOP).brief).notes
    assert any("This slab is a heated one, which codes ask" in note for note in notes)
    assert any("Ask the building office whether it holds for this floor." in note for note in notes)


@pytest.mark.parametrize("starter", starters(), ids=lambda starter: starter.key)
def test_a_starter_names_an_edition_that_holds_where_it_stands(starter):
    text = starter.text.replace("# code  =", "code =").replace("# zone    =", "zone =")
    assert resolve(reads(text.replace("# frost-depth =", "frost-depth =")).brief).held.editions


def test_the_rows_of_an_edition_can_be_read_in_the_terminal(capsys):
    assert main(["catalogue", "show", "irc-2018"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    for words in (
        "International Residential Code 2018 (catalogue.code.irc-2018)",
        "Prints the rows of iecc-2018-residential as its own chapter.",
        "vapour retarder, R506.2.3 film 6 mil, lap 6 in. not where the slab lies outdoors",
        "Local code and the authority having jurisdiction decide.",
    ):
        assert words in said
    assert main(["catalogue", "list", "codes"]) == 0
    assert "mn-2015" in capsys.readouterr().out


def test_each_finding_of_an_edition_is_named_once():
    for brief in (WORKSHOP, WALL, OLD, text(code="nbc-2020", zone="7A", more="[tube]")):
        names = [(f.id, tuple(sorted(f.at.items()))) for f in found(brief)]
        assert len(set(names)) == len(names)
        assert all(a != b for a, b in itertools.pairwise(names))
