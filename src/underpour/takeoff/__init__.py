"""What to order for a slab: panels by a plan of them, film, gravel, concrete and foam of the edges, with prices."""

from __future__ import annotations

from ..resolve import Resolved
from .belonging import tools
from .bulk import blinding, gravel
from .coils import Coils
from .concrete import concrete
from .edge_strip import edge_strip
from .edges import edge_foam
from .film_plan import film_plans
from .films import films
from .fixings import chairs, wall_fixings
from .layers import Told, layers
from .lorries import Loads, loads
from .lots import Lot, lots
from .quoted import quoted
from .records import Beyond, Cost, Item, LaidLayer, Pack, Takeoff
from .stated import findings
from .through import through
from .totals import totals, unlike
from .tube import coils_of, tube
from .vented import vented

__all__ = ["Beyond", "Coils", "Cost", "Item", "LaidLayer", "Loads", "Lot", "Pack", "Takeoff", "taken_off"]


def taken_off(resolved: Resolved, told: Told = lambda _words, _done: None) -> Takeoff:
    """Everything that a resolved brief takes.

    Arguments
    ---------
    resolved
        The brief in numbers.
    told
        Called while panels are laid, with what is laid and how much of the looking is done; where it hands back
        True, the best plans so far are taken. [0 to 1]
    """
    laid = layers(resolved, told)
    at_edges = tuple(edge_foam(resolved, told))
    cut = coils_of(resolved)
    items = (
        *(item for layer in laid for item in layer.items),
        *at_edges,
        *wall_fixings(resolved, at_edges),
        *films(resolved),
        *through(resolved),
        *edge_strip(resolved),
        *tube(resolved, cut),
        *chairs(resolved),
        *vented(resolved),
        *gravel(resolved),
        *blinding(resolved),
        *concrete(resolved),
    )
    priced = quoted(resolved, items)
    return Takeoff(
        resolved.title,
        resolved.system,
        laid,
        priced,
        totals(priced),
        film_plans(resolved),
        loads(items, resolved.system),
        cut,
        tools(resolved, items),
        unlike(priced, resolved.money.currency if resolved.money else ""),
        findings(resolved, laid, cut),
        lots(resolved, priced),
    )
