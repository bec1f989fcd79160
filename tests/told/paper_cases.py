"""A made-up dossier for papers: two alternatives, every verdict, long names, text that would like to be markup.

The numbers are invented to fill every place of the page; none is a result.
"""

from __future__ import annotations

from types import MappingProxyType

from underpour.brief.tables.handover import Handover
from underpour.dossier import Answer, Assumed, Change, Dossier, Moved
from underpour.findings import Accepted, Basis, Finding, Step
from underpour.laying.records import Confirmer, Point, Product, Property, Unseen, Work
from underpour.papers import Picture, Pictures

HOSTILE = (
    '#eval("1")',
    "*bold*",
    "<script>alert(1)</script>",
    "$x^2$ @cite // gone? /* gone? */",
    "\\u{41} `raw` _it_ = [a]",
)
LONG = "Supercalifragilisticworkshopwithanamethatneverendsandhasnospacesatallinit" * 2

BRIEF = f"""\
[project]
title = 'Boat workshop {HOSTILE[0]}'
use = "workshop"
[site]
place = "Duluth, MN"
ground = "clay-or-silt"
[floor]
inside = "68 F"
build-up = [{{ concrete = "5 in" }}, {{ board = "plain-25", thickness = "2 in" }}]  # {HOSTILE[3]}
# {LONG}{LONG}
"""


def at(**words: str | float) -> MappingProxyType[str, str | float]:
    return MappingProxyType(words)


def findings(corner: float) -> tuple[Finding, ...]:
    return (
        Finding(
            "heat.resistance",
            "Resistance of the floor's layers",
            1.72,
            "m²·K/W",
            steps=(Step("R_f", "Σ d/λ", "0.127/1.7 + 0.0508/0.0308", "1.72 m²·K/W"),),
            basis=(Basis("ISO 6946:2017", "6.7.1", "memory"),),
        ),
        Finding("heat.u-floor", "U of the floor with the ground", 0.291, "W/(m²·K)", limit=0.30, sense="at most"),
        Finding("heat.loss-peak", "Heat lost by the floor in its worst month", 812.0, "W", month=2, within=0.8),
        Finding("heat.edge-psi", "Extra loss along the edge", 0.42, "W/(m·K)", at=at(edge="A")),
        Finding(
            "heat.corner-coldest",
            "Coldest place where floor and wall meet",
            corner,
            "degC",
            at=at(edge="A", film="heat loss"),
            month=2,
            within=0.02,
            limit=15.0,
            sense="at least",
            words="The floor at the wall falls to this in February. Carry the foam over the footing and it stays warm.",
            accepted=Accepted(f"Storage only {HOSTILE[1]}", f"A. Owner {HOSTILE[2]}", "2026-11-20"),
            caution=f"Foam is combustible and must be covered where it is left open to the room {HOSTILE[1]}.",
            rests_on=("floor.build-up.2.thickness", "catalogue.foam.plain-25.conductivity-in-place"),
            steps=(
                Step("θ_c", "θ_m − |Δθ|", "16.4 − 2.3 (mean of the year less its swing)", "14.1 °C"),
                Step("q", HOSTILE[3], HOSTILE[0], HOSTILE[1]),
            ),
            basis=(Basis("ISO 10211:2017", "7.3", "quoted"), Basis(f"Custom of {HOSTILE[2]}", "", "practice")),
        ),
        Finding(
            "moisture.surface-factor",
            "Surface factor at the coldest corner",
            0.752,
            "1",
            at=at(edge="A", film="mould"),
            month=1,
            limit=0.75,
            sense="at least",
            words="Meets by very little. Measure the humidity of the room first.",
            steps=(Step("f_Rsi", "(θ_si − θ_e)/(θ_i − θ_e)", "(12.9 − −8.6)/(20 − −8.6)", "0.752"),),
            basis=(Basis("ISO 13788:2012", "5.3", "document"),),
        ),
        Finding(
            "height.depth",
            "Depth from finished floor to dug ground",
            None,
            "m",
            missing="floor.available-depth",
            words="The brief does not say how deep the ground is dug.",
        ),
        Finding("height.total", "Thickness of all layers", 0.28, "m", limit=0.45, sense="at most"),
        Finding("frost.depth", "Frost below the slab", None, "m", no_limit="does not apply"),
        Finding(
            "moisture.order",
            f"Film and foam {HOSTILE[1]} {LONG}",
            1.0,
            "1",
            no_limit="not required, advised",
            words=" ".join((LONG, *HOSTILE)),
        ),
    )


HANDOVER = Handover.model_validate(
    {
        "number": "26-0412",
        "revision": "B",
        "to": [f"Building office {HOSTILE[0]}", LONG],
        "from": f"Demo desk {HOSTILE[4]}",
        "prepared-by": "A. Example",
        "references": ["Drawing S-101, revision 2", HOSTILE[3]],
        "deviations": [f"Foam 3 in, drawn 2 in {HOSTILE[2]}"],
    }
)

