"""What a script reads, as letters that no markup can hide in."""

from __future__ import annotations

import json
import zlib
from base64 import b64encode
from typing import Any
from xml.etree import ElementTree

from .signs import set_signs

RAW = -zlib.MAX_WBITS  # deflate without a head, as browsers read it


def packed(content: Any) -> str:
    """JSON, deflated, in base 64: letters, digits, + / = and nothing else.

    >>> packed([1])
    'izaMBQA='
    """
    text = set_signs(json.dumps(content, ensure_ascii=False, allow_nan=False, separators=(",", ":")))
    deflate = zlib.compressobj(9, zlib.DEFLATED, RAW)
    return b64encode(deflate.compress(text.encode()) + deflate.flush()).decode("ascii")


def shapes(drawn: str) -> list[Any]:
    """A piece of a picture as lists of name, attributes and content, so that a script sets it without reading markup.

    >>> shapes('<g><text x="1">a &lt; b</text></g>')
    [['g', {}, [['text', {'x': '1'}, 'a < b']]]]
    """
    return [_shape(element) for element in ElementTree.fromstring(f"<g>{drawn}</g>")]


def _shape(element: ElementTree.Element) -> list[Any]:
    inner: Any = [_shape(child) for child in element] if len(element) else (element.text or "")
    return [element.tag, dict(element.attrib), inner]
