"""From a wanted R to the thinnest thickness made, in one layer or several, and back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations_with_replacement

from ..measure import System, say
from .read import quantity, table
from .records import Board, Made, Quantity

EXACT = 1e-9  # share: a label that says R-10 reaches R-10, whatever is lost in turning it into SI


@dataclass(frozen=True, slots=True)
class Laid:
    """Boards of one kind that lie on one another, thickest first."""

    layers: tuple[Made, ...]

    @property
    def thickness(self) -> float:
        """Of all layers together. [m]"""
        return sum(made.thickness for made in self.layers)

    @property
    def r_label(self) -> float:
        """As labelled, layers added up. [m²·K/W]"""
        return sum(made.r_label.value for made in self.layers)

    @property
    def typed(self) -> str:
        """The thicknesses as they are made: "3 in + 2 in"."""
        return " + ".join(made.typed for made in self.layers)

    def reaches(self, wanted: float) -> bool:
        """Whether its label says a wanted R or more. [m²·K/W in]"""
        return self.r_label >= wanted * (1.0 - EXACT)


def size(key: str) -> Quantity:
    """A row of thicknesses.toml."""
    return quantity(table("thicknesses")[key]["size"], f"catalogue.thickness.{key}")


def most_layers() -> int:
    """How many layers are laid on one another."""
    return int(size("most-layers").value)


def made_in(board: Board, system: System) -> tuple[Made, ...]:
    """The thicknesses that a board is made in, thinnest first; of a class the usual steps up to the thickest board.

    >>> from .products import shipped_products
    >>> [made.typed for made in made_in(shipped_products().board("c578-ix"), "US")][:3]
    ['¼ in', '½ in', '¾ in']
    """
    if board.made:
        return tuple(sorted(board.made, key=lambda made: made.thickness))
    step = size("step-us" if system == "US" else "step-si").value
    many = round(size("thickest").value / step)
    return tuple(cut_to(board, _typed(n * step, system), n * step) for n in range(1, many + 1))


def _typed(thickness: float, system: System) -> str:
    return " ".join(say.value(thickness, "m", system).split())


def cut_to(board: Board, typed: str, thickness: float) -> Made:
    """A thickness of a board whose label is for each inch or metre. [m in]"""
    each = board.r_label_per_metre
    labelled = replace(
        each,
        value=each.value * thickness,
        low=each.low * thickness,
        high=each.high * thickness,
        unit="m²·K/W",
    )
    return Made(thickness, typed, labelled)


def one_layer(made: Sequence[Made], wanted: float) -> Laid | None:
    """The thinnest single board that reaches a wanted R; None where none does. [m²·K/W in]"""
    reaching = [laid for laid in (Laid((each,)) for each in made) if laid.reaches(wanted)]
    return min(reaching, key=lambda laid: laid.thickness, default=None)


def stack(made: Sequence[Made], wanted: float, most: int) -> Laid | None:
    """The thinnest of two layers or more that reach a wanted R; of equally thick ones that of fewest layers.

    Parameters
    ----------
    made : sequence of Made
        Thicknesses that can be had.
    wanted : float
        R as labelled. [m²·K/W]
    most : int
        Layers on one another at most.

    None where no stack reaches it.
    """
    reaching = [
        laid
        for layers in range(2, most + 1)
        for each in combinations_with_replacement(sorted(made, key=lambda one: -one.thickness), layers)
        if (laid := Laid(each)).reaches(wanted)
    ]
    return min(reaching, key=lambda laid: (round(laid.thickness, 6), len(laid.layers)), default=None)


def thinnest(made: Sequence[Made], wanted: float, most: int) -> Laid | None:
    """One layer where one reaches the wanted R, otherwise the thinnest stack; None where neither does."""
    return one_layer(made, wanted) or stack(made, wanted, most)


def thinner(made: Sequence[Made], laid: Laid) -> Laid | None:
    """What would be the next thinner choice of as many layers; None where there is none."""
    smaller = [
        other
        for each in combinations_with_replacement(sorted(made, key=lambda one: -one.thickness), len(laid.layers))
        if (other := Laid(each)).thickness < laid.thickness - 1e-6
    ]
    return max(smaller, key=lambda other: (round(other.thickness, 6), other.r_label), default=None)
