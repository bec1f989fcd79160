"""What may stand on a paper as a logo, and what is refused, in one table."""

from __future__ import annotations

import struct
import zlib

import pytest

from underpour.mistakes import Mistake
from underpour.papers import logo as logos
from underpour.papers.logo import logo

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" width="40" height="20" viewBox="0 0 40 20">'
LINK = 'xmlns:xlink="http://www.w3.org/1999/xlink"'


def svg(inner: str, head: str = HEAD) -> bytes:
    return f"{head}{inner}</svg>".encode()


def png(wide: int = 2, high: int = 2, lines: int | None = None) -> bytes:
    def chunk(name: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))

    dots = zlib.compress(b"".join(b"\0" + b"\x20\x40\x60" * wide for _ in range(high if lines is None else lines)))
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", wide, high, 8, 2, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", dots) + chunk(b"IEND", b"")


def jpeg(wide: int = 16, high: int = 8) -> bytes:
    app = b"\xff\xe0" + struct.pack(">H", 16) + b"JFIF\0\1\1\0\0\1\0\1\0\0"
    frame = b"\xff\xc0" + struct.pack(">HBHHB", 11, 8, high, wide, 1) + b"\1\x11\0"
    return b"\xff\xd8" + app + frame + b"\xff\xda\0\x08\1\1\0\0\x3f\0" + b"\0" * 8 + b"\xff\xd9"


TAKEN = {
    "a.png": png(),
    "a.jpg": jpeg(),
    "a.JPEG": jpeg(),
    "plain.svg": svg('<path d="M0 0h40v20z" fill="#182A2E"/><title>On the north shore</title>'),
    "gradient.svg": svg(
        '<defs><linearGradient id="a"><stop offset="0"/></linearGradient>'
        f'<linearGradient id="b" {LINK} xlink:href="#a"/></defs><rect width="9" height="9" fill="url(#b)"/>'
    ),
    "drawn-twice.svg": svg('<g id="a"><path d="M0 0h4"/></g><use href="#a" x="4"/><use href="#a" x="8"/>'),
    "style.svg": svg('<style>.a{fill:#123}</style><path class="a" d="M0 0h4v4z"/>'),
    "drawing-program.svg": svg(
        '<metadata/><p:view xmlns:p="urn:p" p:zoom="2"/><path d="M0 0h4v4z"/>',
        '<?xml version="1.0" encoding="UTF-8"?>\n<!-- drawn by hand -->\n' + HEAD,
    ),
}


def ringed(count: int, times: int) -> str:
    """Groups of which each draws the next one several times."""
    calls = "".join(f'<g id="g{n}">' + f'<use href="#g{n + 1}"/>' * times + "</g>" for n in range(count))
    return f'<defs>{calls}<g id="g{count}"><path d="M0 0h4"/></g></defs><use href="#g0"/>'


