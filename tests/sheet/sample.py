"""An invented job with every kind of block: a beam that fails, a rafter that is referred, a post that passes.

Loads, sizes and verdicts are made up to fill a page; nothing here is a value to build by or to test formulas with.
"""

from __future__ import annotations

import hashlib
import math

from beamcheck.calc.pad import Pad
from beamcheck.checks.core.pictures.beams import SupportMark
from beamcheck.checks.core.result import Check, Figure, JobResult, PieceResult, Table, judge, no_figure, worst
from beamcheck.formulas.wood import adjustment, bending
from beamcheck.provenance import Source

INVENTED_TABLE = Source("Invented table for this sample", "memory", "made up, not a design value", "low")
INVENTED_SURVEY = Source("Invented letter of a grader", "given", "made up")

JOB_TEXT = """\
# Invented example. No real building.
[job]
title = "Invented boathouse, main room"
standard = "NDS 2018"
loads = "ASCE 7-16"
invented = true

[[stock]]
name = "old beam"
species = "Invented Pine"   # <b>not</b> & never a species
size = '7 1/4" x 9 3/4"'
"""


def bending_check() -> Check:
    """Bending with a long chain of factors."""
    pad = Pad()
    F_b = pad.take("F_b", 1050.0, "psi", source=INVENTED_TABLE)
    C_D = pad.take("C_D", 1.15, note="snow", clause="NDS 2018 Table 2.3.2", source=INVENTED_SURVEY)
    C_F = pad(adjustment.size_factor_timber, d=13.5)
    F_b_star = pad(adjustment.adjusted_bending_star, F_b=F_b, C_D=C_D, C_M=1.0, C_t=1.0, C_F=C_F, C_i=1.0, C_r=1.0)
    l_e = pad(bending.effective_length, l_u=168.0, d=13.5, k_short=2.06, k_long=1.63, k_d=3.0)
    R_B = pad(bending.slenderness_ratio, l_e=l_e, d=13.5, b=5.5)
    F_bE = pad(bending.critical_buckling_bending, E_min_prime=400000.0, R_B=R_B)
    C_L = pad(bending.beam_stability, F_bE=F_bE, F_b_star=F_b_star)
    f_b = pad(bending.bending_stress, M=262_500.0, S=167.1, note="net section at the mortise")
    ratio = pad.take("ratio", f_b / (F_b_star * C_L), note="demand over capacity")
    return Check(
        "B1", "bending", "NDS 2018 3.3.1", judge(ratio), "stress", f_b, F_b_star * C_L, ratio, "D + S", "at 7 ft",
        tuple(pad.steps), ("The top edge is held at its ends only, as the job file says.",),
    )  # fmt: skip


THREE_LOADS = ("plaster ceiling", "attic, no storage", "roof snow")


def beam_drawing(slope: float = 0.0, load_names: tuple[str, ...] = THREE_LOADS) -> Figure:
    """A simple beam, 12 lbf/in over 168 in, dressed up with supports and cuts that do not belong to it."""
    length, w = 168.0, 12.0
    x = tuple(length * i / 60 for i in range(61))
    M = tuple(w * a * (length - a) / 2 for a in x)
    V = tuple(w * (length / 2 - a) for a in x)
    loads = tuple(
        (0.0, length, f"{name}, {10 * i + 10} psf × 4 ft", kind, "line")
        for i, (name, kind) in enumerate(zip(load_names, ("dead", "live", "snow"), strict=False))
    )
    return Figure(
        length=length, depth=13.5, slope=slope,
        supports=(
            SupportMark(0.0, "west post", "rests", 4.0), SupportMark(132.0, "hidden plate A", "hung"),
            SupportMark(168.0, "east wall", "fixed"),
        ),
        loads=(
            *loads,
            (60.0, 60.0, "post above, 1,200 lb", "dead", "point"),
            (110.0, 110.0, "lamp, 60 lb", "live", "point"),
        ),
        cuts=((56.0, 64.0, 4.0, 5.0, "mortise 8 in long, 5 in high"), (150.0, 151.0, 6.0, 1.0, "hole 1 in")),
        x=x, V_high=V, V_low=tuple(0.4 * v - 150 for v in V), M_high=M, M_low=tuple(0.3 * m - 4000 for m in M),
        sag=tuple(0.6 * math.sin(math.pi * a / length) for a in x), marks=(("M", 84.0, "D + S"),),
    )  # fmt: skip


