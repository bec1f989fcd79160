"""Answers on one page: for the owner in plain words, for the contractor, for the official."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any, Literal

from ..drawings.when import MONTHS
from ..findings import Finding
from ..measure import say
from ..measure.table import System
from .content import at_the_head, head, picture_row, proposed
from .instance import instance_and_month
from .known import SEEN
from .letters import Letters
from .order import worst_first
from .transmittal import accepted_words
from .unchecked import subjects_left

if TYPE_CHECKING:
    from ..dossier import Dossier
    from .pictures import Pictures

Reader = Literal["owner", "contractor", "official"]
READERS: tuple[Reader, ...] = ("owner", "contractor", "official")
BESIDE = {"owner": 3, "contractor": 2, "official": 0}  # parts that stand beside the picture
LONGEST = 420  # letters of one item on a page that has to hold all
WARM = ("heat.corner-coldest", "heat.floor-coldest")
LOST = ("heat.loss-mean", "heat.loss-peak")


def one_page(
    dossier: Dossier, pictures: Pictures, day: str, reader: Reader, *, draft: bool, letters: Letters
) -> dict[str, Any]:
    """What one page for this reader says: a picture where it helps, and parts of which each is a list.

    ``least`` is how many items of a list stay when the page is full; the rest is then counted aloud. One of
    ``pictures.comparison`` is shown to the owner, one of ``pictures.sections`` to the contractor: the first for which
    there is room.
    """
    system: System = "US" if dossier.units == "US" else "SI"
    parts = {"owner": owner, "contractor": contractor, "official": official}[reader](dossier, system)
    parts = [part for part in parts if part["items"]]
    accepted = [_item(f"{f.title}: {accepted_words(f.accepted)}") for f in dossier.as_briefed.findings if f.accepted]
    if accepted:
        parts.append(_part("Accepted shortfalls", accepted, least=len(accepted)))
    cautions = _cautions(dossier)
    parts.append(_part("Cautions", [_item(c) for c in cautions], least=len(cautions)))
    shown = {"owner": pictures.comparison, "contractor": pictures.sections, "official": ()}[reader]
    told: dict[str, Any] = letters.fit(
        {
            **head(dossier, day, draft=draft),
            "paper": f"Answer for the {reader}",
            **at_the_head(dossier.as_briefed.findings),
            "place": dossier.place,
            "pictures": [picture_row(p) for p in shown],
            "parts": parts,
            "beside": BESIDE[reader],
            "left_out": left_out(parts, BESIDE[reader]),
        }
    )
    return {**told, "absent": letters.named()}


def left_out(parts: Sequence[dict[str, Any]], beside: int = 0) -> list[int]:
    """Which part gives up its last item first, and which next, until every part is at its least.

    The first ``beside`` parts stand beside the picture, where one item less seldom makes the page shorter: they come
    last.

    Examples
    --------
    >>> left_out([{"items": "abcde", "least": 3}, {"items": "ab", "least": 1}])
    [0, 0, 1]
    >>> left_out([{"items": "abcde", "least": 3}, {"items": "ab", "least": 1}], beside=1)
    [1, 0, 0]
    """
    spare = [max(len(part["items"]) - part["least"], 0) for part in parts]
    order = []
    for among in (range(beside, len(parts)), range(beside)):
        while any(spare[k] for k in among):
            fullest = max(among, key=lambda k: spare[k])
            spare[fullest] -= 1
            order.append(fullest)
    return order


def owner(dossier: Dossier, system: System) -> list[dict[str, Any]]:
    """Is it warm, is it dry, what does it lose, what does it cost, what to do."""
    found = dossier.as_briefed.findings
    lost = [f for id in LOST for f in found if f.id == id and f.value is not None]
    dry = [f for f in worst_first(found) if f.id.startswith("moisture.")]
    return [
        _part("What is proposed", [_item(line) for line in dossier.as_briefed.summary], least=3),
        _part("Is it warm?", _plain([f for id in WARM for f in found if f.id == id], dossier, system), least=2),
        _part("Is it dry?", _plain(dry, dossier, system), least=1),
        _part("What does it lose?", [_item(_numbered(f, dossier, system)) for f in lost], least=1),
        _part("What does it cost?", _costs(dossier, system), least=1),
        _part("What to do", _to_do(dossier), least=3),
    ]


def contractor(dossier: Dossier, system: System) -> list[dict[str, Any]]:
    """What lies on what, in which order, where the work stops for someone who looks."""
    briefed = dossier.as_briefed
    works = [
        _item(f"{w.number}. {w.what}{f', {w.where}' if w.where else ''}.", mark="stop" if w.stops else "")
        for w in briefed.sequence
    ]
    stops = [_item(f"{p.number}. {p.look_at}, {p.before}.", mark=p.who) for p in briefed.inspection]
    minds = list(dict.fromkeys(w.mind for w in briefed.sequence if w.mind))
    return [
        _part("From the room down, then the edges", [_item(p["words"]) for p in proposed(dossier)], least=4),
        _part("In what order", works, least=8, as_="lines"),
        _part("To look at, and who looks", stops, least=6, as_="columns"),
        _part("Mind while you work", [_item(m) for m in minds], least=2),
    ]


def official(dossier: Dossier, system: System) -> list[dict[str, Any]]:
    """What is asked, held to what, the answers with their sources, who signs, what was not checked."""
    briefed = dossier.as_briefed
    held = ", ".join(dossier.editions) or "no code edition is named in the brief"
    asked = [
        _item(f"{_capital(dossier.use)}, {dossier.place}."),
        _item(f"Held to: {held}."),
        *(_item(f"Answers {reference}") for reference in dossier.handover.references or ()),
    ]
    signs = [_item(f"{c.who}, {c.before}: {' '.join(c.what)}") for c in briefed.confirmers]
    unseen = [f"{f.title}: type {f.missing} in the brief." for f in briefed.findings if f.missing]
    return [
        _part("What is asked", asked, least=2),
        _part("What is proposed", [_item(line) for line in briefed.summary], least=3),
        _part("Does it hold?", [_held(f, system) for f in worst_first(briefed.findings)], least=5),
        _part(
            "What was not checked",
            [_item(s) for s in (*unseen, *subjects_left(briefed.findings))],
            least=4,
            as_="columns",
        ),
        _part("Who confirms and signs", signs, least=2),
    ]


def _part(
    title: str, items: Sequence[dict[str, str]], *, least: int, as_: Literal["list", "lines", "columns"] = "list"
) -> dict[str, Any]:
    """A part of the page: a list, lines that bring their own numbers, or two columns of lines."""
    return {"title": title, "items": list(items), "least": least, "as": as_}


def _item(words: str, *, mark: str = "", source: str = "", verdict: str = "") -> dict[str, str]:
    return {"words": _short(words), "mark": mark, "source": _short(source), "verdict": verdict}


def _short(words: str) -> str:
    return words if len(words) <= LONGEST else words[:LONGEST].rstrip() + "…"


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _plain(findings: Iterable[Finding], dossier: Dossier, system: System) -> list[dict[str, str]]:
    """Each finding as its own words, or as its title with its number."""
    items = []
    for f in findings:
        words = f.words or (_numbered(f, dossier, system) if f.value is not None else "")
        words = words or (f"{f.title}: cannot be told. Type {f.missing} in the brief." if f.missing else "")
        if words:
            items.append(_item(words, verdict=f.verdict if f.verdict in ("falls short", "cannot tell") else ""))
    return items


def _numbered(f: Finding, dossier: Dossier, system: System) -> str:
    """Title and number: "Coldest place of the floor, edge A: 64.1 °F (17.9 °C) in February."."""
    assert f.value is not None
    edge = f", edge {f.at['edge']}" if "edge" in f.at and len(dossier.as_briefed.sections) > 1 else ""
    when = f" in {MONTHS[f.month - 1]}" if f.month else ""
    return f"{f.title}{edge}: {say.both(f.value, f.unit, system)}{when}."


def _costs(dossier: Dossier, system: System) -> list[dict[str, str]]:
    told = [f for f in dossier.as_briefed.findings if f.id.startswith("money.")]
    return _plain(told, dossier, system) or [_item("Not worked out: this answer holds no prices.")]


def _to_do(dossier: Dossier) -> list[dict[str, str]]:
    found = worst_first(dossier.as_briefed.findings)
    short = [
        _item(f"{f.words or f.title} {accepted_words(f.accepted) if f.accepted else ''}".strip(), verdict=f.verdict)
        for f in found
        if f.verdict == "falls short"
    ]
    unknown = [_item(f"Find out {f.missing}: {f.title} cannot be told without it.") for f in found if f.missing]
    times: dict[str, list[str]] = {}
    for c in dossier.as_briefed.confirmers:
        times.setdefault(f"{c.who[:1].lower()}{c.who[1:]}", []).append(c.before)
    confirm = [_item(f"Ask the {who} {', '.join(dict.fromkeys(before))}.") for who, before in times.items()]
    return [*short, *unknown, *confirm] or [_item("Build it as it is drawn.")]


def _held(f: Finding, system: System) -> dict[str, str]:
    """Title, number against limit, sources by their short names and how each was seen."""
    words = ", ".join(filter(None, (f.title, instance_and_month(f, system))))
    if f.value is not None:
        words += f": {say.both(f.value, f.unit, system)}"
    if f.limit is not None:
        words += f", {f.sense} {say.both(f.limit, f.unit, system)}"
    if f.missing:
        words += f": type {f.missing} in the brief"
    return _item(f"{words}.", source=_sources(f), verdict=f.verdict)


def _sources(f: Finding) -> str:
    """Sources by their short names, those seen in one way together: "ISO 13788:2012, ISO 10211:2017, from memory"."""
    seen: dict[str, list[str]] = {}
    for b in f.basis:
        named = seen.setdefault(SEEN[b.seen].partition(",")[0], [])
        named += [short for short in [b.source.partition(",")[0]] if short not in named]
    return "; ".join(f"{', '.join(named)}, {how}" for how, named in seen.items())


def _cautions(dossier: Dossier) -> list[str]:
    beside = [f.caution for f in dossier.as_briefed.findings if f.caution]
    return list(dict.fromkeys([*dossier.cautions, *beside]))
