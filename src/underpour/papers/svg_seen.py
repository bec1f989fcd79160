"""Looks through an SVG that someone else made: a drawing may stand on a paper, what acts or fetches may not."""

from __future__ import annotations

import re
from xml.parsers import expat

# Names of elements that act, fetch, move or carry a page of another kind, in whatever namespace they stand.
REFUSED = {
    "script": "a script",
    "handler": "a script",
    "listener": "a script",
    "foreignobject": "a page within the drawing (foreignObject)",
    "iframe": "a page within the drawing (iframe)",
    "object": "a page within the drawing (object)",
    "embed": "a page within the drawing (embed)",
    "audio": "a sound",
    "video": "a film",
    "canvas": "a page within the drawing (canvas)",
    "animate": "a movement",
    "animatemotion": "a movement",
    "animatetransform": "a movement",
    "animatecolor": "a movement",
    "set": "a movement",
    "image": "a picture within the drawing (image)",
    "feimage": "a picture within the drawing (feImage)",
}
POINTERS = ("href", "src", "base", "data")  # attributes that name another place
DEEPEST = 100  # elements within one another
MOST = 20_000  # elements, those drawn again by a pointer counted again
_FETCHED = re.compile(r"url\(\s*['\"]?\s*([^'\")\s]*)|@import", re.I)


class Refused(Exception):
    """The drawing holds more than a drawing; the words say what."""


def seen(content: bytes) -> None:
    """Look through the whole file; nothing of it is expanded, fetched or drawn.

    Raises
    ------
    Refused
        It is no whole XML document, its first element is not ``svg``, or it holds a document type or entity, a
        script, an event attribute, a page or picture within the drawing, a pointer out of the file, a style sheet of
        elsewhere, or pointers that would draw itself again without end.
    """
    looked = _Looked()
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.buffer_text = True
    parser.StartDoctypeDeclHandler = looked.doctype
    parser.EntityDeclHandler = looked.doctype
    parser.ProcessingInstructionHandler = looked.instruction
    parser.StartElementHandler = looked.start
    parser.EndElementHandler = looked.end
    parser.CharacterDataHandler = looked.text
    try:
        parser.Parse(content, True)
    except expat.ExpatError as cause:
        raise Refused(
            f"It cannot be read as a drawing: {expat.errors.messages[cause.code]}, line {cause.lineno}."
        ) from None
    looked.close()


class _Looked:
    """What has been met so far."""

    def __init__(self) -> None:
        self.open: list[str] = []  # ids of the elements around here, "" for those without
        self.style = False
        self.elements = 0
        self.points: list[tuple[tuple[str, ...], str]] = []  # the ids around a pointer, and where it points
        self.sizes: dict[str, int] = {}  # elements within each id

    def doctype(self, *_: object) -> None:
        raise Refused("It holds a document type (DOCTYPE or ENTITY), which a drawing does not need.")

    def instruction(self, target: str, _: str) -> None:
        raise Refused(f"It holds an instruction to another program ({target}).")

    def start(self, name: str, attributes: dict[str, str]) -> None:
        local = name.rpartition(" ")[2].casefold()
        if not self.elements and local != "svg":
            raise Refused(f"Its first element is {local}, not svg.")
        if local in REFUSED:
            raise Refused(f"It holds {REFUSED[local]}.")
        self.elements += 1
        self.open.append(attributes.get("id", ""))
        if len(self.open) > DEEPEST or self.elements > MOST:
            raise Refused("It holds more elements than a logo needs.")
        for around in filter(None, self.open):
            self.sizes[around] = self.sizes.get(around, 0) + 1
        self.style = local == "style"
        for attribute, value in attributes.items():
            self._attribute(attribute.rpartition(" ")[2].casefold(), value)

    def end(self, _: str) -> None:
        self.open.pop()
        self.style = False

    def text(self, words: str) -> None:
        if self.style and "@import" in words.casefold():
            raise Refused("It fetches a style sheet from elsewhere (@import).")
        if self.style:
            self._fetched(words, style=True)

    def _attribute(self, name: str, value: str) -> None:
        if name.startswith("on"):
            raise Refused(f"It holds an event attribute ({name}).")
        if "javascript:" in "".join(value.split()).casefold():
            raise Refused("It holds a script.")
        if name in POINTERS:
            self._points_at(value.strip())
        self._fetched(value, name == "style")

    def _fetched(self, value: str, style: bool) -> None:
        if "\\" in value and style:
            raise Refused("Its style sheet holds letters written as codes.")
        for match in _FETCHED.finditer(value):
            self._points_at(match.group(1) or "@import")

    def _points_at(self, target: str) -> None:
        if not target.startswith("#"):
            raise Refused(f"It points out of the file ({target[:40]}).")
        self.points.append((tuple(filter(None, self.open)), target[1:]))

    def close(self) -> None:
        """Whether following every pointer draws a bounded number of elements."""
        inside: dict[str, list[str]] = {}
        for around, target in self.points:
            for id in around:
                inside.setdefault(id, []).append(target)
        drawn: dict[str, int] = {}

        def elements(id: str, above: tuple[str, ...]) -> int:
            if id in above or len(above) > DEEPEST:
                raise Refused("Parts of it point at one another in a ring.")
            if id not in drawn:
                drawn[id] = self.sizes.get(id, 1) + sum(elements(t, (*above, id)) for t in inside.get(id, ()))
            return drawn[id]

        if self.elements + sum(elements(target, ()) for _, target in self.points) > MOST:
            raise Refused("It draws itself again more often than a logo needs.")
