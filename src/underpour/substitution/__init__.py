"""What may stand in the place of a board: which products serve in this brief, what changes, why others are refused."""

from __future__ import annotations

from .records import Change as Change
from .records import Exchange as Exchange
from .records import Refusal as Refusal
from .records import Substitute as Substitute
from .records import Substitution as Substitution
from .substituting import substitution as substitution
