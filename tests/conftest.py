"""What holds for every test."""

from hypothesis import settings

# Speed is measured in benchmarks: no test fails because the machine is busy.
settings.register_profile("no deadline", deadline=None)
settings.load_profile("no deadline")
