"""A made-up dossier: a finding of every verdict, two alternatives, hostile text. No figure here was worked out."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from underpour.dossier import Answer, Assumed, Dossier
from underpour.findings import Basis, Finding, Step
from underpour.physics.conduction.field import Field
from underpour.sections.parts import Section

SURFACE = Basis("ISO 13788:2012", "5.3", "memory")
CORNER = Finding(
    id="heat.corner-coldest",
    title="Coldest point where floor and wall meet",
    value=13.4,
    unit="degC",
    at={"edge": "A", "film": "heat-loss"},
    within=0.02,
    month=2,
    months=(13.9, 13.4, 14.0, 15.2, 16.4, 17.6, 18.3, 18.4, 17.8, 16.6, 15.4, 14.4),
    limit=15.0,
    sense="at least",
    basis=(SURFACE,),
    rests_on=("edge.A.insulation", "site.place"),
    steps=(Step("θ", "mean + Re(swing · exp(2πi·f))", "16.1 + (−2.7)", "13.4 °C"),),
    words="The corner falls to 56 °F in February. Carry the foam over the footing and it stays at 64 °F.",
)
HUMIDITY = Finding(
    id="moisture.surface-factor",
    title="Surface factor of the corner",
    value=None,
    unit="1",
    at={"edge": "A", "film": "mould"},
    missing="floor.humidity",
    basis=(SURFACE,),
)
HEIGHT = Finding(
    id="height.depth",
    title="Depth that the build-up takes",
    value=0.23,
    unit="m",
    limit=0.25,
    sense="at most",
    words="It fits, with less than an inch to spare.",
)
LOSS = Finding(
    id="heat.loss-peak",
    title="Heat loss in the coldest month",
    value=412.0,
    unit="W",
    month=1,
    caution="The walls above the ground are not in this number.",
    basis=(Basis("common sense of the trade", "", "practice"),),
)
RAFT = Finding(id="frost.footing", title="Footing below the frost", value=None, unit="m", no_limit="does not apply")
ADVISED = Finding(
    id="code.slab-edge", title="Foam at the slab's edge", value=None, unit="m²·K/W", no_limit="not required, advised"
)


def answer(name: str, *findings: Finding) -> Answer:
    field = Field(
        x=np.zeros(2, np.float32),
        y=np.zeros(2, np.float32),
        mean=np.zeros((2, 2), np.float32),
        swing=np.zeros((2, 2), np.complex64),
        floor_x=np.zeros(2, np.float32),
        floor_mean=np.zeros(2, np.float32),
        floor_swing=np.zeros(2, np.complex64),
    )
    section = Section(
        "A", "footing-wall", (), (), (), (), (0, 1, 0, 1), (0, 1, 0, 1), 0.6, (0, 0), (0, 4), -0.2, (0, -0.2)
    )
    summary = ("4 in (102 mm) concrete", "2 in (51 mm) Marlpit Plain 15, an invented product, stopping at the footing")
    return Answer(name, summary, {"A": section}, {"A": field}, findings)


AS_BRIEFED = answer("as briefed", CORNER, HUMIDITY, HEIGHT, LOSS, RAFT, ADVISED)
WRAPPED = answer(
    "foam over the footing",
    replace(CORNER, value=17.9, words="Foam that runs on over the footing keeps the corner warm."),
    HUMIDITY,
    HEIGHT,
    replace(LOSS, value=301.0),
    RAFT,
    ADVISED,
)
DOSSIER = Dossier(
    brief_text="",
    title="Daylight basement \x1b[31m<b>",
    use="basement",
    units="US",
    place="Minneapolis, MN (45.0 N, 93.3 W, 256 m)",
    version="0.1.0",
    editions=(),
    credits=("Air temperatures: an open climate record, CC BY 4.0.",),
    notes=("Winters on the climate grid are a little warm here.",),
    cautions=(
        "This is not a structural design. The building official decides.",
        "Foam is combustible and must be covered.",
    ),
    assumed=(
        Assumed("site.ground.conductivity", 1.5, 1.5, 3.5, "W/(m·K)", "No ground is named."),
        Assumed("floor.covering", "none", None, None, "1", "Bare concrete is the usual basement floor."),
    ),
    alternatives=(AS_BRIEFED, WRAPPED),
)
MEETS = replace(DOSSIER, alternatives=(answer("as briefed", HEIGHT, LOSS),))
UNTOLD = replace(DOSSIER, alternatives=(answer("as briefed", HEIGHT, HUMIDITY),))
