"""What was found in a letter, and what would change on the board."""

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Attached:
    """A picture as it came: the name that it was given, and its bytes."""

    name: str
    data: bytes


@dataclass(frozen=True, slots=True)
class Letter:
    """One mail or one pasted text. `where` is how problems call it; `sender` the address
    it came from, in lower case, "" where there is none. `texts` are its plain texts,
    `pages` the words of those parts that came as HTML."""

    where: str
    texts: tuple[str, ...]
    pages: tuple[str, ...] = ()
    sender: str = ""
    pictures: tuple[Attached, ...] = ()


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of a form: its text, and its number in the letter's text."""

    text: str
    line: int


@dataclass(frozen=True, slots=True)
class Form:
    """A filled-in form. `kind` is "offer", "sign-up" or "news"; `values` has the lines of
    each key, in lower case; the note's lines are kept as they are."""

    kind: str
    where: str
    line: int
    values: dict[str, tuple[Entry, ...]]

    @property
    def words(self) -> tuple:
        """What it says, wherever it stands: the same for the same form sent twice."""
        return self.kind, tuple(
            (key, tuple(entry.text for entry in entries)) for key, entries in self.values.items()
        )

    def text(self, key: str) -> str:
        """The value of a key that has one, on one line."""
        return " ".join(entry.text for entry in self.values.get(key, ()) if entry.text)

    def line_of(self, key: str) -> int:
        """The line on which a key stands; the form's own where it has none."""
        return self.values[key][0].line if self.values.get(key) else self.line


@dataclass(frozen=True, slots=True)
class NewCard:
    """A card that a picture came of: its name, the header of its post but for Photo."""

    name: str
    fields: tuple[tuple[str, str], ...]
    picture: Attached


@dataclass(frozen=True, slots=True)
class Row:
    """A row for a table in private/: its path, the table's columns, and its cells."""

    path: str
    columns: tuple[str, ...]
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Change:
    """What a letter would change: whole texts of posts by path, cards to make of pictures,
    rows for private tables, pictures whose cards are yet to be found for a maker; and
    each in words."""

    texts: dict[str, str] = field(default_factory=dict)
    cards: tuple[NewCard, ...] = ()
    rows: tuple[Row, ...] = ()
    pictures: tuple[tuple[str, Attached], ...] = ()
    words: tuple[str, ...] = ()


MAIL_TABLE, MAIL_COLUMNS = "private/mail.csv", ("maker", "mail")
