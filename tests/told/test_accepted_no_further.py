"""A shortfall was accepted as large as it was: an alternative that falls further short bears nobody's name."""

from __future__ import annotations

import pytest
from test_wall_on_foam import GOOD

from underpour.answer import answer
from underpour.brief import reads

ACCEPT = """
[[accept]]
finding = "bearing.foam-long"
reason = "Stands a season."
name = "A. Owner"
date = "2026-11-25"
"""


@pytest.mark.parametrize(("force", "stands"), [("1800 lb/ft", True), ("2000 lb/ft", True), ("2001 lb/ft", False)])
def test_an_alternative_that_falls_further_short_is_accepted_by_nobody(force: str, stands: bool) -> None:
    briefed = GOOD.replace("plain-40", "plain-25").replace("1500 lb/ft", "2000 lb/ft")
    other = f'\n[[alternative]]\nname = "other"\nset = {{ "load.1.force" = "{force}" }}\n'
    told = answer(reads(briefed + other + ACCEPT))
    first, second = (each.find("bearing.foam-long") for each in told.alternatives)
    assert first.verdict == second.verdict == "falls short"
    assert first.accepted is not None
    assert (second.accepted is not None) == stands
