"""The takeoff's findings: panels, the bound that they are held to, what is left over, and tube."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..catalogue.estimating import estimating
from ..findings import Basis, Finding, Step
from ..measure import say
from ..measure.digits import fixed
from ..resolve import Resolved
from .coils import Coils
from .cutting import is_whole
from .records import LaidLayer
from .tube import loop_lengths

LAID = Basis("geometry", "pieces tile the floor, each cut from one panel", "derived")
COUNTED = Basis("geometry", "area over area, or strips of edge rows over each place along them", "derived")
CUT = Basis("geometry", "loops packed into coils, the longest first", "derived")


def findings(resolved: Resolved, layers: Sequence[LaidLayer], cut: Coils | None) -> tuple[Finding, ...]:
    """What an order states of panels and tube; none has a limit.

    Arguments
    ---------
    resolved
        The brief in numbers.
    layers
        Its layers of panels with their plans.
    cut
        Its loops by coil; None where there are none.
    """
    return (*(each for layer in layers for each in _of_layer(resolved, layer)), *_tube(resolved, cut))


def _of_layer(resolved: Resolved, layer: LaidLayer) -> Iterator[Finding]:
    layout, (fewest, how) = layer.layout, layer.bound
    at: dict[str, str | float] = {"layer": layer.path.split(".")[2] if layer.path.count(".") > 1 else layer.path}
    rests = (layer.path, "plan.outline", *(("laying",) if resolved.laying else ()))
    area, panel = layout.area, layout.rules.area
    sawn = sum(not is_whole(layout, piece) for piece in layout.pieces)
    covered = Step("A", "floor that they cover", "", f"{fixed(area, 3)} m²")
    one = Step("A_1", "one panel, as it covers", f"{layer.size}", f"{fixed(panel, 4)} m²")
    yield Finding(
        "takeoff.panels",
        f"Panels of {layer.label}",
        float(layout.panels),
        "count",
        at=at,
        basis=(LAID, *(estimating("panel", name).basis() for name in ("kerf", "narrow"))),
        rests_on=rests,
        steps=(
            covered,
            one,
            Step("n_1", "laid whole", "", str(len(layout.pieces) - sawn)),
            Step("n_2", "pieces sawn, several from a panel", "", str(sawn)),
            Step("n", "panels", f"{len(layout.pieces)} pieces", str(layout.panels)),
        ),
        words=f"{layout.panels} panels of {layer.size}, no spare among them.",
    )
    yield Finding(
        "takeoff.bound",
        f"The fewest panels of {layer.label} that any plan in rows takes",
        float(fewest),
        "count",
        at=at,
        basis=(COUNTED,),
        rests_on=rests,
        steps=(
            covered,
            one,
            Step("A / A_1", "by area", f"{fixed(area, 3)} / {fixed(panel, 4)}", fixed(area / panel, 2)),
            Step("n_0", f"counted {how}", "", str(fewest)),
            Step("n − n_0", "panels over it", f"{layout.panels} − {fewest}", str(layout.panels - fewest)),
        ),
        words=f"Counted {how}. {_over(layout.panels - fewest)}",
    )
    yield Finding(
        "takeoff.waste",
        f"What is left over of {layer.label}",
        100.0 * layout.waste,
        "%",
        at=at,
        basis=(LAID,),
        rests_on=rests,
        steps=(
            covered,
            Step("n A_1", "bought", f"{layout.panels} · {fixed(panel, 4)}", f"{fixed(layout.panels * panel, 3)} m²"),
            Step("w", "1 − A / (n A_1)", "", f"{fixed(100.0 * layout.waste, 2)} %"),
        ),
        words="Of the panels' area; kerf, trimmings and offcuts that no piece needs.",
    )


def _over(more: int) -> str:
    return f"The plan takes {more} more." if more else "The plan takes no more."


def _tube(resolved: Resolved, cut: Coils | None) -> Iterator[Finding]:
    heated = resolved.heated
    if heated is None or heated.water is None:
        return
    lengths = loop_lengths(resolved, heated, heated.water)
    steps = [Step("L", "loops with their leaders", f"{len(lengths)} loops", f"{fixed(sum(lengths), 1)} m")]
    words = "A loop is longer than the coils that are sold."
    if cut is not None:
        steps += [
            Step("L", "as they are cut, with what turns and ends take", "", f"{fixed(sum(cut.loops), 1)} m"),
            *(
                Step(f"c_{n}", "loops of this coil", ", ".join(map(str, loops)), f"{fixed(left, 1)} m left")
                for n, (loops, left) in enumerate(zip(cut.cuts, cut.left, strict=True), start=1)
            ),
        ]
        coils = "1 coil" if len(cut.cuts) == 1 else f"{len(cut.cuts)} coils"
        words = f"From {coils} of {say.both(cut.length, 'm', resolved.system)}; no joint lies below the slab."
    yield Finding(
        "takeoff.tube",
        "Tube of all loops",
        sum(lengths),
        "m",
        within=0.0 if heated.water.lengths else 0.05 * sum(lengths),
        basis=(CUT, estimating("tube", "spare").basis()),
        rests_on=("tube.size", "tube.spacing", "tube.leader", "tube.loops", "tube.loop-lengths", "plan.outline"),
        steps=tuple(steps),
        words=words,
    )
