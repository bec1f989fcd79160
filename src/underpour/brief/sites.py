"""The site: how cold it is there is said once."""

from __future__ import annotations

from collections.abc import Iterator

from ..mistakes import Mistake
from .tables.site import Site


def unclear_site(site: Site) -> Iterator[Mistake]:
    """A site without air temperatures, or with two kinds of them; a place beside a weather file is only its name."""
    if site.place is None and site.monthly is None and site.weather is None:
        instead = 'Write place = "Duluth, MN", monthly = [twelve means], or weather = "file.epw".'
        yield Mistake("site.place", "", "[site] does not say where.", instead)
    if site.monthly is not None and site.weather is not None:
        yield Mistake("site.weather", "", "monthly and weather both say how cold it is.", "Keep one of the two.")
    elif site.place is not None and site.monthly is not None:
        yield Mistake("site.monthly", "", "place and monthly both say how cold it is.", "Keep one of the two.")
    if site.monthly is not None and len(site.monthly) != 12:
        wrong = f"monthly has {len(site.monthly)} temperatures; a year has twelve."
        yield Mistake("site.monthly", "", wrong, "Write the mean of each month, January first.")
