"""Words and steps that the findings of frost share."""

from __future__ import annotations

from calendar import month_name

from ...findings import Basis, Step
from ...measure import say
from ...physics.year import month_of
from ...resolve import Resolved
from ...resolve.frost import INDEX, Frost, hard_winter_words
from ..basis import basis
from ..frozen import IN_USE, OPEN, Reach, Wintered

DAY = 86400.0  # s
STAGES = {
    IN_USE: "in use",
    OPEN: "through the winter",
    "poured": "while the slab lies open",
    "roofed": "while the building is closed and not heated",
    "heated": "in the first winter of heating",
    "heat-out": "in a winter in which the heat is out for two weeks",
    "vacant": "in a winter in which the building stands vacant",
}


def stage_words(stage: str) -> str:
    """A stage as a title has it."""
    return STAGES[stage]


def index_words(index: float, resolved: Resolved) -> str:
    """An index [K·s] in the brief's system, the other in brackets."""
    return say.both(index / DAY, "degC·d", resolved.system)


def far(metres: float, resolved: Resolved) -> str:
    """A length in the brief's system, the other in brackets."""
    return say.both(metres, "m", resolved.system)


def when(reach: Reach) -> str:
    """The time of the year at which frost is deepest: "late in February"."""
    part = reach.day * 12.0 % 1.0
    third = "early in" if part < 1 / 3 else "in the middle of" if part < 2 / 3 else "late in"
    return f"{third} {month_name[month_of(reach.day)]}"


def winter_steps(resolved: Resolved, frost: Frost, wintered: Wintered) -> tuple[Step, ...]:
    """The winter that is reckoned with, and how the ground freezes in it."""
    from ...physics.frost.winter import amplitude_of

    mean, amplitude = resolved.outdoor_mean, amplitude_of(resolved.outdoor_mean, wintered.index)
    typed = frost.index_words or "mean year, days scattered about the months' means"
    icy, ground = frost.icy[0], resolved.ground
    return (
        Step("F", "freezing index of the air", typed, index_words(wintered.index, resolved)),
        Step(
            "θ_air",
            "a year that swings as a cosine and has that index below 0 °C",
            f"{say.value(mean, 'degC', 'SI')} in the mean, {say.value(amplitude, 'K', 'SI')} to each side",
            f"{say.both(mean - amplitude, 'degC', resolved.system)} at its coldest",
        ),
        Step(
            "ground",
            "conductivity unfrozen and frozen; water that freezes",
            f"{ground.label}: {say.value(ground.conductivity, 'W/(m·K)', 'SI')} and "
            f"{say.value(icy.frozen_conductivity, 'W/(m·K)', 'SI')}; {icy.water:.0f} kg/m³, of which "
            f"{100.0 * (1.0 - icy.unfrozen):.0f} % freeze within {icy.range:g} K",
            f"{icy.water * (1.0 - icy.unfrozen) * 0.334:.0f} MJ/m³ of latent heat",
        ),
    )


def freezing_basis() -> tuple[Basis, ...]:
    """How a section is frozen."""
    return (
        basis("swaminathan-voller-1992", "heat in place of temperature, implicit in time"),
        basis("iso-13793-2001", "numerical calculation, design winter by its index"),
    )


def rests(resolved: Resolved, frost: Frost, *more: str) -> tuple[str, ...]:
    """What the frost at an edge leans on."""
    ground = [path for icy in frost.icy for path in icy.rests_on]
    ground += [path for stratum in resolved.strata for path in stratum.slice.rests_on]
    stages = [path for stage in frost.stages for path in (f"{stage.path}.what", f"{stage.path}.from")]
    winter = [INDEX] if frost.index is not None else [resolved.climate_path]
    surface = resolved.surface.rests_on if resolved.surface else ()
    return tuple(dict.fromkeys([*winter, resolved.climate_path, *ground, *surface, *stages, *more]))


def reserve(resolved: Resolved, frost: Frost, wintered: Wintered | None) -> str:
    """Of a mean year's winter: from which index on frost does harm, and how hard winters compare."""
    told = index_words(frost.mean_index, resolved)
    words = f"Only a year of mean weather is known here, with an index of {told}; a floor must stand a hard winter. "
    if wintered is not None and wintered.harms_from is not None:
        times = wintered.harms_from / frost.mean_index if frost.mean_index > 0.0 else 0.0
        so_much = f", {times:.1f} times the mean year's" if times >= 0.05 else ""
        words += f"It would fall short from about {index_words(wintered.harms_from, resolved)} on{so_much}. "
    elif wintered is not None:
        words += "No winter up to 6000 K·d would bring frost there. "
    return words + hard_winter_words(frost.mean_index, resolved.system)
