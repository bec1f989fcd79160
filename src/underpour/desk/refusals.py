"""What the desk says when it cannot do what was asked: one form for all of it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from fastapi.responses import HTMLResponse, JSONResponse
from pydantic import BaseModel, Field
from starlette.exceptions import HTTPException

from .. import __version__
from ..book import BookShut, Unknown
from ..faults import line_to_send
from ..mistakes import Mistake, Mistakes
from .jobs import Gone
from .setting import page
from .words import say


class Mended(BaseModel):
    """One thing to mend."""

    line: int = Field(description="line of the brief; 0 where it is not known")
    at: str = Field(description="path in the brief")
    typed: str = Field(description="as it was written; empty where nothing was")
    wrong: str = Field(description="what is wrong, one sentence")
    instead: str = Field(description="what to type, or empty")


class Refusal(BaseModel):
    """Why nothing was done."""

    words: str = Field(description="to be read by a person")
    mistakes: list[Mended] = Field(default_factory=list, description="what to mend, in the order of the lines")


class Refused(Exception):
    """Words for a person, with the status that goes with them."""

    def __init__(self, status: int, words: str) -> None:
        super().__init__(words)
        self.status, self.words = status, words


def mended(found: Iterable[Mistake]) -> list[Mended]:
    """Mistakes as they are sent."""
    return [Mended(line=m.line, at=m.at, typed=m.typed, wrong=m.wrong, instead=m.instead) for m in found]


def documented(*statuses: int) -> dict[int | str, dict[str, Any]]:
    """The refusals that a route may answer with, for the interface's own description."""
    every = (400, 403, 413, 422, 503)
    return {status: {"model": Refusal, "description": say(f"status.{status}")} for status in (*every, *statuses)}


def tell(app: FastAPI) -> None:
    """Put every cause into words."""

    @app.exception_handler(Refused)
    def refused(request: Request, cause: Refused) -> Response:
        return _answer(request, cause.status, cause.words)

    @app.exception_handler(Unknown)
    def unknown(request: Request, cause: Unknown) -> Response:
        if len(cause.args) > 1:
            return _answer(request, 404, say("gone.revision", number=cause.args[0], version=cause.args[1]))
        return _answer(request, 404, say("gone.brief", number=cause.args[0]))

    @app.exception_handler(Gone)
    def gone(request: Request, cause: Gone) -> Response:
        return _answer(request, 404, say("jobs.gone"))

    @app.exception_handler(Mistake)
    def mistake(request: Request, cause: Mistake) -> Response:
        if isinstance(cause, BookShut):
            return _answer(request, 503, f"{cause.wrong} {cause.instead}")
        return _answer(request, 422, say("request.mend"), [cause])

    @app.exception_handler(Mistakes)
    def mistakes(request: Request, cause: Mistakes) -> Response:
        return _answer(request, 422, say("request.mend"), cause)

    @app.exception_handler(RequestValidationError)
    def unreadable(request: Request, cause: RequestValidationError) -> Response:
        return _answer(request, 422, say("request.shape"), [_of_request(each) for each in cause.errors()])

    @app.exception_handler(HTTPException)
    def other(request: Request, cause: HTTPException) -> Response:
        known = {400: "request.body", 404: "gone.page", 405: "request.method"}
        return _answer(request, cause.status_code, say(known.get(cause.status_code, "request.body")))

    @app.exception_handler(Exception)
    def ours(request: Request, cause: Exception) -> Response:
        return _answer(request, 500, say("fault.ours", line=line_to_send(cause, __version__, request.url.path)))


def _answer(request: Request, status: int, words: str, found: Iterable[Mistake] = ()) -> Response:
    """As data for the page's script; as a page for who typed an address."""
    if not request.url.path.startswith("/api/") and "hx-request" not in request.headers:
        return HTMLResponse(page("gone", token=request.app.state.token, words=words), status)
    return JSONResponse(Refusal(words=words, mistakes=mended(found)).model_dump(), status)


def _of_request(wrong: dict[str, Any]) -> Mistake:
    """What a field of the request should have been, in our words."""
    at = ".".join(str(step) for step in wrong["loc"] if step not in ("body", "query", "path"))
    kind = str(wrong["type"])
    if kind == "json_invalid":
        return Mistake("", "", say("request.body"))
    if kind == "missing":
        return Mistake(at, "", say("request.missing"))
    if kind.endswith("too_long"):
        return Mistake(at, "", say("request.long", most=wrong["ctx"]["max_length"]))
    return Mistake(at, "", say("request.kind"))
