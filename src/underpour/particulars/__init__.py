"""A product as it is shown: its figures with their evidence and how far they stand, beside others, and its mark."""

from __future__ import annotations

from .comparison import Cell as Cell
from .comparison import Comparison as Comparison
from .comparison import comparison as comparison
from .label import label as label
from .mark import mark as mark
from .sheet import cautions as cautions
from .sheet import sheet as sheet
from .shown import Claim as Claim
from .shown import Particulars as Particulars
from .shown import Thickness as Thickness
from .shown import particulars as particulars
from .since import COMPARISON as COMPARISON
from .since import GUIDE as GUIDE
from .since import SHEET as SHEET
from .since import Form as Form
from .since import Moved as Moved
from .since import earlier as earlier
from .since import since as since
from .words import lists as lists
