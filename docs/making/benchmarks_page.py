"""Writes docs/benchmarks.md and docs/pictures/benchmarks.svg from docs/benchmarks.json.

python3 dev.py bench -o docs/benchmarks.json
.venv/bin/python docs/making/benchmarks_page.py
"""

import json
from collections.abc import Iterator
from math import log10
from pathlib import Path
from typing import Any

from underpour.drawings import colours
from underpour.drawings.paper import FINE, HAIR, LINE, letters, line, mm, picture

ROOT = Path(__file__).parents[2]
PAGE, FOUND = ROOT / "docs" / "benchmarks.md", ROOT / "docs" / "benchmarks.json"
PICTURE = ROOT / "docs" / "pictures" / "benchmarks.svg"
THEMES = {
    "steady": "From outlines to heat flow",
    "year": "The year",
    "gradient": "Slopes",
    "many": "Many cases",
    "process": "Whole processes",
    "papers": "Papers and product lines",
}

HEAD = """\
# How fast it is, beside general-purpose libraries

![How many times as long as ours each peer takes, and the goal](pictures/benchmarks.svg)

`python3 dev.py bench` times everything on this page on your machine. One process, one thread, our way and the peers'
turn by turn; a time is the median of the turns and a ratio is of two medians, so a machine that is busy with
something else slows all of them about alike: between two takings at loads of 4 and 8 ratios moved by a fifth, some by
two fifths. All ways are held to the same allowed distance from a reference on a much finer grid, and each row says
how far off it is. The peers are favoured: they are told the right answer and take the cheapest of their settings that
come near enough, where ours does not know it and its time holds the estimate that is printed with every answer. A
goal is how many times as long as ours a peer shall take; what misses it is said. Where ours is far nearer than it
must be, the peers are also asked to come as near as ours.

This page is made from [benchmarks.json](benchmarks.json) by `docs/making/benchmarks_page.py`. MB is what is needed at
the most while it works, over what stood in memory before; of a whole process, everything it holds.
"""

WHY = {
    "steady": "The mean of the year: half of our time are LAPACK's modes of four to seven strips in two degrees, half "
    "what Python does around them, and coarser rows would save little of either. At the demo's edge the first grid "
    "of the adaptive peer is near enough by luck, so that it solves once and estimates nothing: twenty times faster "
    "than that one solve would be less than a millisecond, outlines and estimate in it. The rows as near as ours "
    "show what the same distance costs.",
    "harmonic": "The year's harmonic: the smaller the grid that is near enough, the cheaper an hour's step is; at the "
    "demo's edge a peer that is told the answer needs few unknowns, ours is the tool's own first grid and "
    "nearer than it must be.",
    "hours": "A year by the hour: the same holds; ours goes through all frequencies of the year for every mode.",
    "six": "Six harmonics: a complex factorisation takes 1.5 to 2 times a real one, and nothing of it is kept "
    "from one pace to the next but the order of elimination.",
    "gradient": "Slopes: most of their time are sums over cells, body by body; what they are held to is one solve.",
    "table": "The table of 200: whole solves are two fifths of its time and setting up sums one third; the finer "
    "grid that tells what the grid itself is off by takes more than half of both. Asking 200 cases takes "
    "less than a millisecond.",
    "set-up": "Making a family: residuals of the growing span are two fifths, bounds of the cases drawn a quarter, "
    "cutting factors down a seventh; whole solves are a twentieth. It is held to seconds.",
    "answer": "Whole processes are held to seconds; a fifth of an answer is loading numpy and scipy, more than a "
    "quarter are the further frequencies.",
    "compare": "The same holds for the process that draws the picture.",
    "bad-brief": "A brief that cannot be used: held to seconds; loading pydantic is two fifths of it.",
    "submittal": "The submittal: held to seconds.",
    "import": "Product lines: held to seconds; reading the cells of a workbook is most of it.",
}

HOW = """\
## How the peers are set

As their own documentation advises: triangles of second degree (`ElementTriP2`), residuals that mark what is refined,
scipy's factorisation told that the matrix is symmetric, and once as it comes. The steps in time factorise once. The
mesher is gmsh with sizes growing away from every corner; its outlines are parted beforehand and not counted. It is
under the GPL and no part of this project: where it is not installed its rows say so.
"""


def page(found: dict[str, Any]) -> str:
    """The whole page."""
    lines = [HEAD, *summary(found)]
    for theme, title in THEMES.items():
        rows = [row for row in found["rows"] if row["theme"] == theme]
        if rows:
            lines += ["", f"## {title}", "", *table(rows)]
    lines += ["", *machine(found), "", HOW, *settings(found["rows"])]
    return "\n".join([*lines, ""])


