"""Settings of the property tests here."""

from hypothesis import settings

# a busy machine is not a failure
settings.register_profile("no_deadline", deadline=None)
settings.load_profile("no_deadline")
