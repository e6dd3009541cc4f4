"""The drawing of the load path on a sheet, and what is said where it would not help."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ....checks.core.pictures.beams import LoadPath, PathEdge, PathNode
from ....checks.core.summary import quantity
from ...figures.load_path import NOT_YET, drawable
from ..blocks import Block, FigureBlock, Paragraph
from .context import Sheet
from .key_plan import little_plan

CAPTION = (
    "Along each line its force, the largest under any combination of loads. Bars are pieces, from the first to the "
    "last thing that they rest on, not to scale; a line that passes behind a bar does not rest on it. Hatched at the "
    "foot: by others, here this check ends."
)
BROKEN = "Broken: declared not to carry, or nobody answers for it yet."
CROSSED = "Crossed: no load may go there."
IN_TABLE = "stand in the table only."  # what the drawing leaves out
NEGLIGIBLE = 0.5  # lbf: rounding


def with_plan(sheet: Sheet) -> Sheet:
    """The sheet with its key plan, where there is one that helps."""
    path = sheet.result.path
    if path is None:
        return sheet
    bars = {name: called for name, (_, called) in bar_names(path, sheet).items()}
    return replace(sheet, bars=bars, plan=little_plan(by_marks(path, sheet)))


def path_blocks(sheet: Sheet) -> Iterator[Block]:
    """One drawing of the whole house, if there is more to it than a line of the table; more where it is too wide."""
    path = sheet.result.path
    if path is None or not path.edges:
        return
    figures, left_out = drawable(by_marks(path, sheet))
    if not left_out and not any(map(_worth_it, figures)):
        return
    for index, part in enumerate(figures):
        name = "Load path" if len(figures) == 1 else f"Load path, part {index + 1} of {len(figures)}"
        caption = f"{name}. {_how_to_read(figures)}" if index == 0 else f"{name}."
        yield FigureBlock(part, name, sheet.result.units, f"path-{index + 1}", caption)
    if left_out:
        some = "Part of the load path is" if figures else "The load path is"
        yield Paragraph(
            f"{some} not drawn, because there is too much of it to be read or loads come back to where they were: "
            f"{left_out} part{'s' if left_out > 1 else ''} that hang together {IN_TABLE}"
        )
    yield from _arrives(path, sheet.result.units)


def _how_to_read(figures: Sequence[LoadPath]) -> str:
    """What the lines say, as far as there are such lines."""
    nodes = [node for figure in figures for node in figure.nodes]
    broken = any(node.role != "carries" or NOT_YET in node.ends for node in nodes)
    crossed = any(edge.wrong for figure in figures for edge in figure.edges)
    return " ".join(filter(None, (CAPTION, BROKEN if broken else "", CROSSED if crossed else "")))


def _arrives(path: LoadPath, units: str) -> Iterator[Block]:
    """What comes on and what arrives, under the combination with most."""
    if not path.totals:
        return
    most = max(path.totals, key=lambda one: abs(one.applied))
    missing = most.applied - most.arriving
    on, off = (quantity(value, "force", units) for value in (most.applied, most.arriving))
    told = f"All pieces together under {most.combination}: {on} comes on, {off} arrives"
    if abs(missing) > max(NEGLIGIBLE, 1e-6 * abs(most.applied)):
        told += f"; {quantity(missing, 'force', units)} does not arrive"
        told += f": {path.uncounted}" if path.uncounted else ""
    yield Paragraph(f"{told}.")


def by_marks(path: LoadPath, sheet: Sheet) -> LoadPath:
    """The path with the marks of the schedule beside the names; like members on the same things as one bar."""
    shown = bar_names(path, sheet)
    one_of = {name: first for name, (first, _) in shown.items()}

    def name_of(name: str) -> str:
        return shown[name][1] if name in shown else name

    nodes: dict[str, PathNode] = {}
    for node in path.nodes:
        nodes.setdefault(name_of(node.name), replace(node, name=name_of(node.name)))
    edges: list[PathEdge] = []
    for edge in path.edges:
        if one_of.get(edge.above, edge.above) == edge.above:
            edges.append(replace(edge, above=name_of(edge.above), below=name_of(edge.below)))
    return replace(path, nodes=tuple(nodes.values()), edges=tuple(edges))


def bar_names(path: LoadPath, sheet: Sheet) -> dict[str, tuple[str, str]]:
    """For each piece of the path the first of those that share its bar, and what the bar is called."""
    known = {node.name: node for node in path.nodes}
    one_of: dict[str, str] = {}
    called: dict[str, str] = {}
    for group in sheet.groups:
        names = [piece.name for piece in group.pieces if piece.name in known]
        same: dict[tuple[str, ...], list[str]] = {}
        for name in names:
            rests = sorted(edge.below for edge in path.edges if edge.above == name)
            bears = sorted(edge.above for edge in path.edges if edge.below == name)
            same.setdefault((*rests, "", *bears), []).append(name)
        for some in same.values():
            marks = [sheet.marks[name] for name in some]
            own = "" if len(some) > 1 or marks[0] == some[0] else f" {some[0]}"
            shown = f"{marks[0]} to {marks[-1]}, {len(some)} alike" if len(some) > 2 else ", ".join(marks)
            called[some[0]] = f"{shown}, each" if len(some) > 1 else f"{shown}{own}"
            one_of |= dict.fromkeys(some, some[0])
    return {name: (first, called.get(first, first)) for name, first in one_of.items()}


def _worth_it(part: LoadPath) -> bool:
    """Whether a piece stands on another, or a load goes where none may go."""
    ends = {node.name for node in part.nodes if node.ends}
    return any(edge.below not in ends or edge.wrong for edge in part.edges)
