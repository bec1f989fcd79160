"""What keeps the ground's vapour out of this floor: a film, a facing on the foam, or nothing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ..catalogue.properties import properties
from ..catalogue.records import Seams
from ..conformity import Membrane, membrane, permeance_limit
from ..conformity.rules import rules
from ..conformity.single import row
from ..findings import Basis, Finding, Step
from ..measure import System, say
from ..measure.digits import fixed
from ..resolve import Resolved, Slice

ID = "moisture.film"
UNIT = "ng/(Pa·s·m²)"
OFFICIAL = "The building official decides what counts as the code's vapour retarder."


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet against vapour in the floor: a film, or a facing on a board."""

    key: str
    label: str
    facing: str  # what the facing is; "" for a film
    where: str  # "above the foam"
    path: str
    permeance: float | None  # ng/(Pa·s·m²); None where no record tells it
    basis: tuple[Basis, ...]
    shown: Membrane | None  # None for a kind of film, which has no records
    plastic: bool  # held to the standard for plastic films
    seams: Seams | None = None  # as they are typed

    @property
    def counts(self) -> bool:
        """Whether its records show that it is a membrane."""
        return self.shown is not None and self.shown.counts


def of_floor(resolved: Resolved) -> Iterator[Finding]:
    """Sheets of the floor that are shown to be a film below slabs, and the permeance of each.

    Asks
        What is the film of this floor, and is it one that a code takes as its vapour retarder?
    Why
        A facing that slows vapour, or a film that tears when it is walked on, looks the same as a membrane once the
        concrete is cast.
    Worked out
        Each film and each facing of the floor is held to the numbers of the standard's least class: permeance new and
        after conditioning, tensile strength, puncture. A facing must also be tested as a film as a whole, with a tape
        tested to it. Those that show all of it are counted.
    Holds for
        Plastic films and facings. Bitumen sheets have a standard of their own, whose numbers are not held here. Where
        the film lies best, and what a code's edition asks, are other questions.
    Source
        ASTM E1745 (numbers quoted), ASTM E1643 for laps and tape (from memory); the products' records.
    """
    found = tuple(sheets(resolved))
    yield _membrane(resolved, found)
    yield from (_permeance(each, resolved.system) for each in found)


def sheets(resolved: Resolved) -> Iterator[Sheet]:
    """Every film and facing of the floor once, from the room down."""
    said: set[str] = set()
    for n, layer in enumerate(resolved.floor):
        if layer.key in said:
            continue
        said.add(layer.key)
        if layer.film is not None:
            yield _film(resolved, layer, n)
        elif layer.record is not None and resolved.products.has(layer.key):
            yield from _facing(resolved, layer)


def _film(resolved: Resolved, layer: Slice, n: int) -> Sheet:
    film = layer.film
    assert film is not None
    known = resolved.products.has(layer.key)
    return Sheet(
        key=layer.key,
        label=film.label,
        facing="",
        where=_where(resolved.floor, n),
        path=layer.path,
        permeance=film.permeance.value,
        basis=(film.permeance.basis(),),
        shown=_shown(resolved, layer.key) if known else None,
        plastic=not film.standard,
        seams=layer.seams,
    )


def _facing(resolved: Resolved, layer: Slice) -> Iterator[Sheet]:
    product = resolved.products.product(layer.key)
    if product.facing is None:
        return
    rows = [row(each, product, 0, resolved.products.day, rules()) for each in product.evidence]
    tested = [each for each in rows if each.of.key == "permeance-faced" and each.counts and (each.value or 0.0) > 0.0]
    origin = resolved.products.line_of(layer.key).source
    worst = max(tested, key=lambda each: each.value or 0.0, default=None)
    yield Sheet(
        key=layer.key,
        label=layer.label,
        facing=product.facing.film,
        where="on the foam",
        path=layer.path,
        permeance=worst.value if worst else None,
        basis=(Basis(origin.title, f"{worst.of.printed}, {worst.read}", origin.seen),) if worst else (),
        shown=_shown(resolved, layer.key),
        plastic=True,
    )


def _shown(resolved: Resolved, key: str) -> Membrane:
    products = resolved.products
    return membrane(products.product(key), products.products(), products.day, rules())


def _where(floor: Sequence[Slice], n: int) -> str:
    boards = [m for m, layer in enumerate(floor) if layer.kind == "board"]
    if not boards:
        return "in a floor without foam"
    if n < boards[0]:
        return "above the foam"
    return "below the foam" if n > boards[-1] else "between the boards"


