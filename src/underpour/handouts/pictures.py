"""Which pictures are handed out of a dossier: of which edge, in the month in which its corner is coldest."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from typing import TYPE_CHECKING

from .ordered import panel_plans

if TYPE_CHECKING:
    from ..dossier import Dossier
    from ..drawings import Scaled
    from ..outlines.floor import Floor
    from ..papers import Picture, Pictures
    from ..takeoff import Takeoff

SHOWN_BY = (
    "heat.corner-coldest",
    "heat.floor-coldest",
    "heat.loss-peak",
    "heat.ground-temperature",
)  # first one that has a month at the edge

WHOLE = 170.0  # mm, a picture across a sheet
ON_A_SHEET = 3  # alternatives drawn in one picture
MONTHLY = 5  # alternatives drawn month by month in one picture
HIGHEST = 175.0  # mm, a section to scale on a sheet of the submittal
CONTRACTOR = 113.0  # mm, breadth of the section on the contractor's page
ONE_PAGE = ((150.0, True), (130.0, True), (126.0, False), (106.0, False))  # mm, its heights, and whether it names the
# floor's layers: the largest scale for which the page has room is taken
OWNER = 92.0  # mm, breadth of the picture on the owner's page
NEAR = (-0.9, 0.5, 1.3)  # m it shows: below the floor, above floor and ground, at most above the floor


def shown_month(dossier: Dossier, edge: str) -> int:
    """The month that pictures of an edge show: of its coldest corner as briefed."""
    found = [finding for finding in dossier.as_briefed.findings if finding.at.get("edge") in (edge, None)]
    for id in SHOWN_BY:
        months = [f.month for f in found if f.id == id and f.month is not None]
        if months:
            return months[0]
    raise LookupError(f"no finding of edge {edge} names a month")


def comparison(dossier: Dossier, edge: str, only: Collection[str] = ()) -> str:
    """All alternatives at one edge, or those named, on the one temperature scale of all, as SVG."""
    from ..drawings import comparison as drawn
    from ..drawings import month_middle

    return drawn(dossier, edge, year_fraction=month_middle(shown_month(dossier, edge)), only=only)


def comparison_with_lanes(dossier: Dossier, edge: str) -> str:
    """All alternatives at one edge in the mean of the year, with the ways that heat takes, as SVG."""
    from ..drawings import comparison_with_lanes as drawn

    return drawn(dossier, edge)


def hour(dossier: Dossier, edge: str) -> str:
    """All alternatives at one edge at the hour that was asked for, as SVG."""
    from ..drawings import comparison_at_hour

    return comparison_at_hour(dossier, edge)


def year(dossier: Dossier, edge: str) -> str:
    """All alternatives at one edge month after month as SVG that turns by itself, the coldest corner's month first."""
    from ..drawings import turning_year

    return turning_year(dossier, edge, first=shown_month(dossier, edge))


def months(dossier: Dossier, edge: str, only: Collection[str] = ()) -> str:
    """The floor of all alternatives at one edge, or of those named, in every month, as SVG."""
    from ..drawings import month_by_month

    return month_by_month(dossier, edge, only=only)


def loads(dossier: Dossier, edge: str) -> str:
    """What each load uses of what carries it, in every alternative, as SVG; of no edge, whichever is named."""
    from ..drawings import carried_shares_compared

    borne_by = {answer.name: answer.borne for answer in dossier.alternatives}
    return carried_shares_compared(borne_by, dossier.units, width=WHOLE)


def floor_of_loads(dossier: Dossier, edge: str) -> str:
    """All loads of the plan from above, as briefed, as SVG; of no edge, whichever is named."""
    from ..drawings import carried_floor

    briefed = dossier.as_briefed
    assert briefed.floor_borne is not None  # looked at before
    return carried_floor(briefed.floor_borne, briefed.borne, dossier.units, width=WHOLE)


def page(dossier: Dossier, edge: str) -> str:
    """All alternatives at all edges as one web page, this edge in front, in the month of its coldest corner."""
    from ..pages import teaching_page

    return teaching_page(dossier, edge=edge, month=shown_month(dossier, edge))


def for_submittal(dossier: Dossier, takeoff: Takeoff | None = None) -> Pictures:
    """For every edge its temperatures, beside those of the alternatives if there are any, and its section to scale.

    With a takeoff also the plans of its panels and films.
    """
    from ..papers import Pictures

    edges = list(dossier.as_briefed.sections)
    alone = len(dossier.alternatives) == 1
    return Pictures(
        comparison=tuple(
            picture
            for edge in edges
            for picture in (*([_warm(dossier, edge)] if alone else _compared(dossier, edge)), *_monthly(dossier, edge))
        ),
        plan=plan(dossier),
        sections=tuple(to_scale(dossier, e) for e in edges),
        damp=damp(dossier),
        frost=frost(dossier),
        heated=heated(dossier),
        gas=gas(dossier),
        borne=borne(dossier),
        laid=panel_plans(takeoff) if takeoff else (),
    )


