"""Suction and fire in the same rooms: whether a flue still draws."""

from __future__ import annotations

from dataclasses import replace

from ...findings import Basis, Finding, Step
from ...resolve.soil_gas import ResolvedSoilGas

ID = "soilgas.backdraught"


def backdraught(gas: ResolvedSoilGas) -> Finding:
    """Whether the flue of what burns in these rooms was tested to draw with the fan on.

    Asks
        Can the fan pull flue gas back into the rooms?
    Why
        A fan below the slab takes air out of the house through every crack of the floor. A fire that draws its air
        from the room may then send its carbon monoxide into the room.
    Worked out
        Nothing; asked is a back-draught test with every fan of the house on and the doors shut.
    Holds for
        Systems with a fan. A fire with air of its own, led in by a pipe, is not concerned.
    Source
        Common practice, no source.
    """
    empty = Finding(
        ID,
        "Back-draught test with the fan on",
        None,
        "count",
        basis=(Basis("common practice, no source", "back-draught test with every fan on", "practice"),),
        rests_on=("soil-gas.system", "soil-gas.combustion", "soil-gas.backdraught-tested"),
        no_limit="does not apply",
    )
    if gas.system != "fan":
        return replace(empty, words="No fan draws below this floor. Where one is added later, ask this again.")
    if gas.combustion == "none":
        return replace(empty, words="Nothing burns in these rooms.")
    if gas.combustion == "sealed":
        return replace(empty, words="What burns there has air of its own.")
    if not gas.combustion:
        words = "Nothing says whether a boiler, a heater or a stove draws its air from these rooms."
        return replace(empty, missing="soil-gas.combustion", words=words)
    held = replace(empty, no_limit="stated")
    test = "a back-draught test with every fan of the house on, doors shut, by somebody trained for it"
    if gas.backdraught_tested is None:
        words = f"A fire draws its air from these rooms. Wanted is {test}, before the fan stays on."
        return replace(held, missing="soil-gas.backdraught-tested", words=words)
    done = 1.0 if gas.backdraught_tested else 0.0
    words = (
        "The flue was tested to draw with every fan on. Test it again after every change of fans, windows or fire."
        if done
        else f"A fire draws its air from these rooms and was not tested. Leave the fan off until there is {test}."
    )
    step = Step("n", "tests with every fan on", "", f"{done:.0f}")
    return replace(held, value=done, limit=1.0, sense="at least", steps=(step,), words=words)
