"""Radon in the rooms: a band by what ground, joint and air let through, and the word of a test."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from statistics import fmean

from ...catalogue import of_soil_gas
from ...catalogue.soil_gas import RadonLevel, permeability_class, within_years
from ...findings import Basis, Finding, Step
from ...measure import System, say
from ...measure.digits import fixed
from ...physics import radon as kernel
from ...resolve import Resolved
from ...resolve.soil_gas import OF_SITE, RADON, TEST, ResolvedSoilGas, RoomTest, Spread
from ..basis import basis
from .proof import why_not

ID, TITLE = "soilgas.level", "Radon in the rooms"
ENDS = (0.1, 0.5, 0.9)  # the band holds eight cases of ten
SPREADS_GAS = 0.05  # m of stone from which on it spreads the pressure below the whole slab (common practice, no source)
WALL = 0.2  # m, where no edge has a wall
ALONE = "Only a test in the closed house tells what is breathed; the fan's gauge and a drawing do not."


@dataclass(frozen=True, slots=True)
class Band:
    """A level with the ends of its band. [Bq/m³]"""

    low: float
    middle: float
    high: float

    def words(self, system: System) -> str:
        """As it is printed: low to high, and its middle."""
        low, middle, high = (say.both(level, "Bq/m³", system) for level in (self.low, self.middle, self.high))
        return f"{low} to {high}, middle {middle}"


def levels(resolved: Resolved, gas: ResolvedSoilGas, reaches: bool = True) -> Iterator[Finding]:
    """Radon in the rooms, against the level of each authority that the brief is held to.

    ``reaches`` is whether suction reaches the weakest corner, as far as that is known.

    Asks
        Is there more radon in the rooms than the authority lets be?
    Why
        Radon is breathed for years and is not noticed. The ground, the joint round the slab, the weather and the fans
        of the house decide together, and the ground alone is uncertain by decades.
    Worked out
        Air that the house draws through ground and joint, one after the other, times the radon in it, and what spreads
        through sound concrete; over the air that is changed. Every input that nobody measured is spread log-normally,
        and the band holds eight cases of ten. What a passive pipe or a fan takes off is what was measured of such
        systems, as a band; where suction does not reach the weakest corner, its high end stays. Tests in the house go
        before all of it.
    Holds for
        Radon from the ground by the joint round the slab. A sump, open pipes, hollow blocks, water from a well and
        building materials come on top. Without a test nothing meets: a band that lies below the level is no proof.
    Source
        Steady mass balance (National Research Council 1999, equation 8.1); ISO 13370 by analogy or Nazaroff and others
        1988 for the ground; the cubic law for the joint; levels as their authorities name them.
    """
    now = [test for test in gas.tests if test.system == gas.system]
    tests = [test for test in now if not why_not(test, gas)]
    earlier = [test for test in gas.tests if test.system != gas.system]
    before = before_system(resolved, gas)
    found = _measured_band(earlier) if earlier else before
    if gas.draws and found is not None:
        yield _before(resolved, gas, found, bool(earlier))
    band = drawn_off(gas, found, reaches) if found is not None else None
    for level in gas.levels:
        if tests:
            yield _by_test(resolved, gas, level, tests, band)
        elif now and fmean(test.level for test in now) > level.level.value:
            yield _by_test(
                resolved, gas, level, now, band
            )  # what counts for little is enough to tell that it is too much
        else:
            yield _by_band(resolved, gas, level, band, reaches)


def before_system(resolved: Resolved, gas: ResolvedSoilGas) -> Band | None:
    """The band of the level where nothing draws soil gas off; None where nothing says how much radon there is."""
    if gas.radon is None:
        return None
    low, middle, high = _worked_out(
        gas.permeability, gas.radon, gas.ventilation, gas.mean_vacuum, gas.gap, gas.volume, _floor(resolved, gas)
    )
    return Band(low, middle, high)


def drawn_off(gas: ResolvedSoilGas, before: Band, reaches: bool = True) -> Band:
    """What is left where a system draws: the least of the fall for the high end, the most of it for the low one."""
    if not gas.draws:
        return before
    fell = of_soil_gas(f"fell.{gas.system}")
    outdoors = of_soil_gas("usual.outdoor-radon").value

    def left(level: float, share: float) -> float:
        return outdoors + max(level - outdoors, 0.0) * (1.0 - share / 100.0)

    return Band(
        left(before.low, fell.high), left(before.middle, fell.value), left(before.high, fell.low if reaches else 0.0)
    )


Floor = tuple[float, float, float, float, float, bool]  # area, perimeter, joint, slab, depth; whether stone lies there


def _floor(resolved: Resolved, gas: ResolvedSoilGas) -> tuple[Floor, float]:
    """The floor as gas meets it, and the thickness of its walls. [m², m, m, m, m; m]"""
    lengths = [edge.length for edge in resolved.edges]
    depth = sum(max(edge.ground, 0.0) * n for edge, n in zip(resolved.edges, lengths, strict=True)) / sum(lengths)
    walls = [sum(leaf.thickness for leaf in (edge.wall or edge.above)) or WALL for edge in resolved.edges]
    wall = sum(w * n for w, n in zip(walls, lengths, strict=True)) / sum(lengths)
    spread = gas.stone.thickness >= SPREADS_GAS or gas.panel is not None
    return (resolved.area, resolved.perimeter, resolved.plan.floor.length, max(gas.slab, 0.05), depth, spread), wall


@lru_cache(maxsize=64)
def _worked_out(
    permeability: Spread,
    radon: Spread,
    ventilation: Spread,
    vacuum: Spread,
    gap: Spread,
    volume: float,
    floor_and_wall: tuple[Floor, float],
) -> tuple[float, float, float]:
    """Low end, middle and high end of the level where nothing draws. [Bq/m³]"""
    (area, perimeter, joint, slab, depth, spread), wall = floor_and_wall
    outdoors, diffusion = of_soil_gas("usual.outdoor-radon"), of_soil_gas("usual.diffusion-in-concrete")
    case = kernel.cases(
        {
            "permeability": (permeability.value, permeability.factor),
            "radon": (radon.value, radon.factor),
            "ventilation": (ventilation.value, ventilation.factor),
            "vacuum": (vacuum.value, vacuum.factor),
            "gap": (gap.value, gap.factor),
            "outdoors": (outdoors.value, (outdoors.high / outdoors.low) ** 0.5),
            "diffusion": (diffusion.value, (diffusion.high / diffusion.low) ** 0.5),
        }
    )
    ground = (
        kernel.through_ground(case["permeability"], area, perimeter, wall, depth)
        if spread
        else kernel.through_ground_to_a_joint(case["permeability"], joint, depth + slab, case["gap"])
    )
    lets = kernel.one_after_another(ground, kernel.through_joint(case["gap"], joint, slab))
    entry = lets * case["vacuum"] * case["radon"]
    entry = entry + kernel.through_concrete(case["diffusion"], area, slab, case["radon"])
    lost = kernel.decay(of_soil_gas("usual.half-life").value * 86400.0)
    low, middle, high = kernel.shares(
        kernel.indoor_level(entry, volume, case["ventilation"], case["outdoors"], lost), ENDS
    )
    return low, middle, high


def _measured_band(tests: Sequence[RoomTest]) -> Band:
    middle = fmean(test.level for test in tests)
    spread = max(test.kit.spread.value if test.kit is not None else 2.0 for test in tests)
    return Band(middle / spread, middle, middle * spread)


def _mean_of(tests: Sequence[RoomTest], formula: str, units: System) -> Step:
    told = ", ".join(say.both(test.level, "Bq/m³", units) for test in tests)
    return Step("C", formula, told, say.both(fmean(test.level for test in tests), "Bq/m³", units))


def _rests(gas: ResolvedSoilGas) -> tuple[str, ...]:
    of_house = ("soil-gas.volume", "soil-gas.house-vacuum")
    spreads = (gas.radon, gas.permeability, gas.ventilation, gas.gap)
    return tuple(dict.fromkeys([path for each in spreads if each is not None for path in each.rests_on] + [*of_house]))


def _bases(level: RadonLevel | None) -> tuple[Basis, ...]:
    named = (level.level.basis(),) if level is not None else ()
    return (
        *named,
        basis("nrc-1999", "equation 8.1, decay added"),
        basis("nazaroff-1988", "flow through ground and joint"),
    )


def _steps(resolved: Resolved, gas: ResolvedSoilGas, before: Band | None) -> tuple[Step, ...]:
    """The middle of the band, put together from the middles of its inputs."""
    if gas.radon is None or before is None:
        return ()
    units = resolved.system
    (area, perimeter, joint, slab, depth, spread), wall = _floor(resolved, gas)
    k, width = gas.permeability.value, gas.gap.value
    ground = (
        kernel.through_ground(k, area, perimeter, wall, depth)
        if spread
        else kernel.through_ground_to_a_joint(k, joint, depth + slab, width)
    )
    lets = kernel.one_after_another(ground, kernel.through_joint(width, joint, slab))
    flow = lets * gas.mean_vacuum.value
    size = f"k = {k:.2g} m² (class {permeability_class(k)}), joint {width * 1e3:.2g} mm"
    return (
        Step(
            "Q",
            "pressure times what ground and joint let through, one after the other",
            f"{size}, {say.both(gas.mean_vacuum.value, 'Pa', units)} in the mean",
            f"{flow * 3600.0:.2g} m³/h",
        ),
        Step(
            "S",
            "Q times radon in the soil gas, and what spreads through concrete",
            f"{say.both(gas.radon.value, 'Bq/m³', units)} in the soil gas",
            f"{flow * gas.radon.value * 3600.0:.2g} Bq/h by the joint",
        ),
        Step(
            "C",
            "(S + n V C_o) / (V (n + λ)), each input spread, eight cases of ten",
            f"V = {say.both(gas.volume, 'm³', units)}, n = {fixed(gas.ventilation.value * 3600.0, 2)} 1/h",
            before.words(units),
        ),
    )


def _before(resolved: Resolved, gas: ResolvedSoilGas, band: Band, tested: bool) -> Finding:
    hung = tuple(test for test in gas.tests if test.system != gas.system)
    how = "By tests before the system stood" if tested else "With nothing that draws soil gas off"
    return Finding(
        ID,
        "Radon in the rooms before the system draws",
        band.middle,
        "Bq/m³",
        at={"of": "before"},
        basis=_bases(None),
        rests_on=tuple(test.path for test in hung) if tested else _rests(gas),
        steps=(_mean_of(hung, "mean of the tests that hung before the system stood", resolved.system),)
        if tested
        else _steps(resolved, gas, band),
        words=f"{how}: {band.words(resolved.system)}. {ALONE}",
    )


def _by_band(
    resolved: Resolved, gas: ResolvedSoilGas, level: RadonLevel, band: Band | None, reaches: bool = True
) -> Finding:
    """Told by what was worked out: too much, or not to be told without a test."""
    units = resolved.system
    limit = level.level.value
    empty = Finding(
        ID,
        TITLE,
        None,
        "Bq/m³",
        at={"by": level.key},
        basis=_bases(level),
        rests_on=_rests(gas),
    )
    at_most = f"{level.label}: {say.both(limit, 'Bq/m³', units)}. {level.says}"
    if band is None:
        known = gas.of_site == "unknown"
        missing = RADON if known else OF_SITE
        words = (
            "How much radon the ground gives is not known. Have the soil gas tested (soil-gas.radon), "
            "or build as where there is much."
            if known
            else "Nothing says how much radon the ground gives: low, middle or high, by the local authority's map."
        )
        return replace(empty, missing=missing, words=f"{words} {at_most}")
    steps = _steps(resolved, gas, before_system(resolved, gas))
    fell = _fell(gas)
    if fell is not None:
        steps = (*steps, fell)
    stays = "" if reaches else " Suction does not reach the weakest corner: the high end stays what it is without."
    told = f"Worked out: {band.words(units)}, eight cases of ten.{stays}"
    if band.low > limit:
        words = (
            f"{told} Even its low end lies above the level. Plan for suction, and test once the house is closed. "
            f"{_then(gas)}{at_most}"
        )
        made = replace(empty, value=band.middle, limit=limit, sense="at most", steps=steps, words=words)
        return replace(made, within=None)
    uncounted = next((why_not(test, gas) for test in gas.tests if test.system == gas.system), "")
    hung = f" The test that hung does not count: {uncounted}." if uncounted else ""
    side = "lies below the level, which proves nothing" if band.high <= limit else "lies on both sides of the level"
    words = f"{told} The band {side}.{hung} {ALONE} {at_most}"
    return replace(empty, missing=next_test(gas), steps=steps, words=words)


def next_test(gas: ResolvedSoilGas) -> str:
    """The key of the test that is wanted."""
    return TEST.replace("1", f"{len(gas.tests) + 1}")


def _then(gas: ResolvedSoilGas) -> str:
    if gas.system == "fan":
        return "A second suction point or a stronger fan is likely wanted. "
    return "A pipe that draws by itself is likely not enough. " if gas.system == "passive" else ""


def _fell(gas: ResolvedSoilGas) -> Step | None:
    if not gas.draws:
        return None
    fell = of_soil_gas(f"fell.{gas.system}")
    what = "a fan" if gas.system == "fan" else "a pipe that draws by itself"
    return Step(
        "C after",
        f"less what was measured of {what}, as a band and no promise",
        f"{fell.low:.0f} to {fell.high:.0f} %, often {fell.value:.0f} % ({fell.source.title})",
        "",
    )


def _by_test(
    resolved: Resolved, gas: ResolvedSoilGas, level: RadonLevel, tests: Sequence[RoomTest], band: Band | None
) -> Finding:
    """Told by tests in the house, the mean of those that hung with what is there now."""
    units = resolved.system
    limit = level.level.value
    value = fmean(test.level for test in tests)
    long = any(test.kit is not None and test.kit.long for test in tests)
    about = _measured_band(tests)
    low, high = (say.both(end, "Bq/m³", units) for end in (about.low, about.high))
    step = _mean_of(tests, "mean of the tests that hung with what is there now", units)
    sure = f"The year's mean may lie between {low} and {high}."
    again = (
        "Test again every two years, and after every change of house, fan or ground."
        if long
        else "A short test tells a few days: hang a second one, or a long one, before anything rests on it."
    )
    after = ""
    if level.key == "health-canada" and within_years(value):
        years = within_years(value)
        after = f" Health Canada asks that it be put right within {'one year' if years == 1 else 'two years'}."
    worked = f" Worked out it was {band.words(units)}." if band is not None else ""
    return Finding(
        ID,
        TITLE,
        value,
        "Bq/m³",
        at={"by": level.key},
        limit=limit,
        sense="at most",
        basis=(level.level.basis(),),
        rests_on=tuple(test.path for test in tests),
        steps=(step,),
        words=f"{sure} {again}{after}{worked} {level.label}: {say.both(limit, 'Bq/m³', units)}. {level.says}",
    )