PRODUCTS = (
    Product(
        name=f"Plain 25 (invented) {HOSTILE[1]}",
        what="Board",
        cls=("ASTM C578 type IX",),
        where=("Under the floor, 2 in (51 mm)",),
        rows=(
            Property("Compressive strength", "25 psi (172 kPa)", "ASTM D1621, at 10 %", "Class table", "memory"),
            Property(f"Name of {LONG}", HOSTILE[3], HOSTILE[0], HOSTILE[2], "practice"),
        ),
        evidence=("Report of the compressive strength", LONG),
        maker=f"Marlpit {HOSTILE[4]}",
        invented=True,
        rests_on=("floor.build-up.2.thickness",),
    ),
    Product("Gravel", "Gravel", (), ("Under the foam",), (), (), "", False, ()),
)
WORKS = (
    Work(
        1,
        "dig",
        "Dig and level",
        "the site",
        ("Dig to 10 in.", HOSTILE[1]),
        "Sides fall in.",
        True,
        (),
        "practice",
        "practice",
    ),
    Work(
        2,
        "board",
        f"Lay the boards {HOSTILE[2]}",
        "the floor",
        (LONG,),
        "",
        False,
        ("floor.build-up.2",),
        "",
        "practice",
    ),
)
POINTS = (
    Point(1, "before the boards", f"Gravel {HOSTILE[0]}", "4 in (102 mm)", "Tape.", ("height.depth",), "Crew leader"),
    Point(2, "before the pour", LONG, HOSTILE[3], HOSTILE[4], (), f"Official {HOSTILE[1]}"),
)
CONFIRMERS = (
    Confirmer("Structural engineer", ("The slab.", HOSTILE[2]), "before the order", LONG, ("floor.build-up",)),
)
UNSEEN = (Unseen("heat.u-floor", "U of the floor with the ground", "Nobody sees heat."),)


def moved() -> Moved:
    return Moved(
        since="A",
        version="0.0.9",
        typed=(Change("floor.build-up.2.thickness", "2 in", "3 in"), Change("site.place", HOSTILE[2], "Duluth, MN")),
        assumed=(Change("floor.humidity", "", "50 %"),),
        findings={
            ("heat.corner-coldest", frozenset({"edge": "A", "film": "heat loss"}.items())): Change(
                "Coldest place where floor and wall meet, edge A",
                "57.2 °F, falls short",
                "57.4 °F, falls short",
                "0.2 °F",
            )
        },
    )


def dossier(units: str = "US") -> Dossier:
    def answer(name: str, corner: float, *summary: str) -> Answer:
        return Answer(name, summary, {}, {}, findings(corner), PRODUCTS, WORKS, POINTS, UNSEEN, CONFIRMERS)

    return Dossier(
        brief_text=BRIEF,
        title=f"Boat workshop {HOSTILE[0]}",
        use="workshop",
        units=units,
        place="Duluth, MN (46.8 N, 92.1 W, 200 m)",
        version="0.1.0",
        editions=(),
        credits=("Temperatures: a made-up grid, 1991 to 2020.", HOSTILE[2]),
        notes=("The grid's winters may be a little mild here.",),
        cautions=(
            "This is not a structural design. A structural engineer signs for the slab.",
            "The building official decides what is built.",
            "Foam is combustible and must be covered.",
            "Earthing electrodes encased in concrete do not work where foam parts it from soil. Ask the electrician.",
            HOSTILE[4],
        ),
        assumed=(
            Assumed("site.ground.conductivity", 1.5, 1.0, 2.0, "W/(m·K)", "Clay or silt, not measured."),
            Assumed("site.ground.heat-capacity", 3.0e6, 1.6e6, 3.6e6, "J/(m³·K)", "Clay or silt, not measured."),
            Assumed("floor.humidity", 50.0, 35.0, 60.0, "%", f"A usual workshop in winter {HOSTILE[1]}"),
            Assumed("edge.A.wall", "concrete, 8 in (203 mm)", None, None, "", "The usual wall of a basement."),
        ),
        handover=HANDOVER,
        alternatives=(
            answer("as briefed", 14.1, "5 in (127 mm) concrete", "2 in (51 mm) Plain 25", "4 in (102 mm) gravel"),
            answer("bare slab", 13.6, "5 in (127 mm) concrete", "4 in (102 mm) gravel"),
            answer(
                f"3 in, wrapped {HOSTILE[1]}", 17.9, "5 in (127 mm) concrete", "3 in (76 mm) Plain 25, over the footing"
            ),
        ),
    )


def drawing(words: str) -> str:
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" width="170mm" height="60mm" viewBox="0 0 170 60">'
        '<rect width="170" height="60" fill="#F1D6C5"/><path d="M60 0v40h110" fill="none" stroke="#182A2E"/>'
        f'<text x="70" y="30" font-family="Sofia Sans Condensed" font-size="5" fill="#182A2E">{words}</text></svg>'
    )


def pictures() -> Pictures:
    alt = "The floor is warmest where the foam is carried over the footing."
    return Pictures(
        comparison=(Picture("Edge A", drawing("three alternatives"), "Middle of February.", alt),),
        sections=(Picture(f"Edge A, footing {HOSTILE[1]}", drawing("section A"), "As briefed.", alt, wide=170.0),),
    )
