"""What every kind of post has in common: a header, its fields, a body."""

from swapboard.problems import Problem
from swapboard.records.fields import Fields
from swapboard.records.header import Header, Keys, read_header
from swapboard.records.names import name_of, name_problem
from swapboard.records.private_words import email_warning

# What people write in other kinds of posts, and what it is here.
INSTEAD = {
    "name": "Title",
    "author": "Maker",
    "artist": "Maker",
    "by": "Maker",
    "tag": "Themes",
    "tags": "Themes",
    "keywords": "Themes",
    "theme": "Themes",
    "category": "Themes",
    "subject": "Themes",
    "medium": "Media",
    "materials": "Media",
    "image": "Photo",
    "picture": "Photo",
    "photos": "Photo",
    "status": "State",
    "want": "Wants",
    "edition": "Kind",
    "corners": "Cut out at",
    "crop": "Cut out at",
    "description": "Alt",
}


def instead_for(known: tuple[str, ...], more: dict[str, str] | None = None) -> dict[str, str]:
    """Of `INSTEAD` and `more`, what leads to a key that this kind of post has."""
    folds = {key.casefold() for key in known}
    pairs = (INSTEAD | (more or {})).items()
    return {word: key for word, key in pairs if key in known and word not in folds}


def open_post(path: str, text: str, keys: Keys) -> tuple[str, Header, Fields]:
    """A post's name, header and fields; the problems so far are in the fields."""
    header, problems = read_header(path, text, keys)
    if problem := name_problem(path):
        problems.append(problem)
    if "@" in text:
        problems += filter(None, map(_warn_of_email(path), header.fields.values()))
        problems += filter(None, [email_warning(path, header.body_line, "", header.body)])
    return name_of(path), header, Fields(header, problems)


def _warn_of_email(path: str):
    def warning(field) -> Problem | None:
        return email_warning(path, field.line, field.key, field.value)

    return warning
