"""A truss of thirty members: twelve combinations, joints that give, bars that push only. Printed, not asserted."""

from __future__ import annotations

import time

import numpy as np

from beamcheck.analysis.frames.buckling import acting_frame, critical_factor
from beamcheck.analysis.frames.contact import solve_contact
from beamcheck.analysis.frames.frame import Bar, Frame, Loads, Support
from beamcheck.analysis.trusses.plan import Stiffness
from beamcheck.analysis.trusses.solved import Sized, solve_frame
from beamcheck.model.frames.frame import Frame as JobFrame

PIN = {"release_start": True, "release_end": True}


def truss(panels: int = 7) -> Frame:
    """Parallel chords, uprights, diagonals; the two middle panels are crossed by struts that push only."""
    nodes = [[60.0 * i, 72.0 * j] for j in (0, 1) for i in range(panels + 1)]
    up = panels + 1
    chords = [Bar(i + j, i + j + 1, 8e7, 4e8) for j in (0, up) for i in range(panels)]
    webs = [Bar(i, up + i, 4e7, 1e8, slip_start=1e5, slip_end=1e5, **PIN) for i in range(panels + 1)]
    webs += [Bar(i, up + i + 1, 4e7, 1e8, slip_start=1e5, **PIN) for i in range(panels)]
    crossed = [Bar(i + 1, up + i, 4e7, 1e8, acts="push", **PIN) for i in (2, 3)]
    return Frame(nodes, [*chords, *webs, *crossed], [Support(0, True, True), Support(panels, False, True)])


def test_a_truss_of_thirty_members() -> None:
    dice, frame = np.random.default_rng(1), truss()
    forces = np.zeros((12, frame.n_nodes, 3))
    forces[:, :, 1] = -dice.uniform(0, 2000, (12, frame.n_nodes))
    began = time.process_time()
    frame = truss()
    found = solve_contact(frame, Loads(forces))
    solved = time.process_time()
    N = found.solution.N[:, :, 0]
    factors = [critical_factor(acting_frame(frame, acts), n) for acts, n in zip(found.closed, N, strict=True)]
    ended = time.process_time()
    print(f"\n{len(frame.bars)} bars, 12 combinations: {1000 * (solved - began):.0f} ms of processor time; "
          f"critical load {1000 * (ended - solved) / 12:.0f} ms a combination")  # fmt: skip
    assert len(frame.bars) >= 30 and len(factors) == 12


def test_a_truss_of_thirty_members_of_the_job_file() -> None:
    """Seven panels with chords that run through, all load cases of a roof, feet and joints both ways."""
    points = [
        {"name": f"{row}{i}", "x": f"{60 * i} in", "y": f"{72 * j} in"} for j, row in enumerate("bt") for i in range(8)
    ]
    lines = {"bottom chord": [f"b{i}" for i in range(8)], "top chord": [f"t{i}" for i in range(8)]}
    lines |= {f"post {i}": [f"b{i}", f"t{i}"] for i in range(8)}
    lines |= {f"diagonal {i}": [f"b{i}", f"t{i + 1}"] for i in range(7)}
    lines |= {f"counter {i}": [f"t{i}", f"b{i + 1}"] for i in range(7)}
    roof = [{"what": "roof", "dead": "12 psf", "snow": "30 psf", "wind": "-10 psf"}]
    members = [{"name": name, "stock": "6x8", "through": path, "carries": roof if name == "top chord" else []}
               for name, path in lines.items()]  # fmt: skip
    one = JobFrame.model_validate({
        "name": "truss", "kind": "free form", "spacing": "8 ft", "finish": "none", "points": points,
        "members": members, "feet": [{"at": "b0", "on": "wall"}, {"at": "b7", "on": "wall"}],
    })  # fmt: skip
    sized = [Sized(stick, 5.5, 7.5, Stiffness(6.6e7, 3.1e8, 3.4e6, 0.8)) for stick in one.sticks]
    solve_frame(one, sized, 20000.0)
    began = time.process_time()
    found = solve_frame(one, sized, 20000.0)
    print(f"\n{len(sized)} members in 38 bars, {len(found.combinations)} columns: "
          f"{1000 * (time.process_time() - began):.0f} ms of processor time")  # fmt: skip
    assert len(found.members) == len(sized)
