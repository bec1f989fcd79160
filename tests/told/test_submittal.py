"""The submittal says everything the dossier says, and nothing that a brief could make it say."""

from __future__ import annotations

import io
import time
from dataclasses import replace

import paper_cases as cases
import pytest
from pypdf import PdfReader

from underpour.drawings.margin import margin_words
from underpour.measure import say
from underpour.mistakes import Mistake
from underpour.papers import Picture, Pictures, submittal
from underpour.papers.content import content, runs
from underpour.papers.order import is_tight, worst_first

DAY = "2026-11-25"


def squeezed(text: str) -> str:
    """Without spaces and offered breaks: where a line ends is the typesetter's business."""
    return "".join(text.replace("\N{ZERO WIDTH SPACE}", "").split())


def read_back(pdf: bytes) -> str:
    return squeezed("".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages))


@pytest.fixture(scope="module", params=["US", "SI"])
def system(request):
    return request.param


@pytest.fixture(scope="module")
def printed(system):
    return read_back(submittal(cases.dossier(system), cases.pictures(), date=DAY))


def test_the_same_dossier_gives_the_same_bytes():
    first, second = (submittal(cases.dossier(), cases.pictures(), date=DAY) for _ in range(2))
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
    for words in (*dossier.cautions, *dossier.notes, *dossier.credits):
        assert squeezed(words) in printed
    for assumed in dossier.assumed:
        assert squeezed(assumed.path) in printed and squeezed(assumed.why) in printed


def test_text_that_looks_like_markup_is_printed_as_it_was_typed(printed):
    for words in cases.HOSTILE:
        assert squeezed(words) in printed


def test_steps_are_printed_with_their_source_and_how_it_was_seen(printed):
    assert squeezed("(θsi − θe)/(θi − θe) = (12.9 − −8.6)/(20 − −8.6) = 0.752") in printed
    assert squeezed("ISO 13788:2012, 5.3 · read in the document") in printed
    assert squeezed("ISO 6946:2017, 6.7.1 · from memory, not yet read") in printed


def test_what_cannot_be_told_and_what_nobody_asked_is_listed_as_not_checked(printed):
    unchecked = printed.partition("Whatwasnotchecked")[2]
    assert squeezed("Depth from finished floor to dug ground: type floor.available-depth") in unchecked
    assert squeezed("Bearing: slab, foam and ground under posts") in unchecked
    assert "Moisture:" not in unchecked


def test_the_parts_come_in_the_order_in_which_they_are_read():
    pdf = PdfReader(io.BytesIO(submittal(cases.dossier(), cases.pictures(), date=DAY)))
    assert [entry.title for entry in pdf.outline if not isinstance(entry, list)] == [
        "What is asked",
        "What is proposed",
        "Does it hold?",
        "The alternatives side by side",
        "How we know",
        "The sections",
        "What was assumed",
        "What was not checked",
        "What to know of the data",
        "Cautions",
        "Credits",
        "The brief as it was typed",
    ]


def test_the_file_says_its_title_language_and_day_and_is_tagged():
    pdf = PdfReader(io.BytesIO(submittal(cases.dossier(), cases.pictures(), date=DAY)))
    assert pdf.metadata.title == f"{cases.dossier().title}: Submittal"
    assert str(pdf.metadata.creation_date)[:10] == DAY
    assert pdf.root_object["/Lang"] == "en"
    assert pdf.root_object["/MarkInfo"]["/Marked"]


def test_only_bundled_fonts_are_in_the_file():
    pdf = submittal(cases.dossier(), cases.pictures(), date=DAY)
    names = {
        font.get_object()["/BaseFont"].partition("+")[2].partition("-")[0]
        for page in PdfReader(io.BytesIO(pdf)).pages
        for font in page["/Resources"]["/Font"].values()
    }
    assert names <= {"SofiaSans", "SofiaSansCondensed", "NotoSansMath", "FiraMono"}


@pytest.mark.parametrize(("paper", "millimetres"), [("a4", (210.0, 297.0)), ("us-letter", (215.9, 279.4))])
def test_both_sizes_of_paper_are_printed(paper, millimetres):
    pdf = submittal(cases.dossier(), cases.pictures(), date=DAY, paper=paper)
    page = PdfReader(io.BytesIO(pdf)).pages[0].mediabox
    assert (float(page.width) * 25.4 / 72, float(page.height) * 25.4 / 72) == pytest.approx(millimetres, abs=0.1)


def test_letters_without_a_font_never_keep_a_paper_from_being_made():
    strange = replace(cases.dossier(), title="漢字 \N{NULL}\N{RIGHT-TO-LEFT OVERRIDE} עברית \N{SNOWMAN}", use="")
    assert "□" in read_back(submittal(strange, cases.pictures(), date=DAY))


def test_a_bare_dossier_is_still_a_paper():
    bare = replace(cases.dossier(), title="", brief_text="", assumed=(), notes=(), credits=(), cautions=())
    alone = replace(bare, alternatives=(replace(bare.as_briefed, findings=(), summary=()),))
    text = read_back(submittal(alone, Pictures(), date=DAY))
    assert squeezed("Nothing was checked.") in text and squeezed("Nothing that a brief can say.") in text


def test_a_drawing_taller_than_the_sheet_is_made_to_fit():
    tall = cases.drawing("tall").replace('height="60mm" viewBox="0 0 170 60"', 'height="900mm" viewBox="0 0 170 900"')
    pdf = submittal(cases.dossier(), Pictures(sections=(Picture("A", tall, "Tall.", "Tall."),)), date=DAY)
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
    submittal(cases.dossier(), cases.pictures(), date=DAY)
    assert time.perf_counter() - began < 1.0


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


def test_an_index_is_lowered_only_after_a_letter_that_stands_alone():
    assert runs("R_si + q2_x") == [["R", "si"], [" + q2_x", ""]]
