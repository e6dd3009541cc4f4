"""A rafter or a pair of rafters, and the tie that closes the pair."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..analysis.line import Line
from ..analysis.roof_frame import RoofRun, Stiff, solve_roof
from ..errors import OutOfRange, Unstable
from ..formulas import bearing as br
from ..formulas.deflection import shear_modulus_from_E
from ..formulas.pad import Pad, SilentPad
from ..model.pieces import Existing, Post, Rafter, Stick, Tie
from ..units import show
from ..values.lumber import Size, read_size
from .beam import SHEAR_PART, doubts, section_of
from .bracing import Span, bracing_of
from .context import Around
from .deflect import limits_of, roof_deflection
from .demand import Asked, at, govern, out_of_range, stated
from .result import Check
from .strength import (
    Bracing,
    Outcome,
    Section,
    bending,
    bending_with_compression,
    bending_with_tension,
    notch_shear,
    shear,
    tension,
)  # fmt: skip
from .wood import Wood, bearing_prime, compression_star, modulus_prime

STEEP = math.degrees(math.atan(3 / 12))  # IRC R301.7
LITTLE = 1.0  # lbf or lb-in: below this a computed force is rounding
TIE_ZONE = 1.0 / 3.0  # a tie above the lower third is no rafter tie (IRC R802.5.2, read)


@dataclass(frozen=True, eq=False)
class Stick2D:
    """One stick of the roof frame with its wood."""

    piece: Stick
    size: Size
    section: Section
    wood: Wood

    @property
    def stiff(self) -> Stiff:
        pad = SilentPad()
        A, inertia = float(self.section.area(pad)), float(self.section.inertia(pad))
        E = float(modulus_prime(pad, self.wood))
        G = float(pad(shear_modulus_from_E, E=E))
        return Stiff(E * A, E * inertia, G * A * SHEAR_PART, float(self.wood.density) * A)


def stick_of(piece: Stick, wood: Wood, around: Around) -> Stick2D:
    """A rafter or tie with its section."""
    size = read_size(around.stock(piece.stock).size)
    return Stick2D(piece, size, section_of(size, piece.laid, piece.plies), wood)


def check_roof(
    rafter: Rafter, wood: Wood, tie: Tie | None, tie_wood: Wood | None, around: Around
) -> tuple[RoofRun | None, list[Check], list[Check]]:
    """The checks of the rafter and those of its tie, from one frame."""
    stick = stick_of(rafter, wood, around)
    other = stick_of(tie, tie_wood, around) if tie is not None and tie_wood is not None else None
    try:
        run = solve_roof(rafter, tie, stick.stiff, other.stiff if other else None)
    except (Unstable, ValueError) as error:
        if isinstance(error, OutOfRange):
            return None, [out_of_range(Asked(rafter.name, "within the rules", "NDS 2018", "ratio"), error)], []
        return None, [stated(rafter.name, "stands still", "statics", "fails", str(error))], []
    found = [*_stick_checks(stick, run, run.rafter_line(), sloped=True), *_rafter_rules(run, stick, tie, around)]
    tie_found: list[Check] = []
    if other is not None and tie is not None and run.tie_bars:
        tie_found = [
            *_stick_checks(other, run, run.tie_line(), sloped=False),
            *_tie_rules(run, tie),
            *doubts(tie.name, other.wood),
        ]
    return run, [*found, *doubts(rafter.name, wood)], tie_found


def _stick_checks(stick: Stick2D, run: RoofRun, line: Line, *, sloped: bool) -> list[Check]:
    """Bending with compression or tension, shear and deflection of one stick; the largest of each along it together."""
    piece, section, wood = stick.piece, stick.section, stick.wood
    if section.round:
        return [stated(piece.name, "round section", "NDS 2018", "refer", "a round rafter or tie is for an engineer")]
    length = float(line.length)
    span = Span(0.0, length, False)
    M_low, _, M_high, _ = line.extremes("M")
    N_low, _, N_high, _ = line.extremes("N")
    V_low, _, V_high, _ = line.extremes("V")
    combos, C_D = run.combinations, run.C_D
    pressed, pulled = np.maximum(-N_low, 0.0), np.maximum(N_high, 0.0)
    found: list[Check] = _pulled(stick, run, pulled) if float(np.max(pulled)) > LITTLE else []
    together = ("the largest moment and the largest axial force of each combination are taken together (safe side)",)
    for top, moments in ((True, np.maximum(M_high, 0.0)), (False, np.maximum(-M_low, 0.0))):
        if float(np.max(moments)) < LITTLE and top is False:
            continue
        bracing = bracing_of(piece, stick.size, section, span, (), simple=False, top=top)
        edge = "" if top else ", bottom edge pressed"
        if float(np.max(pressed)) > LITTLE:
            found += _with_compression(stick, run, bracing, moments, pressed, length, edge, together)
        if float(np.max(pulled)) > LITTLE:
            found += _with_tension(stick, run, bracing, moments, pulled, edge, together)

        def plain(pad: Pad, which: int | slice, moments: np.ndarray = moments, bracing: Bracing = bracing) -> Outcome:
            M = pad.take("M", at(moments, which), "lbf*in", note="from the frame analysis")
            return bending(pad, wood, section, bracing, M=M, C_D=at(C_D, which))

        found.append(govern(Asked(piece.name, f"bending{edge}", "NDS 2018 3.3", "stress"), combos, plain))
    V_all = np.maximum(np.abs(V_low), np.abs(V_high))

    def sheared(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(V_all, which), "lbf", note="largest anywhere, from the frame analysis; nothing left out")
        return shear(pad, wood, section, V=V, C_D=at(C_D, which))

    found.append(govern(Asked(piece.name, "shear", "NDS 2018 3.4.2", "stress"), combos, sheared))
    steep = isinstance(piece, Rafter) and piece.slope > STEEP
    limits = limits_of(piece, "roof", steep_rafter=steep)
    start = run.tail if sloped else 0.0
    found += roof_deflection(piece.name, run, start, sloped, wood, limits)
    if piece.cuts:
        found.append(stated(piece.name, "cuts", "NDS 2018 3.1.2", "refer",
                            "wood is missing from a piece with axial force: net sections there are for an engineer"))  # fmt: skip
    if piece.plies > 1:
        found.append(
            stated(
                piece.name,
                "fastening of the plies",
                "NDS 2018 15.3",
                "refer",
                "the fastening of the plies is not checked",
            )
        )
    return found


def _with_compression(
    stick: Stick2D, run: RoofRun, bracing: Bracing, moments: np.ndarray, pressed: np.ndarray, length: float, edge: str,
    notes: tuple[str, ...],
) -> list[Check]:  # fmt: skip
    piece = stick.piece
    held = piece.top_held
    l_e2 = 0.0 if held == "full length" else (min(held, length) if isinstance(held, float) else length)

    def calculate(pad: Pad, which: int | slice, part: int = 0) -> Outcome:
        P = pad.take("P", at(pressed, which), "lbf", note="largest compression, from the frame analysis")
        M = pad.take("M", at(moments, which), "lbf*in", note="from the frame analysis")
        return bending_with_compression(
            pad, stick.wood, stick.section, bracing, M=M, P=P, C_D=at(run.C_D, which), l_e1=length, l_e2=l_e2
        )[part]

    what, clause = f"bending with compression{edge}", "NDS 2018 3.9.2"
    first = govern(Asked(piece.name, what, clause, "ratio", notes=notes), run.combinations, calculate)
    if bracing.held and l_e2 == 0.0:
        return [first]  # eq. 3.9-4 is about buckling sideways, which cannot happen here
    sideways = Asked(piece.name, f"{what}, sideways", f"{clause} (eq. 3.9-4)", "ratio", notes=notes, strict=True)
    return [first, govern(sideways, run.combinations, lambda pad, which: calculate(pad, which, 1))]


def _pulled(stick: Stick2D, run: RoofRun, pulled: np.ndarray) -> list[Check]:
    def alone(pad: Pad, which: int | slice) -> Outcome:
        T = pad.take("T", at(pulled, which), "lbf", note="from the frame analysis")
        return tension(pad, stick.wood, stick.section, T=T, C_D=at(run.C_D, which))

    return [govern(Asked(stick.piece.name, "tension", "NDS 2018 3.8.1", "stress"), run.combinations, alone)]


def _with_tension(
    stick: Stick2D,
    run: RoofRun,
    bracing: Bracing,
    moments: np.ndarray,
    pulled: np.ndarray,
    edge: str,
    notes: tuple[str, ...],
) -> list[Check]:
    name = stick.piece.name
    found = []
    for part, words in enumerate(("", ", tension eased")):

        def calculate(pad: Pad, which: int | slice, part: int = part) -> Outcome:
            T = pad.take("T", at(pulled, which), "lbf", note="from the frame analysis")
            M = pad.take("M", at(moments, which), "lbf*in", note="from the frame analysis")
            return bending_with_tension(pad, stick.wood, stick.section, bracing, M=M, T=T, C_D=at(run.C_D, which))[part]

        asked = Asked(name, f"bending with tension{words}{edge}", "NDS 2018 3.9.1", "ratio", notes=notes)
        found.append(govern(asked, run.combinations, calculate))
    return found


def _rafter_rules(run: RoofRun, stick: Stick2D, tie: Tie | None, around: Around) -> list[Check]:
    rafter = run.rafter
    found = [*_wall(run, stick, around), *_thrust(run, tie)]
    if rafter.ridge == "board":
        found.append(
            stated(rafter.name, "joint at the ridge", "load path", "refer", "the fastening at the ridge is not checked")
        )
    elif rafter.ridge_on is not None:
        found.append(stated(rafter.name, f"upper end on {rafter.ridge_on}", "load path", "refer",
                            "the fastening or seat at the ridge beam is not checked"))  # fmt: skip
    if any(load.snow is not None for load in rafter.carries) and rafter.ridge == "board":
        found.append(stated(rafter.name, "unbalanced and drifted snow", "ASCE 7-16 7.6, 7.7", "refer",
                            "the snow given is tried on both sides and on one; the standard may ask for more on the lee "
                            "side, for drifts and for sliding snow, which are not added here"))  # fmt: skip
    return found


def _wall(run: RoofRun, stick: Stick2D, around: Around) -> list[Check]:
    """The seat at the wall: bearing at an angle to the grain, the birdsmouth, uplift, what is under it."""
    rafter, wood, section = run.rafter, stick.wood, stick.section
    support, name = rafter.wall, rafter.name
    up = run.wall_reactions()[:, 1]
    what = f"bearing on {support.on}"
    found: list[Check] = []
    if support.bearing is None:
        found.append(
            stated(name, what, "NDS 2018 3.10.3", "refer", "the length of the level seat is not given (`bearing`)")
        )
    else:
        theta = 90.0 - rafter.slope
        l_b = support.bearing

        def seat(pad: Pad, which: int | slice) -> Outcome:
            R = pad.take("R", at(np.maximum(up, 0.0), which), "lbf", note="from the frame analysis")
            f = pad(br.bearing_stress, R=R, b=min(support.bearing_width or section.b, section.b), l_b=l_b)
            F_c_star = compression_star(pad, wood, at(run.C_D, which))
            F_c_perp_prime = bearing_prime(pad, wood, 1.0)
            F = pad(br.bearing_at_angle, F_c_star=F_c_star, F_c_perp_prime=F_c_perp_prime, theta=theta)
            return Outcome(f, F, f / F)

        found.append(govern(Asked(name, what, "NDS 2018 3.10.3", "stress"), run.combinations, seat))
    if rafter.seat_cut is None:
        found.append(
            stated(
                name,
                "birdsmouth",
                "NDS 2018 3.4.3.2, 4.4.3.1",
                "refer",
                "the depth of the seat cut is not given (`seat_cut`)",
            )
        )
    else:
        found += _birdsmouth(run, stick, rafter.seat_cut)
    if float(np.min(up)) < -LITTLE:
        worst = int(np.argmin(up))
        found.append(stated(name, f"uplift at {support.on}", "ASCE 7-16 2.4.1", "refer" if support.tied_down.strip() else "fails",
                            f"the end lifts with {show(-float(up[worst]), 'force')} under {run.combinations[worst].name}"
                            + (f"; said to be held down by {support.tied_down!r}, not checked" if support.tied_down.strip()
                               else " and nothing is said to hold it down (`tied_down`)")))  # fmt: skip
    under = around.under(support.on)
    label = f"what holds the foot on {support.on}"
    if isinstance(under, Existing):
        answered = under.confirmed_by.strip()
        found.append(stated(name, label, "load path", "passes" if answered else "refer",
                            f"by others, confirmed: {answered}; not checked here" if answered
                            else f"{under.name} ({under.what}) is by others, and nobody is named who answers for it (`confirmed_by`)"))  # fmt: skip
    elif isinstance(under, Post):
        found.append(stated(name, label, "load path", "refer", "a rafter straight on a post: the joint is not checked"))
    return found


def _birdsmouth(run: RoofRun, stick: Stick2D, depth: float) -> list[Check]:
    rafter, section = run.rafter, stick.section
    if depth >= section.d:
        return [stated(rafter.name, "birdsmouth", "NDS 2018 4.4.3.1", "fails", "the seat cut is as deep as the rafter")]
    found = []
    if depth > 0.25 * section.d:
        found.append(stated(rafter.name, "birdsmouth", "NDS 2018 4.4.3.1", "fails",
                            f"{show(depth, 'length')} deep: an end notch may take at most a quarter of the depth"))  # fmt: skip
    V_low, _, V_high, _ = run.rafter_line().extremes("V", run.tail, float(run.rafter_line().length))
    V_all = np.maximum(np.abs(V_low), np.abs(V_high))

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(V_all, which), "lbf", note="largest in the rafter, from the frame analysis")
        return notch_shear(pad, stick.wood, section, V=V, C_D=at(run.C_D, which), depth=depth, tension_side=True, e=0.0)

    found.append(
        govern(Asked(rafter.name, "shear at the birdsmouth", "NDS 2018 3.4.3.2", "force"), run.combinations, calculate)
    )
    if run.tail > 0.0:
        left = Section(section.b, section.d - depth, section.breadth_alone)
        low, _, high, _ = run.rafter_line().extremes("M", max(run.tail - section.d, 0.0), run.tail + section.d)
        M_all = np.maximum(np.abs(low), np.abs(high))

        def bent(pad: Pad, which: int | slice) -> Outcome:
            M = pad.take("M", at(M_all, which), "lbf*in", note="largest near the wall, from the frame analysis")
            return bending(pad, stick.wood, left, Bracing(True, "close to the seat"), M=M, C_D=at(run.C_D, which))

        found.append(
            govern(
                Asked(rafter.name, "bending of the tail at the birdsmouth", "NDS 2018 3.1.2", "stress"),
                run.combinations,
                bent,
            )
        )
    return found


def _thrust(run: RoofRun, tie: Tie | None) -> list[Check]:
    """What keeps the feet from spreading."""
    rafter = run.rafter
    what = "thrust"
    if rafter.ridge == "beam":
        return [
            stated(
                rafter.name,
                what,
                "statics",
                "passes",
                "the ridge beam carries the upper end: no thrust from vertical loads",
            )
        ]
    if tie is not None:
        rise = rafter.run * math.tan(math.radians(rafter.slope))
        if tie.height > rise * TIE_ZONE:
            return [stated(rafter.name, what, "IRC R802.5.2", "refer",
                           f"tie {tie.name} sits above the lower third: it bends the rafters and is no rafter tie by the code")]  # fmt: skip
        return [
            stated(
                rafter.name,
                what,
                "IRC R802.5.2",
                "passes",
                f"taken by tie {tie.name}, which is checked as a piece of its own",
            )
        ]
    outward = np.abs(run.wall_reactions()[:, 0])
    worst = int(np.argmax(outward))
    force = show(float(outward[worst]), "force")
    text = f"each pair pushes its walls apart with {force} under {run.combinations[worst].name}"
    said = rafter.thrust_resisted_by.strip()
    if said:
        return [
            stated(
                rafter.name, what, "IRC R802.5.2", "refer", f"{text}; said to be resisted by {said!r}, not checked here"
            )
        ]
    return [stated(rafter.name, what, "IRC R802.5.2", "fails", f"{text}, and there is neither a tie nor a ridge beam")]


def _tie_rules(run: RoofRun, tie: Tie) -> list[Check]:
    N_low, _, N_high, _ = run.tie_line().extremes("N")
    worst = int(np.argmax(N_high))
    ends = stated(tie.name, "joints at its ends", "NDS 2018 chapter 12", "refer",
                  f"{show(float(N_high[worst]), 'force')} under {run.combinations[worst].name} must pass through each end "
                  f"({tie.end_connection}); the joint is not checked")  # fmt: skip
    return [ends]
