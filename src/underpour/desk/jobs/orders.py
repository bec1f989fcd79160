"""What can be ordered, a paper or a choice, and what goes over the wire to the process that makes it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["submittal", "one-page", "page", "guide"]
Made = Kind | Literal["choice"]  # a choice is no paper, and made in the same way
ENDINGS: dict[Made, tuple[str, str]] = {  # how the file's name ends, and what it is
    "submittal": (".pdf", "application/pdf"),
    "one-page": (".pdf", "application/pdf"),
    "page": (".html", "text/html"),
    "guide": (".pdf", "application/pdf"),
    "choice": (".json", "application/json"),
}


@dataclass(frozen=True, slots=True)
class Order:
    """One paper of one brief, or what to use in it."""

    kind: Made
    brief: str
    date: str  # printed on it, "2026-11-25"
    reader: Literal["owner", "contractor", "official"] = "owner"  # of a one-page answer
    edge: str = ""  # that stands in front of the page; the one that tells most where it is empty
    product: str = ""  # of the guide; the first of the brief that has a record where it is empty
    paper: Literal["", "a4", "us-letter"] = ""  # by the brief's units where it is empty
    draft: bool = False
    choose: bool = False  # whether the submittal says what is recommended