def damp(dossier: Dossier) -> tuple[Picture, ...]:
    """How humid it is month by month, then vapour through the floor: its line and its ways; () for a slab outdoors."""
    from ..drawings import drive_strip, humid_strip, vapour_line
    from ..drawings.damp_words import drive_in_words, humid_places, humidity_in_words, line_in_words, where_words
    from ..papers import Picture

    briefed, system = dossier.as_briefed, dossier.units
    made = []
    if humid_places(briefed.findings):
        drawn = humid_strip({briefed.name: briefed.findings}, system, width=WHOLE)
        said = humidity_in_words(humid_places(briefed.findings), system)
        made.append(Picture("How humid it is", drawn, "", said, headed=True, wide=WHOLE))
    for of in briefed.vapour:
        line, strip = vapour_line(of, system, width=WHOLE), drive_strip(of, width=WHOLE)
        where = where_words(of)
        made.append(Picture(f"Vapour {where}", line, "", line_in_words(of, system), headed=True, wide=WHOLE))
        made.append(Picture(f"Which way it goes {where}", strip, "", drive_in_words(of), headed=True, wide=WHOLE))
    return tuple(made)


def gas(dossier: Dossier) -> tuple[Picture, ...]:
    """The soil-gas pipe's way, then fan and floor over the flow, or the months; () where no pipe is laid."""
    found, system = dossier.as_briefed.drawn_off, dossier.units
    if found is None:
        return ()
    from ..drawings.draught_strip import draught_strip, months_in_words
    from ..drawings.fan_curves import fan_curves, fan_in_words
    from ..drawings.pipe_route import pipe_route, route_in_words
    from ..papers import Picture

    drawn = [("The pipe's way", pipe_route(found.way, system, width=WHOLE), route_in_words(found.way, system))]
    if (met := found.fan_and_floor) is not None:
        drawn.append(("Fan, pipe and floor", fan_curves(met, system, width=WHOLE), fan_in_words(met, system)))
    if (itself := found.by_itself) is not None:
        named = "What the pipe draws by itself"
        drawn.append((named, draught_strip(itself, system, width=WHOLE), months_in_words(itself, system)))
    return tuple(Picture(name, svg, "", said, headed=True, wide=WHOLE) for name, svg, said in drawn)


def gas_compared(dossier: Dossier, edge: str) -> str:
    """How soil gas is drawn off in every alternative, as SVG; of all edges, whichever is named."""
    from ..drawings.gas_pipe import gas_pipes

    return gas_pipes({each.name: each.drawn_off for each in dossier.alternatives}, dossier.units, width=WHOLE)


def damp_compared(dossier: Dossier, edge: str) -> str:
    """How humid it is month by month in every alternative, as SVG; of all edges, whichever is named."""
    from ..drawings import humid_strip

    found = {answer.name: answer.findings for answer in dossier.alternatives}
    return humid_strip(found, dossier.units, width=WHOLE)


def frost(dossier: Dossier) -> tuple[Picture, ...]:
    """Each edge through its winters, as briefed; () where none is worked out."""
    from ..drawings import frost_winter
    from ..drawings.frost_words import frost_in_words
    from ..papers import Picture

    briefed, system = dossier.as_briefed, dossier.units
    made = []
    for edge in dict.fromkeys(each.edge for each in briefed.wintered):
        said = frost_in_words([each for each in briefed.wintered if each.edge == edge], system)
        drawn = frost_winter([briefed], edge, system, width=WHOLE)
        made.append(Picture(f"Frost at edge {edge}", drawn, "", said, headed=True, wide=WHOLE))
    return tuple(made)


def frost_compared(dossier: Dossier, edge: str) -> str:
    """The same of every alternative at one edge, below one another, as SVG."""
    from ..drawings import frost_winter

    return frost_winter(dossier.alternatives, edge, dossier.units, width=WHOLE)


