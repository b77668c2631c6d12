"""`python tests/bench`: how well and how fast cards are found, how long builds take."""

import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent


def main() -> int:
    """Run each bench in its own process; the first exit code that is not 0."""
    for name, arguments in (("photos", ["--seeds", "3"]), ("build", [])):
        print(f"== {name}", flush=True)
        code = subprocess.call([sys.executable, str(HERE / f"{name}.py"), *arguments])
        if code:
            return code
    return 0


if __name__ == "__main__":
    sys.exit(main())
