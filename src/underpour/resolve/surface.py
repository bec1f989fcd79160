"""The surface of the ground outside: how warm it is beside the air, by what lies on it."""

from __future__ import annotations

from .. import catalogue
from ..brief.tables.site import Site, SurfaceFactors
from ..findings import Assumed
from ..measure import System, say
from ..mistakes import Mistake
from .assumptions import Assumptions
from .resolved import GroundSurface, Slice

CLEARED = " Where snow is cleared away from the wall, the ground at the edge is colder than that."
SHORT_SUMMERS = 3500.0 / 365.25  # K: thawing index, K·d over the year, up to which paving was measured (practice)


def ground_surface(
    site: Site, mean: float, swing: complex, ground: Slice, assumed: Assumptions
) -> GroundSurface | None:
    """Mean and swing of the ground's surface; None where nothing is typed of it, so that it is as warm as the air.

    Raises Mistake where the place has no winter that freezes, or summers in which a factor was never measured.
    """
    if site.snow is None and site.surface is None:
        return None
    from ..physics.ground_surface import seasons, surface_year, under_snow

    freezing_season, thawing_season = seasons(mean, abs(swing))
    typed = "" if not isinstance(site.surface, str) else f'"{site.surface}"'
    path = "site.snow" if site.snow is not None else "site.surface"
    if freezing_season <= 0.0 or thawing_season <= 0.0:
        wrong = "The mean months never freeze here, so that a cover of the ground has no frost to keep off or let in."
        if thawing_season <= 0.0:
            wrong = "The mean months never thaw here; what lies on the ground has no summer to be reckoned with."
        raise Mistake(path, typed, wrong, f"Take {path.rpartition('.')[2]} out.")
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
            instead = "Take it out, or write what was measured here: surface = { freezing = 0.9, thawing = 1.2 }."
            raise Mistake("site.surface", typed, wrong, instead)
        freezing, thawing = (
            assumed.take(
                Assumed(f"site.surface.{key}", of.value, of.low, of.high, "1", f"taken from the name {cover.key}")
            )
            for key, of in (("freezing", cover.freezing), ("thawing", cover.thawing))
        )
        rests_on = (cover.freezing.path, cover.thawing.path)
    level, amplitude = surface_year(mean, abs(swing), freezing, thawing)
    return GroundSurface(level, swing / abs(swing) * amplitude, rests_on)


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
    else:
        on = "by its typed factors"
    own, air = (
        f"{say.both(m, 'degC', system)} ± {say.difference(abs(s), system)}"
        for m, s in ((surface.mean, surface.swing), (mean, swing))
    )
    told = f"The ground outside is taken {on}: its surface at {own} over the year, where the air has {air}. Walls keep "
    return (f"{told}the air.{CLEARED if site.snow is not None or site.surface == 'turf' else ''}",)
