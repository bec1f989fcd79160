"""Which rows of an edition apply here, or why none does, or which key of the brief would tell."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from ...catalogue.codes import Edition, Row, Standing, subjects, triggers, unsaid
from ...measure import say
from ...resolve import Resolved, ResolvedEdge, ToldZone, zone_for
from .facts import Fact, Facts, both, facts, no


@dataclass(frozen=True, slots=True)
class Chosen:
    """What stands of a subject for one edition: rows, or a missing key, or neither, with the words for it."""

    standing: Standing
    rows: tuple[Row, ...] = ()
    missing: str = ""
    words: str = ""
    zone: ToldZone | None = None

    @property
    def clauses(self) -> tuple[Row, ...]:
        """The rows that apply, or the first that was looked at."""
        return self.rows or self.standing.rows[:1]


def chosen(
    resolved: Resolved,
    edition: Edition,
    subject: str,
    edge: ResolvedEdge | None = None,
    among: Callable[[Row], bool] = lambda row: True,
) -> Chosen | None:
    """The rows of an edition that apply to this floor, or at this edge; None where it has none on the subject.

    First the words at the head of the subject, then the climate zone, then each row's own words: what is not told is
    asked for by its key only where it could still decide.
    """
    standing = resolved.held.codes.standing(edition.key, subject)
    rows = [row for row in standing.rows if among(row)] if standing else []
    if standing is None or not rows:
        return None
    known = facts(resolved, edge)
    whole = [known[word] for word in subjects()[subject].when]
    decided = both(*whole)
    if decided is False:
        return Chosen(standing, words=_not_so(subjects()[subject].when[whole.index(False)]))
    fitting = [(row, _fits(row, known, resolved, edge)) for row in rows]
    open_ = [row for row, fact in fitting if fact is not False]
    if not open_:
        return Chosen(standing, words=_why_none(rows, known, resolved, edge))
    zone = zone_for(resolved.zone, edition) if any(row.zones for row in open_) else None
    alike = _alike(open_, zone) if zone is not None and zone.either else []
    if zone is not None and alike:
        zone = replace(zone, words=f"{zone.either} Whichever of them it is, the same is asked here.", missing="")
    elif zone is not None and not zone.zone:
        return Chosen(standing, missing=zone.missing, words=zone.words, zone=zone)
    here = alike or [row for row in open_ if zone is None or row.zone_fits(zone.zone)]
    if zone is not None and not here:
        there = ", ".join(dict.fromkeys(each for row in open_ for each in row.zones))
        words = f"{standing.edition.title} has rows for zones {there}; none was found for zone {zone.zone}."
        return Chosen(standing, missing="site.zone", words=words, zone=zone)
    unknown = [decided] if isinstance(decided, str) else []
    unknown += [fact for row, fact in fitting if row in here and isinstance(fact, str)]
    if unknown:
        return Chosen(standing, missing=unknown[0], words=_asked(unknown[0], known, here), zone=zone)
    return Chosen(standing, tuple(here), zone=zone)


def _fits(row: Row, known: Facts, resolved: Resolved, edge: ResolvedEdge | None) -> Fact:
    return both(
        *(known[word] for word in row.when),
        *(no(known[word]) for word in row.unless),
        _less_below(row, resolved, edge),
    )


def _less_below(row: Row, resolved: Resolved, edge: ResolvedEdge | None) -> Fact:
    """Whether the floor lies less deep below the ground than the row's limit, everywhere where no edge is named."""
    if row.less_below_grade is None:
        return True
    edges = (edge,) if edge is not None else resolved.edges
    limit = row.less_below_grade.si
    return both(*((each.ground < limit if each.ground_told else f"{each.path}.ground") for each in edges))


def _why_none(rows: Sequence[Row], known: Facts, resolved: Resolved, edge: ResolvedEdge | None) -> str:
    """Why no row applies, by the first word of the first row that is against it."""
    row = rows[0]
    if row.less_below_grade is not None and _less_below(row, resolved, edge) is False:
        deep = max(each.ground for each in ((edge,) if edge is not None else resolved.edges))
        lies = say.both(deep, "m", resolved.system)
        limit = say.typed(row.less_below_grade, "m", resolved.system)
        return f"The floor lies {lies} below the ground; this is asked of floors less than {limit} below it."
    for word in row.when:
        if known[word] is False:
            return _not_so(word)
    so = next(word for word in row.unless if known[word] is True)
    return f"It is not asked where {triggers()[so][0]}; that is so here."


def _not_so(word: str) -> str:
    """That a word does not hold here, with what the brief lacks where that is why."""
    return f"It is asked where {triggers()[word][0]}; that is not so here. {unsaid().get(word, '')}".strip()


def _asked(key: str, known: Facts, rows: Sequence[Row]) -> str:
    """The question that a missing key answers."""
    words = [word for row in rows for word in (*row.when, *row.unless)] + list(known)
    word = next((word for word in words if known[word] == key), "")
    if word:
        return f"Nothing tells whether {triggers()[word][0]}, and the code asks."
    return "Nothing tells how high the ground stands outside, and the code asks how deep the floor lies below it."


def _alike(rows: Sequence[Row], zone: ToldZone) -> list[Row]:
    """The rows of the zone that was seen least surely, where every zone that it may be asks the same; else none."""
    of_each = [[row for row in rows if row.zone_fits(each)] for each in zone.candidates]
    if len({tuple(map(_what, each)) for each in of_each}) != 1:
        return []
    return max(of_each, key=lambda each: sum(2 * bool(row.doubtful) + (row.seen == "memory") for row in each))


def _what(row: Row) -> tuple[object, ...]:
    """What a row asks, and of what floor."""
    asked = tuple(sorted((key, measure.si) for key, measure in row.asks.items()))
    return asked, row.place, row.route, row.when, row.unless, row.less_below_grade
