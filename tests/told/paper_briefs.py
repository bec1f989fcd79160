"""Briefs with long names in three scripts, made by chance from the examples; the same seed gives the same brief."""

from __future__ import annotations

import json
import re
from pathlib import Path
from random import Random

EXAMPLES = sorted(Path(__file__).parents[2].glob("examples/*/brief.toml"))
LETTERS = (
    "abcdefghijklmnoprstuvwzåäöüßéèêëíñçøæœłőűšžčćğışțăâîōū",
    "αβγδεζηθικλμνξοπρστυφχψωάέήίόύώ",
    "абвгдежзийклмнопрстуфхцчшщыьэюяїєґ",
)
SIGNS = (
    "#",
    "$",
    "*bold*",
    "_low_",
    "[a]",
    "<b>",
    "@cite",
    "\\u{41}",
    "`raw`",
    "//",
    "/*",
    "=1+1",
    "+1",
    "-1",
    "@SUM(A1)",
    "–",
    "&amp;",
)


def word(chance: Random, longest: int = 16) -> str:
    made = "".join(chance.choices(chance.choice(LETTERS), k=chance.randint(2, longest)))
    return chance.choice((made, made.capitalize(), made.upper()))


def words(chance: Random, most: int = 9, longest: int = 16) -> str:
    """Some words, one of them now and then without an end, one of them now and then a sign."""
    said = [word(chance, longest) for _ in range(chance.randint(1, most))]
    if chance.random() < 0.3:
        said.insert(chance.randint(0, len(said)), word(chance, 70))
    if chance.random() < 0.5:
        said.insert(chance.randint(0, len(said)), chance.choice(SIGNS))
    return " ".join(said)


def quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def handover(chance: Random) -> str:
    lines = ["[handover]", f"number = {quoted(words(chance, 2))}", f"from = {quoted(words(chance))}"]
    lines.append(f"prepared-by = {quoted(words(chance, 4))}")
    if chance.random() < 0.6:
        lines.append(f"revision = {quoted(chance.choice('BCDEFG'))}")
    for key in ("to", "references", "deviations"):
        lines.append(f"{key} = [{', '.join(quoted(words(chance, 14)) for _ in range(chance.randint(1, 5)))}]")
    return "\n".join(lines)


def brief(seed: int) -> tuple[str, str]:
    """The text of a brief that can be answered and handed over, and the file it was made from."""
    chance = Random(seed)
    path = chance.choice(EXAMPLES)
    text = path.read_text("utf-8")
    text = re.sub(r"^\[handover\]\n(?:.+\n)*", "", text, flags=re.M)
    text = re.sub(r'^title( *)= ".*"$', lambda _: f"title = {quoted(words(chance, 12))}", text, flags=re.M)
    names = iter([f"{words(chance, 8)} {n}" for n in range(20)])
    text = re.sub(
        r'^(\[\[alternative\]\]\nname *= )".*"$', lambda found: found.group(1) + quoted(next(names)), text, flags=re.M
    )
    if chance.random() < 0.5:
        text = re.sub(r'^units( *)= "US"$', 'units = "SI"', text, flags=re.M)
    return f"{text.rstrip()}\n\n{handover(chance)}\n# {words(chance, 20, 30)}\n", str(path)
