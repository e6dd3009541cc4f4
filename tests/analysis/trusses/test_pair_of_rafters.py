"""A frame of two rafters and a tie is the pair of rafters that a roof is made of, by either of the two solvers."""

from __future__ import annotations

import numpy as np
import pytest

from beamcheck.analysis.roofs.roof_frame import Stiff, solve_roof
from beamcheck.analysis.trusses.plan import Stiffness
from beamcheck.analysis.trusses.solved import Sized, solve_frame
from beamcheck.model.frames.frame import Frame
from beamcheck.model.loads import Load
from beamcheck.model.roofs import Rafter, Tie
from beamcheck.model.sticks import Support

ROOF = {"what": "roof", "dead": "120 plf", "snow": "300 plf"}
EA, EI, GA_s, w = 6.6e7, 3.1e8, 3.4e6, 0.8


@pytest.mark.parametrize(("height", "rise"), [("0 ft", 8), ("2 ft", 8), ("4 ft", 8), ("5 ft", 12)])
def test_frame_with_tight_joints_is_the_pair(height: str, rise: int) -> None:
    """Pull in the tie, moments and axial forces of the rafters, how far the feet part: under all combinations."""
    rafter = Rafter(name="R", stock="s", run="12 ft", slope=f"{rise}:12", spacing="24 in", finish="none",
                    top_held="full length", wall=Support(at="0 ft", on="wall"), carries=[Load(**ROOF)],
                    ridge="board", pair=True)  # fmt: skip
    tie = Tie(name="T", stock="s", height=height, finish="none", top_held="full length", carries=())
    pair = solve_roof(rafter, tie, Stiff(EA, EI, GA_s, w), Stiff(EA, EI, GA_s, w))
    low = "tie" if height == "0 ft" else "collar"
    one = Frame.model_validate({
        "name": "f", "kind": "collar tie", "span": "24 ft", "rise": f"{rise} ft", "collar_height": height,
        "finish": "none",
        "members": [{"name": "rafters", "stock": "s", "carries": [ROOF]}, {"name": low, "stock": "s"}],
        "feet": [{"at": "left heel", "on": "wall"}, {"at": "right heel", "on": "wall", "slides": True}],
    })  # fmt: skip
    frame = solve_frame(one, [Sized(stick, 5.5, 7.5, Stiffness(EA, EI, GA_s, w)) for stick in one.sticks], 20000.0)
    tight = [i for i, each in enumerate(frame.combinations) if "tight" in each.name]
    names = [frame.combinations[i].name.partition(" (")[0] for i in tight]
    collar, left = frame.members[low], frame.members["left rafter"]
    for quantity, of_frame, of_pair in (
        ("pull of the tie", collar.N_high[tight].max(axis=1), pair.tie_line.extremes("N")[2]),
        ("moment in the rafter", left.M_high[tight].max(axis=1), pair.rafter_line.extremes("M")[2]),
        ("push in the rafter", -left.N_low[tight].min(axis=1), -pair.rafter_line.extremes("N")[0]),
        ("feet part", frame.sideways("right heel")[tight], pair.spreading),
    ):  # fmt: skip
        for load in ("D", "D + S"):
            mine = np.max(np.abs(of_frame[[i for i, name in enumerate(names) if name.split(",")[0] == load]]))
            before = np.max(np.abs(of_pair[[i for i, each in enumerate(pair.combinations)
                                            if each.name.split(",")[0] == load]]))  # fmt: skip
            assert mine == pytest.approx(before, rel=1e-9), (quantity, load, names)