def heated(dossier: Dossier) -> tuple[Picture, ...]:
    """Of a heated floor: between two tubes, one loop and its pump, from cold, month by month; () where none is."""
    from ..drawings import heated_flow, heated_from_cold, heated_section, heated_year
    from ..drawings.heated_words import cold_in_words, flow_in_words, section_in_words, year_in_words
    from ..papers import Picture

    of, system, name = dossier.as_briefed.heated, dossier.units, dossier.as_briefed.name
    if of is None:
        return ()
    between = "Between two cables" if of.electric else "Between two tubes"
    drawn = [(between, heated_section(of, system, width=WHOLE), section_in_words(of, system))]
    if of.pumped is not None:
        drawn.append(("Pressure of one loop", heated_flow(of, system, width=WHOLE), flow_in_words(of.pumped, system)))
    drawn.append(("From cold", heated_from_cold(of, system, width=WHOLE), cold_in_words(of, system)))
    year = {name: of}
    drawn.append(("What goes up and down", heated_year(year, system, width=WHOLE), year_in_words(year, system)))
    return tuple(Picture(name, svg, "", alt, headed=True, wide=WHOLE) for name, svg, alt in drawn)


def heated_compared(dossier: Dossier, edge: str) -> str:
    """What goes up and down month by month in every alternative with heat in its floor, as SVG; of no edge."""
    from ..drawings import heated_year

    found = {answer.name: answer.heated for answer in dossier.alternatives if answer.heated is not None}
    return heated_year(found, dossier.units, width=WHOLE)


def borne(dossier: Dossier) -> tuple[Picture, ...]:
    """All loads seen from above, what each uses, the load that uses most from above and cut through; () of none."""
    from ..drawings import carried_floor, carried_plan, carried_section, carried_shares
    from ..drawings.carried_words import floor_in_words, plan_in_words, section_in_words, shares_in_words
    from ..papers import Picture

    loads, system = dossier.as_briefed.borne, dossier.units
    if not any(each.shares for each in loads):
        return ()
    made = []
    if (whole := dossier.as_briefed.floor_borne) is not None:
        drawn, said = carried_floor(whole, loads, system, width=WHOLE), floor_in_words(whole, loads, system)
        made.append(Picture("All loads seen from above", drawn, "", said, headed=True, wide=WHOLE))
    used = carried_shares(loads, system, width=WHOLE)
    made.append(Picture("What each load uses", used, "", shares_in_words(loads), headed=True, wide=WHOLE))
    worst = max((each for each in loads if each.around is not None), key=lambda each: each.used, default=None)
    if worst is not None:
        above, cut = carried_plan(worst, system, width=WHOLE), carried_section(worst, system, width=WHOLE)
        name = f"Load {worst.number}"
        made.append(
            Picture(f"{name} seen from above", above, "", plan_in_words(worst, system), headed=True, wide=WHOLE)
        )
        made.append(Picture(f"{name} cut through", cut, "", section_in_words(worst, system), headed=True, wide=WHOLE))
    return tuple(made)


def plan(dossier: Dossier) -> tuple[Picture, ...]:
    """The key plan, where there is more to see than one edge all round: edges, holes, columns, loads."""
    from ..checks.edge_loss import shares
    from ..drawings.plan import key_plan
    from ..papers import Picture

    shown = dossier.as_briefed.plan
    if shown is None:
        return ()
    placed = any(load.at is not None for load in shown.loads)
    below = _suction(dossier, shown.floor)
    if not (len(shown.edges) > 1 or shown.floor.holes or shown.floor.obstacles or placed):
        return below
    alt = "The floor seen from above: its sides with their lengths, which edge lies where, and what share it loses."
    drawn = key_plan(shown, dossier.units, width=WHOLE, shares=shares(dossier.as_briefed.findings))
    return (Picture("Key plan", drawn, "", alt, headed=True, wide=WHOLE), *below)


def _suction(dossier: Dossier, floor: Floor) -> tuple[Picture, ...]:
    """Suction below the floor, where a fan draws."""
    from ..papers import Picture

    found, system = dossier.as_briefed.suction, dossier.units
    if found is None:
        return ()
    from ..drawings.vacuum_plan import vacuum_in_words, vacuum_plan

    drawn = vacuum_plan(floor, found, system, width=WHOLE)
    return (Picture("Suction below the floor", drawn, "", vacuum_in_words(found, system), headed=True, wide=WHOLE),)


def _compared(dossier: Dossier, edge: str) -> list[Picture]:
    """The alternatives with this edge, so many in a picture as stay legible on a sheet, as briefed in each."""
    from ..papers import Picture

    first, *others = [answer.name for answer in dossier.alternatives if edge in answer.fields]
    groups = [others[k : k + ON_A_SHEET - 1] for k in range(0, len(others), ON_A_SHEET - 1)] or [[]]
    return [
        Picture(
            f"Edge {edge}, all alternatives" if len(groups) == 1 else f"Edge {edge}, picture {n} of {len(groups)}",
            comparison(dossier, edge, (first, *group)),
            "",
            _told(dossier, edge),
        )
        for n, group in enumerate(groups, 1)
    ]


