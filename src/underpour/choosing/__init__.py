"""What to use: every product, thickness and edge held against the checks, ranked, with a reason for each refusal."""

from __future__ import annotations

from .records import Bound as Bound
from .records import Choice as Choice
from .records import Money as Money
from .records import Ranged as Ranged
from .records import Reason as Reason
from .records import Refusal as Refusal
from .records import Row as Row
from .records import ToWin as ToWin
from .ways import choose as choose
