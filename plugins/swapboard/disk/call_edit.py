"""Changing a call's files by command: its list of people, its dated lines, its keys."""

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from swapboard.disk.contain import contained, write_whole
from swapboard.disk.load import Loaded, load_board
from swapboard.problems import Problem, did_you_mean, errors
from swapboard.records.board import read_board
from swapboard.records.names import Names
from swapboard.records.people import ENDING, write_people
from swapboard.records.types import Call, Person

_KEY = re.compile(r"([^\s:#>*\-][^:]*?)[ \t]*:")


@dataclass(frozen=True, slots=True)
class OnDisk:
    """A board and one of its calls, which has no error; `problems` are the warnings."""

    loaded: Loaded
    call: Call
    problems: tuple[Problem, ...]


class CallRefused(Exception):
    """What stands in the way of a command; `problems` say what, and how to mend it."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = list(problems)
        super().__init__("; ".join(map(str, self.problems)))


def open_call(
    board: Path, name: str, today: date | None = None, whole: bool = True
) -> OnDisk:
    """The call `name` of a board; raises `CallRefused` where it has an error.

    A deal needs the `whole` board without errors, since makers and offers say who is
    kept apart and who has met; a parcel can be noted while some card is in disorder.
    """
    loaded = load_board(board, today)
    problems = list(loaded.problems)
    known = Names(loaded.board.calls)
    call = loaded.board.calls.get(known.find(name) or "")
    left_out = any(out.path == f"calls/{name}.md" for out in loaded.board.left_out)
    if call is None and not left_out and (board / "board.toml").is_file():
        names = sorted(loaded.board.calls)
        fix = did_you_mean(name, names) or "name a file of calls/ without its ending."
        problems.append(Problem("calls", 0, "", "must be a call of this board", name, fix))
    if call is None or whole and errors(problems):
        raise CallRefused(problems)
    return OnDisk(loaded, call, tuple(problems))


def person_of(on_disk: OnDisk, who: str) -> Person:
    """The row of the list that `who` means; raises `CallRefused` where there is none."""
    call = on_disk.call
    rows = {person.maker: person for person in call.people}
    known, makers = Names(rows), Names(on_disk.loaded.board.makers)
    found = known.find(who) or known.find(makers.find(who) or "")
    if found is None:
        must = f"must be somebody on the list of {call.name}"
        fix = known.suggest(who) or f"add them first: swapboard join {call.name} {who!r}."
        raise CallRefused([Problem(people_path(call), 0, "maker", must, who, fix)])
    return rows[found]


def people_path(call: Call) -> str:
    """The call's list of people, by its path in the board."""
    return call.path.removesuffix(".md") + ENDING


def with_person(call: Call, changed: Person) -> tuple[Person, ...]:
    """The call's people with one row changed, or added at the end."""
    if all(person.maker != changed.maker for person in call.people):
        return (*call.people, changed)
    return tuple(changed if p.maker == changed.maker else p for p in call.people)


def save(on_disk: OnDisk, texts: dict[str, str]) -> list[Problem]:
    """Write files of the board, where no new error comes of it; the new warnings.

    Raises `CallRefused` for errors, and then nothing is written.
    """
    loaded = on_disk.loaded
    after = read_board(
        {**loaded.texts.texts, **texts}, loaded.texts.photos, today=loaded.today
    )[2]
    new = [problem for problem in after if problem not in loaded.problems]
    if errors(new):
        raise CallRefused(new)
    for path, text in texts.items():
        file = loaded.folder / path
        if not contained(loaded.folder, file):
            must = "must lie inside the board's folder"
            fix = "put the file itself there in place of the link."
            raise CallRefused([Problem(path, 0, "", must, "a link", fix)])
        write_whole(file, text.encode("utf-8"))
    return new


def save_people(on_disk: OnDisk, people: Iterable[Person]) -> list[Problem]:
    """Write the call's list of people; see `save`."""
    return save(on_disk, {people_path(on_disk.call): write_people(people)})


def with_line(text: str, day: date, what: str) -> str:
    """A post's text with a dated line at the end of its header."""
    lines = text.split("\n")
    end = next((at for at, line in enumerate(lines) if not line.strip()), len(lines))
    return "\n".join([*lines[:end], f"{day.isoformat()}: {what}", *lines[end:]])


def with_keys(text: str, values: dict[str, str]) -> str:
    """A post's text with keys of its header set: changed where they stand, else added."""
    lines = text.split("\n")
    end = next((at for at, line in enumerate(lines) if not line.strip()), len(lines))
    left, header, skipping = dict(values), [], False
    for line in lines[:end]:
        if skipping and line.startswith(("    ", "\t")):
            continue
        found = _KEY.match(line)
        key = next((k for k in left if found and k.casefold() == found[1].casefold()), None)
        skipping = key is not None
        header.append(f"{key}: {left.pop(key)}" if key else line)
    first_dated = next((at for at, line in enumerate(header) if line[:1].isdigit()), len(header))
    header[first_dated:first_dated] = [f"{key}: {value}" for key, value in left.items()]
    return "\n".join([*header, *lines[end:]])


def text_of(on_disk: OnDisk) -> str:
    """The call's post as it stands, its line ends made alike."""
    text = on_disk.loaded.texts.texts[on_disk.call.path]
    return text.replace("\r\n", "\n").replace("\r", "\n")


def marked(person: Person, **days: date | None) -> Person:
    """A row with some of its days set."""
    return replace(person, **days)
