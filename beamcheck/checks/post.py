"""A post: compression with buckling both ways, load off centre, end grain at top and foot, what it stands on."""

from __future__ import annotations

import numpy as np

from ..analysis.carried import applied_loads, arrived_loads, self_weight
from ..analysis.combinations import Loaded, combine, matrix
from ..analysis.loading import Applied, Case, cases_for
from ..errors import OutOfRange
from ..formulas import bearing as br
from ..formulas import compression as cp
from ..formulas.eccentric import eccentric_column_one_way
from ..formulas.pad import Pad, SilentPad
from ..model.pieces import Beam, Existing, Post, Tie
from ..units import show
from ..values.factors import length_factor
from ..values.lumber import read_size
from .beam import doubts, section_of
from .context import Around
from .cuts import net_section, words
from .demand import Asked, at, govern, out_of_range, stated
from .result import Check
from .strength import Bracing, Outcome, Section, bending_values, column_values, compression, end_grain
from .supports import NEGLIGIBLE
from .wood import Wood, bearing_prime, is_unknown, reference_values, wood_of

UNKNOWN_OFFSET = (
    1.0 / 6.0
)  # of the side: taken when nobody says how far off centre the load comes. Common practice, no source
BUILT_UP = {"nailed": 0.60, "bolted": 0.75}  # NDS 2018 15.3.2.4 (memory)


class PostRun:
    """A post with its loads and combinations."""

    def __init__(self, post: Post, wood: Wood, around: Around) -> None:
        self.post, self.wood = post, wood
        self.size = read_size(around.stock(post.stock).size)
        self.section = section_of(self.size, "on edge", post.plies)
        area = float(self.section.area(SilentPad()))
        weight = self_weight(float(wood.density), area, post.height).total
        self.loads: list[Applied] = [
            *applied_loads(post.carries, post.height),
            *arrived_loads(around.arrivals, post.height),
            Applied("D", 0.0, 0.0, P=weight, what="self weight"),
        ]
        # along a post every load has the same place: its axis
        axial = [Applied(load.kind, 0.0, 0.0, P=load.total, P_low=load.P_low, what=load.what) for load in self.loads]
        self.cases: list[Case] = cases_for(axial, [(0.0, post.height)], float(self.section.d))
        self.combinations: list[Loaded] = combine(self.cases)
        self.by_case = np.array([sum(load.P for load in case.loads) for case in self.cases])
        self.P = matrix(self.combinations) @ self.by_case
        self.C_D = np.array([combination.C_D for combination in self.combinations])

    def by_kind(self) -> dict[str, tuple[float, float]]:
        """Largest and least axial force of each kind, lbf, down positive."""
        found: dict[str, tuple[float, float]] = {}
        for case, force in zip(self.cases, self.by_case, strict=True):
            start = (force, force) if case.kind == "D" else (0.0, 0.0)
            high, low = found.get(case.kind, start)
            found[case.kind] = (max(high, float(force)), min(low, float(force)))
        return found


def check_post(post: Post, wood: Wood, around: Around) -> tuple[PostRun | None, list[Check]]:
    """Every check of a post of known wood."""
    try:
        run = PostRun(post, wood, around)
        return run, [*_checks(run, around), *doubts(post.name, wood)]
    except OutOfRange as error:
        return None, [out_of_range(Asked(post.name, "within the rules", "NDS 2018", "ratio"), error)]


