"""What a cross in the drawing reads: temperatures, bodies, and the words for every value that can come up."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import asdict
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..dossier import Answer
from ..drawings.scale import celsius
from ..drawings.through_the_year import Compared, Layers, Moment, Through
from ..drawings.visible import drawn_order
from ..measure import say
from ..measure.table import System
from ..physics.conduction.field import Field
from ..sections.parts import Section
from .packed import shapes

STEP = 0.01  # K, to which temperatures are handed over
AIR = 1_000_000  # stands for a place in air
TENTH = 0.1  # °F or K between two temperatures that have words of their own
INCH = 0.0254  # m
TAPE = {"US": INCH / 4, "SI": 0.005}  # m between two lengths that have words of their own
AIRS = {
    "room": "air of the room",
    "outdoors": "air outdoors",
    "unheated space": "air of the unheated space",
    "next door": "air next door",
}

Words = dict[str, Any]


def degree_words(fields: Iterable[Field], system: System) -> Words:
    """Every temperature from the coldest to the warmest of the year, a tenth of a degree apart, in both systems."""
    low, high = _reach(fields)
    first, last = (end(say.number(t, "degC", system) / TENTH) for t, end in ((low, math.floor), (high, math.ceil)))
    start, step = celsius(TENTH * first, system), celsius(TENTH, system) - celsius(0.0, system)
    return {
        "first": round(start, 9),
        "step": round(step, 9),
        "words": [say.both(start + n * step, "degC", system) for n in range(last - first + 1)],
    }


def height_words(windows: Iterable[tuple[float, float, float, float]], system: System) -> Words:
    """Heights against the top of the floor, as one says them."""
    ends = [end for _, _, low, high in windows for end in (low, high)]
    return _lengths(min(ends), max(ends), system, "above the floor", "below the floor", "level with the floor")


def across_words(windows: Iterable[tuple[float, float, float, float]], system: System) -> Words:
    """Places to either side of the wall's face, or of the slab's edge where no wall stands."""
    ends = [end for low, high, _, _ in windows for end in (low, high)]
    return _lengths(
        min(ends), max(ends), system, "inside the wall's face", "outside the wall's face", "at the wall's face"
    )


def edge_readings(letter: str, compared: Compared, shown: Sequence[Moment]) -> dict[str, Any]:
    """All that is read from the sections of one edge."""
    frame = compared.sections[0].frame
    left, top = frame.x(compared.window[0]), frame.y(compared.window[3])
    return {
        "letter": letter,
        "window": [round(end, 5) for end in compared.window],
        "sheet": {"left": round(left, 5), "top": round(top, 5), "scale": round(frame.scale, 5)},
        "lessons": list(compared.lessons),
        "sections": [
            _section(answer, letter, through, shown)
            for answer, through in zip(compared.answers, compared.sections, strict=True)
        ],
    }


def label(answer: Answer, letter: str, moment: Moment) -> str:
    """What a picture shows, for someone who does not see it."""
    return f"Section through edge {letter}, {answer.name}, {moment.words}."


def _section(answer: Answer, letter: str, through: Through, shown: Sequence[Moment]) -> dict[str, Any]:
    section, field = answer.sections[letter], answer.fields[letter]
    return {
        "name": answer.name,
        "labels": [label(answer, letter, moment) for moment in shown],
        "watched": [round(end, 5) for end in section.watched],
        "layers": [_layers(layers) for layers in through.layers],
        "bodies": bodies(section),
        "airs": [
            {"where": name, "outline": _outline(air.outline), "temperature": _of_air(field, air.where)}
            for air in section.airs
            for name in [section.beside if air.where == "outdoors" else air.where]
        ],
        "field": temperatures(field),
    }


def _layers(layers: Layers) -> dict[str, Any]:
    return {name: shapes(drawn) for name, drawn in asdict(layers).items()}


def _of_air(field: Field, where: str) -> list[float] | None:
    """Mean [degC] and the two parts of the swing [K] of a space's air."""
    for name, mean, swing in field.airs:
        if name == where:
            return [round(part, 4) for part in (mean, swing.real, swing.imag)]
    return None


def bodies(section: Section) -> list[dict[str, Any]]:
    """Name and outline of each body, that on top first. [m]"""
    return [
        {"name": section.parts[k].label, "outline": _outline(section.parts[k].outline)}
        for k in reversed(drawn_order(section.parts))
    ]


def temperatures(field: Field) -> dict[str, Any]:
    """The field in whole steps, each value as its difference from the neighbours to the left and above."""
    return {
        "x": [round(float(x), 5) for x in field.x],
        "y": [round(float(y), 5) for y in field.y],
        "step": STEP,
        "air": AIR,
        "mean": _differences(field.mean),
        "cosine": _differences(field.swing.real),
        "sine": _differences(field.swing.imag),
    }


def _differences(values: NDArray[np.float32]) -> list[int]:
    steps = np.where(np.isnan(values), AIR, np.round(np.nan_to_num(values).astype(float) / STEP)).astype(np.int64)
    across = np.diff(steps, axis=1, prepend=0)
    return [int(v) for v in np.diff(across, axis=0, prepend=0).ravel()]


def _outline(points: Iterable[tuple[float, float]]) -> list[list[float]]:
    return [[round(x, 5), round(y, 5)] for x, y in points]


def _reach(fields: Iterable[Field]) -> tuple[float, float]:
    """The coldest and the warmest that any place or air of the fields comes to. [degC]"""
    ends = []
    for field in fields:
        swing = np.abs(field.swing)
        ends += [float(np.nanmin(field.mean - swing)), float(np.nanmax(field.mean + swing))]
        ends += [mean + sign * abs(turn) for _, mean, turn in field.airs for sign in (-1.0, 1.0)]
    return min(ends), max(ends)


def _lengths(low: float, high: float, system: System, above: str, below: str, nought: str) -> Words:
    step = TAPE[system]
    first, last = math.floor(low / step), math.ceil(high / step)

    def words(n: int) -> str:
        return f"{say.both(abs(n) * step, 'm', system)} {above if n > 0 else below}" if n else nought

    return {"first": round(first * step, 9), "step": step, "words": [words(n) for n in range(first, last + 1)]}
