"""`export MAKER`: one person's data in one file, for them to have."""

import csv
import io
import zipfile
from pathlib import Path

from swapboard.disk.backup import refuse_place, write_new_private
from swapboard.disk.load import Loaded, load_board
from swapboard.disk.one_maker import OneMaker, find_maker
from swapboard.disk.private_tables import split_rows, table_of
from swapboard.disk.trouble import problem_of
from swapboard.problems import WARNING, Problem, errors
from swapboard.records.people import ENDING


def export_maker(board: Path, asked: str, file: Path) -> tuple[tuple[str, ...], list[Problem]]:
    """Write a zip of all that `board` holds of a maker; the paths in it.

    Their posts and offers whole, the pictures of their cards, their own rows of the
    lists of calls and of the tables in private/, what they gave and got in opened
    deals; nobody else's rows. A picture that shows others' cards too is in it, as it
    shows theirs. What else names them is told, and not in it. The same board gives the
    same bytes.
    """
    if problem := refuse_place(board, file):
        return (), [problem]
    loaded = load_board(board)
    one, problems = find_maker(loaded, asked)
    if one is None or errors(problems):
        return (), problems
    texts = loaded.texts.texts
    posts = [f"makers/{one.name}.md", *(f"cards/{n}.md" for n in one.cards),
             *(f"offers/{n}.md" for n in one.offers), *(f"calls/{n}.md" for n in one.hosts)]
    data = {path: texts[path].encode("utf-8") for path in posts if path in texts}
    for call in one.lists:
        path = f"calls/{call}{ENDING}"
        theirs, _ = split_rows(table_of(texts[path]), one.names)
        data[path] = theirs.text().encode("utf-8")
    data |= _dealt(loaded, one)
    data |= {path: theirs.text().encode("utf-8") for path, (theirs, _) in one.private.items()}
    try:
        for path in (*one.photos, *one.shared_photos):
            if (board / path).is_file():
                data[path] = (board / path).read_bytes()
        write_new_private(file, _zipped(data))
    except OSError as error:
        return (), [problem_of(error, str(file))]
    return tuple(sorted(data)), [*problems, *(_untold(path) for path in one.mentions)]


def _dealt(loaded: Loaded, one: OneMaker) -> dict[str, bytes]:
    """Cards that they gave or got in each opened deal, as a table beside its call."""
    found = {}
    for name, call in loaded.board.calls.items():
        record = call.deal
        rows = [card for card in record.cards if one.name in (card[0], card[2])] if record else []
        if rows and record.opened:
            out = io.StringIO()
            csv.writer(out, lineterminator="\n").writerows([("giver", "card", "taker"), *rows])
            found[f"calls/{name}.deal.csv"] = out.getvalue().encode("utf-8")
    return found


def _untold(path: str) -> Problem:
    must = "may name them, and is not in the file"
    fix = "look into it yourself; it can hold what is others' too."
    return Problem(path, 0, "", must, None, fix, WARNING)


def _zipped(data: dict[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        for name in sorted(data):
            packed.writestr(zipfile.ZipInfo(name), data[name], zipfile.ZIP_DEFLATED)
    return out.getvalue()
