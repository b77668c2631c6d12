"""`take`: letters → what they would change on the board, and, after a yes, the change."""

import os
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from swapboard.disk import leaks
from swapboard.disk.board_folder import read_texts
from swapboard.disk.ledger import as_bytes
from swapboard.disk.load import Loaded, load_board
from swapboard.disk.lock import BoardBusy, board_lock
from swapboard.disk.private_tables import read_mails, read_text, with_rows
from swapboard.disk.taken_letter import Taking
from swapboard.disk.together import write_together
from swapboard.disk.trouble import problem_of
from swapboard.problems import WARNING, Problem, errors
from swapboard.taking.letters import LARGEST_BOX, read_letters
from swapboard.taking.types import MAIL_TABLE, Row


@dataclass(frozen=True, slots=True)
class Taken:
    """What would be written: bytes by path, which of them are new, and each in words.
    `loaded` is the board that it was compared with; nothing is to be written while
    `problems` has an error."""

    loaded: Loaded
    files: dict[str, bytes] = field(default_factory=dict)
    new: frozenset[str] = frozenset()
    words: tuple[str, ...] = ()
    problems: tuple[Problem, ...] = ()


def read_source(path: Path) -> tuple[bytes, list[Problem]]:
    """A file's bytes, at most one more than is ever taken."""
    try:
        if not path.is_file():
            fix = "name a file that is there, or - for what is pasted."
            return b"", [Problem(str(path), 0, "", "must be a file that is there", None, fix)]
        with path.open("rb") as opened:
            return opened.read(LARGEST_BOX + 1), []
    except OSError as error:
        return b"", [problem_of(error, str(path))]


def plan_taking(
    board: Path, sources: Sequence[tuple[str, bytes]], today: date | None = None
) -> Taken:
    """What the files would change, each given as its name and its bytes; nothing is
    written. An error in one of them is an error of all."""
    loaded = load_board(board, today)
    if errors(loaded.problems):
        return Taken(loaded, problems=tuple(loaded.problems))
    mails, problems = read_mails(board)
    taking = Taking(loaded, mails)
    letters = []
    for where, data in sources:
        found, wrong = read_letters(data, where)
        letters += found
        problems += wrong
    for letter in letters:
        taking.take(letter)
    problems += _in_vain(taking)
    problems += taking.problems
    if errors(problems):
        return Taken(loaded, problems=tuple(problems))
    files = {path: as_bytes(board, path, text) for path, text in taking.changed.items()}
    files |= taking.photos
    problems += _add_tables(loaded, taking, files)
    new = frozenset(path for path in taking.created if path in files)
    return Taken(loaded, files, new, tuple(taking.words), tuple(problems))


def write_taken(taken: Taken) -> list[Problem]:
    """Write all of it, or nothing: so too if the board has changed since it was read."""
    board = taken.loaded.folder
    try:
        with board_lock(board / ".swapboard"):
            if read_texts(board)[0] != taken.loaded.texts:
                must, fix = "must not change while you are asked", "run this again."
                return [Problem("board.toml", 0, "", must, None, fix)]
            return write_together(board, taken.files, set(taken.new))
    except BoardBusy as busy:
        return [busy.problem]
    except OSError as error:
        return [problem_of(error, str(board))]


def _in_vain(taking: Taking) -> list[Problem]:
    """Letters without a form are named; they are errors where nothing else was found."""
    severity = {} if not taking.found else {"severity": WARNING}
    fix = (
        "a form begins with a line like Swap offer, form 1; pictures without one are taken "
        "from an address that stands in private/mail.csv."
    )
    return [Problem(where, 0, "", "holds nothing to take: no form", None, fix, **severity)
            for where in taking.in_vain]  # fmt: skip


def _add_tables(loaded: Loaded, taking: Taking, files: dict[str, bytes]) -> list[Problem]:
    """The private tables with their new rows; an address that stands in a post already
    is not kept, since it would stop every build."""
    problems: list[Problem] = []
    by_path: dict[str, list[Row]] = {}
    for row in taking.rows:
        path = _shown_in(taking, row.cells[1]) if row.path == MAIL_TABLE else None
        if path:
            fix = "take it out of the post; then keep it in private/mail.csv yourself."
            must = "stands in a post that everybody can read, and is not kept"
            problems.append(Problem(path, 0, "", must, row.cells[1], fix, WARNING))
        else:
            by_path.setdefault(row.path, []).append(row)
    for path, rows in by_path.items():
        text, wrong = read_text(loaded.folder, path)
        problems += wrong
        if not wrong:
            files[path] = with_rows(text or "", dict.fromkeys(rows)).encode("utf-8")
            if not os.path.lexists(loaded.folder / path):
                taking.created.add(path)
    return problems


def _shown_in(taking: Taking, address: str) -> str | None:
    field = leaks.PrivateField("e-mail", tuple(leaks.words_of(address)), MAIL_TABLE, 0)
    scan = leaks.LeakScan([field])
    found = (path for path, text in sorted(taking.texts.items()) if scan.found_in(text))
    return next(found, None)
