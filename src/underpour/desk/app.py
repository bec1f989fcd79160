"""The desk as a web application: what it serves, and the guard before it."""

from __future__ import annotations

import contextlib
import secrets
from collections.abc import AsyncIterator
from importlib.resources import files

from fastapi import FastAPI, Request, Response
from fastapi.responses import HTMLResponse
from fastapi.staticfiles import StaticFiles

from .. import __version__
from ..book import Book
from ..starters import demo_text
from .api import briefs
from .api.answers import answers
from .api.choose import choosing
from .api.edits import edits
from .api.given import Number, TheBook, changes
from .api.jobs import jobs
from .api.plans import plans
from .colours import colours
from .guard import Guard
from .jobs import Bench
from .listing import listing
from .live import Answering
from .refusals import documented, tell
from .setting import page

SHARED = ("draw", "fonts", "look", "read")  # what the teaching page has and the desk's pages use


def desk_app(book: Book, token: str = "") -> FastAPI:
    """The desk over one book.

    Parameters
    ----------
    book : Book
        Where briefs are kept.
    token : str
        What every change has to carry; made anew where none is given.
    """
    app = FastAPI(
        title="The desk's page",
        version=__version__,
        openapi_url="/api/openapi.json",
        docs_url=None,
        redoc_url=None,
        lifespan=_lifespan,
    )
    app.state.book = book
    app.state.bench = Bench()
    app.state.token = token or secrets.token_urlsafe(32)
    app.add_middleware(Guard, token=app.state.token)
    tell(app)
    _api(app)
    _pages(app)
    _files(app)
    return app


@contextlib.asynccontextmanager
async def _lifespan(app: FastAPI) -> AsyncIterator[None]:
    yield
    app.state.bench.close()


def _api(app: FastAPI) -> None:
    app.include_router(briefs.api)
    app.include_router(answers(Answering()), responses=documented(), dependencies=[changes])
    app.include_router(edits, responses=documented(), dependencies=[changes])
    app.include_router(jobs)
    app.include_router(choosing)
    app.include_router(plans, responses=documented(), dependencies=[changes])


def _pages(app: FastAPI) -> None:
    app.include_router(listing)

    @app.get("/briefs/{number}", include_in_schema=False)
    def sheet(request: Request, book: TheBook, number: Number) -> HTMLResponse:
        book.seen(number)
        kept = book.kept(number)
        is_demo = book.text(number, 1) == demo_text()
        given = {"number": number, "version": kept.line.version, "brief": kept.text, "demo": is_demo}
        return HTMLResponse(page("sheet", token=request.app.state.token, **given))

    @app.get("/look/colours.css", include_in_schema=False)
    def colour_names() -> Response:
        return Response(colours(), media_type="text/css")


def _files(app: FastAPI) -> None:
    app.mount("/static", StaticFiles(directory=str(files(__package__) / "static")))
    for folder in SHARED:
        app.mount(f"/pages/{folder}", StaticFiles(directory=str(files("underpour.pages") / folder)))
