"""The table in a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

THEMES = {
    "steady": "From outlines to heat flow",
    "year": "The year",
    "gradient": "Slopes",
    "many": "Many cases",
    "process": "Whole processes",
    "papers": "Papers and product lines",
}


def lines(found: dict[str, Any]) -> Iterator[str]:
    head = f"{'':62} {'ms':>10} {'ratio':>8} {'goal':>7} {'':8} {'off':>9} {'MB':>7}"
    for theme, rows in by_theme(found).items():
        yield ""
        yield f"{THEMES[theme]:62}{head[62:]}"
        for row in rows:
            yield from of_row(row)
    yield ""
    yield machine(found["machine"])
    for name, shares in found["where"].items():
        yield f"where the time of one mean goes, {name}: {where(shares)}"


def by_theme(found: dict[str, Any]) -> dict[str, list[dict[str, Any]]]:
    return {theme: rows for theme in THEMES if (rows := [row for row in found["rows"] if row["theme"] == theme])}


def of_row(row: dict[str, Any]) -> Iterator[str]:
    here = row["here"]
    limit, goal, said = here["limit"], "", ""
    if limit is not None:
        goal, said = f"{1000 * limit:.0f} ms", reached(here["median"] <= limit)
    if here["rate_goal"] is not None:
        goal, said = f"{here['rate_goal']:.0f}/s", reached(here["rate"] >= here["rate_goal"])
    ratio = f"{here['rate']:.0f}/s" if here["rate"] else ""
    yield cells(row["title"], here["median"], ratio, goal, said, here["off"], here["memory"])
    for peer in row["peers"]:
        name = f"    {peer['name']}"
        if peer.get("absent"):
            yield f"{name:62} {peer['absent']}"
            continue
        wanted = "" if peer["goal"] is None else f"{peer['goal']:g}x"
        said = "" if peer["reached"] is None else reached(peer["reached"])
        yield cells(name, peer["median"], f"{peer['ratio']:.4g}x", wanted, said, peer["off"], peer["memory"])


def reached(is_reached: bool) -> str:
    return "reached" if is_reached else "missed"


def cells(name: str, seconds: float, ratio: str, goal: str, said: str, off: float | None, mega: float | None) -> str:
    away = "" if off is None else f"{100 * off:.2g} %"
    held = "" if mega is None else f"{mega:.1f}"
    return f"{name:62} {1000 * seconds:10.4g} {ratio:>8} {goal:>7} {said:8} {away:>9} {held:>7}"


def where(shares: dict[str, float]) -> str:
    return ", ".join(f"{name} {100 * share:.0f} %" for name, share in shares.items() if share >= 0.005)


def machine(told: dict[str, Any]) -> str:
    factor = told["factor"]
    return (
        f"machine: {told['processor']}, one thread: {told['dense_gflops']:.1f} GFLOP/s dense, "
        f"{told['triad_gbytes']:.1f} GB/s; a dense solve of {told['dense_unknowns']} unknowns: "
        f"{told['dense_solve']:.4f} s; "
        f"factorising {factor['unknowns']} unknowns: {factor['mflop']:.1f} Mflop in {1000 * factor['seconds']:.1f} ms, "
        f"{factor['gflops']:.2f} GFLOP/s, {100 * factor['share']:.1f} % of the dense rate"
    )
