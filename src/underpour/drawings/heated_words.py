"""Pictures of heated floors in words: for someone who does not see them, and for what stands below them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from ..checks.warm.seen import Heated, Pumped, UpAndDown
from ..measure import say
from ..measure.digits import THIN, fixed
from ..measure.table import System
from .when import MONTHS

A_MINUTE = 60e3  # litres a minute for each m³/s
LITRES = 1e3


def flow_number(flow: float, system: System) -> float:
    """A flow of water in what installers read: gallons or litres a minute. [m³/s]"""
    return say.number(LITRES * flow, "l/s", "US") if system == "US" else A_MINUTE * flow


def flow_unit(system: System) -> str:
    return "gpm" if system == "US" else "l/min"


def flow_words(flow: float, system: System) -> str:
    """ "0.63 gpm", "2.4 l/min" """
    number = flow_number(flow, system)
    return f"{fixed(number, 2 if number < 19.95 else 1)}{THIN}{flow_unit(system)}"


def warmth_words(of: Heated) -> str:
    return "cable" if of.electric else "water, on its mean"


def section_in_words(of: Heated, system: System) -> str:
    """The section between two tubes: what is warm, and how warm the floor is."""
    held = "" if of.limit is None else f" It may be up to {say.both(of.limit, 'degC', system)}."
    return (
        f"{of.tube or 'Cables'}, {say.both(of.spacing, 'm', system)} apart on the coldest day, in "
        f"{MONTHS[of.month - 1]}. The floor's surface is between {say.both(of.coolest, 'degC', system)} and "
        f"{say.both(of.warmest, 'degC', system)}, the {warmth_words(of)} {say.both(of.water, 'degC', system)}, "
        f"the room {say.both(of.room, 'degC', system)}.{held} {say.both(of.up, 'W/m²', system)} go up and "
        f"{say.both(of.down, 'W/m²', system)} down."
    )


def kind_words(of: Pumped) -> str:
    """How the water flows on the coldest day."""
    if of.flow <= of.layers_until:
        return "in layers"
    return "in eddies" if of.flow >= of.eddies_from else "in layers or in eddies, which is not sure"


def flow_in_words(of: Pumped, system: System) -> str:
    """The curve of one loop and its working point."""
    loops = "One loop" if of.count == 1 else f"{'The longest' if of.longest else 'Each'} of {of.count} loops"
    return (
        f"{loops}, {say.both(of.length, 'm', system)} long, filled with {of.fluid}: on the coldest day "
        f"{flow_words(of.flow, system)} take {say.both(of.loss, 'kPa', system)} of the pump's "
        f"{say.both(of.most, 'kPa', system)}; the water flows {kind_words(of)}. Through all of them together go "
        f"{flow_words(of.whole, system)}."
    )


def cold_in_words(of: Heated, system: System) -> str:
    """How the floor warms up."""
    cold = of.from_cold
    start, wanted = (say.both(each, "degC", system) for each in (cold.start, cold.wanted))
    if cold.reached is None:
        said = f"From {start} the floor does not get to {wanted} in {say.value(float(cold.hours[-1]), 'h', system)}."
    else:
        said = f"From {start} the floor is at {wanted} after {say.value(cold.reached, 'h', system)}."
    asked = "" if cold.within is None else f" Asked for are {say.value(cold.within, 'h', system)}."
    return f"{said}{asked} The room is kept at {say.both(of.room, 'degC', system)} by something else meanwhile."


def shares_words(of: UpAndDown) -> str:
    """Both definitions of what goes down."""
    return (
        f"down over up {fixed(100.0 * of.of_up, 0)}{THIN}%, down over both together "
        f"{fixed(100.0 * of.of_total, 0)}{THIN}%"
    )


def year_in_words(versions: Mapping[str, Heated], system: System) -> str:
    """What goes up and down in the season, for each version."""
    said = []
    for name, of in versions.items():
        year = of.year
        whose = f"{name[0].upper()}{name[1:]}: " if len(versions) > 1 else ""
        strongest = max(range(12), key=lambda n: year.up[n])
        up, down = (say.both(each[strongest], "W/m²", system) for each in (year.up, year.down))
        said.append(
            f"{whose}Most in {MONTHS[strongest]}: {up} up and {down} down. Over the season {shares_words(year)}. "
            f"{_without(year.heated)}"
        )
    return " ".join(said).strip()


def _without(heated: Sequence[bool]) -> str:
    """The months without heat: "No heat from June to August."."""
    none = [n for n in range(12) if not heated[n]]
    if not none:
        return "Heat in every month."
    names = [MONTHS[n] for n in none]
    if len(none) > 2 and all(b - a == 1 for a, b in pairwise(none)):
        return f"No heat from {names[0]} to {names[-1]}."
    return f"No heat in {names[0]}." if len(none) == 1 else f"No heat in {', '.join(names[:-1])} and {names[-1]}."
