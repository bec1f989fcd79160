"""What stands and rolls on the floor, and the slab's joints: as sentences whose words can be typed over."""

from __future__ import annotations

from typing import Any

from ... import catalogue
from ..words import say
from .adding import taken_out, usual
from .fields import Part, Places, chosen_from
from .parts import sentence

ALL_OVER = ("uniform",)  # kinds of load that stand at no place


def on_floor(places: Places) -> list[Part]:
    """Each load and each joint by what is typed of it, and a press that puts in another."""
    parts: list[Part] = []
    for table in ("load", "joint"):
        for n, typed in enumerate(places.plain(table) or (), 1):
            parts += _one(places, table, n, typed)
        parts += put_in(places, table)
    return parts


def _one(places: Places, table: str, n: int, typed: dict[str, Any]) -> list[Part]:
    at = f"{table}.{n}"
    missing = next((load.missing for load in places.resolved.loads if load.path == at and load.missing), "")
    keys = [*typed, *([missing.removeprefix(f"{at}.")] if missing else [])]
    parts: list[Part] = [{"text": say(f"sheet.floor.{table}", number=n)}]
    for k, key in enumerate(keys):
        field = places.field(f"{at}.{key}", say("sheet.not-told"), chosen_from(f"{table}.{key}"))
        parts += [{"text": ", "}] * (k > 0) + sentence(f"sheet.floor.key.{key}", it=field)
    return [*parts, *taken_out(places, at, say(f"sheet.floor.{table}-named", number=n)), {"text": " "}]


def put_in(places: Places, table: str) -> list[Part]:
    """A press that puts another load or joint in."""
    if places.fixed:
        return []
    offers = _loads() if table == "load" else _joints(places)
    held = [{"path": table, "words": words, "value": value} for words, value in offers]
    return [{"add": held, "shown": say(f"sheet.floor.add-{table}"), "label": say(f"sheet.floor.add-{table}-label")}]


def _loads() -> list[tuple[str, dict[str, Any]]]:
    return [
        (load.label, {"like": load.key} if load.kind in ALL_OVER else {"like": load.key, "at": "middle"})
        for load in catalogue.named_loads()
    ]


def _joints(places: Places) -> list[tuple[str, dict[str, Any]]]:
    spacing = usual()["joint"][places.resolved.system]
    return [(say("sheet.floor.joints", spacing=spacing), {"spacing": spacing})]