def job(title: str = "Invented boathouse, main room", units: str = "US", job_text: str = JOB_TEXT) -> JobResult:
    """The whole invented job."""
    bend = bending_check()
    shear = Check(
        "B1", "shear", "NDS 2018 3.4.2", "passes", "stress", 62.0, 149.5, 62.0 / 149.5, "D + S", "at the west post",
    )  # fmt: skip
    sag = Check(
        "B1", "deflection, live load", "IBC 1604.3", judge(1.0004), "small length", 0.46685, 168 / 360, 1.0004, "L",
        "at 7 ft",
    )  # fmt: skip
    seat = Check(
        "R2",
        "birdsmouth seat",
        "NDS 2018 3.2.3",
        "refer",
        notes=("The depth of the seat cut is not given.",),
        questions=(no_figure("R2", "the seat cut"),),
    )
    plumb = Check("P1", "buckling", "NDS 2018 3.7.1", judge(0.31), "force", 3100.0, 10000.0, 0.31, "D + S")
    pieces = (
        PieceResult(
            "B1", "beam", "6x14 rough invented pine, 14 ft", worst(check.verdict for check in (bend, shear, sag)),
            (bend, shear, sag),
            (("stock", "old beam"), ("size, measured", "5 1/2 in x 13 1/2 in"), ("moisture", "dry, metered at 14 %")),
            (
                Table("Loads on B1", ("what", "kind", "as given", "on the beam"), (
                    ("plaster ceiling", "dead", "10 psf × 4 ft", "40 plf"),
                    ("roof snow", "snow", "30 psf × 4 ft", "120 plf"),
                )),
                Table("Reactions of B1", ("support", "D", "S", "largest"), (
                    ("west post", "410 lb", "840 lb", "1,250 lb"),
                )),
            ),
            ("The ends are held against turning over.",),
            ("Brace the top edge at mid-span.", "Or use a section 7 1/4 in wide."), beam_drawing(),
        ),
        PieceResult(
            "R2", "rafter", "2x8 invented spruce at 16 in", "refer", (seat,), (("slope", "6:12"),),
            figure=beam_drawing(26.565, ("slates", "repair crew", "snow on plan")),
        ),
        PieceResult("P1", "post", "6x6 invented oak, 8 ft", "passes", (plumb,), (("height", "8 ft"),)),
    )  # fmt: skip
    return JobResult(
        title=title, verdict=worst(piece.verdict for piece in pieces),
        reasons=("B1 bends too far and is overstressed in bending.", "R2: the depth of the seat cut is not given."),
        pieces=pieces,
        about=(("Address", ""), ("Author", "invented"), ("Date", "2026-01-31"), ("Standards", "NDS 2018, ASCE 7-16")),
        tables=(
            Table("Design loads", ("load", "value", "from"), (
                ("ground snow", "40 psf", "job file"), ("roof live", "20 psf", "table"),
            )),
            Table("Combinations", ("name", "factors", "C_D"), (
                ("D + S", "1.0 D + 1.0 S", "1.15"), ("D + L", "1.0 D + 1.0 L", "1.00"),
            )),
            Table("Load path", ("piece", "rests on", "largest load", "ends at"), (
                ("B1", "west post, hidden plate A", "1,250 lb", "ground"),
            )),
        ),
        job_text=job_text, job_name="boathouse.toml", fingerprint=hashlib.sha256(job_text.encode()).hexdigest(),
        version="0.1.0", units=units, invented=True,
    )  # fmt: skip
