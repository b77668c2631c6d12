"""Makes the board of these tests importable beside them."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "offers"))
sys.path.insert(0, str(Path(__file__).parent))
