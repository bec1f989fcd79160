"""What is asked, in the words of the brief: nothing is turned into other units, nothing is filled in silently."""

from __future__ import annotations

import tomllib
from typing import TYPE_CHECKING, Any

from .revised import path_moved

if TYPE_CHECKING:
    from ..dossier import Dossier

LONGEST = 160  # letters of an outline that is repeated
ASKED = (
    ("ZIP", "site.zip"),
    ("Climate zone", "site.zone"),
    ("Ground", "site.ground"),
    ("Ground, from its surface down", "site.layers"),
    ("Ground water, below the finished ground", "site.water-table"),
    ("On the ground outside", "site.surface"),
    ("Snow on the ground outside", "site.snow"),
    ("Room", "floor.inside"),
    ("Humidity of the room", "floor.humidity"),
    ("What gets to the foam", "floor.touched-by"),
    ("Loads", "load"),
    ("Joints", "joint"),
    ("Parts of the floor on something else", "floor.bay"),
    ("Ribs of the slab", "floor.rib"),
)
AS_TAKEN = {
    "site.surface": "bare, as warm as the air"
}  # what several assumed numbers mean; they stand with the assumed


def _words(typed: Any) -> str:
    """A typed value as one line: tables as "key value, key value", several of them with semicolons between."""
    if isinstance(typed, dict):
        return ", ".join(f"{key} {_words(value)}" for key, value in typed.items())
    if isinstance(typed, list):
        return ("; " if any(isinstance(entry, dict) for entry in typed) else ", ").join(map(_words, typed))
    return str(typed)


def _typed(brief: dict[str, Any], path: str) -> str:
    here: Any = brief
    for key in path.split("."):
        here = here.get(key) if isinstance(here, dict) else None
    return "" if here is None else _words(here)


def _outline(brief: dict[str, Any]) -> str:
    """The corners of the plan with their unit; of many corners how many there are."""
    corners = (brief.get("plan") or {}).get("outline") or []
    words, unit = _words(corners), _typed(brief, "plan.unit")
    if len(words) > LONGEST:
        words = f"{len(corners)} corners, as the brief lists them"
    return f"{words}, in {unit}" if words and unit else words


def asked(dossier: Dossier, assumed: dict[str, str]) -> list[dict[str, Any]]:
    """Rows of name and words, and whether they are otherwise than last time.

    ``assumed`` maps a path to the words of what was taken where nothing was typed.
    """
    try:
        brief = tomllib.loads(dossier.brief_text)
    except tomllib.TOMLDecodeError:  # a dossier read back from a file may carry none
        brief = {}
    rows: list[dict[str, Any]] = [
        {"name": "Use", "words": dossier.use, "moved": path_moved("project.use", dossier)},
        {"name": "Place", "words": dossier.place, "moved": path_moved("site.place", dossier)},
    ]
    if dossier.as_briefed.size:
        rows.append({"name": "Floor", "words": dossier.as_briefed.size, "moved": path_moved("plan", dossier)})
    if outline := _outline(brief):
        rows.append({"name": "Outline", "words": outline, "moved": path_moved("plan.outline", dossier)})
    for name, path in ASKED:
        parts = [words for at, words in assumed.items() if at == path or at.startswith(f"{path}.")]
        taken = AS_TAKEN.get(path, parts[0]) if parts else ""
        words = _typed(brief, path) or (f"{taken}, assumed" if taken else "")
        rows += [{"name": name, "words": words, "moved": path_moved(path, dossier)}] if words else []
    held = ", ".join(dossier.editions) or "no code edition in this brief"
    return [*rows, {"name": "Held to", "words": held, "moved": path_moved("project.code", dossier)}]
