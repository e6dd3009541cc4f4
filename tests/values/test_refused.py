"""What a formula refuses is said in words of the trade."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from beamcheck.errors import OutOfRange, UnknownName
from beamcheck.formulas.connections.withdrawal import withdrawal_lag
from beamcheck.formulas.wood.bending import beam_stability, bending_stress
from beamcheck.formulas.wood.combined import tension_stress
from beamcheck.values.refused import in_trade_words


def test_symbols_are_said_by_what_they_stand_for() -> None:
    with pytest.raises(OutOfRange) as caught:
        withdrawal_lag(G=0.5, D=0.2)
    assert in_trade_words(caught.value) == "diameter must be 0.25 to 1.25 in, given 0.2 in (NDS 2018 12.2.1)"
    with pytest.raises(OutOfRange) as caught:
        beam_stability(F_bE=-1.0, F_b_star=1000.0)
    said = in_trade_words(caught.value)
    assert "_" not in said and "given -1 psi" in said


def test_other_errors_keep_their_words() -> None:
    error = UnknownName("species", "Oakk", ["Oak"])
    assert in_trade_words(error) == str(error)


@pytest.mark.parametrize(("refused", "unit"), [
    (lambda: tension_stress(T=-2.0, A_n=1.0), "-2 lb"), (lambda: bending_stress(M=-2.0, S=1.0), "-2 lb-in"),
])  # fmt: skip
def test_a_unit_is_that_of_the_trade(refused: Callable[[], object], unit: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        refused()
    assert f"given {unit} " in f"{in_trade_words(caught.value)} "