def summary(found: dict[str, Any]) -> Iterator[str]:
    reached, missed = judged(found["rows"])
    load = found["machine"]["load"]
    busy = (
        f", load {load[0]:.1f} at the end: what is held to seconds is slowed by that, ratios move less" if load else ""
    )
    yield f"Of {len(reached) + len(missed)} goals {len(reached)} are reached. Made on {found['made']}{busy}."
    if missed:
        yield ""
        yield "Missed:"
        yield ""
        yield from (f"- {words}" for words, _ in missed)
        yield ""
        yield "Why, as far as it is known:"
        yield ""
        keys = [key for _, key in missed]
        yield from (f"- {words}" for begins, words in WHY.items() if any(key.startswith(begins) for key in keys))


Judged = list[tuple[str, str]]  # in words, and the row's key


def judged(rows: list[dict[str, Any]]) -> tuple[Judged, Judged]:
    """Goals that are reached and those that are missed."""
    reached: Judged = []
    missed: Judged = []
    for row in rows:
        here = row["here"]
        if here["limit"] is not None:
            words = f"{row['title']}: {time(here['median'])}, at most {time(here['limit'])}"
            (reached if here["median"] <= here["limit"] else missed).append((words, row["key"]))
        if here["rate_goal"] is not None:
            words = f"{row['title']}: {here['rate']:,.0f} a second, {here['rate_goal']:,.0f} wanted"
            (reached if here["rate"] >= here["rate_goal"] else missed).append((words, row["key"]))
        for peer in row["peers"]:
            if peer.get("reached") is not None:
                words = f"{row['title']}, beside {peer['name']}: {ratio(peer['ratio'])} times, {peer['goal']:g} wanted"
                (reached if peer["reached"] else missed).append((words, row["key"]))
    return reached, missed


def table(rows: list[dict[str, Any]]) -> Iterator[str]:
    yield "| what | time | times ours | goal | | off by | MB |"
    yield "| --- | ---: | ---: | ---: | --- | ---: | ---: |"
    for row in rows:
        here = row["here"]
        goal, said = "", ""
        if here["limit"] is not None:
            goal, said = f"at most {time(here['limit'])}", word(here["median"] <= here["limit"])
        if here["rate_goal"] is not None:
            goal, said = f"{here['rate_goal']:,.0f} a second", word(here["rate"] >= here["rate_goal"])
        took = time(here["median"]) + (f", {here['rate']:,.0f} a second" if here["rate"] else "")
        title = row["title"] + noted(row)
        yield f"| **{title}** | {took} | 1 | {goal} | {said} | {away(here, row)} | {mega(here['memory'])} |"
        for peer in row["peers"]:
            if peer.get("absent"):
                yield f"| {peer['name']} | {peer['absent']} | | {times(peer['goal'])} | | | |"
                continue
            said = "" if peer["reached"] is None else word(peer["reached"])
            yield (
                f"| {peer['name']} | {time(peer['median'])} | {ratio(peer['ratio'])} | {times(peer['goal'])} | "
                f"{said} | {away(peer, row)} | {mega(peer['memory'])} |"
            )


def noted(row: dict[str, Any]) -> str:
    """What else a row tells, behind its title."""
    if "estimate" in row:
        return f" (its own estimate: {off(row['estimate'])})"
    if "told_within" in row:
        return f" (told to be within {off(row['told_within'])})"
    if "bound" in row:
        least, middle, most = row["effectivity"]
        return (
            f" (largest bound {off(row['bound'])}; {least:.1f}, {middle:.1f}, {most:.1f} times what is missed "
            f"at least, in the middle, at most, on {row['tried_on']} of them)"
        )
    return ""


def machine(found: dict[str, Any]) -> Iterator[str]:
    told = found["machine"]
    factor = told["factor"]
    yield "## What the machine can do, and where time goes"
    yield ""
    yield (
        f"{told['processor']}, one thread: {told['dense_gflops']:.0f} GFLOP/s in a dense product, "
        f"{told['triad_gbytes']:.0f} GB/s in a stream of three arrays that no cache holds; a dense solve of "
        f"{told['dense_unknowns']} unknowns takes {told['dense_solve']:.3f} s. Factorising "
        f"{factor['unknowns']:,} unknowns of the peer's grid is {factor['mflop']:.1f} Mflop and takes "
        f"{time(factor['seconds'])}: {factor['gflops']:.2f} GFLOP/s, {100 * factor['share']:.1f} % of the dense rate. "
        f"At that rate it would take {time(factor['least_seconds'])}: in two dimensions arithmetic is no limit, "
        "what is done around it is."
    )
    yield ""
    yield (
        "Where the time of one mean with its estimate at 0.1 % goes, as seen by Python's own profile, which makes "
        "what is done in Python itself look slower than it is; what was tried and what did not help stands in "
        "[speed.md](speed.md):"
    )
    yield ""
    names = list(found["where"])
    yield "| part | " + " | ".join(names) + " |"
    yield "| --- |" + " ---: |" * len(names)
    for part in next(iter(found["where"].values())):
        yield f"| {part} | " + " | ".join(f"{100 * found['where'][name][part]:.0f} %" for name in names) + " |"
    yield ""
    threads = "" if told["threads"] is None else f"; {told['threads']} thread in the process"
    versions = ", ".join(f"{name} {version}" for name, version in told["versions"].items())
    yield f"Versions: {versions}, Python {told['python']}{threads}."


