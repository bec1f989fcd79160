"""A page taken apart: its elements, its words, what its script is handed, and the script itself in an engine."""

from __future__ import annotations

import json
import zlib
from base64 import b64decode
from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any

VOID = {"meta", "input", "br", "hr", "img", "link", "source", "area", "base", "col", "embed", "wbr"}
UNREAD = {"script", "style", "title"}


@dataclass
class Element:
    """One element with what stands in it."""

    name: str
    attributes: dict[str, str]
    inner: list[Element | str] = field(default_factory=list)

    @property
    def words(self) -> str:
        return "".join(part if isinstance(part, str) else part.words for part in self.inner)

    def all(self, *names: str, **attributes: str) -> list[Element]:
        """Elements below this one, of any of these names, with these attributes (``class_`` for class)."""
        wanted = {key.rstrip("_").replace("_", "-"): value for key, value in attributes.items()}
        found: list[Element] = []
        for part in self.inner:
            if isinstance(part, str):
                continue
            if (not names or part.name in names) and all(part.attributes.get(k) == v for k, v in wanted.items()):
                found.append(part)
            found += part.all(*names, **attributes)
        return found

    def one(self, *names: str, **attributes: str) -> Element:
        (found,) = self.all(*names, **attributes)
        return found


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.page = Element("page", {})
        self.open = [self.page]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.open[-1].inner.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.open[-1].inner.append(Element(tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        assert self.open[-1].name == tag, f"{tag} closes {self.open[-1].name}"
        self.open.pop()

    def handle_data(self, data: str) -> None:
        self.open[-1].inner.append(data)


def taken_apart(page: str) -> Element:
    """The page as elements; every one that is opened must be closed."""
    reader = _Reader()
    reader.feed(page)
    reader.close()
    assert len(reader.open) == 1
    return reader.page


def read_words(element: Element) -> str:
    """What a reader sees or hears, without the contents of script and style."""
    return " ".join(
        part if isinstance(part, str) else read_words(part)
        for part in element.inner
        if isinstance(part, str) or part.name not in UNREAD
    )


def handed(page: Element) -> dict[str, Any]:
    """What the script is handed, unpacked."""
    letters = page.one("script", id="packed").words
    read: dict[str, Any] = json.loads(zlib.decompress(b64decode(letters, validate=True), -zlib.MAX_WBITS))
    return read
