"""The submittal says everything the dossier says, and nothing that a brief could make it say."""

from __future__ import annotations

import io
import re
import time
from dataclasses import replace

import paper_cases as cases
import pytest
from pypdf import PdfReader

from underpour.cli.spoken import last_words
from underpour.drawings.margin import margin_words
from underpour.findings import Finding
from underpour.measure import say
from underpour.mistakes import Mistake
from underpour.papers import Picture, Pictures, for_one, submittal, write
from underpour.papers.asked import asked
from underpour.papers.content import at_the_head, content
from underpour.papers.known import known, runs
from underpour.papers.laid import points
from underpour.papers.letters import Letters
from underpour.papers.one_page import READERS, one_page
from underpour.papers.order import is_tight, worst_first
from underpour.papers.unchecked import unlooked

DAY = "2026-11-25"


def squeezed(text: str) -> str:
    """Without spaces and offered breaks: where a line ends is the typesetter's business."""
    return "".join(text.replace("\N{ZERO WIDTH SPACE}", "").split())


def laid_words() -> list[str]:
    """Every text of what is laid, handed over, looked at and confirmed."""
    given = cases.HANDOVER
    words = [*given.to, given.from_, given.prepared_by, given.number, *given.references, *given.deviations]
    for p in cases.PRODUCTS:
        words += [
            p.name,
            *p.cls,
            *p.where,
            *p.evidence,
            *(w for row in p.rows for w in (row.name, row.terms, row.source)),
        ]
    for w in cases.WORKS:
        words += [w.what, w.where, *w.how, w.mind]
    for p in cases.POINTS:
        words += [p.look_at, p.wanted, p.how, p.who]
    for c in cases.CONFIRMERS:
        words += [c.who, *c.what, c.before, c.why]
    return words


def read_back(pdf: bytes) -> str:
    return squeezed("".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages))


@pytest.fixture(scope="module", params=["US", "SI"])
def system(request):
    return request.param


@pytest.fixture(scope="module")
def printed(system):
    return read_back(submittal(cases.dossier(system), cases.pictures(), date=DAY).pdf)


def test_the_same_dossier_gives_the_same_bytes():
    first, second = (submittal(cases.dossier(), cases.pictures(), date=DAY).pdf for _ in range(2))
    assert first.startswith(b"%PDF") and first == second


def test_every_finding_is_printed_with_its_numbers(printed, system):
    for finding in cases.dossier().as_briefed.findings:
        assert squeezed(finding.title) in printed
        assert squeezed(finding.words) in printed
        assert squeezed(finding.caution) in printed
        for number in (finding.value, finding.limit):
            if number is not None:
                assert squeezed(say.both(number, finding.unit, system)) in printed, finding.id
        assert squeezed(margin_words(finding, system)) in printed, finding.id


def test_every_alternative_is_printed_beside_the_brief(printed, system):
    for answer in cases.dossier().alternatives:
        corner = answer.find("heat.corner-coldest")
        assert squeezed(answer.name) in printed
        assert squeezed(say.both(corner.value, corner.unit, system)) in printed


def test_every_caution_note_credit_and_assumption_is_printed(printed):
    dossier = cases.dossier()
    for words in (*dossier.cautions, *dossier.notes, *dossier.credits, *laid_words()):
        assert squeezed(words) in printed
    for assumed in dossier.assumed:
        assert squeezed(assumed.path) in printed and squeezed(assumed.why) in printed


def test_text_that_looks_like_markup_is_printed_as_it_was_typed(printed):
    for words in cases.HOSTILE:
        assert squeezed(words) in printed


def test_steps_are_printed_and_each_source_once_by_number_with_how_it_was_seen(printed):
    assert squeezed("(θsi − θe)/(θi − θe) = (12.9 − −8.6)/(20 − −8.6) = 0.752") in printed
    for n, words in enumerate(("ISO 10211:2017, 7.3 · as quoted by another source", "Custom of"), 1):
        assert squeezed(f"[{n}] {words}") in printed and printed.count(squeezed(words)) == 1
    assert squeezed("ISO 13788:2012, 5.3 · read in the document") in printed
    assert squeezed("ISO 6946:2017, 6.7.1 · from memory, not yet read") in printed


