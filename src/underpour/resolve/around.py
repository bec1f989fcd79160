"""What lives and stands in the ground about the floor."""

from __future__ import annotations

from .. import catalogue
from ..brief.tables.site import Site
from .resolved import Around
from .zone import SiteZone


def around(site: Site, zone: SiteZone) -> Around:
    """Water, salts and termites as the brief has them, and whether a map has termites where it says nothing."""
    return Around(
        drain_outlet=site.drain_outlet or "",
        sealed=bool(site.waterproofed),
        flood=site.flood_level.si if site.flood_level is not None else None,
        sulphate=site.sulphate or "",
        termites=site.termites or "",
        termite_barrier=site.termite_barrier or "",
        may_be_very_heavy=zone.country == "US" and catalogue.may_be_very_heavy(_state(zone.called)),
    )


def _state(called: str) -> str:
    """The two letters behind a town's comma; "" where none stand there.

    >>> _state("Austin, TX"), _state("the file's station")
    ('TX', '')
    """
    last = called.rpartition(", ")[2]
    return last if len(last) == 2 and last.isupper() else ""
