"""What laying hands on: words ready to print, every number in the brief's own system with the other beside it."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Seen


@dataclass(frozen=True, slots=True)
class Property:
    """One line of a product's data."""

    name: str  # "Compressive strength"
    value: str  # "16.4 psi (113 kPa)"
    terms: str  # standard, clause, record
    source: str  # title of the document
    seen: Seen


@dataclass(frozen=True, slots=True)
class Product:
    """One product or material of a build-up, with its data and the places for its certificates."""

    name: str  # "Marlpit Plain 15 (invented)"
    what: str  # "Board", "Vapour retarder", "Concrete", "Gravel", ...
    cls: tuple[str, ...]  # "ASTM C578 type II": what the maker claims, or the class entry itself
    where: tuple[str, ...]  # where it lies here: "Under the floor, 2 in (51 mm)"
    rows: tuple[Property, ...]
    evidence: tuple[str, ...]  # what is to be put in here: one line a report or certificate
    maker: str  # "" for a class that any maker may fill
    invented: bool  # said wherever it is shown
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Work:
    """One step of the laying, in its order."""

    number: int  # from 1
    key: str  # which row of sequence.toml it is: "board", "film", "pour"
    what: str  # "Lay the boards"
    where: str  # "the floor", "edge A"
    how: tuple[str, ...]  # short sentences, each one thing to do
    mind: str  # the caution that belongs here, or ""
    stops: bool  # someone looks before the next step
    laid: tuple[str, ...]  # paths in the brief of what this step puts in place
    source: str  # "common practice, no source", or a standard by name
    seen: Seen


@dataclass(frozen=True, slots=True)
class Point:
    """One thing to look at, with what is wanted there and a place to sign."""

    number: int  # from 1, in the order of the work
    before: str  # "before the film", "before the pour", "after the pour"
    look_at: str  # "Edge A: foam outside the wall"
    wanted: str  # with the numbers of this brief
    how: str  # how to see it: tape measure, pull, photograph
    rests: tuple[str, ...]  # ids of the findings that no longer hold if it is not so
    who: str  # who looks: "Crew leader", "Building official"
    sign: tuple[str, ...] = ("Seen by", "Date")  # blanks to fill


@dataclass(frozen=True, slots=True)
class Unseen:
    """A finding of this brief that nobody can look at on site, and why."""

    finding: str  # its id
    title: str
    why: str


@dataclass(frozen=True, slots=True)
class Confirmer:
    """Someone who must confirm something that this answer does not decide."""

    who: str  # "Structural engineer"
    what: tuple[str, ...]  # which numbers or findings, a sentence each
    before: str  # "before the order", "before the pour"
    why: str
    rests_on: tuple[str, ...]  # paths and ids that made it necessary; () where it always is
