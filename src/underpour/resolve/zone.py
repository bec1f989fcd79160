"""The climate zone that a code has at the site: typed, of a ZIP area, or by degree-days; or why it cannot be told."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..brief.tables.site import Site
from ..catalogue import zones
from ..catalogue.records import Zone
from ..findings import Basis
from ..measure import System, say
from ..mistakes import Mistake
from .air import Air

COUNTRIES = ("US", "CA")


@dataclass(frozen=True, slots=True)
class ToldZone:
    """A zone with the words that are printed beside it, in both cases."""

    zone: str  # "6A", "4C" (marine 4), "7"; in Canada "7A"; "" where it cannot be told or does not apply
    words: str  # what it is and how it was found, or why it cannot be told and what to type
    candidates: tuple[str, ...] = ()  # every zone that it may be; the zone itself where it is told
    missing: str = ""  # the one key that settles it: "site.zip", "site.zone"; "" where it is told or does not apply
    applies: bool = True  # whether the country whose zones they are is that of the site
    typed: bool = False
    basis: tuple[Basis, ...] = ()
    credit: str = ""  # printed wherever the zone was looked up
    rests_on: tuple[str, ...] = ()
    either: str = ""  # which zones it may be and how that was found, where every candidate is known and none is told

    @property
    def number(self) -> int | None:
        """The zone's number, 0 to 8; None where no zone is told."""
        return int(self.zone[0]) if self.zone else None

    @property
    def marine(self) -> bool:
        """Whether it is one of the marine zones of US codes."""
        return zones.is_marine(self.zone)


@dataclass(frozen=True, slots=True)
class SiteZone:
    """What a site says of its climate zone; a zone is looked up when it is asked for."""

    called: str  # "Duluth, MN"
    country: str  # two letters; "" where nothing says which
    position: tuple[float, float] | None  # degrees north and east
    months: tuple[float, ...]  # degC
    measured: bool  # the months are typed or a station's own
    zip: str
    typed: str  # as the lists have it; "" where it is not typed
    system: System
    path: str  # the key of the brief that says where the site is

    def us(self, edition: int) -> ToldZone:
        """The zone of US codes, of an edition of that year.

        The map that is held is the one before the 2021 edition: from then on only a typed zone is told.
        """
        if self.typed:
            return self._as_typed("US", edition)
        if self.country not in ("", "US"):
            return ToldZone("", f"{self.called} has no zone of US codes.", applies=False)
        if not self.zip and self.position is None and edition >= zones.map_before():
            return ToldZone("", "Nothing says where the site lies. Give its zone (site.zone).", missing="site.zone")
        if not self.zip and self.position is None:
            return ToldZone("", "Nothing says where the site lies. Give its ZIP (site.zip).", missing="site.zip")
        found = self._found_us()
        if not self.zip and not self.country and zones.is_far(found.distance or 0.0):
            near = f"The nearest ZIP area, {found.zip}, lies {say.distance(found.distance or 0.0, self.system)} away."
            return ToldZone(
                "", f"{near} If the site is in the United States, give its zone (site.zone).", missing="site.zone"
            )
        told = ToldZone(
            found.zone,
            self._us_words(found),
            (found.zone,) if found.zone else found.disagreeing,
            missing="" if found.zone else "site.zip",
            basis=(_basis(found, "map of counties"),),
            credit=zones.credit("US"),
            rests_on=("site.zip" if self.zip else self.path,),
        )
        if edition < zones.map_before():
            return told
        was = " or ".join(zones.spoken(zone) for zone in told.candidates)
        why = f"The map that is held here is the one before the {zones.map_before()} edition, which moved counties"
        return replace(
            told,
            zone="",
            words=f"{why}; before it, this was zone {was}. Give the zone (site.zone).",
            missing="site.zone",
        )

    def canada(self) -> ToldZone:
        """The zone of the Canadian code."""
        if self.typed:
            return self._as_typed("CA", 0)
        if self.country not in ("", "CA"):
            return ToldZone("", f"{self.called} has no zone of the Canadian code.", applies=False)
        found = self._found_canada()
        low, high = found.degree_days or (0.0, 0.0)
        counted = f"{round(low, -1):.0f} to {round(high, -1):.0f} degree-days below 18 °C"
        told = ToldZone(
            found.zone,
            f"Zone {found.zone}, {found.note}: {counted}{self._how_sure(found)}",
            (found.zone,) if found.zone else found.disagreeing,
            basis=(_basis(found, "zones by degree-days"),),
            credit=zones.credit("CA"),
            rests_on=(self.path,),
        )
        if found.zone:
            return told
        either = f"Zone {' or '.join(found.disagreeing)}, {found.note}: {counted}{self._how_sure(found)}"
        return replace(told, words=f"{either} Give the zone (site.zone).", missing="site.zone", either=either)

    def noted(self) -> ToldZone:
        """What to print where a zone or a ZIP is typed; without words where neither is."""
        if self.typed and self.country not in ("", *COUNTRIES):
            words = f"{zones.spoken(self.typed)} is a zone of US or Canadian codes; "
            return ToldZone("", f"{words}{self.called} lies in neither country.", applies=False)
        if self.typed and self._canadian():
            return self.canada()
        return self.us(zones.map_before() - 1) if self.typed or self.zip else ToldZone("", "", applies=False)

    def nearest_zip(self) -> str:
        """The ZIP area nearest to the site; "" where nothing says where in the United States it lies."""
        return zones.us(*self.position).zip if self.position is not None and self.country in ("", "US") else ""

    def _canadian(self) -> bool:
        return self.country == "CA" or (not self.country and not zones.listed(self.typed, "US"))

    def _as_typed(self, whose: str, edition: int) -> ToldZone:
        if not zones.listed(self.typed, whose):
            code = "US codes" if whose == "US" else "Canadian codes"
            words = f"Zone {self.typed} is not a zone of {code}. Give the one that they have here (site.zone)."
            return ToldZone("", words, missing="site.zone")
        words = f"Zone {zones.spoken(self.typed)}, as typed (site.zone)."
        if self.typed in zones.numbers() and whose == "US":
            words += " Without its letter it is taken as not marine."
        held = whose == "CA" or edition < zones.map_before()
        looked_up = self.country == whose and held
        differs = self._otherwise(self._found_us() if whose == "US" else self._found_canada()) if looked_up else ""
        return ToldZone(
            self.typed,
            words + differs,
            (self.typed,),
            typed=True,
            credit=zones.credit(whose) if differs else "",
            rests_on=("site.zone",),
        )

    def _otherwise(self, found: Zone) -> str:
        """What to say where the map has another zone than the one typed; typed wins."""
        maybe = (found.zone,) if found.zone else found.disagreeing
        if any(zones.alike(zone, self.typed) for zone in maybe):
            return ""
        by = f"the map has {_or(maybe)} at ZIP area {found.zip}" if found.zip else f"degree-days there say {_or(maybe)}"
        return f" That differs: {by}. What is typed is taken."

    def _found_us(self) -> Zone:
        if self.zip or self.position is None:
            return zones.us_by_zip(self.zip)
        return zones.us(*self.position)

    def _found_canada(self) -> Zone:
        if self.measured or self.position is None:
            return zones.canada_by_months(self.months)
        return zones.canada_at(*self.position, self.months)

    def _us_words(self, found: Zone) -> str:
        around = say.distance(zones.around(), self.system)
        listed = f"Map of the editions before {zones.map_before()}; the county's own entry in the code decides."
        if self.zip:
            beside = f" Within {around} there is also {_or(found.disagreeing)}." if found.disagreeing else ""
            return f"Zone {zones.spoken(found.zone)}, of ZIP area {found.zip}.{beside} {listed}"
        away = f"ZIP area {found.zip}, whose middle lies {say.distance(found.distance or 0.0, self.system)} away"
        if found.zone:
            return f"Zone {zones.spoken(found.zone)}, of {away}. {listed}"
        near = (
            f"ZIP areas within {around} of {self.called} lie in {_or(found.disagreeing, 'and')}; the nearest is {away}."
        )
        return f"{near} Give the site's ZIP (site.zip), or its zone (site.zone)."

    def _how_sure(self, found: Zone) -> str:
        """How far the count may be off, and why."""
        if found.distance is not None:
            return f" (a station {say.distance(found.distance, self.system)} away, doubt of the code's table included)."
        if self.measured:
            return " (doubt of the code's table included)."
        return (
            ". The record runs warm there against the stations that the code's table was made from; that is counted in."
        )


