"""The dates that calls were last announced with, so that a moved one is not moved in silence.

A calendar takes a new date only where the call's `Revision` is higher than before.
"""

import json
from pathlib import Path
from typing import Any

from swapboard.disk.contain import write_whole
from swapboard.disk.private_file import read_private, write_private
from swapboard.problems import WARNING, Problem
from swapboard.records.types import Board, Call

KEPT = ".swapboard/announced.json"
# Both of the others are made by a build, and may be thrown away together.
OUTLASTS = "private/announced.json"
IN_SITE = "data/calls.json"
_KEYS = (("Date", "date"), ("Sign up by", "sign_up_by"), ("Arrive by", "arrive_by"),
         ("Mail out by", "mail_out_by"))  # fmt: skip
_LARGEST = 1024 * 1024

Dates = dict[str, dict[str, Any]]


def dates_of(board: Board) -> Dates:
    """Each call's dates by key, and its revision."""
    return {name: _of(call) for name, call in sorted(board.calls.items())}


def as_text(dates: Dates) -> str:
    """Dates as the text of a JSON file."""
    return json.dumps({"version": 1, "calls": dates}, ensure_ascii=False, indent=1) + "\n"


def announced(board: Path) -> Dates:
    """What the last build announced; where its note was thrown away, what stands in the
    site that was built, or in private/. Nothing where none can be read."""
    for file in (board / KEPT, board / "output" / IN_SITE, board / OUTLASTS):
        try:
            with file.open("rb") as opened:
                data = json.loads(opened.read(_LARGEST))
            calls = data["calls"]
            if all(isinstance(one["revision"], int) and isinstance(one["days"], dict)
                   for one in calls.values()):  # fmt: skip
                return calls
        except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
            continue
    return {}


def moved_dates(folder: Path, board: Board) -> list[Problem]:
    """A warning for each call whose dates moved since it was announced, and its
    `Revision` did not rise."""
    return [
        problem
        for name, before in announced(folder).items()
        if name in board.calls and (problem := _moved(board.calls[name], before))
    ]


def note_announced(folder: Path, board: Board, before: Dates) -> None:
    """Keep what is announced now; `before` is what `announced` gave before this build.

    Dates that moved without a higher `Revision` stay as they were announced, so that
    they are asked for until it rises.
    """
    now = {
        name: before[name] if name in before and _moved(board.calls[name], before[name]) else dates
        for name, dates in dates_of(board).items()
    }
    # A call that is set aside for an error comes back.
    text = as_text({**before, **now})
    write_whole(folder / KEPT, text.encode("utf-8"))
    if now and text != read_private(folder, OUTLASTS):
        write_private(folder, OUTLASTS, text)


def _of(call: Call) -> dict[str, Any]:
    days = {key: getattr(call, field) for key, field in _KEYS}
    return {
        "revision": call.revision,
        "days": {key: day.isoformat() for key, day in days.items() if day},
    }


def _moved(call: Call, before: dict[str, Any]) -> Problem | None:
    now, then = _of(call)["days"], before["days"]
    keys = [key for key, _ in _KEYS if now.get(key) != then.get(key)]
    if not keys or call.revision > before["revision"]:
        return None
    key = keys[0]
    moved = f"{key} was {then.get(key, 'not said')} when it was announced"
    must = f"must be higher than {before['revision']}, since {moved}"
    fix = (
        f"write Revision: {before['revision'] + 1}, so that calendars take the new date; "
        f"swapboard extend {call.name} does both at once."
    )
    line = call.lines.get("revision") or call.lines.get(key.lower(), 0)
    return Problem(call.path, line, "Revision", must, str(call.revision), fix, WARNING)