def test_a_long_list_of_inputs_is_said_once_and_named():
    inputs = tuple(f"floor.build-up.{n}.thickness" for n in range(1, 8))
    basis = cases.findings(14.0)[0].basis
    one, other, brief = (
        replace(cases.findings(14.0)[0], rests_on=rests, basis=basis)
        for rests in (inputs, (*inputs, "floor.humidity"), ("site.place",))
    )
    told = known((one, other, brief), "SI")
    assert [(named["name"], len(named["paths"])) for named in told["lists"]] == [("A", 7)]
    rests = [(block["rests"]["list"], len(block["rests"]["more"])) for block in told["blocks"]]
    assert rests == [("A", 0), ("A", 1), ("", 1)]


def test_what_cannot_be_told_and_what_nobody_asked_is_listed_as_not_checked(printed):
    unchecked = printed.partition("Whatwasnotchecked")[2]
    assert squeezed("Depth from finished floor to dug ground: type floor.available-depth") in unchecked
    assert squeezed("Bearing: slab, foam and ground under posts") in unchecked
    assert "Moisture:" not in unchecked


def test_the_parts_come_in_the_order_in_which_they_are_read():
    pdf = PdfReader(io.BytesIO(submittal(cases.dossier(), cases.pictures(), date=DAY).pdf))
    assert [entry.title for entry in pdf.outline if not isinstance(entry, list)] == [
        "Transmittal",
        "What is asked",
        "What is proposed",
        "Does it hold?",
        "How we know",
        "The alternatives side by side",
        "The sections, to scale",
        "Product data",
        "In what order it is laid",
        "What to look at, and when",
        "What was assumed",
        "What was not checked",
        "Who must confirm",
        "Cautions",
        "Data and credits",
        "The brief as it was typed",
    ]


def test_the_first_sheet_names_every_part_with_the_sheet_it_begins_on():
    pdf = PdfReader(io.BytesIO(submittal(cases.dossier(), cases.pictures(), date=DAY).pdf))
    parts = [entry for entry in pdf.outline if not isinstance(entry, list)][1:]
    first = squeezed(pdf.pages[0].extract_text())
    for part in parts:
        sheet = pdf.get_destination_page_number(part) + 1
        assert re.search(re.escape(squeezed(part.title)) + rf"\.*{sheet}(?!\d)", first), part.title


def test_the_file_says_its_title_language_and_day_and_is_tagged():
    pdf = PdfReader(io.BytesIO(submittal(cases.dossier(), cases.pictures(), date=DAY).pdf))
    assert pdf.metadata.title == f"{cases.dossier().title}: Submittal"
    assert str(pdf.metadata.creation_date)[:10] == DAY
    assert pdf.root_object["/Lang"] == "en"
    assert pdf.root_object["/MarkInfo"]["/Marked"]


def test_only_bundled_fonts_are_in_the_file():
    pdf = submittal(cases.dossier(), cases.pictures(), date=DAY).pdf
    names = {
        font.get_object()["/BaseFont"].partition("+")[2].partition("-")[0]
        for page in PdfReader(io.BytesIO(pdf)).pages
        for font in page["/Resources"]["/Font"].values()
    }
    assert names <= {"SofiaSans", "SofiaSansCondensed", "NotoSansMath", "FiraMono"}


def test_a_paper_over_which_the_typesetter_stumbles_is_set_more_plainly(monkeypatch):
    """Seen with its version 0.15: tags of a drawing that finds its own sheet, "internal error: parent group"."""
    asked = []
    whole = write._set

    def stumbles(page, given, *more, **form):
        asked.append(given["still"])
        if given["still"] == "no":
            raise RuntimeError("internal error: parent group")
        return whole(page, given, *more, **form)

    monkeypatch.setattr(write, "_set", stumbles)
    assert "Howweknow" in read_back(submittal(cases.dossier(), cases.pictures(), date=DAY).pdf)
    assert asked == ["no", "yes"]


