"""A made-up choice: every place of what is told of one is filled. The numbers are invented; none is a result."""

from __future__ import annotations

from underpour.choosing.records import Bound, Choice, Money, Ranged, Refusal, Row, ToWin

BUILD_UP = [{"concrete": "4 in"}, {"board": "plain-15", "thickness": "2 in"}, {"gravel": "4 in"}]
BARE = [{"concrete": "4 in"}, {"gravel": "4 in"}]
SAFETY = "A recommendation is not a design."


def refusal(id: str = "height.depth", value: float = 0.265, limit: float = 0.254, unit: str = "m") -> Refusal:
    words = "The build-up is thicker than the depth that was dug."
    return Refusal(
        id, {}, "Depth that the build-up needs", words, value, limit, unit, limit - value, None, "bound", "at most"
    )


def row(name: str, *roles: str, rank: int | None = None, changes=None, cost: float = 171.4, **more) -> Row:
    given = {
        "floor": name,
        "edge": "no foam at the edge",
        "film": "",
        "changes": (("floor.build-up", BUILD_UP), ("edge.A.insulation", [])) if changes is None else changes,
        "roles": roles,
        "rank": rank,
        "foam": 2.5,
        "thickness": 0.0508,
        "r_label": 1.4,
        "r_in_place": 1.5,
        "height": 0.2032,
        "heat": 992.99,
        "heat_within": 1.1,
        "coldest": 12.3,
        "first": Money(cost, "USD", "2026-06-01"),
        "life": None,
        "carbon": Ranged(75.05, 59.1, 95.5),
        "confirmed": True,
        "open": (),
        "refusals": (),
    }
    return Row(name, **{**given, **more})


def choice(**more) -> Choice:
    other = [{**each, "board": "plain-25"} if "board" in each else each for each in BUILD_UP]
    third = [{**each, "board": "grey-15"} if "board" in each else each for each in BUILD_UP]
    rows = (
        row("2 in of Plain 15", "recommended", "cheapest that meets code", rank=1),
        row("2 in of Plain 25", "runner-up", rank=2, changes=(("floor.build-up", other),), cost=234.6, heat=975.6),
        row("2 in of Grey 15", rank=3, changes=(("floor.build-up", third),), cost=290.2, height=0.1905),
        row("no foam at all", "no foam", changes=(("floor.build-up", BARE),), cost=0.0, refusals=(refusal("heat.x"),)),
        row("as briefed", "as briefed", "least height", changes=(), first=None, carbon=None),
    )
    given = {
        "title": "Shed",
        "place": "Duluth, MN",
        "use": "Workshop",
        "system": "US",
        "version": "0",
        "word": "serves",
        "says": ("Take 2 in of Plain 15.",),
        "by": "price of the foam",
        "by_words": "Ranked by the price of the foam alone.",
        "rows": rows,
        "refused": (
            row("5 in of Plain 15", cost=512.7, confirmed=False, refusals=(refusal(),)),
            row(
                "5 in of Plain 15", cost=512.7, confirmed=False, refusals=(refusal("moisture.mould", 84.0, 80.0, "%"),)
            ),
        ),
        "front": (),
        "to_win": (
            ToWin("price", "The second wins below 171 USD.", "catalogue.plain-25.price", 234.6, 171.0, "money"),
        ),
        "bounds": (Bound("height.depth", "Depth that the build-up needs", "", 1234),),
        "candidates": 5164,
        "put_aside": 1234,
        "answered": 13,
        "beyond": (refusal("frost.footing", 1.0, 1.2, "m"),),
        "open": (("moisture.film", "floor.build-up.2.vapour-retarder"),),
        "searched": ("Tried: Plain 15.",),
        "assumed": (),
        "notes": (),
        "cautions": (SAFETY, "Mind the frost."),
    }
    return Choice(**{**given, **more})
