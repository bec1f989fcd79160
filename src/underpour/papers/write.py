"""From content to PDF, by one call of the typesetter; the only module that knows it."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from ..drawings import colours
from ..drawings.when import MONTHS
from ..mistakes import Mistake
from .content import content
from .pictures import Pictures

if TYPE_CHECKING:
    from ..dossier import Dossier

HERE = Path(__file__).parent
PAPERS = ("a4", "us-letter")


def submittal(dossier: Dossier, pictures: Pictures, *, date: str, paper: Literal["a4", "us-letter"] = "a4") -> bytes:
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

    Returns
    -------
    bytes
        The file's content; nothing is written.

    Raises
    ------
    Mistake
        ``date`` is no day, or ``paper`` is neither size.
    """
    day = _day(date)
    if paper not in PAPERS:
        raise Mistake("paper", f'"{paper}"', "Papers are printed on two sizes.", "Write a4 or us-letter.")
    printed: bytes = _compile(dossier, pictures, day, paper, format="pdf", pdf_standards=["ua-1"])
    return printed


def pages(
    dossier: Dossier, pictures: Pictures, *, date: str, paper: str = "a4", dots_per_inch: float = 110.0
) -> list[bytes]:
    """The same sheets as PNG pictures, one a page, for looking at."""
    drawn = _compile(dossier, pictures, _day(date), paper, format="png", ppi=dots_per_inch)
    return drawn if isinstance(drawn, list) else [drawn]


def _compile(dossier: Dossier, pictures: Pictures, day: datetime, paper: str, **form: Any) -> Any:
    import typst

    words = f"{day.day} {MONTHS[day.month - 1]} {day.year}"
    return typst.compile(
        HERE / "submittal.typ",
        root=HERE,
        font_paths=[HERE / "fonts"],
        ignore_system_fonts=True,
        timestamp=int(day.timestamp()),
        sys_inputs={
            "content": json.dumps(content(dossier, pictures, words), ensure_ascii=False),
            "colours": json.dumps(colours.light()),
            "paper": paper,
            "day": f"{day:%Y-%m-%d}",
        },
        **form,
    )


def _day(date: str) -> datetime:
    try:
        return datetime.strptime(date, "%Y-%m-%d").replace(tzinfo=UTC)
    except ValueError:
        raise Mistake("date", f'"{date}"', "This is no day.", "Write year-month-day: 2026-11-25.") from None