def test_another_fault_of_the_typesetter_is_not_hidden(monkeypatch):
    def breaks(*_, **__):
        raise RuntimeError("unknown variable")

    monkeypatch.setattr(write, "_set", breaks)
    with pytest.raises(RuntimeError, match="unknown variable"):
        submittal(cases.dossier(), cases.pictures(), date=DAY)


@pytest.mark.parametrize(("paper", "millimetres"), [("a4", (210.0, 297.0)), ("us-letter", (215.9, 279.4))])
def test_both_sizes_of_paper_are_printed(paper, millimetres):
    pdf = submittal(cases.dossier(), cases.pictures(), date=DAY, paper=paper).pdf
    page = PdfReader(io.BytesIO(pdf)).pages[0].mediabox
    assert (float(page.width) * 25.4 / 72, float(page.height) * 25.4 / 72) == pytest.approx(millimetres, abs=0.1)


def test_letters_without_a_font_never_keep_a_paper_from_being_made():
    strange = replace(cases.dossier(), title="漢字 \N{NULL}\N{RIGHT-TO-LEFT OVERRIDE} עברית \N{SNOWMAN}", use="")
    assert "□" in read_back(submittal(strange, cases.pictures(), date=DAY).pdf)


def test_a_bare_dossier_is_still_a_paper():
    bare = replace(cases.dossier(), title="", brief_text="", assumed=(), notes=(), credits=(), cautions=())
    alone = replace(bare, alternatives=(replace(bare.as_briefed, findings=(), summary=()),))
    text = read_back(submittal(alone, Pictures(), date=DAY).pdf)
    assert squeezed("Nothing was checked.") in text and squeezed("Nothing that a brief can say.") in text


def test_a_drawing_taller_than_the_sheet_is_made_to_fit():
    tall = cases.drawing("tall").replace('height="60mm" viewBox="0 0 170 60"', 'height="900mm" viewBox="0 0 170 900"')
    pdf = submittal(cases.dossier(), Pictures(sections=(Picture("A", tall, "Tall.", "Tall."),)), date=DAY).pdf
    heights = []
    for page in PdfReader(io.BytesIO(pdf)).pages:
        page.extract_text(visitor_text=lambda text, place, *_: heights.append(place[5]) if "Tall." in text else None)
    strip = 27.0 / 25.4 * 72.0  # pt, the foot of the sheet that text keeps free
    assert heights and min(heights) > strip, "the caption has slid into the strip at the foot"


@pytest.mark.parametrize(
    ("asked", "words"), [({"date": "25/11/26"}, "2026-11-25"), ({"paper": "a3"}, "a4 or us-letter")]
)
def test_a_wrong_day_or_paper_is_told_with_what_to_write(asked, words):
    with pytest.raises(Mistake, match=words):
        submittal(cases.dossier(), cases.pictures(), **{"date": DAY, **asked})


def test_a_paper_takes_less_than_a_second():
    began = time.perf_counter()
    assert submittal(cases.dossier(), cases.pictures(), date=DAY).pdf
    assert time.perf_counter() - began < 1.0


def test_terminal_and_papers_count_in_the_same_words(printed):
    findings = cases.dossier().as_briefed.findings
    count = last_words(findings)[-1]
    assert squeezed(count) in printed
    for reader in READERS:
        told = one_page(cases.dossier(), cases.pictures(), DAY, reader, draft=False, letters=Letters())
        assert (told["tally"], told["unlooked"]) == (count, unlooked(findings))
    assert squeezed(unlooked(findings)) in printed and unlooked(findings).endswith("were not checked.")


