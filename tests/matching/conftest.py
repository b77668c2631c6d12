"""Makes the invented boards importable beside the tests that use them."""

import sys
from pathlib import Path

from hypothesis import settings

sys.path.insert(0, str(Path(__file__).parent))

# A slow machine is no failure.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
