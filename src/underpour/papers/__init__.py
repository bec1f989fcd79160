"""Papers: what is handed out. They print a finished dossier and work nothing out."""

from .pictures import Picture, Pictures
from .product_pages import compared, data_sheet, guided, product_comparison, product_guide
from .ready import Gap, gaps
from .substituted import substitution_page
from .write import Printed, for_one, submittal

__all__ = [
    "Gap",
    "Picture",
    "Pictures",
    "Printed",
    "compared",
    "data_sheet",
    "for_one",
    "gaps",
    "guided",
    "product_comparison",
    "product_guide",
    "submittal",
    "substitution_page",
]