def _membrane(resolved: Resolved, found: Sequence[Sheet]) -> Finding:
    at: dict[str, str | float] = {"asks": "membrane"}
    title = "Sheets of this floor that are shown to be a film below slabs"
    if resolved.outdoors:
        words = "No room lies over this slab; no film is asked for below it."
        return Finding(ID, title, None, "count", at=at, no_limit="does not apply", words=words)
    if not found:
        words = (
            "No film lies in this floor, so the ground's vapour rises into slab and room. Below rooms most codes ask "
            f'for one: write {{ vapour-retarder = "film-15-mil" }} among the layers. {OFFICIAL}'
        )
        return Finding(ID, title, None, "count", at=at, no_limit="not required, advised", words=words)
    counting = [each for each in found if each.counts]
    generic = next((each for each in found if each.shown is None), None)
    if not counting and generic is not None:
        words = (
            f"{generic.label} lies {generic.where}. That is a kind of film and no product: what its tests show is not "
            f'known. Name the film that is delivered, such as vapour-retarder = "sheet-15". {OFFICIAL}'
        )
        return Finding(ID, title, None, "count", at=at, missing=generic.path, words=words)
    if not counting and all(each.facing for each in found):
        words = f"{_said(found[0], resolved.system)} {OFFICIAL}"
        paths = tuple(each.path for each in found)
        # A facing that is not shown is held to no more than no film at all.
        advised = Finding(ID, title, None, "count", at=at, no_limit="not required, advised", words=words)
        return replace(advised, rests_on=paths)
    limit = permeance_limit(rules())
    return Finding(
        ID,
        title,
        float(len(counting)),
        "count",
        at=at,
        within=0.0,
        limit=1.0,
        sense="at least",
        basis=(limit.number.basis(), *(each for sheet in found for each in sheet.basis)),
        rests_on=tuple(path for each in found for path in (each.path, f"catalogue.product.{each.key}.evidence")),
        steps=tuple(_step(each) for each in found),
        words=" ".join([*(_said(each, resolved.system) for each in counting or found), OFFICIAL]),
    )


def _step(sheet: Sheet) -> Step:
    lacking = "; ".join(sheet.shown.lacking) if sheet.shown else "no product"
    asked = f"{sheet.label}: what the least class of ASTM E1745 asks and its records do not show"
    return Step("n", asked, lacking or "nothing", "1" if sheet.counts else "0")


def _said(sheet: Sheet, system: System) -> str:
    """What one sheet is, where it lies, and whether it counts."""
    shown = sheet.shown
    if shown is None:
        return f"{sheet.label} is no product."
    tapes = " and ".join(tape.name or tape.key for tape in shown.tapes)
    what = f"The {sheet.facing} facing of {sheet.label}" if sheet.facing else sheet.label
    if sheet.counts and shown.cls is not None:
        taped = f"{tapes} is tested to it." if tapes else "No tape in hand is tested to it: ask its maker."
        return f"{what} lies {sheet.where}, and its records carry {shown.cls.name}. {taped}"
    lets = f" ({say.both(sheet.permeance, UNIT, system)})" if sheet.permeance is not None else ""
    first = (
        f"{what} slows vapour{lets} and is not the code's membrane"
        if sheet.facing
        else f"{what} lies {sheet.where} and is not shown to be a film below slabs"
    )
    instead = "Lay a film that is, or have this facing tested." if sheet.facing else "Take a film whose tests show it."
    return f"{first}: its records do not show {'; '.join(shown.lacking)}. {instead}"


def _permeance(sheet: Sheet, system: System) -> Finding:
    at: dict[str, str | float] = {"asks": "permeance", "sheet": sheet.key}
    title = f"Permeance of {f'the facing of {sheet.label}' if sheet.facing else sheet.label}"
    if sheet.permeance is None:
        words = "No record tells it. Ask the maker for a test by ASTM E96."
        return Finding(ID, title, None, UNIT, at=at, no_limit="does not apply", rests_on=(sheet.path,), words=words)
    limit = permeance_limit(rules()) if sheet.plastic and (sheet.counts or not sheet.facing) else None
    every = say.both(permeance_limit(rules()).number.value, UNIT, system)
    if sheet.plastic:
        held = f"Every class of ASTM E1745 asks for {every} at most."
        held += "" if limit else " It is not held to that, since it is not shown to be a film below slabs."
    else:
        held = "Bitumen sheets are held to ASTM E1993, whose numbers are not held here."
    return Finding(
        ID,
        title,
        sheet.permeance,
        UNIT,
        at=at,
        within=0.0,
        limit=limit.number.value if limit else None,
        sense="at most" if limit else None,
        basis=(*sheet.basis, *((limit.number.basis(),) if limit else ())),
        rests_on=(sheet.path, f"catalogue.product.{sheet.key}.{_property(sheet)}"),
        steps=(Step("W", "highest of its records, or of its kind", "", f"{fixed(sheet.permeance, 2)} {UNIT}"),),
        words=f"It lies {sheet.where}. {held}{_seams(sheet, system)}",
    )


def _seams(sheet: Sheet, system: System) -> str:
    """What the film lets through as it is laid, or that its seams count as tight."""
    if sheet.facing or sheet.permeance is None:
        return ""
    if sheet.seams is None:
        return ' Its seams count as tight as the film; type seams = "lapped" beside it where they are not taped.'
    whole = say.both(sheet.permeance + sheet.seams.permeance.value, UNIT, system)
    return f" With {sheet.seams.label}, it counts as {whole}."


def _property(sheet: Sheet) -> str:
    return properties()["permeance-faced" if sheet.facing else "permeance-film-conditioned"].key
