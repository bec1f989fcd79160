"""``underpour desk``: briefs drawn and answered in a page on this machine."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import closing
from pathlib import Path

from ..mistakes import Mistake
from .parsing import Words
from .told import Told

EXAMPLE = "underpour desk --port 8642"
PORT = 8642
HELP = """\
underpour desk [--port N] [--book FILE] [--no-browser]

Opens a page in which a slab is drawn and answered while one types. It answers
on this machine only, needs no network, and keeps every brief and every change
of it in one file, the book.

  --port N       where it listens; 8642 unless you say
  --book FILE    the book; one in your own folder for data unless you say
  --no-browser   print the address only

For example:

  underpour desk
  underpour desk --port 9000 --book ~/slabs/2026.book

It goes on until Ctrl-C, and ends with 0. With 2 it could not begin: the words
say why.
"""


def parser() -> Words:
    words = Words("desk", EXAMPLE)
    words.add_argument("--port", type=port, default=PORT)
    words.add_argument("--book", metavar="FILE")
    words.add_argument("--no-browser", action="store_true")
    return words


def port(typed: str) -> int:
    """A port by its number; 0 takes any that is free."""
    if not (typed.isascii() and typed.isdecimal() and int(typed) <= 65535):
        raise Mistake(f"--port {typed}", "", "A port is a number up to 65535.", f"For example: {EXAMPLE}")
    return int(typed)


def told(words: Sequence[str]) -> Told:
    """Serve the desk until it is ended; what is said last."""
    given = parser().read(words)

    from ..desk.ports import address, taken
    from ..desk.words import say
    from .printing import hand_out

    with closing(taken(given.port)) as listening:  # what cannot be is told before anything heavy is loaded
        from ..book import default_book, open_book

        path = Path(given.book).expanduser() if given.book else default_book()
        with closing(open_book(path)) as book:
            from ..desk.app import desk_app
            from ..desk.serve import serve

            at = address(listening.getsockname()[1])

            def ready() -> None:
                hand_out(say("serve.at", address=at, book=path) + "\n")
                if not given.no_browser:
                    import webbrowser

                    webbrowser.open(at)

            serve(desk_app(book), listening, ready)
    return Told(say("serve.ended") + "\n")
