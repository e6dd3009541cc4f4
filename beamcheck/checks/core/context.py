"""What the checks of one piece know of the rest of the house: what arrives on it, and what it rests on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from ...analysis.beams.member_loads import TransferredLoad
from ...model.anchors import Anchor
from ...model.brackets import Bracket, Trim
from ...model.pieces import Beam, Existing, Post, Rafter, Stock, Tie
from ...values.lumber import Size, read_size
from .result import Verdict

if TYPE_CHECKING:  # anchor_group.py is written in terms of this file
    from ..anchors.group import Group
    from ..beams.beam import BeamRun

AnyPiece = Beam | Rafter | Tie | Post | Bracket | Trim | Existing


@dataclass(frozen=True)
class Structure:
    """Pieces, stocks and anchor groups by name.

    `groups` collects each anchor group as it is checked, with its forces: whoever asks for a layout starts from there.
    `runs` and `verdicts` keep the solved beams, for the brackets near them; `stiffness` that of those brackets, lbf/in.
    """

    stocks: Mapping[str, Stock]
    pieces: Mapping[str, AnyPiece]
    anchors: Mapping[str, Anchor] = field(default_factory=dict)
    groups: dict[str, list[Group]] = field(default_factory=dict, compare=False, repr=False)
    runs: dict[str, BeamRun] = field(default_factory=dict, compare=False, repr=False)
    verdicts: dict[str, Verdict] = field(default_factory=dict, compare=False, repr=False)
    stiffness: dict[str, tuple[float, float]] = field(default_factory=dict, compare=False, repr=False)


@dataclass(frozen=True)
class Context:
    """The surroundings of one piece: the loads that other pieces bring, and the house itself.

    `memory` keeps what was last solved there, for the next look at the same piece made of other wood.
    """

    structure: Structure
    transfers: Sequence[TransferredLoad] = field(default=())
    memory: dict[str, object] = field(default_factory=dict, compare=False, repr=False)

    def stock(self, name: str) -> Stock:
        return self.structure.stocks[name]

    def size(self, stock: str) -> Size:
        return read_size(self.structure.stocks[stock].size)

    def anchor(self, name: str | None) -> Anchor | None:
        """The group of that name; None where none is named, or where a single piece is looked at without its job."""
        return None if name is None else self.structure.anchors.get(name)

    def under(self, name: str) -> AnyPiece:
        return self.structure.pieces[name]
