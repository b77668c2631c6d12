"""`python tests/bench [NAME…]`: how well and how fast cards are found, how long builds take,
how good and how fast swaps and deals are. With names (photos, build, matching, cycles,
deals) only those."""

import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
BENCHES = {
    "photos": ["--seeds", "3"],
    "build": [],
    "matching": [],
    "cycles": [],
    "deals": ["--calls", "1000"],
}


def main() -> int:
    """Run each bench in its own process; the first exit code that is not 0."""
    asked = sys.argv[1:] or list(BENCHES)
    if unknown := sorted(set(asked) - set(BENCHES)):
        print(f"no bench named {', '.join(unknown)}; there are {', '.join(BENCHES)}")
        return 2
    for name in asked:
        print(f"== {name}", flush=True)
        code = subprocess.call([sys.executable, str(HERE / f"{name}.py"), *BENCHES[name]])
        if code:
            return code
    return 0


if __name__ == "__main__":
    sys.exit(main())
