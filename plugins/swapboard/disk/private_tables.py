"""Tables in private/ that the commands keep: who writes from which address."""

import csv
import io
from collections.abc import Iterable
from pathlib import Path

from swapboard.disk.contain import contained
from swapboard.problems import Problem
from swapboard.taking.types import MAIL_TABLE, Row

LARGEST = 4 * 1024 * 1024


def read_mails(board: Path) -> tuple[dict[str, set[str]], list[Problem]]:
    """The addresses in private/mail.csv by maker, in lower case.

    The table has the columns `maker` (a name of makers/) and `mail`; others are the
    keeper's own. A maker may have several rows.
    """
    text, problems = read_table(board, MAIL_TABLE)
    found: dict[str, set[str]] = {}
    if not text.strip():
        return found, problems
    rows = csv.DictReader(io.StringIO(text, newline=""))
    columns = [str(name).strip().casefold() for name in rows.fieldnames or ()]
    if not {"maker", "mail"} <= set(columns):
        must, fix = "must have the columns maker and mail", "make its first line maker,mail."
        return {}, [*problems, Problem(MAIL_TABLE, 1, "", must, ",".join(columns), fix)]
    rows.fieldnames = columns
    for row in rows:
        maker, mail = (str(row.get(key) or "").strip() for key in ("maker", "mail"))
        if maker and "@" in mail:
            found.setdefault(maker, set()).add(mail.lower())
    return found, problems


def read_table(board: Path, path: str) -> tuple[str, list[Problem]]:
    """A private table's text, "" where it is not there yet."""
    file = board / path
    if not file.exists() and not file.is_symlink():
        return "", []
    if not contained(board, file) or not file.is_file():
        must = "must be a file inside the board's folder"
        return "", [Problem(path, 0, "", must, None, "put the file itself there.")]
    data = file.read_bytes()[: LARGEST + 1]
    try:
        if len(data) > LARGEST:
            raise ValueError
        return data.decode("utf-8"), []
    except ValueError:
        must = "must be a table in UTF-8 of at most 4 MB"
        return "", [Problem(path, 0, "", must, None, "save it again as CSV in UTF-8.")]


def with_rows(text: str, rows: Iterable[Row]) -> str:
    """A table's text with rows added below, by the names of its own columns; a column
    that it lacks is an error of the caller's, and its cell is put last."""
    rows = list(rows)
    ending = "\r\n" if "\r\n" in text else "\n"
    if not text.strip("\ufeff \r\n"):
        text = ",".join(rows[0].columns) + ending
    heading = next(csv.reader([text.removeprefix("\ufeff").splitlines()[0]]))
    columns = [cell.strip().casefold() for cell in heading]
    out = io.StringIO()
    writer = csv.writer(out, lineterminator=ending)
    for row in rows:
        cells = dict(zip(row.columns, row.cells, strict=True))
        line = [cells.pop(column, "") for column in columns]
        writer.writerow([*line, *cells.values()])
    return text + ("" if text.endswith("\n") else ending) + out.getvalue()
