"""The colours of the house as names for style sheets, light and dark."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files


@cache
def colours() -> str:
    """Every colour as ``--name``, by the reader's theme; paper is light.

    Inside a field of temperatures ink and leaf stay those of paper: ``--field-ink``, ``--field-leaf``. The one colour
    file is read as it lies, since the first page must not wait until all that draws is loaded.
    """
    file = files("underpour") / "drawings" / "colours.toml"
    table = tomllib.loads(file.read_text(encoding="utf-8"))
    light, dark = ({name: row[theme] for name, row in table.items()} for theme in ("light", "dark"))
    field = {"field-ink": light["ink"], "field-leaf": light["leaf"]}
    return (
        f":root{{{_named({**light, **field, 'on-act': light['leaf']})}}}\n"
        f"@media screen and (prefers-color-scheme:dark){{:root{{{_named({**dark, 'on-act': dark['sheet']})}}}}}\n"
        f"{_outside(light)}"
    )


def _named(values: dict[str, str]) -> str:
    return "".join(f"--{name}:{value};" for name, value in values.items())


def _outside(light: dict[str, str]) -> str:
    """Outside of a field the drawing's own colours, which are those of paper, take the theme's."""
    return "".join(
        f'.outside [{of}="{light[name]}"]{{{of}:var(--{name})}}\n'
        for of in ("fill", "stroke")
        for name in ("ink", "note", "rule", "frame", "leaf", "shade", "short", "tell")
    )
