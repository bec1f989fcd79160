"""Words typed on the sheet, written into the brief's text."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter
from pydantic import BaseModel, ConfigDict, Field, JsonValue

from ...brief.retyped import Change, retyped
from ...mistakes import Mistake, Mistakes
from ..refusals import Mended, mended
from ..words import say
from .given import BriefText, short_enough

edits = APIRouter(prefix="/api", tags=["sheet"])

MOST = 200  # changes at once


class Edit(BaseModel):
    """One change: what is typed at a path, what is put in before it, or that it is left out."""

    model_config = ConfigDict(extra="forbid")

    path: Annotated[str, Field(max_length=400, description="as findings write it: floor.build-up.2.thickness")]
    typed: JsonValue = Field(default=None, description="the words as typed, or data: a list, a table")
    added: JsonValue = Field(default=None, description="an entry put in before the path, or behind a list's last")
    left_out: bool = Field(default=False, description="whether it is taken out")

    def change(self) -> Change:
        """The change; a Mistake where it is none, or several at once."""
        if sum((self.typed is not None, self.added is not None, self.left_out)) != 1:
            raise Mistake(self.path, "", say("edit.which"))
        if self.left_out:
            return Change(self.path, None, "left out")
        return Change(self.path, self.typed) if self.added is None else Change(self.path, self.added, "added")


class Edits(BaseModel):
    """A brief, and what is changed in it, in turn."""

    model_config = ConfigDict(extra="forbid")

    brief: BriefText
    changes: Annotated[list[Edit], Field(min_length=1, max_length=MOST)]


class Edited(BaseModel):
    """The brief's text with all changes in it; or as it was, and what is to be mended."""

    brief: str
    mistakes: list[Mended] = Field(default_factory=list)


@edits.post("/edit")
def edited(asked: Edits) -> Edited:
    """The text changed at those places and nowhere else. What was typed may still be wrong: that is answered later."""
    try:
        return Edited(brief=short_enough(retyped(asked.brief, [each.change() for each in asked.changes])))
    except Mistake as mistake:
        return Edited(brief=asked.brief, mistakes=mended([mistake]))
    except Mistakes as mistakes:
        return Edited(brief=asked.brief, mistakes=mended(mistakes))
