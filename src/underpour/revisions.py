"""What moved against the last revision: of the brief as typed, of what was assumed, and of the findings."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from types import NoneType
from typing import TYPE_CHECKING, Any

from .brief.paths import written
from .brief.typed import Typed
from .brief.wording import toml
from .dossier import Change, Moved
from .dossier_json import FORMAT
from .measure import System, say
from .measure.table import printed
from .mistakes import Mistake
from .toml_text import read_toml

if TYPE_CHECKING:
    from .dossier import Dossier

Instance = tuple[str, frozenset[tuple[str, str | float]]]  # a finding's id and at
WHICH_SLAB = (("site.place", "site.zip"), ("plan.outline",))  # where it is, by the first that is typed; its shape
_NUMBER = (int, float, NoneType)
NOT_COMPARED = ("handover.revision", "handover.number")  # they change with every revision


def earlier(text: str, file: str) -> dict[str, Any]:
    """The last revision, as ``answer --json`` or ``submittal --keep`` wrote it.

    Raises
    ------
    Mistake
        No JSON, no object of the form findings/1, one without its brief, or one in which a part is gone.
    """
    how = "Give what submittal --keep or answer --json wrote for the last revision."
    try:
        read = json.loads(text)
    except json.JSONDecodeError as wrong:
        raise Mistake("", "", "This is no JSON.", how, file, wrong.lineno) from None
    except RecursionError:
        raise Mistake("", "", "Its brackets stand too deep in one another.", how, file) from None
    form = read.get("format") if isinstance(read, dict) else None
    if form != FORMAT:
        said = f"Its format is {form}" if form else "It has no format"
        raise Mistake("", "", f"{said}; {FORMAT} is read.", how, file)
    if not isinstance(read.get("brief"), str) or not isinstance(read.get("alternatives"), list):
        raise Mistake("", "", "This file does not hold the brief that it answers.", how, file)
    read_toml(read["brief"], file)
    if not _whole(read):
        raise Mistake("", "", "Parts of what was kept are gone, or were changed by hand.", how, file)
    return dict(read)


def _whole(read: Mapping[str, Any]) -> bool:
    """Whether all that is compared stands in a kept revision, each of its own kind."""
    answers, assumed, notes = read["alternatives"], read.get("assumed"), read.get("notes", [])
    found = answers[0].get("findings") if answers and isinstance(answers[0], dict) else None
    return (
        isinstance(found, list)
        and all(
            _holds(f, id=str, title=str, at=dict, unit=str, verdict=str, value=_NUMBER, limit=_NUMBER) for f in found
        )
        and all(f["unit"] in printed() for f in found)
        and all(isinstance(which, str | int | float) for f in found for which in f["at"].values())
        and isinstance(assumed, list)
        and all(_holds(each, path=str, unit=str, value=(str, *_NUMBER)) for each in assumed)
        and isinstance(notes, list)
        and all(isinstance(note, str) for note in notes)
        and _holds(read, made_by=dict)
        and _holds(read["made_by"], version=str)
        and isinstance(read.get("handover", {}), dict)
    )


def _holds(part: object, **kinds: type | tuple[type, ...]) -> bool:
    return isinstance(part, dict) and all(key in part and isinstance(part[key], kind) for key, kind in kinds.items())


def of_this_slab(last: Mapping[str, Any], brief: str, file: str) -> None:
    """Refuses the last revision of another slab: another title, and another place or outline as well.

    One of them alone may change between two revisions of a slab; all that moved is marked then.

    Raises
    ------
    Mistake
        Title and place, or title and outline, are not those of the brief.
    """
    was, now = _leaves(last["brief"]), _leaves(brief)
    title = "project.title"
    if was.get(title) == now.get(title) or all(_first(was, paths) == _first(now, paths) for paths in WHICH_SLAB):
        return
    wrong = f"It answers another slab, “{was.get(title, '')}”; this brief is “{now.get(title, '')}”."
    instead = "Give what was kept of this slab. If it is the same one, keep its title for this revision."
    raise Mistake("", "", wrong, instead, file)


def may_be_kept_over(text: str, brief: str, file: str) -> None:
    """Refuses to keep a revision over what is something else: another revision, or a file of another kind.

    Raises
    ------
    Mistake
        What stands in ``file`` is not this revision of the brief.
    """
    try:
        kept = earlier(text, file)
    except Mistake:
        raise Mistake(
            "", "", "What stands there is no revision that was kept.", "Write to another name.", file
        ) from None
    was, now = (_leaves(each).get("handover.revision", "") for each in (kept["brief"], brief))
    if was != now:
        wrong = f"It keeps {_called(was)}; this brief is {_called(now)}."
        raise Mistake("", "", wrong, "Keep each revision under a name of its own.", file)
    of_this_slab(kept, brief, file)


def _called(revision: str) -> str:
    return f"revision {revision}" if revision else "the first issue"


def moved(last: Mapping[str, Any], dossier: Dossier) -> Moved:
    """What is otherwise in ``dossier`` than in the last revision, in words, as printed.

    A number has moved where its printed words, its limit or its verdict have.

    Parameters
    ----------
    last : mapping
        As ``earlier`` hands it on.
    dossier : Dossier
        The brief answered now.
    """
    return Moved(
        since=str(last.get("handover", {}).get("revision", "")),
        version=str(last["made_by"]["version"]),
        typed=tuple(_changes(_leaves(last["brief"]), _leaves(dossier.brief_text))),
        assumed=(
            *_changes(_taken(last["assumed"], dossier.units), _taken_now(dossier)),
            *_changes(_lines(last.get("notes", ())), _lines(dossier.notes)),
        ),
        findings=dict(_findings(last["alternatives"][0]["findings"], dossier)),
    )


def _changes(was: Mapping[str, str], now: Mapping[str, str]) -> Iterator[Change]:
    for path in (*now, *(path for path in was if path not in now)):
        if was.get(path, "") != now.get(path, "") and path not in NOT_COMPARED:
            yield Change(path, was.get(path, ""), now.get(path, ""))


def _leaves(text: str) -> dict[str, str]:
    """Every value of a brief as typed, by its path."""
    return dict(_leaf(Typed.of(read_toml(text, "")), ()))


def _first(leaves: dict[str, str], paths: tuple[str, ...]) -> str | None:
    """What is typed at the first of these paths that is typed at all."""
    return next((leaves[path] for path in paths if path in leaves), None)


def _leaf(node: Typed, path: tuple[str | int, ...]) -> Iterator[tuple[str, str]]:
    if isinstance(node.value, dict) and node.value:
        for key, child in node.value.items():
            yield from _leaf(child, (*path, key))
    elif isinstance(node.value, list) and any(isinstance(child.value, dict) for child in node.value):
        for number, child in enumerate(node.value):
            yield from _leaf(child, (*path, number))
    else:
        plain = node.plain()
        yield written(path), plain if isinstance(plain, str) else toml(plain)


def _taken(assumed: list[Mapping[str, Any]], system: System) -> dict[str, str]:
    return {each["path"]: say.of_any_unit(each["value"], each["unit"], system) for each in assumed}


def _taken_now(dossier: Dossier) -> dict[str, str]:
    return {each.path: say.of_any_unit(each.value, each.unit, dossier.units) for each in dossier.assumed}


def _lines(notes: Iterable[str]) -> dict[str, str]:
    """What was known of the data, such as the months of a weather file, by place in the list."""
    return {f"What to know of the data, {number}": note for number, note in enumerate(notes, 1)}


def _findings(last: list[Mapping[str, Any]], dossier: Dossier) -> Iterator[tuple[Instance, Change]]:
    """By instance; what is gone now comes last."""
    system = dossier.units
    was = {_instance(f["id"], f["at"]): f for f in last}
    now = {_instance(f.id, f.at): f for f in dossier.as_briefed.findings}
    for place, finding in now.items():
        old = was.get(place)
        before = "" if old is None else _said(old["value"], old["limit"], old["unit"], old["verdict"], system)
        after = _said(finding.value, finding.limit, finding.unit, finding.verdict, system)
        if before != after:
            by = "" if old is None else _by(old["value"], finding.value, finding.unit, system)
            yield place, Change(finding.title, before, after, by)
    for place, old in was.items():
        if place not in now:
            yield (
                place,
                Change(old["title"], _said(old["value"], old["limit"], old["unit"], old["verdict"], system), ""),
            )


def _instance(id: str, at: Mapping[str, str | float]) -> Instance:
    return id, frozenset(at.items())


def _said(value: float | None, limit: float | None, unit: str, verdict: str, system: System) -> str:
    """Value, limit and verdict as printed: "14.9 °C (58.8 °F), limit 15.0 °C (59.0 °F), falls short"."""
    parts = [
        "" if value is None else say.both(value, unit, system),
        "" if limit is None else f"limit {say.both(limit, unit, system)}",
        "" if verdict == "stated" else verdict,
    ]
    return ", ".join(filter(None, parts))


def _by(was: float | None, now: float | None, unit: str, system: System) -> str:
    if was is None or now is None or was == now:
        return ""
    return f"{'up' if now > was else 'down'} by {say.margin(abs(now - was), unit, system)}"
