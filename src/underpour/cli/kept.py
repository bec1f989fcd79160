"""What a page made from product records says, kept as JSON for the next one (``--keep``, ``--since``)."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ..mistakes import Mistake
from . import files

if TYPE_CHECKING:
    from ..particulars import Form, Moved


def keeping(typed: str, form: Form, name: str = "") -> Path:
    """The file that keeps what a page says; one that keeps another product's, or another page, is not written over."""
    path = files.target(typed, ".json", None, "--keep ")
    if path.exists():
        from ..brief.files import text_of
        from ..particulars import earlier

        try:
            kept = earlier(text_of(path), typed, form)
        except Mistake:
            wrong = f"What stands there is no {form.called} that was kept."
            raise Mistake("", "", wrong, "Write to another name.", typed) from None
        if kept.get("key", "") != name:
            wrong = f"It keeps the {form.called} of {kept['key']}."
            raise Mistake("", "", wrong, "Keep each product's under a name of its own.", typed)
    return path


def earlier_page(typed: str, form: Form) -> dict[str, Any]:
    """The older page that ``--since`` names."""
    from ..brief.files import text_of
    from ..particulars import earlier

    return earlier(text_of(Path(typed)), typed, form)


def held_against(
    last: Mapping[str, Any], now: Mapping[str, Any], typed: str, form: Form
) -> tuple[dict[str, Any], tuple[str, Sequence[Moved]]]:
    """The page with the day of its first issue; what the older one is called, and what moved since."""
    from ..particulars import since
    from ..particulars.sheet import printed_day

    page, found = since(last, now, typed, form)
    return page, (f"the {form.called} of {printed_day(last['day'])}, mark {last['mark']}", found)


def as_json(page: Mapping[str, Any]) -> bytes:
    return (json.dumps(page, indent=2, ensure_ascii=False) + "\n").encode()


def moved_words(moved: Sequence[Moved], page: Mapping[str, Any], form: Form) -> str:
    """In one line, whether anything moved since the older page."""
    from ..particulars.sheet import printed_day

    if not moved:
        return f"It says what the older {form.called} says, first issued on {printed_day(page['issued'])}."
    number = "1 thing has" if len(moved) == 1 else f"{len(moved)} things have"
    return f"{number} moved since the older {form.called}; the last part lists what."
