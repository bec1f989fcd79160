"""A thread that answers at once, a process that works out everything, and a gentle one that works ahead."""

from __future__ import annotations

from collections import OrderedDict
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from functools import cached_property
from threading import Lock
from typing import TYPE_CHECKING, TypeVar

from ...brief.alternatives import AS_BRIEFED
from .aside import Aside
from .asking import Asking
from .told import Told, Unread

if TYPE_CHECKING:
    from typing import Any

    from ...ask import Asked
    from ..shown import Look
    from .first import First

Key = TypeVar("Key")
Made = TypeVar("Made")
KEPT = 24  # whole answers: some undoing and a few open sheets
PAGES = 64  # sheets whose last whole answer is remembered


class Answering:
    """Answers by text, for every sheet that is open.

    What a factorisation holds must be freed by the thread that made it: so what answers at once has its own thread,
    hands out plain values only, and no exception of its leaves it. The whole answer has a process (``Aside``), and a
    thread that waits for it. What to ask the caller is worked out there too, and gives way to any answer. A second
    process, which goes behind everything else, makes ready what is about to be drawn.
    """

    def __init__(self) -> None:
        self._for_first = ThreadPoolExecutor(1, "first")
        self._for_whole = ThreadPoolExecutor(1, "whole")
        self._for_ahead = ThreadPoolExecutor(1, "ahead")
        self._for_asking = ThreadPoolExecutor(1, "asking")
        self._lock = Lock()
        self._told: OrderedDict[str, Told] = OrderedDict()
        self._asked: OrderedDict[str, Asking] = OrderedDict()
        self._sheets: OrderedDict[tuple[str, Look], dict[str, Any]] = OrderedDict()  # of whole answers
        self._last: OrderedDict[str, str] = OrderedDict()  # text of the last whole answer, by sheet
        self._wanted: dict[str, str] = {}  # by sheet, the text that somebody waits for
        self._working = ("", "")  # the sheet and the text that are being worked out wholly
        self._aside, self._behind = Aside(), Aside(gentle=True)
        self._ahead: object = None  # whoever asked last that something be made ready

    @cached_property
    def _first(self) -> First:
        """Loaded when the first brief is answered: the list of briefs does not wait for what solves."""
        from .first import First

        return First()

    def begin(self) -> None:
        """The process is started before somebody waits for it."""
        self._aside.begin()

    def first(self, text: str, version: str, sheet: str = "", against: str = "") -> Told | Unread:
        """What moves, at once; everything where it is known already."""
        known = self.known(text)
        if known is not None:
            self._remember(sheet, text)
            return known
        self._want(sheet, text)
        self._give_way()
        last = self.known(self._last.get(sheet, ""))
        return self._for_first.submit(lambda: self._first.told(text, version, last, against)).result()

    def whole(self, text: str, look: Look, sheet: str = "") -> Told | Unread | None:
        """Everything; None where somebody went on typing on the same sheet meanwhile. ``look`` is drawn with it."""
        self._want(sheet, text)
        known = self.known(text)
        if known is None:
            self._give_way()
            told = self._for_whole.submit(self._worked_out, text, look, sheet).result()
            if not isinstance(told, Told):
                return told
            self._keep(self._told, text, told)
            known = told
            with suppress(RuntimeError):  # closed meanwhile
                self._for_first.submit(self._first.ready, told, look.alternative)
        self._remember(sheet, text)
        return known

    def ask(self, text: str) -> Asking:
        """The few open inputs that would turn a verdict: begun, gone on with, or there."""
        with self._lock:
            held = self._asked.get(text)
        if held is None or held.left:
            held = Asking()
            self._keep(self._asked, text, held)
            self._for_asking.submit(self._ask, text, held)
        return held

    def stop_asking(self, text: str) -> Asking:
        """Nobody waits for what to ask of this text."""
        with self._lock:
            held = self._asked.get(text)
            if held is None:
                held = self._asked[text] = Asking()
        working = held.stop()
        if working:
            self._aside.leave()
        return held

    def asked_before(self, text: str) -> Asked | None:
        """What to ask, where it was worked out already."""
        with self._lock:
            held = self._asked.get(text)
        return None if held is None or isinstance(held.said, Unread) else held.said

    def ahead(self, text: str, path: str) -> None:
        """The layer whose thickness is typed at a path may soon be drawn: made ready, if the text is answered."""
        known = self.known(text)
        if known is not None:
            self._ahead = wish = object()
            self._for_ahead.submit(self._make_ready, known, path, wish)

    def sheet(self, told: Told, look: Look) -> dict[str, Any]:
        """What is drawn of an answer; of a whole one it is kept, for somebody goes back to it."""
        from ..shown import sheet

        if told.dossier is None:
            return sheet(told, look)
        with self._lock:
            drawn = self._sheets.get((told.text, look))
        if drawn is None:
            drawn = sheet(told, look)
            self._keep(self._sheets, (told.text, look), drawn)
        return drawn

    def known(self, text: str) -> Told | None:
        """The whole answer to a text, where it was worked out before."""
        with self._lock:
            if text in self._told:
                self._told.move_to_end(text)
            return self._told.get(text)

    def close(self) -> None:
        """Ends the threads and both processes; what moves at once is finished first."""
        self._aside.close()
        self._behind.close()
        for pool in (self._for_first, self._for_whole, self._for_ahead, self._for_asking):
            pool.shutdown(wait=False, cancel_futures=True)

    def _want(self, sheet: str, text: str) -> None:
        """Somebody waits for this text on that sheet, and for what was there before no more."""
        with self._lock:
            self._wanted[sheet] = text
            left = self._working[0] == sheet and self._working[1] != text
        if left:
            self._aside.leave()

    def _give_way(self) -> None:
        """What to ask the caller is left where an answer is waited for; it is begun again when it is asked for."""
        with self._lock:
            working = [each for each in self._asked.values() if each.give_way()]
        if working:
            self._aside.leave()

    def _ask(self, text: str, held: Asking) -> None:
        """Worked out behind the whole answer, which says where each input is typed."""
        from ..shown import Look
        from .aside import Stopped

        if held.over:
            return
        try:
            told = self.whole(text, Look(), "ask")
            if isinstance(told, Unread):
                held.ended(told)
            elif told is not None:
                held.ended(self._for_whole.submit(self._asked_aside, text, held).result())
        except (RuntimeError, Stopped):  # closed, or ended without an answer: whoever looks again begins it anew
            held.ended(None)

    def _asked_aside(self, text: str, held: Asking) -> Asked | Unread | None:
        held.begun()
        return self._aside.asked(text, lambda: held.over, held.on)

    def _make_ready(self, known: Told, path: str, wish: object) -> None:
        def late() -> bool:
            return self._ahead is not wish

        with suppress(RuntimeError):  # closed, or ended without an answer: then each size is told the long way
            for drawn in self._for_first.submit(lambda: self._first.wanted(known, path)).result():
                made = self._behind.family(drawn, late)
                if made is not None:
                    self._for_first.submit(self._first.keep, made).result()
            self._for_first.submit(self._first.ready, known, AS_BRIEFED).result()

    def _worked_out(self, text: str, look: Look, sheet: str) -> Told | Unread | None:
        def late() -> bool:
            return self._wanted.get(sheet) != text

        known = self.known(text)  # worked out for another sheet while this one waited
        if known is not None:
            return known
        with self._lock:
            self._working = sheet, text
        try:
            told, drawn = self._aside.told(text, look, late)
        finally:
            with self._lock:
                self._working = "", ""
        if drawn:
            self._keep(self._sheets, (text, look), drawn)
        return told

    def _remember(self, sheet: str, text: str) -> None:
        with self._lock:
            self._last[sheet] = text
            self._last.move_to_end(sheet)
            while len(self._last) > PAGES:
                forgotten, _ = self._last.popitem(last=False)
                self._wanted.pop(forgotten, None)

    def _keep(self, cache: OrderedDict[Key, Made], key: Key, made: Made) -> None:
        with self._lock:
            cache[key] = made
            while len(cache) > KEPT:
                cache.popitem(last=False)
