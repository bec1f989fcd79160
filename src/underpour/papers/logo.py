"""A logo beside the brief: read, looked through, and refused where it is more than a picture."""

from __future__ import annotations

import struct
import zlib
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from ..mistakes import Mistake
from .svg_seen import Refused, seen

Kind = Literal["png", "jpg", "svg"]
KINDS: dict[str, Kind] = {".png": "png", ".jpg": "jpg", ".jpeg": "jpg", ".svg": "svg"}
NAMED = {"png": "PNG", "jpg": "JPEG", "svg": "SVG"}
LARGEST = 1_000_000  # bytes; a logo on paper is a few centimetres wide
WIDEST = 6000  # dots either way
SHOWN = 60  # letters of a typed path that a message repeats

_PNG = b"\x89PNG\r\n\x1a\n"
_JPEG = b"\xff\xd8\xff"
_CHANNELS = {0: 1, 2: 3, 3: 1, 4: 2, 6: 4}  # of a PNG, by its colour type
_BARE = {0x01, 0x00, *range(0xD0, 0xD8)}  # markers of a JPEG that no length follows
_SIZED = {*range(0xC0, 0xD0)} - {0xC4, 0xC8, 0xCC}  # its frame headers, which hold height and width


@dataclass(frozen=True, slots=True)
class Logo:
    """A picture that may stand on a paper."""

    kind: Kind
    content: bytes


def logo(typed: str, folder: Path) -> Logo:
    """The picture that a brief names, looked through from end to end.

    Parameters
    ----------
    typed : str
        The path as the brief has it, from the brief's own folder on.
    folder : Path
        The folder in which the brief stands; nothing outside it is opened.

    Raises
    ------
    Mistake
        Missing, too large, not the kind that its suffix says, cut off, or an SVG that holds more than a drawing.
    """
    path = folder / typed.replace("\0", "\N{WHITE SQUARE}")  # no file's name holds that sign
    if not path.resolve().is_relative_to(folder.resolve()):
        raise _cannot(typed, "A logo stands in the brief's own folder.", "Copy it there, and write its name.")
    kind = KINDS.get(path.suffix.lower())
    if kind is None:
        raise _cannot(typed, "A logo is a PNG, a JPEG or an SVG.", "Save it as one of these.")
    try:
        if not path.is_file():
            raise _cannot(typed, "There is no such file.", f"Put it beside the brief, in {folder}.")
        if path.stat().st_size > LARGEST:
            raise _cannot(
                typed,
                f"It has {path.stat().st_size / 1e6:.1f} MB; a logo may have {LARGEST / 1e6:.0f}.",
                "Save it smaller.",
            )
        content = path.read_bytes()
    except (OSError, ValueError) as cause:  # ValueError: a name that no file can have
        raise _cannot(
            typed, f"It cannot be read: {getattr(cause, 'strerror', None) or cause}.", "Look at the file."
        ) from None
    found = _kind(content)
    if found != kind:
        holds = f"a {NAMED[found]}" if found else "no picture that is known here"
        raise _cannot(typed, f"By its name it is a {NAMED[kind]}, by its content {holds}.", "Save it anew.")
    wrong = {"png": _png, "jpg": _jpeg, "svg": _svg}[kind](content)
    if wrong:
        raise _cannot(
            typed, wrong, "Save it anew as a plain drawing, or as a PNG." if kind == "svg" else "Save it anew."
        )
    return Logo(kind, content)


def _cannot(typed: str, wrong: str, instead: str) -> Mistake:
    shown = typed if len(typed) <= SHOWN else typed[:SHOWN] + "…"
    return Mistake("handover.logo", f'"{shown}"', wrong, instead)


def _kind(content: bytes) -> Kind | None:
    if content.startswith(_PNG):
        return "png"
    if content.startswith(_JPEG):
        return "jpg"
    return "svg" if content.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"<") and b"<svg" in content.lower() else None


def _png(content: bytes) -> str:
    """What is wrong with a PNG, "" where nothing is: each chunk whole, every line of dots there."""
    at, dots, end = len(_PNG), bytearray(), False
    head: tuple[int, ...] = ()
    while at + 12 <= len(content) and not end:
        size, name = struct.unpack(">I4s", content[at : at + 8])
        body = content[at + 8 : at + 8 + size]
        check = content[at + 8 + size : at + 12 + size]
        if len(check) < 4 or zlib.crc32(name + body) != int.from_bytes(check, "big"):
            return "The picture is cut off or damaged."
        if name == b"IHDR" and size == 13:
            head = struct.unpack(">IIBBBBB", body)
        dots += body if name == b"IDAT" else b""
        end = name == b"IEND"
        at += 12 + size
    if not head or not end:
        return "The picture is cut off."
    wide, high, depth, colour, *_, interlaced = head
    if not _fits(wide, high):
        return _too_wide(wide, high)
    whole = high * (1 + (wide * _CHANNELS.get(colour, 4) * depth + 7) // 8)
    most = 2 * whole + 64 if interlaced else whole
    try:
        reader = zlib.decompressobj()
        drawn = len(reader.decompress(bytes(dots), most + 1))
    except zlib.error:
        return "The picture is damaged."
    if drawn > most or (drawn < whole and not interlaced):
        return "The picture is cut off or damaged."
    return ""


def _jpeg(content: bytes) -> str:
    """What is wrong with a JPEG, "" where nothing is: a frame header with a size, and its end."""
    at = 2
    while at + 4 <= len(content) and content[at] == 0xFF:
        marker = content[at + 1]
        if marker == 0xFF or marker in _BARE:
            at += 1 if marker == 0xFF else 2
            continue
        size = int.from_bytes(content[at + 2 : at + 4], "big")
        if marker in _SIZED:
            high, wide = struct.unpack(">HH", content[at + 5 : at + 9].ljust(4, b"\0"))
            if not _fits(wide, high):
                return _too_wide(wide, high)
            return "" if content.rstrip(b"\0\r\n").endswith(b"\xff\xd9") else "The picture is cut off."
        at += 2 + size
    return "The picture is cut off or damaged."


def _svg(content: bytes) -> str:
    try:
        seen(content)
    except Refused as refused:
        return str(refused)
    return ""


def _fits(wide: int, high: int) -> bool:
    return 0 < wide <= WIDEST and 0 < high <= WIDEST


def _too_wide(wide: int, high: int) -> str:
    return f"It has {wide} by {high} dots; a logo has between 1 and {WIDEST} either way."
