"""Frost of a brief with something changed in it: depths moved by what coarse cells say of the change."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..checks.frozen import Instance, Reach, Wintered

# A depth that is moved so far from what does harm, in times of its own error, is sure: tried on the ends of everything
# left open at a garage beside a house, moved depths were off by at most 1.2 times it; tests/exact/test_ask.py holds it.
SURE = 2.0


def moved_winters(
    wholly: Sequence[Wintered], roughly: Sequence[Wintered], after: Sequence[Wintered]
) -> tuple[tuple[Wintered, ...], frozenset[Instance]]:
    """Winters worked out on fine cells, moved by what coarse ones say of a change; and those that are in doubt then.

    ``roughly`` are the same winters on coarse cells, ``after`` those of the changed brief on them.
    """
    fine, coarse = _by_instance(wholly), _by_instance(roughly)
    found, doubted = [], set()
    for each in after:
        instance = (each.edge, each.stage)
        one, other = fine.get(instance), coarse.get(instance)
        if one is None or other is None or one.reaches.keys() != each.reaches.keys():
            doubted.add(instance)
            found.append(each)
            continue
        reaches = {name: _moved(one.reaches[name], other.reaches[name], reach) for name, reach in each.reaches.items()}
        found.append(replace(each, reaches=reaches))
        for name, reach in reaches.items():
            stays = other.reaches[name].deepest == each.reaches[name].deepest and reach.stop == one.reaches[name].stop
            if not stays and abs(reach.deepest - reach.stop) < SURE * reach.within:
                doubted.add(instance)
    return tuple(found), frozenset(doubted)


def _moved(whole: Reach, before: Reach, after: Reach) -> Reach:
    by = after.deepest - before.deepest
    return replace(after, deepest=max(whole.deepest + by, 0.0), within=max(whole.within, abs(by) / 2.0))


def _by_instance(winters: Sequence[Wintered]) -> dict[Instance, Wintered]:
    return {(each.edge, each.stage): each for each in winters}