def _checks(run: PostRun, around: Around) -> list[Check]:
    post, section, wood = run.post, run.section, run.wood
    if post.top_restraint == "free":
        return [stated(post.name, "stands still", "NDS 2018 Appendix G", "refer",
                       "the top is held by nothing: a post that must stay up by its foot alone is for an engineer")]  # fmt: skip
    K_e = length_factor("pinned", "pinned").value
    fixed = "fixed" in (post.top_restraint, post.base_restraint)
    l_1 = min(post.braced_strong or post.height, post.height)
    l_2 = min(post.braced_weak or post.height, post.height)
    way = "common practice, no source" if fixed else ""
    pressed = np.maximum(run.P, 0.0)
    built_up = BUILT_UP.get(post.plies_joined, 1.0) if post.plies > 1 else 1.0

    def lengths(pad: Pad) -> tuple[float, float]:
        note = "an end said to be fixed counts as hinged: fixity is not shown" if fixed else "hinged at both ends"
        k = pad.take("K_e", K_e, clause="NDS 2018 Appendix G", note="; ".join(filter(None, (note, way))))
        return (
            float(pad(cp.effective_length_column, symbol="l_e1", K_e=k, l=l_1)),
            float(pad(cp.effective_length_column, symbol="l_e2", K_e=k, l=l_2)),
        )

    def straight_down(pad: Pad, which: int | slice) -> Outcome:
        P = pad.take("P", at(pressed, which), "lbf", note="all that arrives, own weight included")
        l_e1, l_e2 = lengths(pad)
        return compression(pad, wood, section, P=P, C_D=at(run.C_D, which), l_e1=l_e1, l_e2=l_e2, K_f=built_up)

    found = [govern(Asked(post.name, "compression", "NDS 2018 3.6, 3.7", "stress"), run.combinations, straight_down)]
    found += _off_centre(run, l_1, l_2, lengths, pressed)
    found += _ends(run, around, pressed)
    found += _cuts(run, pressed)
    if float(np.min(run.P)) < -NEGLIGIBLE:
        worst = int(np.argmin(run.P))
        found.append(stated(post.name, "uplift", "ASCE 7-16 2.4.1", "refer",
                            f"{show(-float(run.P[worst]), 'force')} pulls up under {run.combinations[worst].name}; "
                            "what holds the post down is not checked"))  # fmt: skip
    if post.plies > 1:
        joined = post.plies_joined != "none"
        found.append(stated(post.name, "fastening of the plies", "NDS 2018 15.3", "refer",
                            f"{post.plies} plies {'said to be ' + post.plies_joined if joined else 'not joined'}: "
                            "their fastening is not checked"))  # fmt: skip
    return found


def _off_centre(run: PostRun, l_1: float, l_2: float, lengths, pressed: np.ndarray) -> list[Check]:  # type: ignore[no-untyped-def]
    """NDS 2018 15.4.1, one way at a time; an offset that nobody has stated is taken as a sixth of the side."""
    post, section, wood = run.post, run.section, run.wood
    if section.round:
        known = post.eccentricity is not None and post.eccentricity == 0.0
        return [] if known else [
            stated(post.name, "load off centre", "NDS 2018 15.4", "refer", "a round post with a load not shown to be central")
        ]  # fmt: skip
    found = []
    ways = (
        ("the deep way", post.eccentricity, section.d, section.b, section.breadth_alone, l_1, 0),
        ("the thin way", post.eccentricity_weak, section.b, section.d, section.d, l_2, 1),
    )
    for words_, given, depth, breadth, alone, l_u, axis in ways:
        e = abs(given) if given is not None else UNKNOWN_OFFSET * depth
        if e == 0.0:
            continue
        why = (
            "as given" if given is not None else "not given: a sixth of the side is taken (common practice, no source)"
        )
        turned = Section(breadth, depth, alone)
        held = depth <= alone or depth / alone <= 2.0
        bracing = Bracing(held, "depth is at most twice the breadth (NDS 2018 4.4.1.2)" if held else "height", l_u)
        asked = Asked(post.name, f"load off centre {words_}", "NDS 2018 15.4.1", "ratio",
                      notes=(f"offset {show(e, 'length')}: {why}",))  # fmt: skip

        def calculate(
            pad: Pad, which: int | slice, e: float = e, why: str = why, turned: Section = turned,
            bracing: Bracing = bracing, axis: int = axis, depth: float = depth,
        ) -> Outcome:  # fmt: skip
            P = pad.take("P", at(pressed, which), "lbf", note="all that arrives, own weight included")
            l_e = lengths(pad)
            C_D = at(run.C_D, which)
            f_c = pad(cp.compression_stress, P=P, A=section.area(pad))
            F_c_prime, F_cE1, F_cE2, _ = column_values(pad, wood, section, l_e1=l_e[0], l_e2=l_e[1], C_D=C_D)
            _, F_b1_prime = bending_values(pad, wood, turned, bracing, C_D)
            e_1 = pad.take("e_1", e, "in", note=why)
            ratio = pad(
                eccentric_column_one_way, f_c=f_c, F_c_prime=F_c_prime, F_b1_prime=F_b1_prime, e_1=e_1, d_1=depth,
                F_cE1=(F_cE1, F_cE2)[axis],
            )  # fmt: skip
            return Outcome(ratio, 1.0, ratio)

        found.append(govern(asked, run.combinations, calculate))
    return found


