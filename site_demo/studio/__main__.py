"""`python -m studio [FILE…]`, from the folder that holds it: draws the photographs again.

With names (`night-heron.jpg`) only those; `first-card.jpg`, the starter board's, only by its name.
truth.json is written each time.
"""

import sys
from pathlib import Path

if __package__ in (None, ""):
    sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from studio.files import write_photo, write_truth
from studio.scenes import SCENES, STARTER

BOARD = Path(__file__).resolve().parents[1]


def main(names: list[str]) -> int:
    """Draw what was asked for; 1 where a name is not that of a photograph."""
    unknown = set(names) - {scene.file for scene in (*SCENES, STARTER)}
    if unknown:
        print(f"No such photograph: {', '.join(sorted(unknown))}", file=sys.stderr)
        return 1
    (BOARD / "photos").mkdir(exist_ok=True)
    for scene in SCENES:
        if not names or scene.file in names:
            print(f"{scene.file}: {write_photo(scene, BOARD / 'photos') / 1000:.0f} kB", flush=True)
    if STARTER.file in names:
        write_photo(STARTER, BOARD.parent / "content" / "photos")
    write_truth(BOARD / "truth.json")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
