"""The housings of a brace in its legs: bearing in them, shear of the wood behind them."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ....calc.pad import Pad
from ....formulas.brackets import brace as br
from ....formulas.brackets.corbel import seat_shear_length
from ....formulas.wood.bearing import bearing_at_angle
from ....model.brackets.bracket import Braced
from ....values.judgment import judgment
from ...core.result import Check
from ...core.wood.govern import Criterion, duration, govern
from ...core.wood.material import WoodMaterial, bearing_prime, compression_star, shear_prime
from ...core.wood.strength import Outcome
from ..loads import BracketLoads
from .braced_force import Force


def housings(
    name: str, shape: Braced, loads: BracketLoads, wood: WoodMaterial, force: Force, *, depth: float, stated: float
) -> Iterator[Check]:
    """Bearing in the housings of both legs, so deep, and the wood that is stated behind them, in."""
    t, beta = shape.thickness, force.beta
    half = {
        "top leg": 0.5 * shape.brace / math.sin(math.radians(beta)),
        "wall leg": 0.5 * shape.brace / math.cos(math.radians(beta)),
    }
    room = {"top leg": shape.projection - shape.brace_out, "wall leg": shape.height - shape.brace_down}
    k_l, k_v = judgment("shear length over depth of a cut"), judgment("uneven shear")
    for where, part, angle in (("top leg", br.top_tie, beta), ("wall leg", br.sliding_on_wall_leg, 90.0 - beta)):

        def housed(pad: Pad, which: int | slice, part: object = part, angle: float = angle) -> Outcome:
            H = pad(part, N_b=force.on(pad, which), beta_b=beta)  # type: ignore[arg-type]
            f = pad(br.housing_bearing, H_b=H, t=t, d_cut=depth)
            F_star = compression_star(pad, wood, duration(pad, loads.combinations, which))
            F_perp = bearing_prime(pad, wood, 1.0)
            allowed = pad(bearing_at_angle, F_c_star=F_star, F_c_perp_prime=F_perp, theta=angle)
            return Outcome(f, allowed, f / allowed)

        left = room[where] - half[where]
        if left <= 0.0:
            text = f"the housing runs out at the end of the {where}: no wood is left behind it"
            what = f"wood behind the housing in the {where}"
            yield Check.breaks_rule("bracket.behind_housing", name, what, "geometry", text)
            continue
        behind = min(stated, left)  # no more than there is to the end of the leg

        def sheared(pad: Pad, which: int | slice, part: object = part, behind: float = behind) -> Outcome:
            H = pad(part, N_b=force.on(pad, which), beta_b=beta)  # type: ignore[arg-type]
            l_v = pad(seat_shear_length, l=behind, d_cut=depth, k_l=pad.take("k_l", k_l.value, source=k_l.source))
            k = pad.take("k_v", k_v.value, note=k_v.reason, source=k_v.source)
            f = pad(br.housing_shear, H_b=H, t=t, l_v=l_v, k_v=k)
            allowed = shear_prime(pad, wood, duration(pad, loads.combinations, which))
            return Outcome(f, allowed, f / allowed)

        what = f"housing in the {where}"
        criterion = Criterion(name, what, "NDS 2018 3.10.3", "stress", id="bracket.housing")
        yield govern(criterion, loads.combinations, housed)
        what = f"wood behind the housing in the {where}"
        criterion = Criterion(name, what, "NDS 2018 3.4", "stress", id="bracket.behind_housing")
        yield govern(criterion, loads.combinations, sheared)
