"""The list of briefs as a page: its lines, and what can be begun from it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from fastapi import APIRouter, Request, Response
from fastapi.responses import HTMLResponse

from ..book import Book, Faster, Line, Revision
from ..starters import demo_text, starter, starters
from .api.briefs import Search
from .api.given import Number, TheBook
from .headings import heading
from .refusals import Refused
from .setting import page
from .words import say

listing = APIRouter(include_in_schema=False)


@dataclass(frozen=True, slots=True)
class Row:
    """A brief as it is set in the list."""

    number: int
    title: str
    place: str
    use: str
    when: str
    day: str  # for machines
    note: str  # of which brief it is a copy; empty where of none

    @classmethod
    def of(cls, line: Line) -> Row:
        at = line.changed.astimezone()
        note = "" if line.copied_from is None else say("list.copy-of", number=line.copied_from)
        title = line.heading.title or say("list.untitled", number=line.number)
        return cls(line.number, title, line.heading.place, line.heading.use, when(at), at.isoformat(), note)


def when(at: datetime) -> str:
    """A moment as people write it: "25 Nov 2026, 14:05"."""
    month = say(f"month.{at.month}")
    return say("list.when", day=at.day, month=month, year=at.year, time=at.strftime("%H:%M"))


@listing.get("/")
def whole(request: Request, book: TheBook, search: Search = "", aside: bool = False) -> HTMLResponse:
    """The whole page."""
    given = {"token": request.app.state.token, "starters": starters()}
    return HTMLResponse(page("list", **given, **_rows(book, search, aside)))


@listing.get("/list")
def lines(book: TheBook, search: Search = "", aside: bool = False) -> HTMLResponse:
    """The lines alone, for a search."""
    return HTMLResponse(page("rows", **_rows(book, search, aside)))


def _rows(book: Book, search: str, aside: bool) -> dict[str, object]:
    found = [Row.of(line) for line in book.listed(search, set_aside=aside)]
    return {"rows": found, "search": search, "aside": aside}


@listing.post("/begin/demo")
def demo(book: TheBook) -> Response:
    """The demo brief, as a brief of its own that may be spoilt."""
    return _begun(book, demo_text())


@listing.post("/begin/{word}")
def from_starter(book: TheBook, word: str) -> Response:
    """A brief to begin with, for a use."""
    if word not in {each.key for each in starters()}:
        raise Refused(404, say("gone.page"))
    return _begun(book, starter(word).text)


@listing.post("/briefs/{number}/copy")
def copied(book: TheBook, number: Number) -> Response:
    """A copy, opened."""
    return _to(book.copied(number).line.number)


@listing.post("/briefs/{number}/aside")
def put_aside(book: TheBook, number: Number, search: Search = "") -> HTMLResponse:
    """Out of the list; the lines that are left."""
    book.put_aside(number)
    return lines(book, search)


@listing.post("/briefs/{number}/take-up")
def taken_up(book: TheBook, number: Number, search: Search = "") -> HTMLResponse:
    """Back in the list; the lines that are still set aside."""
    book.put_aside(number, aside=False)
    return lines(book, search, aside=True)


@listing.get("/briefs/{number}/history")
def history(request: Request, book: TheBook, number: Number) -> HTMLResponse:
    """Every saved text of a brief."""
    kept = book.kept(number)
    found = [_revision(each) for each in book.history(number)]
    row = Row.of(kept.line)
    return HTMLResponse(page("history", token=request.app.state.token, row=row, revisions=found))


@listing.post("/briefs/{number}/back/{to}")
def taken_back(book: TheBook, number: Number, to: Number) -> Response:
    """An earlier text as the newest one, opened."""
    before = book.kept(number).line
    try:
        book.taken_back(number, to, heading(book.text(number, to), before.heading), before.version)
    except Faster as cause:
        raise Refused(409, say("briefs.faster", version=cause.theirs.line.version)) from None
    return _to(number)


def _revision(of: Revision) -> dict[str, object]:
    at = of.saved.astimezone()
    note = "" if of.back_to is None else say("history.back-to", version=of.back_to)
    return {"version": of.version, "when": when(at), "day": at.isoformat(), "note": note}


def _begun(book: Book, text: str) -> Response:
    return _to(book.begun(text, heading(text)).line.number)


def _to(number: int) -> Response:
    """On to a sheet."""
    return Response(status_code=204, headers={"HX-Redirect": f"/briefs/{number}"})
