"""The site: how cold it is there is said once."""

from __future__ import annotations

from collections.abc import Container, Iterator

from ..mistakes import Mistake
from .tables.site import Site, SurfaceFactors

MOST_SUN = 450.0  # W/m², mean of a month on level ground: no place on earth has more (common practice, no source)
MOST_SNOW = 3.0  # m, mean of a winter beside a building: more is a unit mistaken (common practice, no source)
SAYS_WHERE = ("place", "zip", "monthly", "weather")


def unclear_site(site: Site, typed: Container[str]) -> Iterator[Mistake]:
    """A site without air temperatures, or with two kinds of them; a place beside a weather file is only its name.

    ``typed`` holds the keys as they stand in the file: one that cannot be read has said where in its own way.
    """
    if not any(key in typed for key in SAYS_WHERE):
        instead = 'Write place = "Duluth, MN", zip = "55802", monthly = [twelve means], or weather = "file.epw".'
        yield Mistake("site.place", "", "[site] does not say where.", instead)
    if site.monthly is not None and site.weather is not None:
        yield Mistake("site.weather", "", "monthly and weather both say how cold it is.", "Keep one of the two.")
    elif site.place is not None and site.monthly is not None:
        yield Mistake("site.monthly", "", "place and monthly both say how cold it is.", "Keep one of the two.")
    if site.monthly is not None and len(site.monthly) != 12:
        wrong = f"monthly has {len(site.monthly)} temperatures; a year has twelve."
        yield Mistake("site.monthly", "", wrong, "Write the mean of each month, January first.")
    if site.humidity is not None and len(site.humidity) not in (1, 12):
        wrong = f"humidity has {len(site.humidity)} values; a year has twelve."
        yield Mistake(
            "site.humidity", "", wrong, "Write the mean of each month, January first, or one for all of them."
        )
    yield from _unclear_layers(site)
    yield from _unclear_base(site)
    if isinstance(site.surface, SurfaceFactors):
        yield from _unclear_sun(site.surface)
    if site.snow is not None and site.surface is not None:
        wrong = "surface and snow both say what lies on the ground outside."
        yield Mistake("site.snow", "", wrong, "Keep one: turf is meant with its usual snow, paving is kept clear.")
    if site.snow is not None and site.snow.si > MOST_SNOW:
        wrong = f"Snow does not lie {site.snow.typed} deep beside a building, mean of the winter."
        yield Mistake("site.snow", f'"{site.snow.typed}"', wrong, 'Write what lies there, up to 3 m: snow = "12 in".')
    if site.snow_conductivity is not None and site.snow is None and "snow" not in typed:
        wrong = "snow-conductivity is told, and no snow is."
        yield Mistake("site.snow-conductivity", "", wrong, 'Write snow = "12 in", or take this out.')
    for key, value in (("drained", site.drained), ("waterproofed", site.waterproofed)):
        if value is not None and site.water_table is None and "water-table" not in typed:
            wrong = f"{key} is told, and nothing says how high the ground water stands."
            yield Mistake(f"site.{key}", "", wrong, 'Write water-table = "9 ft", or take this out.')


def _unclear_base(site: Site) -> Iterator[Mistake]:
    """Stiffness of the ground told twice, and a base that nothing may be laid on."""
    if site.subgrade_modulus is not None and site.cbr is not None:
        wrong = "subgrade-modulus and cbr both say how stiff the ground is."
        yield Mistake("site.cbr", "", wrong, "Keep the test with the plate: it is the nearer of the two.")
    if site.base == "frozen":
        wrong = "A frozen base thaws below the slab, turns soft and settles."
        instead = 'Thaw it, dry it and compact it before anything is laid; then write base = "compacted".'
        yield Mistake("site.base", '"frozen"', wrong, instead)
    if site.base == "loose":
        wrong = "A loose base settles unevenly: foam and slab break over its soft places, whatever their strength."
        yield Mistake("site.base", '"loose"', wrong, 'Compact it, and then write base = "compacted".')


def _unclear_sun(surface: SurfaceFactors) -> Iterator[Mistake]:
    """Sun beside factors that have it in them, of a wrong number of months, or such as falls nowhere."""
    typed = surface.model_fields_set
    if surface.sun is None:
        for key in ("absorptance", "to-sky"):
            if key.replace("-", "_") in typed and "sun" not in typed:
                wrong = f"{key} is told, and nothing says how much sun there is."
                yield Mistake(f"site.surface.{key}", "", wrong, 'Write sun = ["155 W/m²"], or take this out.')
        return
    if typed & {"freezing", "thawing"}:
        wrong = "Factors and sun both say how warm the ground outside is: factors have the sun in them."
        yield Mistake("site.surface.sun", "", wrong, "Keep one of the two.")
    if len(surface.sun) not in (1, 12):
        wrong = f"sun has {len(surface.sun)} values; a year has twelve months."
        yield Mistake(
            "site.surface.sun", "", wrong, "Write the mean of each month, January first, or one for the year."
        )
    for number, month in enumerate(surface.sun, start=1):
        if not 0.0 <= month.si <= MOST_SUN:
            wrong = f"{month.typed} is no mean of a month: level ground gets between 0 and 450 W/m², nights counted."
            instead = "Write the mean of day and night; 4 kWh/m² a day are 167 W/m²."
            yield Mistake(f"site.surface.sun.{number}", f'"{month.typed}"', wrong, instead)
    if surface.to_sky is not None and surface.to_sky.si < 0.0:
        wrong = f"{surface.to_sky.typed} would come from the sky."
        yield Mistake("site.surface.to-sky", f'"{surface.to_sky.typed}"', wrong, 'A loss is above zero: "57 W/m²".')


def _unclear_layers(site: Site) -> Iterator[Mistake]:
    """Ground told twice, and layers of which none, or one in between, goes on down."""
    if site.layers is None:
        return
    if site.ground is not None:
        wrong = "ground and layers both say what the ground is."
        yield Mistake("site.layers", "", wrong, "Keep one: layers where the ground changes with depth.")
    if not site.layers:
        example = 'Write layers = [{ ground = "sand-or-gravel", thickness = "3 ft" }, { ground = "clay-or-silt" }].'
        yield Mistake("site.layers", "", "This list holds no layer.", example)
        return
    *upper, deepest = enumerate(site.layers, start=1)
    for number, layer in upper:
        if layer.thickness is None:
            wrong = "This layer has no thickness, and others lie below it; only the deepest goes on down."
            yield Mistake(f"site.layers.{number}", "", wrong, 'Write how thick it is: thickness = "3 ft".')
    if deepest[1].thickness is not None:
        wrong = "The deepest layer ends, and nothing says what lies below it."
        instead = "Take out its thickness, so that it goes on down, or add the layer below it without one."
        typed = f'"{deepest[1].thickness.typed}"'
        yield Mistake(f"site.layers.{deepest[0]}.thickness", typed, wrong, instead)