def test_ground_that_freezes_is_told_at_the_head_of_every_paper():
    frozen = Finding("heat.ground-temperature", "Ground", -0.9, "degC", at={"edge": "A", "place": "edge"})
    bare = Finding("heat.loss-mean", "Loss", 40.0, "W")
    briefed = replace(cases.dossier().as_briefed, findings=(bare, frozen))
    cold = replace(cases.dossier(), alternatives=(briefed,))
    said = "The ground freezes under edge A; no limit is held against that here."
    assert squeezed(said) in read_back(submittal(cold, cases.pictures(), date=DAY).pdf).partition("Enclosed")[0]
    for reader in READERS:
        assert squeezed(said) in read_back(for_one(cold, cases.pictures(), reader, date=DAY).pdf)
    assert worst_first(briefed.findings) == [frozen, bare]
    assert "freezes" not in "".join(at_the_head([replace(frozen, value=0.1)]).values())


def test_the_checks_that_are_left_are_named_short_and_one_that_is_made_is_not():
    def of(*ids):
        return unlooked(
            [Finding(id, "", 1.0, "W") for id in ("heat.u", "moisture.mould", "moisture.drying", "code.frost", *ids)]
        )

    assert of() == "Frost, bearing and soil gas were not checked."
    assert of("frost.depth", "bearing.soil", "soilgas.level") == (
        "Foam below footings and the slab under loads were not checked."
    )
    assert of("frost.depth", "bearing.soil", "bearing.bending", "bearing.foam-long") == "Soil gas was not checked."


def test_findings_are_read_worst_first():
    verdicts = [f.verdict for f in worst_first(cases.dossier().as_briefed.findings)]
    assert list(dict.fromkeys(verdicts)) == [
        "falls short",
        "cannot tell",
        "meets",
        "not required, advised",
        "stated",
        "does not apply",
    ]
    tight = [is_tight(f) for f in worst_first(cases.dossier().as_briefed.findings) if f.verdict == "meets"]
    assert tight == sorted(tight, reverse=True) and any(tight)


def test_what_was_not_typed_is_asked_with_the_word_assumed():
    rows = {row["name"]: row["words"] for row in content(cases.dossier(), Pictures(), DAY)["asked"]}
    assert rows["Room"] == "68 F"
    assert rows["Humidity of the room"].endswith("assumed")


def test_what_is_asked_says_how_large_the_floor_is_and_its_outline():
    text = 'project.use = "barn"\n[plan]\noutline = ["0 0", "40 0", "40 28", "0 28"]\nunit = "ft"'
    briefed = replace(cases.dossier().as_briefed, size="104 m²")
    rows = {
        r["name"]: r["words"] for r in asked(replace(cases.dossier(), brief_text=text, alternatives=(briefed,)), {})
    }
    assert rows["Floor"] == "104 m²" and rows["Outline"] == "0 0, 40 0, 40 28, 0 28, in ft"
    many = text.replace('"0 28"', ", ".join(f'"0 {n}"' for n in range(30)))
    rows = {row["name"]: row["words"] for row in asked(replace(cases.dossier(), brief_text=many), {})}
    assert "Floor" not in rows and rows["Outline"] == "33 corners, as the brief lists them, in ft"


def test_looks_stand_in_their_own_order_under_the_moment_of_each():
    times = ("before the pour", "before the film", "before the pour", "before it is handed over")
    looks = tuple(replace(cases.POINTS[0], number=n, before=time) for n, time in enumerate(times, 1))
    briefed = replace(cases.dossier().as_briefed, inspection=looks)
    groups = points(replace(cases.dossier(), alternatives=(briefed,)))
    assert [p["number"] for group in groups for p in group["points"]] == [1, 2, 3, 4]
    assert [group["before"].lower() for group in groups] == list(times)


def test_an_index_is_lowered_only_after_a_letter_that_stands_alone():
    assert runs("R_si + q2_x") == [["R", "si"], [" + q2_x", ""]]
