"""A raft that lies on foam: the engineer is named beside its edge and on every paper."""

from __future__ import annotations

import pytest
from test_cold_floors import BRIEF

from underpour.answer import answer
from underpour.brief import reads

HOUSE = BRIEF.format(use="dwelling", inside="20 C")


@pytest.mark.parametrize(
    ("text", "carried"),
    [
        (HOUSE, True),
        (HOUSE.replace(', { board = "s701-4", thickness = "100 mm" }', ""), False),
        (HOUSE.replace('"raft"', '"frost-wall"\ndepth = "1.2 m"'), False),
    ],
    ids=["raft on foam", "raft on the ground", "wall on its footing"],
)
def test_where_foam_carries_a_raft_the_engineer_is_named(text: str, carried: bool) -> None:
    told = answer(reads(text))
    words = "A structural engineer must size the raft and the foam, and sign for both."
    assert (words in told.as_briefed.find("heat.edge-psi").caution) == carried
    assert any(words in caution for caution in told.cautions) == carried
