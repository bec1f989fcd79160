"""The surface of the ground outside: how warm it is beside the air, by what lies on it."""

from __future__ import annotations

from .. import catalogue
from ..brief.tables.site import Site, SurfaceFactors
from ..catalogue import year as catalogue_year
from ..findings import Assumed
from ..measure import Measure, System, say
from ..mistakes import Mistake
from .assumptions import Assumptions
from .resolved import GroundSurface, Slice

CLEARED = " Where snow is cleared away from the wall, the ground at the edge is colder than that."
IN_THE_SUN = (
    " It is reckoned dry, by its sol-air temperature (ASHRAE and ISO 52016-1, from memory): water that dries off damp "
    "ground or turf keeps it cooler, and snow on it is not counted."
)
AS_THE_AIR = "bare, as warm as the air"
NOTHING_SAID = "nothing said of what lies on the ground outside"
LESS_FROST = f"{NOTHING_SAID}: {AS_THE_AIR}, no snow on it; turf under its snow freezes half as much"
MORE_SUMMER = f"{NOTHING_SAID}: {AS_THE_AIR}, no sun on it; paving in the sun is warmer in summer"
COLOUR_NOT_SAID = "nothing said of how dark the ground outside is; middle of light and dark"
SKY_NOT_SAID = "nothing said of the sky; level ground below a clear one"
SUN_TYPED = 'surface = { sun = ["155 W/m²"] }'
OR_SUN = f"or the sun that falls there: {SUN_TYPED}"
SHORT_SUMMERS = 3500.0 / 365.25  # K: thawing index, K·d over the year, up to which paving was measured (practice)


def ground_surface(
    site: Site, mean: float, swing: complex, ground: Slice, assumed: Assumptions
) -> GroundSurface | None:
    """Mean and swing of the ground's surface; None where it is taken to be as warm as the air, which is then listed.

    Raises Mistake where the place has no winter that freezes, or summers in which a factor was never measured.
    """
    from ..physics.ground_surface import seasons, under_snow

    if isinstance(site.surface, SurfaceFactors) and site.surface.sun is not None:
        return _sunlit(site.surface, site.surface.sun, mean, swing, assumed)
    freezing_season, thawing_season = seasons(mean, abs(swing))
    if site.snow is None and site.surface is None:
        freezing, thawing = _bare(freezing_season, thawing_season, assumed)
        if (freezing, thawing) == (1.0, 1.0):
            return None
        return _by_factors(mean, swing, freezing, thawing, ("site.surface.freezing", "site.surface.thawing"))
    typed = "" if not isinstance(site.surface, str) else f'"{site.surface}"'
    path = "site.snow" if site.snow is not None else "site.surface"
    if freezing_season <= 0.0 or thawing_season <= 0.0:
        wrong = "The mean months never freeze here, so that a cover of the ground has no frost to keep off or let in."
        instead = f"Take {path.rpartition('.')[2]} out."
        if thawing_season <= 0.0:
            wrong = "The mean months never thaw here; what lies on the ground has no summer to be reckoned with."
        elif path == "site.surface":
            instead = f"Take surface out, or type the sun that falls on it: {SUN_TYPED}."
        raise Mistake(path, typed, wrong, instead)
    thawing = 1.0
    if site.snow is not None:
        conductivity, rests_on = _snow(site, assumed)
        freezing = under_snow(site.snow.si, conductivity, ground.conductivity, ground.heat_capacity)
    elif isinstance(site.surface, SurfaceFactors):
        freezing, thawing = site.surface.freezing, site.surface.thawing
        rests_on = ("site.surface.freezing", "site.surface.thawing")
    else:
        assert site.surface is not None
        cover = catalogue.ground_cover(site.surface)
        if cover.thawing.value > 1.0 and thawing_season > SHORT_SUMMERS:
            wrong = f"Summers are warmer here than where the factor of {site.surface} was measured."
            measured = "surface = { freezing = 0.9, thawing = 1.2 }"
            instead = f"Take it out, or write what was measured here: {measured}, {OR_SUN}."
            raise Mistake("site.surface", typed, wrong, instead)
        freezing, thawing = (
            assumed.take(
                Assumed(f"site.surface.{key}", of.value, of.low, of.high, "1", f"taken from the name {cover.key}")
            )
            for key, of in (("freezing", cover.freezing), ("thawing", cover.thawing))
        )
        rests_on = (cover.freezing.path, cover.thawing.path)
    return _by_factors(mean, swing, freezing, thawing, rests_on)


