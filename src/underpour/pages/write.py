"""From what the page is given to one file: its look, its script and its fonts inside, nothing loaded from elsewhere."""

from __future__ import annotations

import re
from base64 import b64encode
from functools import cache
from hashlib import sha256
from importlib.resources import files

from markupsafe import Markup

from ..dossier import Dossier
from ..drawings import colours
from ..drawings.lettering import LETTER
from ..drawings.paper import INK
from .content import sheet
from .given import Sheet, entries
from .signs import set_signs

LOOK = ("page.css", "drawing.css", "table.css", "paper.css")
CODE = (  # each after those it imports from
    "read/packed.js",
    "read/field.js",
    "read/bodies.js",
    "read/words.js",
    "read/place.js",
    "draw/shapes.js",
    "draw/section.js",
    "draw/foot.js",
    "start.js",
)
FONTS = (  # family, weight, file
    ("Sofia Sans", 400, "SofiaSans-Regular"),
    ("Sofia Sans", 600, "SofiaSans-SemiBold"),
    ("Sofia Sans Condensed", 400, "SofiaSansCondensed-Regular"),
    ("Sofia Sans Condensed", 600, "SofiaSansCondensed-SemiBold"),
    ("Noto Sans Math", 400, "NotoSansMath-Regular"),
    ("Fira Mono", 400, "FiraMono-Regular"),
)
IMPORT = re.compile(r"^import .*\n", re.M)
EXPORT = re.compile(r"^export ", re.M)


def teaching_page(dossier: Dossier, *, edge: str, month: int) -> str:
    """The alternatives of a dossier side by side as one web page: months to press, places to point at.

    Parameters
    ----------
    dossier : Dossier
        What was worked out. Its texts are shown as they are; none of them can become markup or code.
    edge : str
        Letter of the edge that stands in front.
    month : int
        Month that is shown first, 1 to 12.

    Returns
    -------
    str
        A document that stands alone and is the same for the same dossier.

    Raises
    ------
    KeyError
        No alternative has such an edge.
    """
    return set_page(sheet(dossier, edge, month))


def set_page(content: Sheet) -> str:
    """The page with this content."""
    from jinja2 import Environment, StrictUndefined

    look, code = stylesheet(), script()
    page = Environment(autoescape=True, undefined=StrictUndefined, trim_blocks=True, keep_trailing_newline=True)
    text = page.from_string(_text("page.html")).render(
        entries(content),
        look=Markup(look),
        code=Markup(code),
        policy=policy(look, code),
    )
    return set_signs(text)


def policy(look: str, code: str) -> str:
    """What a browser lets the page do: this look and this script, fonts from within, and nothing else."""
    return (
        f"default-src 'none'; script-src '{_hash(code)}'; style-src '{_hash(look)}'; font-src data:; "
        "base-uri 'none'; form-action 'none'"
    )


@cache
def script() -> str:
    """All modules as one: their imports from each other left out, each after those it needs."""
    return "\n" + "".join(EXPORT.sub("", IMPORT.sub("", _text(name))) for name in CODE)


@cache
def stylesheet() -> str:
    """Fonts, the colours of both themes, and the look of page, drawing, table and paper."""
    light, dark = colours.light(), colours.dark()
    faces = "".join(
        f'@font-face{{font-family:"{family}";font-weight:{weight};font-display:block;'
        f"src:url(data:font/woff2;base64,{_font(file)}) format('woff2')}}\n"
        for family, weight, file in FONTS
    )
    field = {"field-ink": INK, "field-leaf": light["leaf"], "letter": f"{LETTER:.2f}px"}
    themes = (
        f":root{{{_named(light)}{_named(field)}}}\n"
        f"@media screen and (prefers-color-scheme:dark){{:root{{{_named(dark)}}}}}\n"
        f"{_outside(light)}"
    )
    return "\n" + faces + themes + "".join(_text(f"look/{name}") for name in LOOK)


def _named(values: dict[str, str]) -> str:
    return "".join(f"--{name}:{value};" for name, value in values.items())


def _outside(light: dict[str, str]) -> str:
    """Outside of a field the drawing's own colours, which are those of paper, take the theme's."""
    return "".join(
        f'.outside [fill="{light[name]}"],.outside-letters text[fill="{light[name]}"]{{fill:var(--{name})}}\n'
        f'.outside [stroke="{light[name]}"]{{stroke:var(--{name})}}\n'
        for name in ("ink", "note", "rule", "frame", "leaf", "shade", "short", "tell")
    )


def _font(name: str) -> str:
    return b64encode((files(__package__) / "fonts" / f"{name}.woff2").read_bytes()).decode("ascii")


def _text(name: str) -> str:
    return files(__package__).joinpath(*name.split("/")).read_text(encoding="utf-8")


def _hash(text: str) -> str:
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode('ascii')}"