def _ends(run: PostRun, around: Around, pressed: np.ndarray) -> list[Check]:
    """End grain at top and foot (NDS 2018 3.10.1), and what is under the foot."""
    post, section, wood = run.post, run.section, run.wood

    def grain(pad: Pad, which: int | slice) -> Outcome:
        return end_grain(pad, wood, section, P=at(pressed, which), C_D=at(run.C_D, which), plate=post.bearing_plate)

    notes = ("over 3/4 of F_c* a metal plate must spread the load; without one 3/4 is the limit here",)
    found = [
        govern(
            Asked(post.name, "end grain at top and foot", "NDS 2018 3.10.1", "stress", notes=notes),
            run.combinations,
            grain,
        )
    ]
    under = around.under(post.on)
    what = f"what {post.name} stands on"
    if isinstance(under, Existing):
        if not under.confirmed_by.strip():
            found.append(stated(post.name, what, "load path", "refer",
                                f"{under.name} ({under.what}) is by others, and nobody is named who answers for it (`confirmed_by`)"))  # fmt: skip
        else:
            found.append(
                stated(
                    post.name,
                    what,
                    "load path",
                    "passes",
                    f"by others, confirmed: {under.confirmed_by}; not checked here",
                )
            )
        if under.material == "wood":
            found.append(_on_wood(run, pressed, under.F_c_perp, under.name))
    elif isinstance(under, Tie):
        found.append(stated(post.name, what, "load path", "refer", f"a post on tie {under.name} is for an engineer"))
    elif isinstance(under, Beam):
        stock = around.stock(under.stock)
        other = None if is_unknown(stock) else wood_of(stock, reference_values(stock), laid=under.laid)
        found.append(_on_wood(run, pressed, None, under.name, other))
    return found


def _on_wood(run: PostRun, pressed: np.ndarray, F_c_perp: float | None, name: str, other: Wood | None = None) -> Check:
    asked = Asked(run.post.name, f"bearing of {name} under the foot", "NDS 2018 3.10.2", "stress")
    if F_c_perp is None and other is None:
        return stated(asked.subject, asked.what, asked.clause, "refer", "the bearing value of that wood is not known")

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        f = pad(br.bearing_stress, R=at(pressed, which), b=run.section.b, l_b=run.section.d)
        F = bearing_prime(pad, other, 1.0) if other is not None else pad.take(
            "F_c_perp_prime", float(F_c_perp or 0.0), "psi", note="as given in the job file, taken as adjusted")  # fmt: skip
        return Outcome(f, F, f / F)

    return govern(asked, run.combinations, calculate)


def _cuts(run: PostRun, pressed: np.ndarray) -> list[Check]:
    """Net area anywhere, against F_c* (NDS 2018 3.6.3); what is cut from one side only also bends the post: refer."""
    found: list[Check] = []
    for cut in run.post.cuts:
        text = words(cut)
        if run.section.round or cut.kind in ("notch", "taper") or cut.depth >= run.section.d:
            found.append(stated(run.post.name, f"net section at {text}", "NDS 2018 3.6.3", "refer",
                                "wood missing on one side puts the load off centre and weakens the post against buckling"))  # fmt: skip
            continue

        def calculate(pad: Pad, which: int | slice, cut=cut) -> Outcome:  # type: ignore[no-untyped-def]
            net = net_section(pad, run.section, cut)
            return end_grain(
                pad, run.wood, run.section, P=at(pressed, which), C_D=at(run.C_D, which), plate=True, A_n=net.A
            )

        found.append(
            govern(
                Asked(run.post.name, f"net section at {text}", "NDS 2018 3.6.3", "stress"), run.combinations, calculate
            )
        )
        found.append(stated(run.post.name, f"buckling with {text}", "NDS 2018 3.6.3", "refer",
                            "whether the cut lies in the part that buckles is not decided here"))  # fmt: skip
    return found
