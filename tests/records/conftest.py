"""Makes the sample board importable beside the tests that use it."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
