"""Papers of a brief, made in the background: ordered, looked after, stopped, fetched."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal, Self

from fastapi import APIRouter, Path, Request, Response
from pydantic import BaseModel, ConfigDict, Field

from ..headings import file_name, heading
from ..jobs import Bench, Busy, Gone, Order, Work
from ..jobs.orders import ENDINGS, Kind
from ..refusals import Mended, Refused, documented, mended
from ..words import say
from .given import BriefText, changes

jobs = APIRouter(prefix="/api/jobs", responses=documented(), tags=["papers"])

Job = Annotated[str, Path(max_length=40, description="as it was handed out when the paper was ordered")]


class Ordered(BaseModel):
    """A paper of a brief."""

    model_config = ConfigDict(extra="forbid")

    kind: Kind
    brief: BriefText
    day: Annotated[date | None, Field(description="the day printed on it; today where there is none")] = None
    reader: Annotated[Literal["owner", "contractor", "official"], Field(description="of a one-page answer")] = "owner"
    edge: Annotated[str, Field(max_length=200, description="that stands in front of the page")] = ""
    product: Annotated[str, Field(max_length=200, description="that the guide is of")] = ""
    paper: Literal["", "a4", "us-letter"] = ""
    draft: Annotated[bool, Field(description="made though something is missing; each sheet says so")] = False
    choose: Annotated[bool, Field(description="whether the submittal says what is recommended")] = False


class Progress(BaseModel):
    """How far a paper is."""

    job: str
    kind: Kind
    state: Literal["waiting", "working", "done", "refused", "broken", "stopped"]
    done: int = Field(description="steps behind it")
    of: int = Field(description="steps in all")
    words: str = Field(description="what is done at this moment, or what became of it")
    mistakes: list[Mended] = Field(description="what to mend before it can be made")

    @classmethod
    def of_work(cls, work: Work) -> Self:
        words = say("fault.ours", line=work.fault) if work.fault else _words(work)
        return cls(
            job=work.job,
            kind=work.order.kind,
            state=work.state,
            done=work.done,
            of=work.of,
            words=words,
            mistakes=mended(work.mistakes),
        )


def _words(work: Work) -> str:
    if work.words == "solving" and not work.given["name"]:
        return say("jobs.solving-briefed")
    return say(f"jobs.{work.words}", **work.given)


def bench(request: Request) -> Bench:
    """Where papers are made, and what is chosen."""
    found: Bench = request.app.state.bench
    return found


def _paper(request: Request, job: str) -> Work:
    """A paper that was ordered. Raises Gone; a choice is none."""
    work = bench(request).look(job)
    if work.order.kind == "choice":
        raise Gone(job)
    return work


@jobs.post("", status_code=201, responses=documented(429), dependencies=[changes])
def ordered(request: Request, asked: Ordered) -> Progress:
    """Order a paper. It is made when those before it are."""
    given = asked.model_dump(exclude={"day"})
    try:
        return Progress.of_work(bench(request).begin(Order(**given, date=(asked.day or date.today()).isoformat())))
    except Busy:
        raise Refused(429, say("jobs.busy")) from None


@jobs.get("/{job}", responses=documented(404))
def looked_after(request: Request, job: Job) -> Progress:
    """How far it is."""
    return Progress.of_work(_paper(request, job))


@jobs.delete("/{job}", responses=documented(404), dependencies=[changes])
def stopped(request: Request, job: Job) -> Progress:
    """Stop it. One that has ended stays as it ended."""
    _paper(request, job)
    return Progress.of_work(bench(request).stop(job))


@jobs.get(
    "/{job}/file",
    response_class=Response,
    responses={
        **documented(404),
        200: {"content": {"application/pdf": {}, "text/html": {}}, "description": "the paper"},
    },
)
def fetched(request: Request, job: Job) -> Response:
    """The paper, once it is made."""
    work = _paper(request, job)
    if work.state != "done":
        raise Refused(404, say("jobs.not-yet"))
    ending, kind = ENDINGS[work.order.kind]
    name = f"{file_name(heading(work.order.brief), 'slab')}-{work.order.kind}{ending}"
    return Response(
        work.file.read_bytes(),
        media_type=kind,
        headers={
            "content-disposition": f'attachment; filename="{name}"',
            "content-security-policy": "sandbox; default-src 'none'",  # never a page of ours, whatever is in it
        },
    )
