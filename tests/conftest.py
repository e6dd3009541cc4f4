"""What holds for every test."""

import gc
import os

# As the command does: threads of a linear algebra library that wait for each other make small systems several
# times slower. It is read when numpy is loaded, and here nothing has loaded it.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from hypothesis import settings

# Speed is measured in benchmarks: no test fails because the machine is busy.
settings.register_profile("no deadline", deadline=None)
settings.load_profile("no deadline")

gc.disable()  # while tests are collected: what is made then stays, and looking through it took a quarter of the time


def pytest_collection_finish() -> None:
    """From here on what tests throw away is looked for, but not in what was collected."""
    gc.freeze()
    gc.set_threshold(10_000, 20, 20)
    gc.enable()
