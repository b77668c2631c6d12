"""Properties take the time they take."""

from hypothesis import settings

# A slow machine is no failure.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
