"""Killed at any moment, a build leaves one whole site, and the next build heals."""

import random
import subprocess
import sys
import time

from boards import DEMO_DAY, files_of
from swapboard.disk import site_tree
from swapboard.site.build import build_board

BUILD = """
import sys
from datetime import date
from pathlib import Path
from swapboard.site.build import build_board
print("ready", flush=True)
first = int(sys.argv[2])
for turn in range(first, first + 1000):
    board = Path(sys.argv[1])
    (board / "pages" / "turn.md").write_text(f"Title: Turn\\n\\n{turn}\\n")
    built = build_board(board, today=date(2026, 10, 10), workers=1)
    assert built.done, built.problems
"""
MOMENTS = 50


def whole_version(output):
    """The version of the site, which every byte of it bears out."""
    named = site_tree.version_named_in(output)
    assert named is not None, "no whole site is live"
    assert named == site_tree.version_found_in(output)
    return named


def test_fifty_random_kills_never_leave_half_a_site(demo_board):
    """SIGKILL at 50 random moments of builds that each change the site."""
    rng = random.Random(50)
    assert build_board(demo_board, today=DEMO_DAY, workers=1).done
    (demo_board / "pages" / "turn.md").write_text("Title: Turn\n\nfirst\n")
    assert build_board(demo_board, today=DEMO_DAY, workers=1).done
    (demo_board / "pages" / "turn.md").write_text("Title: Turn\n\nsecond\n")
    started = time.monotonic()
    assert build_board(demo_board, today=DEMO_DAY, workers=1).done
    long_enough = 1.5 * (time.monotonic() - started)  # so that kills fall within and after swaps
    versions = set()
    for moment in range(MOMENTS):
        run = subprocess.Popen(
            [sys.executable, "-c", BUILD, str(demo_board), str(moment)], stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL, text=True,
        )
        assert run.stdout.readline() == "ready\n"
        time.sleep(rng.uniform(0, long_enough))
        run.kill()
        run.wait()
        versions.add(whole_version(demo_board / "output"))
    assert len(versions) > 2, "the builds were killed too early to change anything"
    (demo_board / "pages" / "turn.md").unlink()
    assert build_board(demo_board, today=DEMO_DAY, workers=1).done
    whole_version(demo_board / "output")


def test_the_run_after_a_kill_ends_like_a_clean_build(demo_board, demo_site):
    """Healing is no half measure: the bytes are those of a clean build."""
    run = subprocess.Popen(
        [sys.executable, "-c", BUILD, str(demo_board), "0"], stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL, text=True,
    )
    assert run.stdout.readline() == "ready\n"
    time.sleep(0.5)
    run.kill()
    run.wait()
    (demo_board / "pages" / "turn.md").unlink(missing_ok=True)
    assert build_board(demo_board, today=DEMO_DAY, workers=1).done
    assert files_of(demo_board / "output") == files_of(demo_site)
