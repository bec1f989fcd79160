"""What may go wrong with soil gas, item by item: what is sent back, and what is a finding that says what to do."""

from __future__ import annotations

import re
from dataclasses import dataclass

import pytest
from test_soil_gas_typed import CURVE, GOOD, PIT

from underpour.brief import reads
from underpour.checks.soil_gas import of_floor
from underpour.mistakes import Mistakes
from underpour.resolve import resolve

OUTLET = '\n[soil-gas.outlet]\nfrom-openings = "4 ft"\nabove-roof = "14 in"\n'


@dataclass(frozen=True)
class Wrong:
    """One item: what is typed in the place of what, and where it is told with which words."""

    what: str
    old: str
    new: str
    told: str  # the key of a mistake, or the id of a finding
    words: str
    verdict: str = ""  # "" for a mistake
    asks: str = ""  # key that is missing


ITEMS = (
    Wrong("a suction point outside the plan", PIT, 'at = "60 14"', "soil-gas.suction.1.at", "lies outside the floor"),
    Wrong("a suction point in a footing", PIT, 'at = "20 18"', "soil-gas.suction.1.at", "It lies in footing 1"),
    Wrong(
        "a fan curve that rises",
        CURVE,
        'curve = [{ flow = "0 cfm", vacuum = "1 in. w.c." }, { flow = "90 cfm", vacuum = "2 in. w.c." }]',
        "soil-gas.fan.curve.2.vacuum",
        "This curve rises",
    ),
    Wrong("a fan in living space", 'at = "attic"', 'at = "living-space"', "soil-gas.fan.at", "is breathed"),
    Wrong("a pipe that falls away", '"to-suction"', '"to-outlet"', "soil-gas.pipe.falls", "the water closes it"),
    Wrong(
        "a fire that draws on the room",
        'combustion = "sealed"',
        'combustion = "open"',
        "soilgas.backdraught",
        "a back-draught test with every fan of the house on",
        "cannot tell",
        "soil-gas.backdraught-tested",
    ),
    Wrong("an outlet near an opening", "\n[[soil-gas.test]]", f"{OUTLET}\n[[soil-gas.test]]", "soilgas.outlet",
          "above the opening. Mind openings of neighbours too.", "falls short"),
)  # fmt: skip


def spoilt(item: Wrong) -> str:
    assert GOOD.count(item.old) == 1, item.what
    return GOOD.replace(item.old, item.new)


@pytest.mark.parametrize("item", [each for each in ITEMS if not each.verdict], ids=lambda item: item.what)
def test_what_cannot_be_is_sent_back_with_the_way_out(item):
    with pytest.raises(Mistakes) as caught:
        reads(spoilt(item))
    mistake = next(each for each in caught.value if each.at == item.told)
    assert item.words in mistake.wrong and mistake.instead


@pytest.mark.parametrize("item", [each for each in ITEMS if each.verdict], ids=lambda item: item.what)
def test_what_does_harm_is_a_finding_that_says_what_to_do(item):
    found = [each for each in of_floor(resolve(reads(spoilt(item)).brief)) if each.id == item.told]
    worst = next(each for each in found if each.verdict == item.verdict)
    assert item.words in worst.words and worst.missing == item.asks
    before = [each for each in of_floor(resolve(reads(GOOD).brief)) if each.id == item.told]
    assert not [each for each in before if (each.verdict, each.missing) == (item.verdict, item.asks)]


def test_ventilation_that_nobody_tells_is_a_band_and_widens_what_is_told_of_the_level():
    bare = GOOD.replace('ventilation = "0.35 1/h"\n', "")
    (taken,) = (each for each in resolve(reads(bare).brief).assumed if each.path == "soil-gas.ventilation")
    assert (taken.low, taken.value, taken.high, taken.unit) == (0.15, 0.35, 1.0, "1/h")
    assert "soil-gas.ventilation" not in [each.path for each in resolve(reads(GOOD).brief).assumed]

    def band(text):
        found = of_floor(resolve(reads(text).brief))
        told = next(each for each in found if each.id == "soilgas.level" and each.at.get("of") == "before")
        return [float(end) for end in re.findall(r"\((\d+)\WBq/m³\)", told.words)[:2]]

    (low, high), (lower, higher) = band(GOOD), band(bare)
    assert lower < low < high < higher
