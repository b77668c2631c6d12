"""One run at a time on a board."""

import subprocess
import sys
import textwrap

import pytest

from swapboard.disk.lock import BoardBusy, board_lock

HOLD = textwrap.dedent(
    """
    import sys, pathlib
    from swapboard.disk.lock import board_lock
    with board_lock(pathlib.Path(sys.argv[1])):
        print("held", flush=True)
        sys.stdin.read()
    """
)


def test_a_second_run_is_told_who_holds_the_board(tmp_path):
    """The second run fails at once and names the process of the first."""
    first = subprocess.Popen(
        [sys.executable, "-c", HOLD, str(tmp_path)],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
    )
    assert first.stdout.readline() == "held\n"
    with pytest.raises(BoardBusy, match=str(first.pid)), board_lock(tmp_path):
        raise AssertionError("two runs at once")
    first.kill()
    first.wait()
    with board_lock(tmp_path):
        pass


def test_the_lock_is_free_again_after_use(tmp_path):
    """Runs one after the other never meet."""
    for _ in range(2):
        with board_lock(tmp_path):
            pass
