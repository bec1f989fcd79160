"""What is asked, as a sentence whose words can be typed over."""

from __future__ import annotations

from typing import Any

from ..words import say
from .fields import Part, Places
from .parts import sentence


def asked(places: Places) -> list[Part]:
    """The sentence at the head of the sheet."""
    return sentence(
        "sheet.asked",
        use=places.field("project.use", choices="uses"),
        place=_place(places),
        room=_room(places),
        ground=_ground(places),
        water=places.field("site.water-table", say("sheet.water-not-told")),
        code=places.field("project.code", say("sheet.no-code"), "editions"),
        depth=places.field("floor.available-depth", say("sheet.not-told")),
    )


def _place(places: Places) -> list[Part]:
    """The place by the key that tells it."""
    for key in ("place", "zip"):
        if places.plain(f"site.{key}") is not None:
            return [places.field(f"site.{key}")]
    if places.plain("site.weather") is not None:
        return [{"text": say("sheet.weather-of")}, places.field("site.weather")]
    if places.plain("site.monthly") is not None:
        return [{"text": say("sheet.months-of-its-own")}]
    return [places.field("site.place", say("sheet.not-told"))]


def _room(places: Places) -> list[Part]:
    if places.resolved.outdoors:
        return [{"text": say("sheet.open-sky")}]
    air = places.field("floor.humidity", say("sheet.not-told"))
    inside: Any = places.plain("floor.inside")
    if isinstance(inside, dict):
        warm = [places.field(f"floor.inside.{season}") for season in ("winter", "summer")]
        return sentence("sheet.room-seasons", winter=warm[0], summer=warm[1], air=air)
    kept = "sheet.room-unheated" if inside == "unheated" else "sheet.room"
    return sentence(kept, inside=places.field("floor.inside", say("sheet.not-told")), air=air)


def _ground(places: Places) -> list[Part]:
    layers, ground = places.plain("site.layers"), places.plain("site.ground")
    if layers:
        told = [
            places.field(f"site.layers.{n}.ground", say("sheet.ground-by-figures"), "grounds")
            for n in range(1, len(layers) + 1)
        ]
        parts: list[Part] = []
        for n, each in enumerate(told):
            parts += [{"text": say("sheet.over")}] * (n > 0) + [each]
        return parts
    if isinstance(ground, dict):
        keys = [key for key in ("conductivity", "dry-density", "moisture") if key in ground]
        return sentence("sheet.ground-of", figures=_listed([places.field(f"site.ground.{key}") for key in keys]))
    return [places.field("site.ground", say("sheet.ground-not-told"), "grounds")]


def _listed(fields: list[Part]) -> list[Part]:
    parts: list[Part] = []
    for n, each in enumerate(fields):
        parts += [{"text": ", "}] * (n > 0) + [each]
    return parts