def _by_factors(
    mean: float, swing: complex, freezing: float, thawing: float, rests_on: tuple[str, ...]
) -> GroundSurface:
    from ..physics.ground_surface import surface_year

    level, amplitude = surface_year(mean, abs(swing), freezing, thawing)
    return GroundSurface(level, swing / abs(swing) * amplitude, rests_on)


def _bare(freezing_season: float, thawing_season: float, assumed: Assumptions) -> tuple[float, float]:
    """The factors of ground of which nothing is said; where it never freezes or never thaws there are none to try."""
    if freezing_season <= 0.0 or thawing_season <= 0.0:
        assumed.take_word(Assumed("site.surface", AS_THE_AIR, None, None, "1", NOTHING_SAID))
        return 1.0, 1.0
    bare, turf = catalogue.ground_cover("bare"), catalogue.ground_cover("turf")
    high = bare.thawing.high if thawing_season <= SHORT_SUMMERS else turf.thawing.high  # paving was not measured there
    freezing, thawing = (
        assumed.take(Assumed(f"site.surface.{key}", of.value, of.low, most, "1", why))
        for key, of, most, why in (
            ("freezing", bare.freezing, bare.freezing.high, LESS_FROST),
            ("thawing", bare.thawing, high, MORE_SUMMER),
        )
    )
    return freezing, thawing


def _sunlit(
    typed: SurfaceFactors, sun: tuple[Measure, ...], mean: float, swing: complex, assumed: Assumptions
) -> GroundSurface:
    """The surface by its sol-air temperature, whose mean and wave follow one by one since the formula is linear."""
    from ..physics.ground_surface import sol_air

    takes_up, known_sky = catalogue.sunlit()
    rests_on = ["site.surface.sun"]
    if typed.absorptance is None:
        ends = (100.0 * end if end is not None else None for end in (takes_up.value, takes_up.low, takes_up.high))
        value, low, high = ends
        absorptance = assumed.take(Assumed("site.surface.absorptance", value, low, high, "%", COLOUR_NOT_SAID)) / 100.0
        rests_on.append(takes_up.path)
    else:
        absorptance = typed.absorptance.si
        rests_on.append("site.surface.absorptance")
    if typed.to_sky is None:
        of = known_sky
        to_sky = assumed.take(Assumed("site.surface.to-sky", of.value, of.low, of.high, of.unit, SKY_NOT_SAID))
        rests_on.append(of.path)
    else:
        to_sky = typed.to_sky.si
        rests_on.append("site.surface.to-sky")
    months = tuple(month.si for month in sun) * (12 // len(sun))
    of_the_year, wave = catalogue_year.harmonic(months)
    film = catalogue.surface("outdoors")
    return GroundSurface(
        sol_air(mean, of_the_year, absorptance, to_sky, film.value),
        sol_air(swing, wave if len(sun) == 12 else 0j, absorptance, 0.0, film.value),
        (*rests_on, film.path),
    )


def _snow(site: Site, assumed: Assumptions) -> tuple[float, tuple[str, ...]]:
    if site.snow_conductivity is not None:
        return site.snow_conductivity.si, ("site.snow", "site.snow-conductivity")
    known = catalogue.snow_conductivity()
    why = "snow that lies, between loose and compact"
    taken = Assumed("site.snow-conductivity", known.value, known.low, known.high, known.unit, why)
    return assumed.take(taken), ("site.snow", known.path)


def surface_notes(
    site: Site, surface: GroundSurface | None, mean: float, swing: complex, system: System
) -> tuple[str, ...]:
    """What is taken of the ground's surface, where something is typed of it."""
    if surface is None:
        return ()
    if site.snow is not None:
        on = f"under {say.typed(site.snow, 'm', system)} of snow all winter"
    elif isinstance(site.surface, str):
        on = f"under {catalogue.ground_cover(site.surface).label}"
    elif site.surface is not None and site.surface.sun is not None:
        on = "dry and in the sun that is typed"
    else:
        on = "by its typed factors" if site.surface is not None else "by the factors that are tried"
    own, air = (
        f"{say.both(m, 'degC', system)} ± {say.difference(abs(s), system)}"
        for m, s in ((surface.mean, surface.swing), (mean, swing))
    )
    told = f"The ground outside is taken {on}: its surface at {own} over the year, where the air has {air}. Walls keep "
    sunlit = isinstance(site.surface, SurfaceFactors) and site.surface.sun is not None
    more = IN_THE_SUN if sunlit else CLEARED if site.snow is not None or site.surface == "turf" else ""
    return (f"{told}the air.{more}",)
