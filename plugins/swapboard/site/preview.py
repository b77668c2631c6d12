"""`swapboard preview`: build, serve on this computer only, build again on change."""

import os
import threading
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path

from swapboard.disk.board_folder import POST_FOLDERS
from swapboard.disk.resources import theme_folder
from swapboard.disk.serve import server_for
from swapboard.problems import Problem
from swapboard.site.build import build_board

PAUSE = 0.5  # seconds between looks


def preview_board(
    board: Path,
    port: int,
    today: date | None,
    say: Callable[[str], None],
    tell: Callable[[list[Problem]], None],
) -> None:
    """Serve `board` until interrupted. A build that fails leaves the last good site up."""
    seen = _build(board, today, say, tell)
    server = server_for(board / "output", port)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    say(f"http://127.0.0.1:{server.server_port}/ (Ctrl-C to end)")
    try:
        while True:
            time.sleep(PAUSE)
            if state_of(board) != seen:
                seen = _build(board, today, say, tell)
    except KeyboardInterrupt:
        say("Preview ended.")
    finally:
        server.shutdown()
        server.server_close()


def state_of(board: Path) -> dict[str, tuple[int, int]]:
    """Size and time of every file that a build of `board` reads."""
    tops = [board / "board.toml", board / "private", board / "photos", theme_folder()]
    tops += [board / name for name in POST_FOLDERS]
    found = {}
    for top in tops:
        files = [top] if top.is_file() else top.rglob("*")
        for file in files:
            try:
                stat = os.stat(file)
            except OSError:
                continue
            found[str(file)] = (stat.st_size, stat.st_mtime_ns)
    return found


def _build(
    board: Path,
    today: date | None,
    say: Callable[[str], None],
    tell: Callable[[list[Problem]], None],
) -> dict[str, tuple[int, int]]:
    seen = state_of(board)
    built = build_board(board, today=today)
    tell(built.problems)
    say(built.words if built.done else "Not built; the last good site stays up.")
    return seen
