"""A board of one's own, for tests of the first hour: commands run as a keeper runs them."""

import os
import subprocess
import sys
from pathlib import Path

REPO = Path(__file__).resolve().parents[2]
DAY = "2026-10-01"


def swapboard(*words: str, folder: Path, zone: str = "Europe/Vienna"):
    """Run the command in `folder` with nobody at the terminal."""
    return subprocess.run(
        [sys.executable, "-c", "from swapboard.cli import main; main()", *map(str, words)],
        cwd=folder, stdin=subprocess.DEVNULL, capture_output=True, text=True,
        env={**os.environ, "PYTHONPATH": str(REPO / "plugins"), "TZ": zone},
    )


def done(*words: str, folder: Path) -> str:
    """What the command says, which must be that all is well."""
    ran = swapboard(*words, folder=folder)
    assert ran.returncode == 0, ran.stdout + ran.stderr
    return ran.stdout
