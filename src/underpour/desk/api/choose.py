"""What to use in a brief, worked out in the background: ordered, looked after, stopped, and put into its text."""

from __future__ import annotations

import json
from typing import Any, Literal, Self

from fastapi import APIRouter, Request
from pydantic import BaseModel, ConfigDict, Field

from ..jobs import Busy, Gone, Order, Work
from ..refusals import Mended, Refused, documented, mended
from ..words import say
from .given import BriefText, changes
from .jobs import Job, bench

choosing = APIRouter(prefix="/api/choose", responses=documented(), tags=["sheet"])


class Asked(BaseModel):
    """A brief that something is to be chosen for."""

    model_config = ConfigDict(extra="forbid")

    brief: BriefText


class Chosen(BaseModel):
    """What to use, and the brief with it."""

    choice: dict[str, Any] = Field(description="the whole choice, as schema/choice.schema.json has it")
    brief: str = Field(description="the text that was sent, with what was chosen in it as alternatives")
    put_in: list[str] = Field(description="names of the alternatives that were put in")
    notes: list[str] = Field(description="what became of the alternatives that stood there, in words")
    said: dict[str, Any] = Field(description="what the sheet says of it, ready to read")


class Choosing(BaseModel):
    """How far it is, and what came of it."""

    job: str
    state: Literal["waiting", "working", "done", "refused", "broken", "stopped"]
    words: str = Field(description="what is done at this moment, or what became of it")
    mistakes: list[Mended] = Field(description="what to mend before anything can be chosen")
    chosen: Chosen | None = None

    @classmethod
    def of_work(cls, work: Work) -> Self:
        words = say("fault.ours", line=work.fault) if work.fault else say(f"choose.{work.words}", **work.given)
        chosen = _chosen(work) if work.state == "done" else None
        return cls(job=work.job, state=work.state, words=words, mistakes=mended(work.mistakes), chosen=chosen)


def _chosen(work: Work) -> Chosen:
    made = json.loads(work.file.read_bytes())
    put = made["put_in"]
    names = [each["name"] for each in put["alternatives"]]
    return Chosen(choice=made["choice"], brief=put["text"], put_in=names, notes=_notes(put, names), said=made["said"])


def _notes(put: dict[str, Any], names: list[str]) -> list[str]:
    """What was put in, what the brief is already, what made room, and what stays."""
    told = {"put-in": names, "as-briefed": put["as_briefed"], "replaced": put["replaced"], "stay": put["stay"]}
    return [say(f"choose.{key}", names=_listed(each)) for key, each in told.items() if each]


def _listed(names: list[str]) -> str:
    return "; ".join(say("choose.named", name=name) for name in names)


def _work(request: Request, job: str) -> Work:
    """A choice that was ordered. Raises Gone; a paper is none."""
    work = bench(request).look(job)
    if work.order.kind != "choice":
        raise Gone(job)
    return work


@choosing.post("", status_code=201, responses=documented(429), dependencies=[changes])
def ordered(request: Request, asked: Asked) -> Choosing:
    """Begin to choose. It is done when the papers before it are."""
    try:
        return Choosing.of_work(bench(request).begin(Order("choice", asked.brief, "")))
    except Busy:
        raise Refused(429, say("jobs.busy")) from None


@choosing.get("/{job}", responses=documented(404))
def looked_after(request: Request, job: Job) -> Choosing:
    """How far it is; what to use, once that is known."""
    return Choosing.of_work(_work(request, job))


@choosing.delete("/{job}", responses=documented(404), dependencies=[changes])
def stopped(request: Request, job: Job) -> Choosing:
    """Stop it. One that has ended stays as it ended."""
    _work(request, job)
    return Choosing.of_work(bench(request).stop(job))
