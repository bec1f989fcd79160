"""A user's own file: the amendments of a county, or house rules, in the form of the tables that come with the tool."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from ... import mistakes
from ...mistakes import Mistake, Mistakes
from ...toml_text import places, read_toml
from ..read import table
from . import read
from .read import row
from .records import Edition, Row

HEAD = ("title", "date", "amends", "country", "publisher", "row")
DATED = "Write the day from which it holds: date = 2024-07-01."
CLAUSED = 'Write where it stands: clause = "section 14-203".'


def own_file(path: Path) -> tuple[Edition, tuple[Row, ...]]:
    """The edition in a user's own file, and its rows.

    Parameters
    ----------
    path : Path
        A TOML file: ``title``, ``date``, ``amends`` (the edition that it changes; without it the file is house rules),
        and one ``[[row]]`` for each thing asked, with ``subject``, ``clause`` and what is asked.

    Raises
    ------
    Mistakes
        All that is wrong in it, with file and line.
    """
    text = _text(path)
    try:
        told = read_toml(text, str(path))
    except Mistake as mistake:
        raise Mistakes([mistake]) from None
    lines = places(text)

    def at_line(mistake: Mistake, *where: str | int) -> Mistake:
        keys = next((where[:n] for n in range(len(where), 0, -1) if where[:n] in lines), ())
        return replace(mistake, file=str(path), line=lines[keys].line if keys else 1)

    found = [at_line(mistake, *where) for where, mistake in _unclear(told)]
    edition = None if found else _edition(told, path)
    rows: list[Row] = []
    key = path.stem
    for n, each in enumerate(told.get("row", ()) if isinstance(told.get("row", ()), list) else ()):
        if not isinstance(each, dict):
            continue
        missing = _missing(each)
        if missing is not None:
            found.append(at_line(missing, "row", n, missing.at.removeprefix("row.")))
            continue
        plain = {name: value for name, value in each.items() if name != "subject"}
        try:
            made = row({"seen": "document", **plain}, key, each["subject"], f"{path.name}.row.{n + 1}")
        except Mistake as mistake:
            found.append(at_line(replace(mistake, at=f"row.{n + 1}.{mistake.at}"), "row", n, mistake.at))
            continue
        unheld = _unheld(made, f"row.{n + 1}")
        if unheld is None:
            rows.append(made)
        else:
            found.append(at_line(unheld, "row", n, *unheld.at.split(".")[2:]))
    if not rows and not found:
        found.append(Mistake("row", "", "There is no row in this file.", "Add a [[row]].", str(path), 1))
    if found or edition is None:
        raise Mistakes(found)
    return edition, tuple(rows)


def _text(path: Path) -> str:
    try:
        return path.read_text("utf-8-sig").replace("\r\n", "\n")
    except FileNotFoundError:
        near = mistakes.nearest(path.name, [other.name for other in path.parent.glob("*.toml")])
        hint = f"The nearest is {near[0]}." if near else "A path starts from the brief's folder."
        raise Mistakes([Mistake("", "", f"There is no file {path.name}.", hint, str(path))]) from None
    except UnicodeDecodeError:
        wrong = "This is not a text in UTF-8."
        raise Mistakes([Mistake("", "", wrong, "Save it as UTF-8.", str(path))]) from None
    except OSError as refused:
        wrong = f"The file cannot be read: {(refused.strerror or str(refused)).lower()}."
        raise Mistakes([Mistake("", "", wrong, "", str(path))]) from None


def _unclear(told: Mapping[str, Any]) -> list[tuple[Sequence[str | int], Mistake]]:
    found: list[tuple[Sequence[str | int], Mistake]] = []
    for key in told:
        if key not in HEAD:
            found.append(((key,), mistakes.unknown(key, key, HEAD, "key of such a file")))
    if not isinstance(told.get("title"), str) or not told["title"].strip():
        found.append((("title",), Mistake("title", "", "The file has no title.", 'Write title = "Example County".')))
    day = told.get("date")
    if not isinstance(day, datetime.date) or isinstance(day, datetime.datetime):
        wrong = "The file has no date." if day is None else "This is no day."
        found.append((("date",), Mistake("date", "" if day is None else str(day), wrong, DATED)))
    amends = told.get("amends")
    if amends is not None and amends not in read.editions():
        known = list(read.editions())
        listing = f"All of them: {', '.join(known)}."
        found.append((("amends",), mistakes.unknown("amends", str(amends), known, "edition", listing)))
    for key in ("publisher", "country"):
        if not isinstance(told.get(key, ""), str):
            found.append(((key,), Mistake(key, str(told[key]), "A text is wanted here.", f'Write {key} = "...".')))
    known_countries = table("climate/regions")["country"]
    country = told.get("country", "")
    if isinstance(country, str) and country and country not in known_countries:
        wrong = f"No country is written {country}."
        found.append(
            (("country",), Mistake("country", f'"{country}"', wrong, 'Its two letters are wanted: "US", "CA".'))
        )
    if not isinstance(told.get("row", []), list):
        found.append((("row",), Mistake("row", "", "There may be several rows.", "Write the heading [[row]].")))
    return found


def _missing(told: Mapping[str, Any]) -> Mistake | None:
    if "subject" not in told:
        known = ", ".join(read.forms())
        return Mistake("row.subject", "", "This row does not say what it is about.", f"Its subject is one of {known}.")
    if told["subject"] not in read.forms():
        listing = f"The subjects: {', '.join(read.forms())}."
        return mistakes.unknown("row.subject", str(told["subject"]), list(read.forms()), "subject", listing)
    if not isinstance(told.get("clause"), str) or not told["clause"].strip():
        return Mistake("row.clause", "", "This row has no clause, so nobody could check it.", CLAUSED)
    return None


def _unheld(made: Row, at: str) -> Mistake | None:
    """What keeps a floor from being held to a row: it asks for nothing, or for what its subject does not speak of."""
    form = read.forms()[made.subject]
    other = next((name for name in made.asks if name not in form["asks"]), None)
    if other is not None:
        wrong = f"A row on {made.subject} does not ask for {other}."
        return Mistake(f"{at}.{other}", f'"{made.asks[other].typed}"', wrong, f"It asks for {_or(form['asks'])}.")
    if not any(name in made.asks for name in form["one-of"]):
        wrong = f"This row on {made.subject} asks for nothing that a floor is held to."
        return Mistake(at, "", wrong, f"It asks for {_or(form['one-of'])}.")
    places = form.get("places", {})
    if made.place and not places:
        return Mistake(f"{at}.place", f'"{made.place}"', f"A row on {made.subject} has no place.", "Leave it out.")
    if made.edge_stops and made.subject != "heated-slab":
        wrong = f"Where foam at an edge stops is a matter of heated slabs, and this row is on {made.subject}."
        return Mistake(
            f"{at}.edge-stops", f'"{made.edge_stops}"', wrong, 'Put it into a row with subject = "heated-slab".'
        )
    if places and made.place not in places:
        named = _or([f'"{name}"' for name in places])
        return Mistake(f"{at}.place", "", f"This row on {made.subject} does not say where.", f"Write place = {named}.")
    lacking = [name for name in places.get(made.place, ()) if name not in made.asks]
    if lacking:
        wrong = f'A row on {made.subject} with place = "{made.place}" asks for {lacking[0]}.'
        return Mistake(at, "", wrong, f'Write {lacking[0]} = "..." in it.')
    route = next((way for name, way in form.get("routes", {}).items() if name in made.asks), "")
    if route and made.route != route:
        return Mistake(at, "", f"{route} is another way than an R-value.", f'Write route = "{route}" beside it.')
    return None


def _or(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"


def _edition(told: Mapping[str, Any], path: Path) -> Edition:
    base = read.editions().get(told.get("amends", ""))
    return Edition(
        key=path.stem,
        title=told["title"],
        publisher=told.get("publisher", ""),
        country=told.get("country", base.country if base else ""),
        state="",
        date=told["date"],
        dated="as the file says",
        covers=base.covers if base else "whatever it is applied to",
        amends=told.get("amends", ""),
        zones=base.zones if base else "",
        map=base.map if base else "",
        file=str(path),
    )