REFUSED = {
    "script": ("a.svg", svg("<script>alert(1)</script>"), "a script"),
    "script in another namespace": ("a.svg", svg('<h:script xmlns:h="http://www.w3.org/1999/xhtml"/>'), "a script"),
    "script, letters mixed": ("a.svg", svg("<ScRiPt/>"), "a script"),
    "event attribute": ("a.svg", svg('<path onload="x()" d="M0 0"/>'), "event attribute (onload)"),
    "event on the drawing itself": ("a.svg", svg("", HEAD.replace("<svg", '<svg onclick="x()"')), "onclick"),
    "foreign object": ("a.svg", svg("<foreignObject/>"), "foreignObject"),
    "picture within": ("a.svg", svg('<image href="data:image/png;base64,AAAA"/>'), "picture within the drawing"),
    "link out": ("a.svg", svg('<a href="https://example.org/"><path d="M0 0"/></a>'), "points out of the file"),
    "link out by the older name": ("a.svg", svg(f'<use {LINK} xlink:href="other.svg#a"/>'), "points out of the file"),
    "script as a link": ("a.svg", svg('<a href="java\nscript:x()"/>'), "a script"),
    "fill from elsewhere": ("a.svg", svg('<path fill="url(http://example.org/a#b)"/>'), "points out of the file"),
    "style from elsewhere": ("a.svg", svg("<style>@import 'a.css'</style>"), "style sheet from elsewhere"),
    "style with a font from elsewhere": ("a.svg", svg("<style>a{src:url(a.woff)}</style>"), "points out of the file"),
    "code letters in a style attribute": (
        "a.svg",
        svg(r"""<rect style="fill: \75rl(a.png)" width="9" height="9"/>"""),
        "letters written as codes",
    ),
    "style in code letters": ("a.svg", svg(r"<style>@\69mport 'a.css'</style>"), "letters written as codes"),
    "style sheet by instruction": (
        "a.svg",
        b'<?xml-stylesheet href="a.css"?>' + svg(""),
        "an instruction to another program (xml-stylesheet)",
    ),
    "movement": ("a.svg", svg('<path d="M0 0"><set attributeName="d" to="M1 1"/></path>'), "a movement"),
    "base": ("a.svg", svg('<g xml:base="http://example.org/"/>'), "points out of the file"),
    "entity": ("a.svg", b'<!DOCTYPE svg [<!ENTITY a "b">]>' + svg("&a;"), "document type"),
    "entity from elsewhere": ("a.svg", b'<!DOCTYPE svg SYSTEM "file:///etc/hosts">' + svg(""), "document type"),
    "draws itself again": ("a.svg", svg(ringed(20, 4)), "draws itself again"),
    "draws itself in a ring": ("a.svg", svg('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'), "ring"),
    "too deep": ("a.svg", svg("<g>" * 200 + "</g>" * 200), "more elements than a logo needs"),
    "not whole": ("a.svg", svg("")[:-6], "cannot be read as a drawing"),
    "another document": ("a.svg", b"<html><svg/></html>", "first element is html, not svg"),
    "text named svg": ("a.svg", b"hello", "no picture that is known here"),
    "png named svg": ("a.svg", png(), "by its content a PNG"),
    "svg named png": ("a.png", svg(""), "by its content a SVG"),
    "jpeg named png": ("a.png", jpeg(), "by its content a JPEG"),
    "png cut off": ("a.png", png()[:-20], "cut off"),
    "png damaged": ("a.png", png()[:40] + b"?" + png()[41:], "damaged"),
    "png with too few lines": ("a.png", png(high=2, lines=1), "cut off or damaged"),
    "png that swells": ("a.png", png(wide=2, high=2, lines=100_000), "cut off or damaged"),
    "png too wide": ("a.png", png(wide=9000, high=1), "9000 by 1 dots"),
    "jpeg cut off": ("a.jpg", jpeg()[:-4], "cut off"),
    "jpeg without a size": ("a.jpg", jpeg()[:20], "cut off or damaged"),
    "jpeg too high": ("a.jpg", jpeg(high=7000), "16 by 7000 dots"),
    "too large": ("a.png", png() + b"\0" * (logos.LARGEST * 2), "2.0 MB; a logo may have 1"),
    "another kind": ("a.gif", b"GIF89a", "a PNG, a JPEG or an SVG"),
}


@pytest.mark.parametrize("name", TAKEN)
def test_a_plain_picture_is_taken(tmp_path, name):
    (tmp_path / name).write_bytes(TAKEN[name])
    assert logo(name, tmp_path).content == TAKEN[name]


@pytest.mark.parametrize("case", REFUSED)
def test_what_is_more_or_less_than_a_picture_is_refused_in_words(tmp_path, case):
    name, content, words = REFUSED[case]
    (tmp_path / name).write_bytes(content)
    with pytest.raises(Mistake) as told:
        logo(name, tmp_path)
    assert words in told.value.wrong and told.value.at == "handover.logo" and told.value.instead


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("none.png", "There is no such file."),
        ("folder.png", "There is no such file."),
        ("../outside.png", "brief's own folder"),
        ("/etc/hosts.png", "brief's own folder"),
        ("link.png", "brief's own folder"),
        ("a\N{NULL}b.png", "There is no such file."),
        ("x" * 300 + ".png", "cannot be read"),
    ],
)
def test_a_file_that_is_missing_or_elsewhere_is_not_opened(tmp_path, typed, words):
    inside = tmp_path / "brief"
    inside.mkdir()
    (inside / "folder.png").mkdir()
    (tmp_path / "outside.png").write_bytes(png())
    (inside / "link.png").symlink_to(tmp_path / "outside.png")
    with pytest.raises(Mistake) as told:
        logo(typed, inside)
    assert words in told.value.wrong