def site_zone(site: Site, outdoors: Air, system: System, found: list[Mistake]) -> SiteZone:
    """What the site says of its zone; what cannot be, such as a ZIP far from the place, is added to ``found``."""
    typed = ""
    if site.zone is not None:
        try:
            typed = zones.typed(site.zone, outdoors.country if outdoors.country in COUNTRIES else "")
        except Mistake as mistake:
            found.append(mistake)
    if site.zip is not None:
        try:
            _fits(site.zip, outdoors, system)
        except Mistake as mistake:
            found.append(mistake)
    return SiteZone(
        called=outdoors.called,
        country=outdoors.country or ("US" if site.zip else ""),
        position=outdoors.position,
        months=outdoors.months,
        measured=outdoors.measured,
        zip=site.zip or "",
        typed=typed,
        system=system,
        path=outdoors.path,
    )


def _fits(number: str, outdoors: Air, system: System) -> None:
    """Refuses a ZIP that is not that of the place; beside a weather file it may lie farther from the station."""
    area = zones.zip_area(number)
    if outdoors.path != "site.place" or outdoors.position is None:
        return
    away = zones.apart((area.latitude, area.longitude), outdoors.position)
    keep = "Which of the two is the site? Keep the one, or mend the other."
    if outdoors.country not in ("", "US"):
        wrong = f"A ZIP is in the United States; {outdoors.called} is not."
        raise Mistake("site.zip", f'"{number}"', wrong, keep)
    if zones.is_far(away):
        wrong = f"ZIP {number} lies {say.distance(away, system)} from {outdoors.called}."
        raise Mistake("site.zip", f'"{number}"', wrong, keep)


def _basis(found: Zone, clause: str) -> Basis:
    return Basis(found.source.title, clause, found.seen)


def _or(names: tuple[str, ...], word: str = "or") -> str:
    return f"zones {f' {word} '.join(map(zones.spoken, names))}" if len(names) > 1 else f"zone {zones.spoken(names[0])}"
