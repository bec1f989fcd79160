"""What several routes ask of a request: the book, a number of it, the text of a brief, the token."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends, Path, Request, Security
from fastapi.security import APIKeyHeader
from pydantic import AfterValidator, Field

from ...book import Book
from ..guard import BRIEF
from ..refusals import Refused
from ..words import say

MOST = 2**31 - 1  # the largest number that a book gives


def _book(request: Request) -> Book:
    book: Book = request.app.state.book
    return book


def short_enough(text: str) -> str:
    """The text of a brief, refused where it is longer than any brief."""
    if len(text.encode()) > BRIEF:
        raise Refused(413, say("guard.large", limit=BRIEF // 1024))
    return text


TheBook = Annotated[Book, Depends(_book)]
Number = Annotated[int, Path(ge=1, le=MOST, description="the brief's number in the book")]
Version = Annotated[int, Field(ge=1, le=MOST, description="the revision that the change began from")]
BriefText = Annotated[
    str,
    Field(description="the whole text of a brief, TOML", json_schema_extra={"maxLength": BRIEF}),
    AfterValidator(short_enough),
]

# The guard asks for it before any route; it stands here so that the interface's description says so.
changes = Security(APIKeyHeader(name="X-Desk-Token", description="from the page's own head", auto_error=False))
