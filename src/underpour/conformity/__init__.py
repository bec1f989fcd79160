"""Whether a product line stands on its evidence: records in, findings out. Nothing here reads a file or a clock."""

from __future__ import annotations

from .findings import Held as Held
from .findings import RecordFinding as RecordFinding
from .findings import Validation as Validation
from .membranes import Membrane as Membrane
from .membranes import membrane as membrane
from .membranes import permeance_limit as permeance_limit
from .standing import Standing as Standing
from .standing import refused_labels as refused_labels
from .standing import standings as standings
from .validating import ReadLine as ReadLine
from .validating import held_product as held_product
from .validating import placed as placed
from .validating import validation as validation