def settings(rows: list[dict[str, Any]]) -> Iterator[str]:
    yield "| row | way | as it is set |"
    yield "| --- | --- | --- |"
    for row in rows:
        for way in (row["here"], *row["peers"]):
            if way["settings"]:
                yield f"| {row['title']} | {way['name']} | {way['settings']} |"


def word(is_reached: bool) -> str:
    return "reached" if is_reached else "**missed**"


def time(seconds: float) -> str:
    if seconds >= 1.0:
        return f"{seconds:.3g} s" if seconds < 1000 else f"{seconds:,.0f} s"
    return f"{1000 * seconds:.3g} ms" if seconds >= 1e-3 else f"{1e6 * seconds:.3g} µs"


def ratio(value: float) -> str:
    return f"{value:,.0f}" if value >= 100 else f"{value:.3g}"


def times(goal: float | None) -> str:
    return "" if goal is None else f"{goal:g}"


def off(share: float | None) -> str:
    return "" if share is None else f"{abs(100 * share):.2g} %" if abs(share) >= 1e-9 else "0 %"


def away(way: dict[str, Any], row: dict[str, Any]) -> str:
    """How far off, with a word where that is more than the row allows."""
    if way["off"] is None or row["allowed"] is None or abs(way["off"]) <= row["allowed"]:
        return off(way["off"])
    return f"{off(way['off'])}, more than allowed"


def mega(value: float | None) -> str:
    return "" if value is None else f"{value:.0f}" if value >= 10 else f"{value:.1f}"


WIDE, LEFT, RIGHT, ROW = 170.0, 82.0, 150.0, 6.2  # mm
LEAST, MOST = 0.1, 1e4  # times ours


def drawn(found: dict[str, Any]) -> str:
    """A ruler for each goal that is a ratio: notch at the goal, pointer as measured, dotted where it is short."""
    theme = colours.light()
    rows = [(row, peer) for row in found["rows"] for peer in row["peers"] if peer.get("reached") is not None]
    high = 19.0 + ROW * len(rows)
    body = [letters(4.0, 7.0, "How many times as long as ours a peer takes", size=4.2, weight=600)]
    bottom = 15.0 + ROW * len(rows)
    for power in range(round(log10(LEAST)), round(log10(MOST)) + 1):
        x = place(10.0**power)
        body.append(line(x, 12.5, x, bottom, HAIR, colour=theme["rule"]))
        body.append(letters(x, 11.5, f"{10.0**power:g}", size=2.8, anchor="middle", colour=theme["note"]))
    last = ""
    for n, (row, peer) in enumerate(rows):
        base = 17.5 + ROW * n
        if row["title"] != last:
            body.append(letters(4.0, base - 0.4, row["title"], size=2.9))
        last = row["title"]
        body.append(letters(4.0, base + 2.2, f"beside {peer['name']}", size=2.4, colour=theme["note"]))
        body += ruler(peer, base, theme)
    short = sum(not peer["reached"] for _, peer in rows)
    words = f"Of {len(rows)} goals {len(rows) - short} are reached; notch: the goal, pointer: as measured."
    body.append(letters(4.0, high - 1.6, words, size=2.6, colour=theme["note"]))
    return picture(wide=WIDE, high=high, title="How many times as long as ours each peer takes", description=words,
                   defs=(), body=body)  # fmt: skip


def ruler(peer: dict[str, Any], base: float, theme: dict[str, str]) -> Iterator[str]:
    at, goal = place(peer["ratio"]), place(peer["goal"])
    ink = theme["ink" if peer["reached"] else "short"]
    yield line(LEFT, base, at if at < goal else RIGHT, base, FINE, colour=theme["frame"])
    if at < goal:
        yield line(at, base, goal, base, LINE, colour=ink, extra=' stroke-dasharray="0.4 1.1" stroke-linecap="round"')
        yield line(goal, base, RIGHT, base, FINE, colour=theme["frame"])
    yield line(goal, base - 1.6, goal, base + 1.6, LINE)
    yield f'<path d="M{mm(at)} {mm(base)}l-1.1 1.9h2.2z" fill="{ink}"/>'
    yield letters(
        WIDE - 4.0, base + 1.0, f"{ratio(peer['ratio'])} of {peer['goal']:g}", size=2.9, anchor="end", colour=ink
    )


def place(value: float) -> float:
    """Where a ratio stands on the ruler. [mm]"""
    share = (log10(min(max(value, LEAST), MOST)) - log10(LEAST)) / (log10(MOST) - log10(LEAST))
    return LEFT + share * (RIGHT - LEFT)


def read() -> dict[str, Any]:
    return dict(json.loads(FOUND.read_text(encoding="utf-8")))


if __name__ == "__main__":
    PAGE.write_text(page(read()), encoding="utf-8")
    PICTURE.write_text(drawn(read()), encoding="utf-8")
