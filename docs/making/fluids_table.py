"""Makes src/underpour/catalogue/fluids.csv from CoolProp, which takes seconds to be loaded and so stays out of answers.

Water at 0.2 MPa by the IAPWS formulation; glycols by the fits of Melinder that the library carries (shares by mass).
"""

from __future__ import annotations

from pathlib import Path

from CoolProp.CoolProp import PropsSI

FILE = Path(__file__).parents[2] / "src" / "underpour" / "catalogue" / "fluids.csv"
PRESSURE = 2.0e5
ZERO = 273.15
STEP = 5
GLYCOLS = {"propylene-glycol": "MPG", "ethylene-glycol": "MEG"}
SHARES = (20, 25, 30, 35, 40, 45, 50)
HEAD = (
    "# Made by docs/making/fluids_table.py from CoolProp 8 (Bell et al. 2014): water at 0.2 MPa, glycols by Melinder.\n"
    "fluid,share,temperature,density,heat-capacity,viscosity,conductivity,freezes\n"
)


def row(name: str, share: int, of: str, celsius: int, freezes: float) -> str:
    density, capacity, viscosity, conductivity = (
        PropsSI(key, "T", celsius + ZERO, "P", PRESSURE, of) for key in ("D", "C", "V", "L")
    )
    told = f"{density:.2f},{capacity:.1f},{viscosity:.5g},{conductivity:.4f},{freezes:.1f}"
    return f"{name},{share},{celsius},{told}\n"


def rows() -> list[str]:
    made = [row("water", 0, "Water", celsius, 0.0) for celsius in range(5, 91, STEP)]
    made.insert(0, row("water", 0, "Water", 1, 0.0))
    for name, of in GLYCOLS.items():
        for share in SHARES:
            mixed = f"INCOMP::{of}[{share / 100}]"
            freezes = PropsSI("T_freeze", "T", 293.15, "P", PRESSURE, mixed) - ZERO
            first = -(-int(freezes) // STEP) * STEP
            made += [
                row(name, share, mixed, celsius, freezes) for celsius in range(first, 91, STEP) if celsius > freezes
            ]
    return made


if __name__ == "__main__":
    FILE.write_text(HEAD + "".join(rows()), encoding="utf-8")
