"""What the floor is held to: code editions, local files, and what their triggers ask of the brief."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..brief.model import Brief
from ..brief.tables.floor import Seasons
from ..catalogue import codes, zones
from ..catalogue.codes import Codes, Edition
from ..catalogue.read import table
from ..catalogue.records import Use
from ..mistakes import Mistake, Mistakes
from .air import Air
from .assumptions import Assumptions
from .zone import SiteZone, ToldZone

TUBED = (
    "This slab is a heated one, which codes ask. What its tubes or cables give and what goes down is told by itself "
    "(warm); the heat of floor and edges, and humidity at surfaces, are those of the same floor with the heating off."
)
INSIDE = "floor.inside"
FROST = "site.frost-depth"
RESIDENTIAL = ("dwelling", "basement", "garage")  # uses that a code of dwellings plainly covers


@dataclass(frozen=True, slots=True)
class Held:
    """The editions of a brief in their order, and the facts about the building that rows are asked by."""

    codes: Codes
    editions: tuple[Edition, ...]
    heated: bool  # the slab
    conditioned: bool | None  # the room; None where the brief does not say
    winter: float | None  # how warm the room is kept in winter, degC; None where the brief does not say
    work: str  # new, addition, alteration; "" where the brief does not say
    frost_depth: float | None  # m
    frost_words: str
    heat_recovery: bool | None
    notes: tuple[str, ...]  # what an edition covers, and the zone that it is read for


def held(brief: Brief, use: Use, outdoors: Air | None, assumed: Assumptions, found: list[Mistake]) -> Held:
    """What the brief is held to; what cannot be, such as an edition nobody knows, is added to ``found``."""
    known = _in_hand(brief, found)
    editions = _editions(brief, known, found)
    if outdoors is not None:
        found += _elsewhere(brief, editions, outdoors)
    winter = _winter(brief, outdoors, assumed)
    frost = brief.site.frost_depth
    return Held(
        codes=known,
        editions=editions,
        heated=brief.tube is not None,
        conditioned=_conditioned(use, winter),
        winter=winter,
        work=brief.project.work or "",
        frost_depth=frost.si if frost is not None else assumed.missing(FROST),
        frost_words=frost.typed if frost is not None else "",
        heat_recovery=brief.project.heat_recovery,
        notes=(
            *_covered(editions, use),
            *((TUBED,) if brief.tube is not None else ()),
        ),
    )


def _covered(editions: Sequence[Edition], use: Use) -> Iterator[str]:
    """What an edition covers, where the use is not plainly of it."""
    for edition in editions:
        if "dwelling" in edition.covers and use.key not in RESIDENTIAL:
            yield f"{edition.title} is for {edition.covers}. Ask the building office whether it holds for this floor."


def _winter(brief: Brief, outdoors: Air | None, assumed: Assumptions) -> float | None:
    """How warm the room is in winter, as typed; as cold as outdoors where it is not heated. [degC]"""
    inside = brief.floor.inside
    if inside == "unheated":
        return min(outdoors.months) if outdoors is not None else None
    winter = inside.winter if isinstance(inside, Seasons) else inside
    return winter.si if winter is not None else assumed.missing(INSIDE)


def _conditioned(use: Use, winter: float | None) -> bool | None:
    """Whether the room counts as heated: it is typed how warm it is kept, or people sit in it."""
    if use.room is None or use.cold_floor:
        return False
    if winter is not None:
        return winter >= codes.heated_from()
    return True if use.floor_at_least is not None else None


def _in_hand(brief: Brief, found: list[Mistake]) -> Codes:
    """The tool's editions with the brief's own files; files that cannot be used are told."""
    own = []
    several = len(brief.project.local_code) > 1
    for n, file in enumerate(brief.project.local_code, 1):
        at = f"project.local-code.{n}" if several else "project.local-code"
        try:
            own.append(codes.own_file(file.path))
        except Mistakes as mistakes:
            for each in mistakes:
                line = f"{file.typed}:{each.line}: " if each.line else ""
                key = f"{each.at}: " if each.at else ""
                found.append(Mistake(at, f'"{file.typed}"', f"{line}{key}{each.wrong}", each.instead))
    known = Codes(tuple(own)) if own else codes.shipped()
    found += _unclear_own([edition for edition, _ in own], known, brief)
    return known


def _unclear_own(own: Sequence[Edition], known: Codes, brief: Brief) -> list[Mistake]:
    """Files of one name, of one day, or that amend nothing that the brief is held to."""
    at, found = "project.local-code", []
    typed = [key for key in brief.project.code if key in known.editions]
    for n, edition in enumerate(own):
        before = own[:n]
        if any(other.key == edition.key for other in before) or edition.key in codes.shipped().editions:
            wrong = f"Two editions are called {edition.key}."
            found.append(Mistake(at, "", wrong, "Give one of the files another name; its name is its key."))
        chained = [key for key in typed if edition.amends in {each.key for each in known.chain(key)}]
        if edition.amends and not chained:
            wrong = f"{edition.title} amends {edition.amends}, and the brief is held to {_listed(typed) or 'no code'}."
            instead = f'Write code = "{edition.amends}", or leave amends out of the file: it then stands by itself.'
            found.append(Mistake(at, "", wrong, instead))
        beside = [other for other in before if other.amends and other.amends == edition.amends]
        beside += [known.editions[key] for key in chained]
        same = [other for other in beside if other.date == edition.date and edition.amends]
        if same:
            wrong = f"{edition.title} and {same[0].title} are both of {edition.date}: which is newer cannot be told."
            found.append(Mistake(at, "", wrong, "Type in the file the day from which it holds: date = 2024-07-01."))
    return found


def _editions(brief: Brief, known: Codes, found: list[Mistake]) -> tuple[Edition, ...]:
    several = len(brief.project.code) > 1
    made: list[Edition] = []
    for n, key in enumerate(brief.project.code, 1):
        at = f"project.code.{n}" if several else "project.code"
        try:
            edition = known.edition(key)
        except Mistake as mistake:
            found.append(mistake.placed(at=at))
            continue
        if edition in made:
            found.append(Mistake(at, f'"{key}"', f"{key} is named twice.", "Name each edition once."))
        else:
            made.append(edition)
    return (*made, *(edition for edition in known.editions.values() if edition.own and not edition.amends))


def _elsewhere(brief: Brief, editions: Sequence[Edition], outdoors: Air) -> list[Mistake]:
    """A code of one country or state for a place in another: which of the two is meant is asked."""
    found = []
    named = table("climate/regions")
    state = outdoors.called.rpartition(", ")[2]
    for edition in editions:
        if edition.own or not edition.country or not outdoors.country:
            continue
        if edition.country != outdoors.country:
            theirs, here = (_the(named["country"][each][0]) for each in (edition.country, outdoors.country))
            wrong = f"{edition.title} is a code of {theirs}, and {outdoors.called} lies in {here}."
        elif edition.state and state in named["state"].get(edition.country, {}) and state != edition.state:
            theirs, here = (named["state"][edition.country][each] for each in (edition.state, state))
            wrong = f"{edition.title} is a code of {theirs}, and {outdoors.called} lies in {here}."
        else:
            continue
        there = [key for key, each in codes.shipped().editions.items() if each.country == outdoors.country]
        fit = [key for key in there if codes.shipped().editions[key].state in ("", state)]
        offer = f"Codes known there: {', '.join(fit)}." if fit else "No code of that country is known here."
        instead = f'Which of the two is meant? {offer} Elsewhere write code = "good-practice", or a file of your own.'
        found.append(Mistake("project.code", f'"{edition.key}"', wrong, instead))
    return found


def _the(country: str) -> str:
    return f"the {country}" if country.startswith("United") else country


def _listed(words: Sequence[str]) -> str:
    return " and ".join(words)


def zone_for(site: SiteZone, edition: Edition) -> ToldZone:
    """The climate zone that an edition has at the site, by its own list and its own map."""
    canada = edition.zones == "CA" or (not edition.zones and site.country == "CA")  # house rules name no list
    return site.canada() if canada else site.us(zones.map_before() - (edition.map == "before-2021"))


def zone_credits(site: SiteZone, holds: Held) -> tuple[str, ...]:
    """Whose data a zone was looked up in: for each edition with rows by zone, and where the brief types a ZIP."""
    told = [site.noted(), *(zone_for(site, each) for each in holds.editions if _by_zone(holds.codes, each))]
    return tuple(dict.fromkeys(each.credit for each in told if each.credit))


def _by_zone(known: Codes, edition: Edition) -> bool:
    standing = [known.standing(edition.key, subject) for subject in codes.subjects()]
    return any(row.zones for each in standing if each is not None for row in each.rows)
