"""What to buy and to see of a joint: the fasteners of all its members in one list, a plate over all of them once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..anchors.outputs import distances_seen, fastened_seen
from ..core.result import Table
from .groups import MemberGroup


def in_one_list(found: list[tuple[MemberGroup, Table]], times: int) -> Iterator[Table]:
    """The hardware of all members: what is alike added up and there so many times, a plate over all of them once."""
    if not found:
        return
    table = found[0][1]
    column = {head: number for number, head in enumerate(table.heads)}
    number, what, size, steel = (column[head] for head in ("how many", "what", "size", "steel and coating"))
    many: dict[tuple[str, ...], str] = {}
    plates: list[tuple[str, tuple[str, ...]]] = []
    for group, own in found:
        for row in own.rows:
            if row[what] == "plate":
                plates.append((group.piece, row))
                continue
            key = (*row[:number], "", *row[number + 1 :])
            before = many.get(key, "0")
            counted = row[number].isdecimal() and before.isdecimal()
            many[key] = str(int(before) + times * int(row[number])) if counted else row[number]
    rows = [(*key[:number], count, *key[number + 1 :]) for key, count in many.items()]
    if plates:
        whole = list(plates[0][1])
        if len(plates) > 1:
            whole[what] = "plate, in one piece over all"
            whole[size] = "; ".join(f"{row[size]} on {piece}" for piece, row in plates)
            whole[steel] = ", ".join(dict.fromkeys(row[steel] for _, row in plates))
        rows.append(tuple(whole))
    yield replace(table, rows=tuple(rows))


def seen_in(group: MemberGroup, first: str) -> tuple[str, ...]:
    """What to see in one member; of fasteners that go through all of them, told of the first, only where they are."""
    bare = replace(group, anchor=group.anchor.model_copy(update={"other": None}))
    return fastened_seen(bare) if first in ("", group.piece) else distances_seen(bare)
