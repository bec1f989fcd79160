"""The briefs of the book: listed, opened, saved with history, copied, set aside, in and out as text."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Any, Self

from fastapi import APIRouter, Query, Response
from fastapi.responses import JSONResponse
from pydantic import BaseModel, Field

from ...book import Faster, Kept, Line, Revision
from ...toml_text import read_toml
from ..headings import file_name, heading
from ..refusals import documented
from ..words import say
from .given import MOST, BriefText, Number, TheBook, Version, changes

api = APIRouter(prefix="/api/briefs", responses=documented(), tags=["briefs"])

Search = Annotated[str, Query(max_length=200, description="words that stand in title, place or use")]


class Listed(BaseModel):
    """A brief as a line of the list."""

    number: int
    version: int = Field(description="the revision that stands")
    title: str
    place: str
    use: str
    changed: datetime
    set_aside: bool
    copied_from: int | None = Field(description="number of the brief it was copied from")

    @classmethod
    def of(cls, line: Line) -> Self:
        return cls(**_fields(line))


class Opened(Listed):
    """A brief with its text."""

    brief: str

    @classmethod
    def with_text(cls, kept: Kept) -> Self:
        return cls(**_fields(kept.line), brief=kept.text)


class Began(BaseModel):
    """A text to begin a brief with."""

    brief: BriefText


class Typed(BaseModel):
    """A brief as it is now, and the revision that it began from."""

    brief: BriefText
    version: Version
    sitting: str = Field("", max_length=64, description="the same as long as one page is typed at: one step of history")


class Back(BaseModel):
    """Which revision to take up again."""

    to: Annotated[int, Field(ge=1, le=MOST)]
    version: Version | None = None


class Both(BaseModel):
    """Somebody was faster: nothing is saved, and both texts are here."""

    words: str
    yours: str
    theirs: Opened


class Saved(BaseModel):
    """One revision of a brief."""

    version: int
    saved: datetime
    back_to: int | None = Field(description="the revision whose text was taken up again")

    @classmethod
    def of(cls, revision: Revision) -> Self:
        return cls(version=revision.version, saved=revision.saved, back_to=revision.back_to)


FASTER: dict[int | str, dict[str, Any]] = {409: {"model": Both, "description": "somebody saved in between"}}


@api.get("")
def listed(book: TheBook, search: Search = "", set_aside: bool = False) -> list[Listed]:
    """The briefs, last changed first."""
    return [Listed.of(line) for line in book.listed(search, set_aside=set_aside)]


@api.post("", status_code=201, dependencies=[changes])
def begun(book: TheBook, new: Began) -> Opened:
    """A new brief with this text, finished or not."""
    return Opened.with_text(book.begun(new.brief, heading(new.brief)))


@api.post("/import", status_code=201, dependencies=[changes])
def taken_in(book: TheBook, new: Began) -> Opened:
    """A new brief from a file's text. What is not TOML is refused with its line."""
    text = new.brief.removeprefix("\ufeff")
    read_toml(text, "")
    return Opened.with_text(book.begun(text, heading(text)))


@api.get("/{number}", responses=documented(404))
def opened(book: TheBook, number: Number) -> Opened:
    """A brief with the text that stands, which stays in its history from now on."""
    book.seen(number)
    return Opened.with_text(book.kept(number))


@api.put("/{number}", response_model=Opened, responses={**documented(404), **FASTER}, dependencies=[changes])
def saved(book: TheBook, number: Number, typed: Typed) -> Opened | JSONResponse:
    """The text as it is now, as a further revision; earlier ones stay, but for those of the same few minutes."""
    before = book.kept(number).line.heading
    try:
        kept = book.saved(number, typed.version, typed.brief, heading(typed.brief, before), typed.sitting)
        return Opened.with_text(kept)
    except Faster as cause:
        book.seen(number)
        return _faster(cause, typed.brief)


@api.delete("/{number}", responses=documented(404), dependencies=[changes])
def put_aside(book: TheBook, number: Number) -> Listed:
    """Out of the list, and kept."""
    return Listed.of(book.put_aside(number))


@api.post("/{number}/take-up", responses=documented(404), dependencies=[changes])
def taken_up(book: TheBook, number: Number) -> Listed:
    """Back in the list."""
    return Listed.of(book.put_aside(number, aside=False))


@api.post("/{number}/duplicate", status_code=201, responses=documented(404), dependencies=[changes])
def copied(book: TheBook, number: Number) -> Opened:
    """A new brief with the same text."""
    return Opened.with_text(book.copied(number))


@api.get("/{number}/history", responses=documented(404))
def history(book: TheBook, number: Number) -> list[Saved]:
    """Every revision, newest first."""
    return [Saved.of(revision) for revision in book.history(number)]


@api.post("/{number}/undo", response_model=Opened, responses={**documented(404), **FASTER}, dependencies=[changes])
def taken_back(book: TheBook, number: Number, back: Back) -> Opened | JSONResponse:
    """The text of an earlier revision as the newest one."""
    text = book.text(number, back.to)
    before = book.kept(number).line.heading
    try:
        return Opened.with_text(book.taken_back(number, back.to, heading(text, before), back.version))
    except Faster as cause:
        return _faster(cause, text)


@api.get(
    "/{number}/brief.toml",
    response_class=Response,
    responses={**documented(404), 200: {"content": {"application/toml": {}}, "description": "the text, as kept"}},
)
def text(book: TheBook, number: Number, version: Annotated[int | None, Query(ge=1, le=MOST)] = None) -> Response:
    """The text of a brief as a file: the one that stands, or that of one revision."""
    book.seen(number)
    kept = book.kept(number)
    found = kept.text if version is None else book.text(number, version)
    name = f'attachment; filename="{file_name(kept.line.heading, f"brief-{number}")}.toml"'
    return Response(found.encode(), media_type="application/toml", headers={"content-disposition": name})


def _faster(cause: Faster, yours: str) -> JSONResponse:
    """Both texts, so that a person can choose."""
    theirs = Opened.with_text(cause.theirs)
    both = Both(words=say("briefs.faster", version=theirs.version), yours=yours, theirs=theirs)
    return JSONResponse(both.model_dump(mode="json"), 409)


def _fields(line: Line) -> dict[str, object]:
    return {
        "number": line.number,
        "version": line.version,
        "title": line.heading.title,
        "place": line.heading.place,
        "use": line.heading.use,
        "changed": line.changed,
        "set_aside": line.set_aside,
        "copied_from": line.copied_from,
    }
