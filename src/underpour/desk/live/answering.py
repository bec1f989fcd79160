"""Two threads that answer: one for what moves at once, one for everything."""

from __future__ import annotations

import sys
from collections import OrderedDict
from concurrent.futures import ThreadPoolExecutor
from functools import cached_property
from threading import Lock
from typing import TYPE_CHECKING, TypeVar

from .told import Told, Unread

if TYPE_CHECKING:
    from ...ask import Asked
    from .first import First
    from .whole import Whole

Made = TypeVar("Made")
KEPT = 24  # whole answers: some undoing and a few open sheets
SWITCH = 0.0005  # s after which a thread that waits is let in: the first answer passes what works for long
PAGES = 64  # sheets whose last whole answer is remembered


class Answering:
    """Answers by text, for every sheet that is open.

    What a factorisation holds must be freed by the thread that made it: so each of the two has its own thread, hands
    out plain values only, and no exception of its leaves it.
    """

    def __init__(self) -> None:
        self._for_first = ThreadPoolExecutor(1, "first")
        self._for_whole = ThreadPoolExecutor(1, "whole")
        self._lock = Lock()
        self._told: OrderedDict[str, Told] = OrderedDict()
        self._asked: OrderedDict[str, Asked] = OrderedDict()
        self._last: OrderedDict[str, str] = OrderedDict()  # text of the last whole answer, by sheet
        self._wanted: dict[str, str] = {}  # by sheet, the text that somebody waits for
        sys.setswitchinterval(SWITCH)

    @cached_property
    def _first(self) -> First:
        """Loaded when the first brief is answered: the list of briefs does not wait for what solves."""
        from .first import First

        return First()

    @cached_property
    def _whole(self) -> Whole:
        from .whole import Whole

        return Whole()

    def first(self, text: str, version: str, sheet: str = "", against: str = "") -> Told | Unread:
        """What moves, at once; everything where it is known already."""
        known = self.known(text)
        if known is not None:
            self._remember(sheet, text)
            return known
        with self._lock:
            self._wanted[sheet] = text
        last = self.known(self._last.get(sheet, ""))
        return self._for_first.submit(lambda: self._first.told(text, version, last, against)).result()

    def whole(self, text: str, sheet: str = "") -> Told | Unread | None:
        """Everything; None where somebody went on typing on the same sheet meanwhile."""
        with self._lock:
            self._wanted[sheet] = text
        known = self.known(text)
        if known is None:
            told = self._for_whole.submit(self._worked_out, text, sheet).result()
            if not isinstance(told, Told):
                return told
            self._keep(self._told, text, told)
            known = told
        self._remember(sheet, text)
        return known

    def asked(self, text: str) -> Asked | Unread:
        """The few open inputs that would turn a verdict."""
        with self._lock:
            known = self._asked.get(text)
        if known is not None:
            return known
        said = self._for_whole.submit(lambda: self._whole.asked(text)).result()
        if not isinstance(said, Unread):
            self._keep(self._asked, text, said)
        return said

    def known(self, text: str) -> Told | None:
        """The whole answer to a text, where it was worked out before."""
        with self._lock:
            if text in self._told:
                self._told.move_to_end(text)
            return self._told.get(text)

    def close(self) -> None:
        """Ends both threads; what is being worked out is finished first."""
        for pool in (self._for_first, self._for_whole):
            pool.shutdown(wait=False, cancel_futures=True)

    def _worked_out(self, text: str, sheet: str) -> Told | Unread | None:
        def late() -> bool:
            return self._wanted.get(sheet) != text

        return None if late() else self._whole.told(text, late)

    def _remember(self, sheet: str, text: str) -> None:
        with self._lock:
            self._last[sheet] = text
            self._last.move_to_end(sheet)
            while len(self._last) > PAGES:
                forgotten, _ = self._last.popitem(last=False)
                self._wanted.pop(forgotten, None)

    def _keep(self, cache: OrderedDict[str, Made], text: str, made: Made) -> None:
        with self._lock:
            cache[text] = made
            while len(cache) > KEPT:
                cache.popitem(last=False)
