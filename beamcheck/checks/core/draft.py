"""A result in the making, and what a piece hands to the pieces below it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import field
from itertools import starmap
from typing import TYPE_CHECKING

from ...analysis.beams.member_loads import TransferredLoad
from ...errors import BeamcheckError, OutOfRange
from ...model.beams import Beam, beam_length
from ...model.classes import is_bracket, is_trim
from ...model.posts import Post
from ...model.roofs import Rafter
from ...records import dataclass
from ...units import show
from ...values.judgment import judgment
from ...values.refused import in_trade_words
from .asking.question import Question, ask
from .context import Context
from .pictures.beams import Figure, Label, Table
from .result import Check, PieceResult, worst
from .statics import Statics

if TYPE_CHECKING:
    from .pictures.assembled import AssemblyPicture
    from .pictures.others import Picture

GENERAL = (
    "Allowable values already include the safety of the standard; none is added and none is taken off.",
    "Own weight is always counted.",
)
SHEAR_SAG = "Deflection includes shear with G = E/16 (common practice) on the tabulated E, which is on the safe side."


@dataclass(frozen=True)
class SupportForces:
    """What one support takes: forces by kind (largest, least), and over all combinations, lbf, down positive.

    `on` is '' where no piece is named. `spacing` is that of repeated pieces (rafters), of which this is one; 0 for a
    piece that is alone.
    """

    on: str
    by_kind: dict[str, tuple[float, float]]
    largest: float
    least: float
    spacing: float = 0.0


@dataclass(frozen=True)
class Reactions:
    """What a piece puts on the pieces below it: for the load path, and as loads with the name of what carries them.

    `anchors` are the groups that hold its ends, checked with the forces that came out.
    """

    name: str
    rows: tuple[SupportForces, ...] = ()
    transfers: tuple[tuple[str, TransferredLoad], ...] = ()
    anchors: tuple[PieceResult, ...] = ()


@dataclass
class Draft:
    """A result in the making."""

    name: str
    kind: str
    title: str
    checks: list[Check] = field(default_factory=list)
    inputs: list[tuple[str, str]] = field(default_factory=list)
    tables: list[Table] = field(default_factory=list)
    assumptions: list[str] = field(default_factory=list)
    remedies: tuple[str, ...] = ()
    figure: Figure | None = None
    statics: Statics | None = None
    pictures: tuple[Picture, ...] = ()
    assembly: AssemblyPicture | None = None

    def done(self) -> PieceResult:
        """The result; a piece without a check is `refer`."""
        return PieceResult(
            self.name,
            self.kind,
            self.title,
            worst(check.verdict for check in self.checks),
            tuple(self.checks),
            tuple(starmap(Label, self.inputs)),
            tuple(self.tables),
            tuple(dict.fromkeys(self.assumptions)),
            self.remedies,
            self.figure,
            pictures=self.pictures,
            assembly=self.assembly,
            statics=self.statics,
        )

    def outside(self, error: BeamcheckError) -> None:
        """Write down that the piece could not be worked out at all."""
        clause = error.clause if isinstance(error, OutOfRange) and error.clause else "NDS 2018"
        why, what = in_trade_words(error), "within the rules"
        asked = ask("outside_rules", self.name, rule=why)
        self.checks = [*self.checks, Check.refers("piece.within_rules", self.name, what, clause, why, ask=asked)]


def unknown_below(name: str, carriers: Sequence[str | None]) -> Reactions:
    """The reactions of a piece that could not be worked out: what carries it must know that something is missing."""
    missing = TransferredLoad(name, {}, unknown=True)
    return Reactions(name, (), tuple((on, missing) for on in carriers if on is not None))


def transfer_doubts(name: str, context: Context) -> Iterator[Check]:
    """Loads that were not worked out, or that arrive at no known place, keep a piece from passing."""
    piece = context.under(name)
    on_beam, on_post, on_bracket = isinstance(piece, Beam), isinstance(piece, Post), is_bracket(piece)
    for transfer in context.transfers:
        if transfer.perhaps:
            what, asked = f"load from {transfer.from_piece}", _load_from(name, transfer)
            yield _open(name, "path.load", what, transfer.perhaps, asked)
        if transfer.unknown:
            text = f"{transfer.from_piece} could not be worked out, so its load here is not known"
            yield _open(name, "path.load", f"load from {transfer.from_piece}", text, _load_from(name, transfer))
        elif on_post and transfer.spread is not None:
            text = (
                f"{transfer.from_piece} stands for a row, one every {show(transfer.spread, 'length')}: one of them is "
                "counted here. If more of the row comes to this post, put the beam that gathers them between"
            )
            asked = ask("row_on_one", name, row=transfer.from_piece)
            yield _open(name, "path.row", f"row of {transfer.from_piece}", text, asked)
        elif on_beam and transfer.at is None and transfer.spread is None and not _light(name, transfer, context):
            text = f"where {transfer.from_piece} lands is not given; midspan is taken (`lands_at`)"
            yield _open(name, "path.place", f"place of {transfer.from_piece}", text, _place_of(name, transfer, context))
        elif on_bracket and transfer.at is None:
            text = f"how far out {transfer.from_piece} lands is not given; the middle of its top is taken (`lands_at`)"
            yield _open(name, "path.place", f"place of {transfer.from_piece}", text, _place_of(name, transfer, context))


def _open(name: str, id: str, what: str, text: str, asked: Question) -> Check:
    return Check.refers(id, name, what, "load path", text, ask=asked)


def _load_from(name: str, transfer: TransferredLoad) -> Question:
    return ask("load_from", name, above=transfer.from_piece)


def _place_of(name: str, transfer: TransferredLoad, context: Context) -> Question:
    """Where a piece lands on another: the field of its support, or of the piece where it has one place only."""
    above = context.structure.pieces.get(transfer.from_piece)
    if isinstance(above, Beam):
        index = next((i for i, one in enumerate(above.supports, 1) if one.on == name and one.lands_at is None), 1)
        return ask("lands_at", above.name, f"beam.{above.name}.supports.{index}.lands_at", on=name)
    if isinstance(above, Rafter):
        return ask("lands_at", above.name, f"rafter.{above.name}.wall.lands_at", on=name)
    if isinstance(above, Post):
        return ask("lands_at", above.name, f"post.{above.name}.lands_at", on=name)
    return ask("lands_by_engineer", transfer.from_piece, on=name)


def _light(name: str, transfer: TransferredLoad, context: Context) -> bool:
    """Whether it is a little trim on a beam of one span, for which midspan is the place that counts most."""
    beam = context.under(name)
    if not isinstance(beam, Beam) or not is_trim(context.structure.pieces.get(transfer.from_piece)):
        return False
    places = [support.at for support in beam.supports]
    between, light = judgment("beam between its supports").value, judgment("light trim").value
    simple = len(places) == 2 and max(places) - min(places) >= between * beam_length(beam)
    return simple and sum(max(abs(high), abs(low)) for high, low in transfer.forces.values()) <= light


def light_trim_words(name: str, context: Context) -> list[str]:
    """Assumptions about trim whose place along a beam is not asked for."""
    most = show(judgment("light trim").value, "force")
    return [
        f"{transfer.from_piece}, no more than {most}, is taken at midspan (common practice)."
        for transfer in context.transfers
        if transfer.at is None and transfer.spread is None
        and _light(name, transfer, context)
    ]  # fmt: skip
