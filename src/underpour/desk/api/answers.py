"""What the sheet asks while somebody types: an answer at once, the whole one, what to ask, the reply."""

from __future__ import annotations

import gc
from collections.abc import AsyncIterator, Iterable
from contextlib import asynccontextmanager, suppress
from functools import cache
from threading import Thread
from typing import Any, Literal

from fastapi import APIRouter
from pydantic import BaseModel, ConfigDict, Field

from ...brief.alternatives import AS_BRIEFED
from ...mistakes import Mistake
from ..live import Answering, Told, Unread
from .given import BriefText

PATIENT = 1.0  # s that a question about a text is held open before it is said how far it is


class Show(BaseModel):
    """What somebody looks at."""

    model_config = ConfigDict(extra="forbid")
    alternative: str = Field(AS_BRIEFED, max_length=200, description="Name of the version.")
    edge: str = Field("", max_length=200, description="Letter or name of the edge; the first where there is none such.")
    month: int = Field(0, ge=0, le=12, description="1 to 12; 0 is the mean of the year.")
    lanes: bool = Field(False, description="Whether the ways that heat takes are drawn, in the mean of the year.")
    against: str = Field("", max_length=200, description="The version whose temperatures are taken off.")
    wide: float = Field(250.0, ge=60.0, le=600.0, description="Breadth of the drawing, in millimetres of its letters.")


class Question(BaseModel):
    """A brief to be answered."""

    model_config = ConfigDict(extra="forbid")
    brief: BriefText
    stage: Literal["first", "whole"] = Field("first", description="What moves, at once; or everything.")
    turn: int = Field(0, ge=0, le=2**53, description="Handed back, so that a late answer is known.")
    sheet: str = Field("", max_length=64, description="A word of the page's own: one page waits for one whole answer.")
    show: Show = Show()


class Brief(BaseModel):
    """A brief alone."""

    model_config = ConfigDict(extra="forbid")
    brief: BriefText


class Answered(BaseModel):
    """An answer, or what is to be mended first."""

    turn: int
    stage: Literal["first", "whole"]
    read: bool = Field(description="Whether the brief can be answered.")
    late: bool = Field(False, description="Whether the same page asked for another brief meanwhile.")
    mistakes: list[dict[str, Any]] = []
    sheet: dict[str, Any] | None = None


class AskedAbout(Brief):
    """A brief to be asked about."""

    stop: bool = Field(False, description="Whether nobody waits for it any more.")


class Drawing(Brief):
    """A line that may soon be drawn."""

    path: str = Field(max_length=400, description="floor.build-up.2.thickness")


class Sentences(BaseModel):
    """The reply."""

    sentences: list[str]
    read: bool = Field(True, description="Whether the brief can be answered.")
    whole: bool = Field(True, description="Whether it is worked out what is still needed.")
    mistakes: list[dict[str, Any]] = []


class Asking(BaseModel):
    """What to ask the caller, or how far that is."""

    state: Literal["waiting", "working", "done", "stopped", "left"] = Field(
        "done", description="It goes on until it is done, stopped, or left for another answer."
    )
    done: int = Field(0, description="Inputs that were tried")
    of: int = Field(0, description="of so many.")
    decides: bool = False
    questions: list[dict[str, Any]] = []
    mistakes: list[dict[str, Any]] = []


