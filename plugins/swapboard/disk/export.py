"""`export MAKER`: one person's data in one file, for them to have."""

import io
import zipfile
from pathlib import Path

from swapboard.disk.backup import refuse_place, write_new_private
from swapboard.disk.load import load_board
from swapboard.disk.one_maker import find_maker
from swapboard.disk.private_rows import read_table, split_rows
from swapboard.disk.trouble import problem_of
from swapboard.problems import Problem, errors
from swapboard.records.people import ENDING


def export_maker(board: Path, asked: str, file: Path) -> tuple[tuple[str, ...], list[Problem]]:
    """Write a zip of all that `board` holds of a maker; the paths in it.

    Their posts and offers whole, the pictures of their cards, their own rows of the
    lists of calls and of the tables in private/; nobody else's rows. A picture that
    shows others' cards too is in it, as it shows theirs. The same board gives the same
    bytes.
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
        theirs, _ = split_rows(read_table(texts[path]), one.names)
        data[path] = theirs.text().encode("utf-8")
    data |= {path: theirs.text().encode("utf-8") for path, (theirs, _) in one.private.items()}
    try:
        for path in (*one.photos, *one.shared_photos):
            if (board / path).is_file():
                data[path] = (board / path).read_bytes()
        write_new_private(file, _zipped(data))
    except OSError as error:
        return (), [problem_of(error, str(file))]
    return tuple(sorted(data)), problems


def _zipped(data: dict[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        for name in sorted(data):
            packed.writestr(zipfile.ZipInfo(name), data[name], zipfile.ZIP_DEFLATED)
    return out.getvalue()
