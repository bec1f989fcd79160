"""From content to PDF, by one call of the typesetter; the only module that knows it."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from ..drawings import colours
from ..drawings.when import MONTHS
from ..mistakes import Mistake
from .content import content
from .letters import Letters
from .logo import Logo
from .one_page import Reader, one_page
from .pictures import Pictures
from .ready import Gap
from .typefaces import Typefaces

if TYPE_CHECKING:
    from ..choosing import Choice
    from ..dossier import Dossier
    from ..takeoff import Takeoff

HERE = Path(__file__).parent
PAPERS = ("a4", "us-letter")
TRIPPED = "internal error"  # how the typesetter says that the fault is its own
Paper = Literal["a4", "us-letter"]


@dataclass(frozen=True, slots=True)
class Printed:
    """A paper as PDF, and the letters of its texts that no font at hand draws."""

    pdf: bytes
    absent: tuple[str, ...] = ()  # the letters themselves; on the paper each is an empty square


def submittal(
    dossier: Dossier,
    pictures: Pictures,
    *,
    date: str,
    paper: Paper = "a4",
    logo: Logo | None = None,
    typefaces: Typefaces | None = None,
    gaps: tuple[Gap, ...] = (),
    draft: bool = False,
    choice: Choice | None = None,
    takeoff: Takeoff | None = None,
) -> Printed:
    """The submittal as PDF: tagged for screen readers (PDF/UA-1), the same bytes for the same input.

    Parameters
    ----------
    dossier : Dossier
        What was worked out. Its texts are printed as they are; none of them can become markup.
    pictures : Pictures
        Drawings as SVG text, with caption and alternative text.
    date : str
        Day of issue as year-month-day, "2026-11-25"; also the file's own date.
    paper : "a4" or "us-letter"
        Size of the sheets.
    logo : Logo, optional
        Stands on the first sheet.
    typefaces : Typefaces, optional
        Fonts of the user's own, asked after the bundled ones.
    gaps : tuple of Gap
        What is still missing; where there is any, each sheet says that it is a draft.
    draft : bool
        Each sheet says so though nothing is missing.
    choice : Choice, optional
        What was chosen for the same brief: a sheet says what is recommended, and why not the others.
    takeoff : Takeoff, optional
        What is ordered as briefed; without it the sheet of the order is left out.

    Returns
    -------
    Printed
        The file's content and the letters that could not be drawn; nothing is written.

    Raises
    ------
    Mistake
        ``date`` is no day, ``paper`` is neither size, or the logo cannot be drawn.
    """
    day, words = day_of(date)
    letters = Letters(typefaces.drawn if typefaces else frozenset())
    told = content(dossier, pictures, words, gaps=gaps, draft=draft, letters=letters, choice=choice, takeoff=takeoff)
    return compiled("submittal.typ", told, letters, day=day, paper=paper, logo=logo, typefaces=typefaces)


def for_one(
    dossier: Dossier,
    pictures: Pictures,
    reader: Reader,
    *,
    date: str,
    paper: Paper = "a4",
    logo: Logo | None = None,
    typefaces: Typefaces | None = None,
    draft: bool = False,
) -> Printed:
    """The answer for one reader, on exactly one sheet; what does not fit is counted on it.

    Takes and refuses what ``submittal`` does; ``reader`` is "owner", "contractor" or "official".
    """
    day, words = day_of(date)
    letters = Letters(typefaces.drawn if typefaces else frozenset())
    told = one_page(dossier, pictures, words, reader, draft=draft, letters=letters)
    return compiled("one-page.typ", told, letters, day=day, paper=paper, logo=logo, typefaces=typefaces)


def compiled(
    page: str,
    told: dict[str, Any],
    letters: Letters,
    *,
    day: datetime,
    paper: str,
    logo: Logo | None = None,
    typefaces: Typefaces | None = None,
) -> Printed:
    """What is told, set by one of the pages beside this file."""
    given = _given(told, day, paper, logo, typefaces)
    try:
        return Printed(_set(page, given, day, typefaces), tuple(sorted(letters.absent)))
    except RuntimeError as cause:
        if logo is not None and not drawn_alone(logo):
            raise Mistake(
                "handover.logo", "", "The typesetter cannot draw this picture.", "Save it anew, best as a PNG."
            ) from None
        if TRIPPED not in str(cause):
            raise
    # Drawings that found their own sheet, or rows that went on overleaf, made it stumble over its own tags.
    pdf = _set(page, {**given, "still": "yes"}, day, typefaces)
    return Printed(pdf, tuple(sorted(letters.absent)))


def drawn_alone(logo: Logo) -> bool:
    """Whether the typesetter can draw the logo on a sheet of its own."""
    import typst

    inputs = {"logo": json.dumps(_logo(logo))}
    page = b'#let p = json(bytes(sys.inputs.logo))\n#image(bytes(p.content), format: p.kind, width: 20mm, alt: "logo")'
    try:
        typst.Compiler(root=HERE, font_paths=[HERE / "fonts"], ignore_system_fonts=True).compile(
            page, sys_inputs=inputs, format="pdf"
        )
    except RuntimeError:
        return False
    return True


def _set(page: str, given: dict[str, str], day: datetime, typefaces: Typefaces | None, **form: Any) -> Any:
    import typst

    folders = [HERE / "fonts", *([Path(typefaces.folder)] if typefaces else [])]
    form = form or {"format": "pdf", "pdf_standards": ["ua-1"]}
    return typst.compile(
        HERE / page,
        root=HERE,
        font_paths=folders,
        ignore_system_fonts=True,
        timestamp=int(day.timestamp()),
        sys_inputs=given,
        **form,
    )


def _given(
    told: dict[str, Any], day: datetime, paper: str, logo: Logo | None, typefaces: Typefaces | None
) -> dict[str, str]:
    if paper not in PAPERS:
        raise Mistake("paper", f'"{paper}"', "Papers are printed on two sizes.", "Write a4 or us-letter.")
    return {
        "content": json.dumps(told, ensure_ascii=False),
        "colours": json.dumps(colours.light()),
        "fonts": json.dumps(typefaces.families if typefaces else ()),
        "logo": json.dumps(_logo(logo)),
        "paper": paper,
        "day": f"{day:%Y-%m-%d}",
        "still": "no",
    }


def _logo(logo: Logo | None) -> dict[str, Any] | None:
    return None if logo is None else {"kind": logo.kind, "content": list(logo.content)}


def day_of(date: str) -> tuple[datetime, str]:
    """A day, and how it is said on paper."""
    try:
        day = datetime.strptime(date, "%Y-%m-%d").replace(tzinfo=UTC)
    except ValueError:
        raise Mistake("date", f'"{date}"', "This is no day.", "Write year-month-day: 2026-11-25.") from None
    return day, f"{day.day} {MONTHS[day.month - 1]} {day.year}"