def answers(answering: Answering) -> APIRouter:
    """The routes over one pair of threads."""

    @asynccontextmanager
    async def open_(_: object) -> AsyncIterator[None]:
        Thread(target=_warmed, args=(answering,), daemon=True).start()
        yield
        answering.close()

    routes = APIRouter(prefix="/api", lifespan=open_)

    @routes.post("/answer")
    def answer(asked: Question) -> Answered:
        """A brief answered: in the stage ``first`` within a moment, in ``whole`` as finely as on paper."""
        from ..shown import Look

        look = Look(**asked.show.model_dump())
        if asked.stage == "first":
            told = answering.first(asked.brief, look.alternative, asked.sheet, look.against)
        else:
            whole = answering.whole(asked.brief, look, asked.sheet)
            if whole is None:
                return Answered(turn=asked.turn, stage=asked.stage, read=False, late=True)
            told = whole
        if isinstance(told, Unread):
            return Answered(turn=asked.turn, stage=asked.stage, read=False, mistakes=as_rows(told.mistakes))
        stage: Literal["first", "whole"] = "first" if told.dossier is None else "whole"
        return Answered(turn=asked.turn, stage=stage, read=True, sheet=answering.sheet(told, look))

    @routes.post("/ask")
    def ask(asked: AskedAbout) -> Asking:
        """The few open inputs that would turn a verdict; or how far that is, to be asked again."""
        from ..shown import Look
        from ..shown.fields import Places
        from ..shown.margin import questions

        held = answering.stop_asking(asked.brief) if asked.stop else answering.ask(asked.brief)
        held.wait(PATIENT)
        if isinstance(held.said, Unread):
            return Asking(mistakes=as_rows(held.said.mistakes))
        if held.said is None:
            return Asking(state=held.state, done=held.done, of=held.of)
        told = answering.whole(asked.brief, Look(), "asked")
        if not isinstance(told, Told):
            return Asking(state="left")
        return Asking(**questions(held.said, Places(told.trees[AS_BRIEFED], told.resolved[AS_BRIEFED])))

    @routes.post("/ahead", status_code=202)
    def ahead(asked: Drawing) -> None:
        """A line may soon be drawn: sizes of it are made ready, so that each is told at once."""
        answering.ahead(asked.brief, asked.path)

    @routes.post("/reply")
    def three_sentences(asked: Brief) -> Sentences:
        """The reply for mail or telephone, with what is known by now of what is still needed."""
        from ..shown import Look
        from ..shown.reply import reply

        told = answering.whole(asked.brief, Look(), "reply")
        if not isinstance(told, Told) or told.dossier is None:
            mistakes = as_rows(told.mistakes) if isinstance(told, Unread) else []
            return Sentences(sentences=[], read=False, mistakes=mistakes)
        said = answering.asked_before(asked.brief)
        needed = None if said is None else [q.words for q in said.questions if q.turns]
        return Sentences(sentences=reply(told.dossier, needed), whole=needed is not None)

    @routes.get("/choices")
    def every_choice() -> dict[str, list[dict[str, str]]]:
        """Every list that a field of the sheet may be chosen from."""
        return _choices()

    @routes.get("/readings/{system}")
    def readings(system: Literal["US", "SI"]) -> dict[str, Any]:
        """Words for every temperature and every place that a cross in the drawing can come to."""
        from ..shown.reading import words_of

        return words_of(system)

    return routes


@cache
def _choices() -> dict[str, list[dict[str, str]]]:
    from ...catalogue import shipped_products
    from ..shown.fields import choices

    return choices(shipped_products())


def _warmed(answering: Answering) -> None:
    """Warm, or closed before it was: then nothing takes work any more."""
    with suppress(RuntimeError):
        _warm(answering)


def _warm(answering: Answering) -> None:
    """What is loaded once is loaded before somebody waits for it."""
    from ...starters import starters
    from ..shown import Look, sheet
    from ..shown.reading import words_of

    try:
        told = answering.first(starters()[0].text, AS_BRIEFED)
    except RuntimeError:  # the desk was closed before this began
        return
    if isinstance(told, Told):
        sheet(told, Look(month=1))
        words_of(told.system)
    _choices()
    answering.begin()
    gc.collect()
    gc.freeze()  # what was loaded stays: not to be looked through again while somebody waits


def as_rows(mistakes: Iterable[Mistake]) -> list[dict[str, Any]]:
    """Mistakes as the page shows them."""
    return [{"line": m.line, "at": m.at, "typed": m.typed, "wrong": m.wrong, "instead": m.instead} for m in mistakes]
