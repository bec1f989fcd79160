"""Cuts the bundled fonts down to what a web page carries inside. For developers: needs fontTools and brotli."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from .write import FONTS

WHOLE = Path(__file__).parents[1] / "papers" / "fonts"
CUT = Path(__file__).parent / "fonts"
LETTERS = (
    "0020-007E,00A0-017F,0218-021B,0370-03FF,0400-045F,0490-0491,1E9E,2009-200B,202F,2010-2026,2030,2032-2033,2080-2089,"
    "20AC,2116,2153-215E,2190-2193,2212,221A,2248,2264-2265,25A1"
)
SIGNS = {  # of fonts that stand behind the others: what those do not draw
    "NotoSansMath-Regular": "0020,2009,202F,2032-2033,2190-2193,2248,2264-2265,25A1",
    "FiraMono-Regular": "215B-215E",
}
FEATURES = ["kern", "tnum", "liga", "mark", "ccmp", "locl"]


def cut(name: str) -> bytes:
    """One font cut down, as WOFF2; the same bytes for the same file."""
    from io import BytesIO

    from fontTools import subset  # type: ignore[import-untyped]

    options: Any = subset.Options(layout_features=FEATURES)
    font: Any = subset.load_font(str(WHOLE / f"{name}.ttf"), options)
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=subset.parse_unicodes(SIGNS.get(name, LETTERS)))
    cutter.subset(font)
    held = BytesIO()
    font.flavor = "woff2"
    font.save(held)
    return held.getvalue()


if __name__ == "__main__":
    for name in (file for _, _, file in FONTS):
        (CUT / f"{name}.woff2").write_bytes(cut(name))
