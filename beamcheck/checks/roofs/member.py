"""One stick of a roof frame, a rafter or a tie: bending with axial force, shear, deflection, rules of its section."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import numpy as np

from ...analysis.frames.member_line import Line
from ...analysis.roofs.roof_frame import RoofRun
from ...calc.pad import Pad
from ...model.fields.said import fastens
from ...model.roofs import Rafter, Tie
from ...records import dataclass
from ..beams.bracing import Span, bracing_of, proportion
from ..beams.deflection import finish_checks, limits_of, roof_deflection
from ..core.asking.question import Question, ask
from ..core.result import Check
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.made.nails import bolts_at, falls_short
from ..core.wood.material import ask_what_shares
from ..core.wood.sticks import FROM_FRAME, LITTLE, TOGETHER
from ..core.wood.strength import (
    Bracing,
    Outcome,
    bending,
    bending_with_compression,
    bending_with_tension,
    shear,
    tension,
)
from .framed_stick import FramedStick


@dataclass(frozen=True, eq=False)
class Forces:
    """The largest of each force along a stick under each combination, without sign: (combinations,) each."""

    compression: np.ndarray
    tension: np.ndarray
    V: np.ndarray
    M_top: np.ndarray  # presses on the top edge
    M_bottom: np.ndarray  # presses on the bottom edge

    @classmethod
    def of(cls, line: Line) -> Forces:
        """Read along the whole of a line."""
        N_low, _, N_high, _ = line.extremes("N")
        V_low, _, V_high, _ = line.extremes("V")
        M_low, _, M_high, _ = line.extremes("M")
        return cls(
            np.maximum(-N_low, 0.0), np.maximum(N_high, 0.0), np.maximum(np.abs(V_low), np.abs(V_high)),
            np.maximum(M_high, 0.0), np.maximum(-M_low, 0.0),
        )  # fmt: skip


def stick_checks(stick: FramedStick, run: RoofRun, line: Line, *, free: float, steep: bool) -> list[Check]:
    """Every check of one stick by itself.

    `free`: length at the lower end that hangs free: the tail of a rafter [in]. `steep`: a rafter steeper than 3:12 (IRC
    R301.7).
    """
    name = stick.piece.name
    if stick.section.round:
        asked = ask("round_rafter", name)
        text = "a round rafter or tie is for an engineer"
        return [Check.refers("roof.round", name, "round section", "NDS 2018", text, ask=asked)]
    forces = Forces.of(line)
    found = forces_checks(stick, run, forces, length=float(line.length), free=free)
    criterion = Criterion(
        name,
        "shear",
        "NDS 2018 3.4.2",
        "stress",
        notes=("the full shear is taken: nothing is left out",),
        id="roof.shear",
    )
    found.append(govern(criterion, run.combinations, partial(sheared, stick, run, forces.V)))
    found += roof_deflection(name, run, free, isinstance(stick.piece, Rafter), stick.wood,
                             limits_of(stick.piece, "roof", steep_rafter=steep))  # fmt: skip
    return [*found, *finish_checks(stick.piece, "roof"), *_rules(stick, forces)]


def forces_checks(
    stick: FramedStick, run: RoofRun, forces: Forces, *, length: float, free: float
) -> list[Check]:  # fmt: skip
    """Tension, and either edge pressed with all that acts beside it."""
    found = _pulled(stick, run, forces) if _any(forces.tension) else []
    for top, moments in ((True, forces.M_top), (False, forces.M_bottom)):
        if top or _any(moments):
            found += _bent(stick, run, forces, moments, top=top, length=length, free=free)
    return found


def _any(values: np.ndarray) -> bool:
    return float(np.max(values)) > LITTLE


def _bent(
    stick: FramedStick, run: RoofRun, forces: Forces, moments: np.ndarray, *, top: bool, length: float, free: float
) -> list[Check]:
    """One edge pressed: with compression, with tension, alone.

    Eq. 3.9-2 (bending less tension) needs no check of its own: it never gives more than bending alone.
    """
    piece, combinations = stick.piece, run.combinations
    stamp_up = piece.stamp_up if isinstance(piece, Rafter) else None
    asked = ask_what_shares(piece)
    if isinstance(piece, Rafter) and stamp_up is None and stick.wood.F_b_other is not None:
        asked = (*asked, ask("stamp_up", piece.name, f"rafter.{piece.name}.stamp_up"))
    if stick.wood.volume is not None:
        from ..core.wood.made.engineered import pulled_side  # most rafters are sawn

        stick = replace(stick, wood=pulled_side(stick.wood, stamp_up, length, top=top))
    span = Span(0.0, length, False)
    bracing = bracing_of(piece, stick.size, stick.section, span, (), simple=False, top=top)
    edge = "" if top else ", bottom edge pressed"
    found = []
    if _any(forces.compression):
        found += _with_compression(stick, run, bracing, moments, forces.compression, edge, length - free, asked)
    if _any(forces.tension):
        criterion = Criterion(piece.name, f"bending with tension{edge}", "NDS 2018 3.9.1", "ratio", notes=(TOGETHER,),
                              id="roof.bending_with_tension", ask=asked)  # fmt: skip
        found.append(
            govern(criterion, combinations, partial(_with_tension, stick, run, bracing, moments, forces.tension))
        )
    criterion = Criterion(piece.name, f"bending{edge}", "NDS 2018 3.3", "stress", id="roof.bending",
                          ask=asked)  # fmt: skip
    return [*found, govern(criterion, combinations, partial(_alone, stick, run, bracing, moments))]


def _alone(
    stick: FramedStick, run: RoofRun, bracing: Bracing, moments: np.ndarray, pad: Pad, which: int | slice
) -> Outcome:
    M = pad.take("M", at(moments, which), "lbf*in", note=FROM_FRAME)
    return bending(pad, stick.wood, stick.section, bracing, M=M, C_D=duration(pad, run.combinations, which))


def sheared(stick: FramedStick, run: RoofRun, V_all: np.ndarray, pad: Pad, which: int | slice) -> Outcome:
    """Shear of the whole section, the largest anywhere."""
    V = pad.take("V", at(V_all, which), "lbf", note=f"largest anywhere, {FROM_FRAME}")
    return shear(pad, stick.wood, stick.section, V=V, C_D=duration(pad, run.combinations, which))


def _pulled(stick: FramedStick, run: RoofRun, forces: Forces) -> list[Check]:
    def alone(pad: Pad, which: int | slice) -> Outcome:
        T = pad.take("T", at(forces.tension, which), "lbf", note=FROM_FRAME)
        return tension(pad, stick.wood, stick.section, T=T, C_D=duration(pad, run.combinations, which))

    return [
        govern(
            Criterion(stick.piece.name, "tension", "NDS 2018 3.8.1", "stress", id="roof.tension"),
            run.combinations,
            alone,
        )
    ]


def _with_tension(
    stick: FramedStick, run: RoofRun, bracing: Bracing, moments: np.ndarray, pulled: np.ndarray, pad: Pad,
    which: int | slice,
) -> Outcome:  # fmt: skip
    T = pad.take("T", at(pulled, which), "lbf", note=FROM_FRAME)
    M = pad.take("M", at(moments, which), "lbf*in", note=FROM_FRAME)
    return bending_with_tension(
        pad, stick.wood, stick.section, bracing, M=M, T=T, C_D=duration(pad, run.combinations, which)
    )[0]


def sideways_length(piece: Rafter | Tie, length: float) -> float:
    """Length that can buckle sideways; 0 where an edge is held along its whole length. Either edge holds the piece."""
    edges = (piece.top_held, piece.bottom_held)
    if "full length" in edges:
        return 0.0
    return min([length, *(edge for edge in edges if isinstance(edge, float))])


def _with_compression(
    stick: FramedStick, run: RoofRun, bracing: Bracing, moments: np.ndarray, pressed: np.ndarray, edge: str,
    length: float, asked: tuple[Question, ...],
) -> list[Check]:  # fmt: skip
    l_e2 = sideways_length(stick.piece, length)

    def calculate(part: int, pad: Pad, which: int | slice) -> Outcome:
        P = pad.take("P", at(pressed, which), "lbf", note=f"largest compression, {FROM_FRAME}")
        M = pad.take("M", at(moments, which), "lbf*in", note=FROM_FRAME)
        C_D = duration(pad, run.combinations, which)
        return bending_with_compression(
            pad, stick.wood, stick.section, bracing, M=M, P=P, C_D=C_D, l_e1=length, l_e2=l_e2
        )[part]

    what, clause = f"bending with compression{edge}", "NDS 2018 3.9.2"
    criterion = Criterion(stick.piece.name, what, clause, "ratio", notes=(TOGETHER,),
                          id="roof.bending_with_compression", ask=asked)  # fmt: skip
    first = govern(criterion, run.combinations, partial(calculate, 0))
    if bracing.held and l_e2 == 0.0:
        return [first]  # eq. 3.9-4 is about buckling sideways, which cannot happen here
    sideways = Criterion(stick.piece.name, f"{what}, sideways", f"{clause} (eq. 3.9-4)", "ratio", notes=(TOGETHER,),
                     strict=True, id="roof.bending_sideways", ask=asked)  # fmt: skip
    return [first, govern(sideways, run.combinations, partial(calculate, 1))]


def _rules(stick: FramedStick, forces: Forces) -> list[Check]:
    """What the section asks for besides strength, and what is not worked out."""
    piece, found = stick.piece, list[Check]()
    slender = proportion(stick.size, stick.section)
    held = [piece.top_held, piece.bottom_held].count("full length")
    if slender > 5.0 and _any(forces.compression) and held < 2 and (slender > 6.0 or _any(forces.M_bottom)):
        text = (
            f"d/b is {slender:.3g} with compression: above 5 both edges must be held along the whole length, unless "
            "d/b is at most 6 and the free edge is never pressed"
        )
        kind = type(piece).__name__.lower()
        asked = ask("both_edges_held", piece.name, f"{kind}.{piece.name}.bottom_held")
        found.append(Check.refers("roof.slender", piece.name, "slender section with compression", "NDS 2018 4.4.1.3",
                                  text, ask=asked))  # fmt: skip
    forces_to_cover = {"presses": float(np.max(forces.compression)), "pulls": float(np.max(forces.tension))}
    if piece.cuts or stick.old_cuts:
        text = "wood is missing from a piece with axial force, and the figures are those of the whole section"
        asked = ask("rafter_cuts", piece.name, forces=forces_to_cover)
        found.append(Check.refers("roof.cuts", piece.name, "cuts", "NDS 2018 3.1.2", text, ask=asked))
    if piece.plies > 1:
        text = f"{piece.plies} plies are counted together in strength; how they are fastened is "
        what, id, clause = "fastening of the plies", "roof.plies", "NDS 2018 3.3.3, 15.3"
        said = piece.plies_fastened.strip()
        short = falls_short(said, stick.size.b)
        if fastens(said) and not short:
            found.append(Check.keeps_rule(id, piece.name, what, clause, f"{text}said: {said}"))
        else:
            kind = type(piece).__name__.lower()
            how = f"not said by {said!r}: {short or 'fasteners with their size or spacing'}" if said else "not said"
            field = f"{kind}.{piece.name}.plies_fastened"
            usual = bolts_at(field) if falls_short("10d", stick.size.b) else None
            asked = ask("rafter_plies", piece.name, field, answers=usual)
            found.append(Check.refers(id, piece.name, what, clause, f"{text}{how}", ask=asked))
    return found