def _monthly(dossier: Dossier, edge: str) -> list[Picture]:
    """The floor in every month, so many alternatives in a picture as a sheet holds, as briefed in each."""
    from ..papers import Picture

    first, *others = [answer.name for answer in dossier.alternatives if edge in answer.fields]
    groups = [others[k : k + MONTHLY - 1] for k in range(0, len(others), MONTHLY - 1)] or [[]]
    alt = f"The floor at edge {edge} in the twelve months, for each alternative on one scale."
    return [
        Picture(f"Edge {edge}, month by month", months(dossier, edge, (first, *group)), "", alt, headed=True)
        for group in groups
    ]


def _warm(dossier: Dossier, edge: str, width: float = WHOLE) -> Picture:
    from ..papers import Picture

    return Picture(f"Edge {edge}, as briefed", section(dossier, edge, width), "", _told(dossier, edge), headed=True)


def for_one_page(dossier: Dossier) -> Pictures:
    """For the coldest edge its temperatures near the floor, and its section to scale in several sizes."""
    from ..drawings.telling import coldest_edge
    from ..papers import Pictures

    edge = coldest_edge(dossier.as_briefed)
    warm = replace(_warm(near_the_floor(dossier, edge), edge, OWNER), wide=OWNER)
    drawn = [_scaled(dossier, edge, CONTRACTOR, *form) for form in ONE_PAGE]
    return Pictures((warm,), tuple(_to_scale(each, edge, CONTRACTOR) for each in sorted(drawn, key=lambda d: d.ratio)))


def near_the_floor(dossier: Dossier, edge: str) -> Dossier:
    """The same with one section drawn no further down and up than an owner asks about."""
    briefed = dossier.as_briefed
    cut = briefed.sections[edge]
    x0, x1, y0, y1 = cut.window
    below, above, most = NEAR
    window = x0, x1, max(y0, below), min(y1, max(cut.ground_level, 0.0) + above, most)
    shown = replace(briefed, sections={**briefed.sections, edge: replace(cut, window=window)})
    return replace(dossier, alternatives=(shown, *dossier.alternatives[1:]))


def to_scale(dossier: Dossier, edge: str) -> Picture:
    """The cut through one edge as it is built, to a scale of the trade, across a sheet."""
    return _to_scale(_scaled(dossier, edge, WHOLE, HIGHEST), edge, WHOLE)


def _scaled(dossier: Dossier, edge: str, width: float, height: float, layers: bool = True) -> Scaled:
    from ..drawings import scaled_section

    cut = dossier.as_briefed.sections[edge]
    return scaled_section(cut, dossier.units, width=width, height=height, layers=layers)


def _to_scale(drawn: Scaled, edge: str, width: float) -> Picture:
    from ..papers import Picture

    alt = f"Section through edge {edge} to the scale {drawn.words}, with its materials and dimensions."
    return Picture(f"Edge {edge}, scale {drawn.words}", drawn.svg, "", alt, headed=True, wide=width)


def section(dossier: Dossier, edge: str, width: float = WHOLE) -> str:
    """The cut through one edge as briefed, on the temperature scale that all alternatives share, as SVG."""
    from ..drawings import month_middle, section_picture, shared_scale

    moment = month_middle(shown_month(dossier, edge))
    fields = [answer.fields[edge] for answer in dossier.alternatives if edge in answer.fields]
    return section_picture(
        dossier.as_briefed,
        edge,
        year_fraction=moment,
        system=dossier.units,
        scale=shared_scale(fields, moment, dossier.units),
        width=width,
        caption=_caption(dossier, edge),
        named=width == WHOLE,
    )


def _caption(dossier: Dossier, edge: str) -> str:
    from ..drawings.when import MONTHS

    outdoors = dossier.as_briefed.sections[edge].outdoors
    what = "the ground under this edge" if outdoors else "this edge"
    return f"Temperatures in the middle of {MONTHS[shown_month(dossier, edge) - 1]}, when {what} is coldest."


def _told(dossier: Dossier, edge: str) -> str:
    """What the picture shows, for someone who does not see it: the coldest corner of each alternative."""
    from ..drawings.facts import finding_at, watched_words
    from ..measure import say

    section = dossier.as_briefed.sections[edge]
    watched = "heat.ground-temperature" if section.outdoors else "heat.corner-coldest"
    corners = [
        f"{answer.name} {say.value(finding.value, finding.unit, dossier.units)}"
        for answer in dossier.alternatives
        if (finding := finding_at(answer, watched, edge)) is not None and finding.value is not None
    ]
    warm = f" {watched_words(section).capitalize()}, at its coldest: {'; '.join(corners)}." if corners else ""
    return f"Section through edge {edge} with lines of equal temperature.{warm}"
