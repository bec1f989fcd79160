"""Answers on one page: for the owner in plain words, for the contractor, for the official."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any, Literal

from ..checks.ground import freezing
from ..drawings.when import MONTHS
from ..findings import Finding
from ..measure import say
from ..measure.table import System
from .clauses import OF_CODES, OPEN, clauses, open_first
from .content import at_the_head, head, picture_row, proposed
from .instance import instance_and_month
from .known import SEEN
from .letters import Letters
from .order import worst_first
from .transmittal import accepted_words
from .unchecked import subjects_left

if TYPE_CHECKING:
    from ..dossier import Dossier
    from ..laying.records import Confirmer
    from .pictures import Pictures

Reader = Literal["owner", "contractor", "official"]
READERS: tuple[Reader, ...] = ("owner", "contractor", "official")
BESIDE = {"owner": (3, 5), "contractor": (2,), "official": (0,)}  # how many parts may stand beside the picture
OWNER = "Owner"  # as laying names who confirms
LINE = 130  # letters of a caution on one line
LONGEST = 420  # letters of one item on a page that has to hold all
LINES = 6  # lines by clause that stay on the official's page before a text beside them is cut
SIGNED = "bearing."  # findings that an engineer signs for: what their words doubt stands beside the verdict
WARM = ("heat.corner-coldest", "heat.floor-coldest")
LOST = ("heat.loss-mean", "heat.loss-peak")


def one_page(
    dossier: Dossier, pictures: Pictures, day: str, reader: Reader, *, draft: bool, letters: Letters
) -> dict[str, Any]:
    """What one page for this reader says: a picture where it helps, and parts of which each is a list.

    ``leaves`` says which items of a list leave a page that is full, in their order; they are then counted aloud. One of
    ``pictures.comparison`` is shown to the owner, one of ``pictures.sections`` to the contractor: the first for which
    there is room.
    """
    system: System = "US" if dossier.units == "US" else "SI"
    parts = {"owner": owner, "contractor": contractor, "official": official}[reader](dossier, system)
    parts = [part for part in parts if part["items"]]
    accepted = [_item(f"{f.title}: {accepted_words(f.accepted)}") for f in dossier.as_briefed.findings if f.accepted]
    if accepted:
        parts.append(_part("Accepted shortfalls", accepted, leaves=()))
    parts.append(_part("Cautions", _cautions(dossier), leaves=()))
    shown = {"owner": pictures.comparison, "contractor": pictures.sections, "official": ()}[reader]
    told: dict[str, Any] = letters.fit(
        {
            **head(dossier, day, draft=draft),
            "paper": f"Answer for the {reader}",
            **at_the_head(dossier.as_briefed.findings),
            "place": dossier.place,
            "pictures": [picture_row(p) for p in shown],
            "parts": parts,
            "beside": list(BESIDE[reader]),
            "left_out": left_out(parts),
            "narrow": reader == "contractor",
        }
    )
    return {**told, "absent": letters.named()}


def left_out(parts: Sequence[dict[str, Any]]) -> list[list[int]]:
    """Which items leave a full page, one after the other, as part and item: of each turn's longest list first.

    Examples
    --------
    >>> left_out([{"leaves": [4, 3], "turn": 0}, {"leaves": [1], "turn": 0}])
    [[0, 4], [0, 3], [1, 1]]
    >>> left_out([{"leaves": [4, 3], "turn": 1}, {"leaves": [1], "turn": 0}])
    [[1, 1], [0, 4], [0, 3]]
    """
    order = []
    for turn in sorted({part["turn"] for part in parts}):
        going = {k: list(part["leaves"]) for k, part in enumerate(parts) if part["turn"] == turn}
        while any(going.values()):
            fullest = max(going, key=lambda k: len(going[k]))
            order.append([fullest, going[fullest].pop(0)])
    return order


def owner(dossier: Dossier, system: System) -> list[dict[str, Any]]:
    """Is it warm, is it dry, what does it lose, what does it cost, what to do."""
    found = dossier.as_briefed.findings
    lost = [f for id in LOST for f in found if f.id == id and f.value is not None]
    dry = [f for f in worst_first(found) if f.id.startswith("moisture.")]
    return [
        _part("What is proposed", [_item(line) for line in dossier.as_briefed.summary], least=3, turn=1),
        _part("Is it warm?", _plain([f for id in WARM for f in found if f.id == id], dossier, system), least=2, turn=1),
        _part("Is it dry?", _plain(dry, dossier, system), least=1, turn=1),
        _part("What does it lose?", [_item(_numbered(f, dossier, system)) for f in lost], least=1),
        _part("What does it cost?", _costs(dossier, system), least=1),
        _part("What to do", _to_do(dossier), least=3),
    ]


def contractor(dossier: Dossier, system: System) -> list[dict[str, Any]]:
    """What lies on what, in which order, where the work stops for someone who looks, what can hurt.

    A full page gives up steps first, those at which nobody looks; then looks, layers, and cautions of the work last.
    """
    briefed = dossier.as_briefed
    works = [
        _item(
            f"{w.number}. {w.what}{f', {w.where}' if w.where.startswith('edge') else ''}.",
            mark="stop" if w.stops else "",
            number=w.number,
        )
        for w in briefed.sequence
    ]
    looks = [_item(f"{p.number}. {p.look_at}, {p.before}.", mark=p.who, number=p.number) for p in briefed.inspection]
    minds = [_item(mind) for mind in dict.fromkeys(w.mind for w in briefed.sequence if w.mind)]
    layers = [_item(p["words"]) for p in proposed(dossier)]
    passed = [n for n, w in enumerate(briefed.sequence) if not w.stops]
    stops = [n for n, w in enumerate(briefed.sequence) if w.stops]
    leaves = [*reversed(passed), *reversed(stops)][: max(len(works) - 8, 0)]
    return [
        _part("Layers, then edges", layers, least=4, turn=3),
        _part("In what order", works, leaves=leaves, as_="lines", turn=1),
        _part("Mind while you work", minds, least=4, as_="columns", turn=4),
        _part("To look at, and who looks", looks, least=6, as_="columns", turn=2),
    ]


def official(dossier: Dossier, system: System) -> list[dict[str, Any]]:
    """What is asked, held to what, the answers with their sources, who signs, what was not checked."""
    briefed = dossier.as_briefed
    held = ", ".join(dossier.editions) or "no code edition is named in the brief"
    asked = [
        _item(f"{_capital(dossier.use)}, {dossier.place}."),
        *([_item(f"Floor: {briefed.size}.")] if briefed.size else []),
        _item(f"Held to: {held}."),
        *(_item(f"Answers {reference}") for reference in dossier.handover.references or ()),
    ]
    found = [f for f in worst_first(briefed.findings) if not f.id.startswith(OF_CODES)]
    by_clause = [
        {**_item(row["about"], verdict=row["verdict"]), "clause": row}
        for row in open_first(clauses(briefed.findings, dossier.editions, system))
        if row["verdict"] not in ("stated", "does not apply")
    ]
    signs = [_item(f"{c.who}, {c.before}: {' '.join(c.what)}") for c in briefed.confirmers]
    unseen = [_item(f"{f.title}: type {f.missing} in the brief.") for f in briefed.findings if f.missing]
    left = [{**_item(""), "words": " ".join(subjects_left(briefed.findings))}]
    frozen = sum(bool(freezing([f])) for f in found)
    open_rows = sum(row["verdict"] in OPEN for row in by_clause)
    most = 3 if by_clause else 12  # findings that stay on a full page
    if by_clause:
        unread, unsure = (sum(bool(item["clause"][key]) for item in by_clause) for key in ("unread", "doubtful"))
        asked.append(_item(f"Of the {len(by_clause)} lines by clause, {unread} are from memory and {unsure} doubtful."))
    held_to = sum(f.verdict != "stated" for f in found)
    return [
        _part("What is asked", asked, least=4 if by_clause else 3),
        _part("What is proposed", [_item(line) for line in briefed.summary], least=12, turn=1),
        _part("Does it hold?", [_held(f, system) for f in found], least=min(held_to + frozen, most)),
        _part("What the code asks, clause by clause", by_clause, least=max(open_rows, LINES), as_="clauses", turn=1),
        _part("What was not checked", [*left, *unseen] if left[0]["words"] else unseen, least=4),
        _part("Who confirms and signs", signs, least=2),
    ]


def _part(
    title: str,
    items: Sequence[dict[str, Any]],
    *,
    least: int = 0,
    leaves: Sequence[int] | None = None,
    as_: Literal["list", "lines", "columns", "clauses"] = "list",
    turn: int = 0,
) -> dict[str, Any]:
    """A part of the page: a list, lines that bring their own numbers, or two columns of lines.

    What leaves a full page is each item beyond ``least`` from the end on, unless ``leaves`` says which; ``turn`` says
    after which other parts.
    """
    going = list(reversed(range(least, len(items)))) if leaves is None else list(leaves)
    return {"title": title, "items": list(items), "leaves": going, "turn": turn, "as": as_}


def _item(words: str, *, mark: str = "", source: str = "", verdict: str = "", number: int = 0) -> dict[str, Any]:
    """One item; ``number`` is the one that its words begin with, 0 for none."""
    return {"words": _short(words), "mark": mark, "source": _short(source), "verdict": verdict, "number": number}


def _short(words: str) -> str:
    return words if len(words) <= LONGEST else words[:LONGEST].rstrip() + "…"


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _plain(findings: Iterable[Finding], dossier: Dossier, system: System) -> list[dict[str, Any]]:
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


def _costs(dossier: Dossier, system: System) -> list[dict[str, Any]]:
    told = [f for f in dossier.as_briefed.findings if f.id.startswith("money.")]
    return _plain(told, dossier, system) or [_item("Not worked out: this answer holds no prices.")]


def _to_do(dossier: Dossier) -> list[dict[str, Any]]:
    found = worst_first(dossier.as_briefed.findings)
    short = [
        _item(f"{f.words or f.title} {accepted_words(f.accepted) if f.accepted else ''}".strip(), verdict=f.verdict)
        for f in found
        if f.verdict == "falls short"
    ]
    unknown = [_item(f"Find out {f.missing}: {f.title} cannot be told without it.") for f in found if f.missing]
    confirm = [_item(words) for c in dossier.as_briefed.confirmers for words in _asks(c, found)]
    return [*short, *unknown, *confirm] or [_item("Build it as it is drawn.")]


def _asks(c: Confirmer, findings: Sequence[Finding]) -> list[str]:
    """Whom the owner asks about what and when; what the owner confirms himself, findings left out: they stand above."""
    if c.who == OWNER:
        own = [what for what in c.what if not any(what.startswith(f.title) for f in findings)]
        return [f"You confirm, {c.before}: {' '.join(map(_small, own))}"] if own else []
    return [f"Ask the {_small(c.who)}, {c.before}: {_subjects(c.what)}."]


def _subjects(what: Sequence[str]) -> str:
    """What each sentence is about: its first sentence as far as its colon.

    Examples
    --------
    >>> _subjects(["The slab: its thickness and joints.", "That it is tested. More than once."])
    'the slab; that it is tested'
    """
    return "; ".join(dict.fromkeys(_small(each.partition(":")[0].partition(". ")[0].rstrip(".")) for each in what))


def _small(words: str) -> str:
    """The words to go on within a sentence; a first word of capitals, such as EPS, keeps them."""
    return words if words[1:2].isupper() else words[:1].lower() + words[1:]


def _held(f: Finding, system: System) -> dict[str, Any]:
    """Title, number against limit, sources by their short names and how each was seen."""
    words = ", ".join(filter(None, (f.title, instance_and_month(f, system))))
    if f.value is not None:
        words += f": {say.both(f.value, f.unit, system)}"
    if f.limit is not None:
        words += f", {f.sense} {say.both(f.limit, f.unit, system)}"
    if f.missing:
        words += f": type {f.missing} in the brief"
    doubt = f" {f.words}" if f.id.startswith(SIGNED) and f.words else ""
    return _item(f"{words}.{doubt}", source=_sources(f), verdict=f.verdict)


def _sources(f: Finding) -> str:
    """Sources by their short names, those seen in one way together: "ISO 13788:2012, ISO 10211:2017, from memory"."""
    seen: dict[str, list[str]] = {}
    for b in f.basis:
        named = seen.setdefault(SEEN[b.seen].partition(",")[0], [])
        named += [short for short in [b.source.partition(",")[0]] if short not in named]
    return "; ".join(f"{', '.join(named)}, {how}" for how, named in seen.items())


def _cautions(dossier: Dossier) -> list[dict[str, Any]]:
    """Cautions of every paper and those beside findings, each in full and as a line."""
    beside = [f.caution for f in dossier.as_briefed.findings if f.caution]
    return [_item(c) | {"words": c, "line": _line(c)} for c in dict.fromkeys([*dossier.cautions, *beside])]


def _line(caution: str) -> str:
    """As many of a caution's sentences as a line holds, the first in any case.

    Examples
    --------
    >>> _line("Keep out. " * 20).count("Keep out.")
    13
    """
    first, *more = re.split(r"(?<=\.) ", caution.strip())
    for sentence in more:
        if len(first) + 1 + len(sentence) > LINE:
            break
        first += f" {sentence}"
    return first
