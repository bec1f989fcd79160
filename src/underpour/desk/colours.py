"""The colours of the house as names for style sheets, light and dark."""

from __future__ import annotations

from functools import cache

from ..drawings import colours as house
from ..drawings.paper import INK


@cache
def colours() -> str:
    """Every colour as ``--name``, by the reader's theme; paper is light.

    Inside a field of temperatures ink and leaf stay those of paper: ``--field-ink``, ``--field-leaf``.
    """
    light, dark = house.light(), house.dark()
    field = {"field-ink": INK, "field-leaf": light["leaf"]}
    return (
        f":root{{{_named({**light, **field, 'on-act': light['leaf']})}}}\n"
        f"@media screen and (prefers-color-scheme:dark){{:root{{{_named({**dark, 'on-act': dark['sheet']})}}}}}\n"
    )


def _named(values: dict[str, str]) -> str:
    return "".join(f"--{name}:{value};" for name, value in values.items())
