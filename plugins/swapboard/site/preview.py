"""`swapboard preview`: build, serve on this computer only, build again on change."""

import os
import signal
import threading
import time
from collections.abc import Callable
from contextlib import suppress
from datetime import date
from pathlib import Path

from swapboard.disk.board_folder import POST_FOLDERS
from swapboard.disk.resources import theme_folder
from swapboard.disk.serve import server_for
from swapboard.disk.site_tree import version_named_in
from swapboard.problems import Problem
from swapboard.site.build import build_board

PAUSE = 0.5  # seconds between looks

Say = Callable[[str], None]
Tell = Callable[[list[Problem]], None]


def preview_board(board: Path, port: int, today: date | None, say: Say, tell: Tell) -> bool:
    """Serve `board` until interrupted, or until the process is asked to end. A build
    that fails leaves the last good site up.

    False where there is nothing to serve: the folder is no board, or no port is
    free. Call it from the main thread.
    """
    if threading.current_thread() is threading.main_thread():
        signal.signal(signal.SIGTERM, signal.default_int_handler)
    seen = _build(board, today, say, tell)
    if not os.path.isfile(board / "board.toml"):
        return False
    try:
        server = server_for(board / "output", port)
    except (OSError, OverflowError) as error:
        tell([Problem("--port", 0, "", "must be a port that is free", str(port),
                      f"name another one ({getattr(error, 'strerror', None) or error})")])
        return False
    threading.Thread(target=server.serve_forever, args=(0.1,), daemon=True).start()
    try:  # whoever has read the address may ask for the end at once
        if version_named_in(board / "output") is None:
            say("There is no site yet; it will be shown here when the board can be built.")
        say(f"http://127.0.0.1:{server.server_port}/ (Ctrl-C to end)")
        while True:
            time.sleep(PAUSE)
            if state_of(board) != seen:
                seen = _build(board, today, say, tell)
    except KeyboardInterrupt:
        say("Preview ended.")
    finally:
        server.shutdown()
        server.server_close()
    return True


def state_of(board: Path) -> dict[str, tuple[int, int]]:
    """Size and time of every file that a build of `board` reads."""
    tops = [board / "board.toml", board / "private", board / "photos", theme_folder()]
    tops += [board / name for name in POST_FOLDERS]
    found = {}
    waiting = [str(top) for top in tops]
    while waiting:
        place = waiting.pop()
        with suppress(OSError):
            if not os.path.isdir(place):
                stat = os.stat(place)
                found[place] = (stat.st_size, stat.st_mtime_ns)
            elif not os.path.islink(place) or Path(place) in tops:
                waiting += [entry.path for entry in os.scandir(place)]
    return found


def _build(board: Path, today: date | None, say: Say, tell: Tell) -> dict[str, tuple[int, int]]:
    seen = state_of(board)
    built = build_board(board, today=today)
    tell(built.problems)
    say(built.words if built.done else "Not built; the last good site stays up.")
    return seen
