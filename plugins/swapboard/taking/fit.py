"""What other people's writing must not hold before it can stand in a post."""

import re
from dataclasses import dataclass, field

from swapboard.problems import WARNING, Problem
from swapboard.records.names import Names
from swapboard.records.private_words import email_in, private_in
from swapboard.records.types import Board
from swapboard.taking.types import Form, Letter
from swapboard.vocabulary import tidy

LONGEST_NAME, LONGEST_LINE, LONGEST_NOTE = 100, 200, 5_000
# A tag, a comment or an address that a browser would run.
_MARKUP = re.compile(r"<\s*[a-z/!?]|(?:javascript|vbscript)\s*:|data\s*:\s*text", re.IGNORECASE)
_HIDDEN = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\u2028\u2029\u202a-\u202e\u2066-\u2069]"
)
_PATH = re.compile(r"[/\\]|^\.|^[a-z]:", re.IGNORECASE)


@dataclass(slots=True)
class Checked:
    """A form being compared with the board; what is wrong gathers in `problems`."""

    form: Form
    problems: list[Problem] = field(default_factory=list)

    def bad(self, key: str, must: str, got: str | None, fix: str, line: int = 0) -> None:
        """Report what is wrong with a key of the form."""
        line = line or self.form.line_of(key.lower())
        self.problems.append(Problem(self.form.where, line, key, must, got, fix))

    def warn(self, key: str, must: str, got: str | None, fix: str) -> None:
        """Report what the keeper should know before saying yes."""
        line = self.form.line_of(key.lower())
        self.problems.append(Problem(self.form.where, line, key, must, got, fix, WARNING))

    @property
    def is_good(self) -> bool:
        """Whether nothing is wrong so far, warnings not counted."""
        return not any(problem.severity != WARNING for problem in self.problems)

    def one_line(self, key: str, most: int = LONGEST_LINE) -> str:
        """The value of a key in plain words; "" where it is missing or cannot be used."""
        text = tidy(self.form.text(key.lower()))
        return text if self.is_plain(key, text, most) else ""

    def is_plain(self, key: str, text: str, most: int, line: int = 0) -> bool:
        """Whether a text is short and holds no markup, hidden character or mail address."""
        if found := _HIDDEN.search(text):
            self.bad(key, "must hold no hidden control characters", f"U+{ord(found[0]):04X}",
                     "ask for it anew, as plain text.", line)
        elif _MARKUP.search(text):
            self.bad(key, "must be plain words, without HTML or script", text,
                     "take the markup out.", line)
        elif len(text) > most:
            self.bad(key, f"must be at most {most} characters", text, "shorten it.", line)
        elif email_in(text):
            self.bad(key, "must hold no e-mail address", None,
                     "take it out: it would stand on a public page.", line)
        else:
            return True
        return False

    def is_name(self, key: str, text: str, line: int = 0) -> bool:
        """Whether a text is plain and no path."""
        if not self.is_plain(key, text, LONGEST_NAME, line):
            return False
        if _PATH.search(text):
            self.bad(key, "must be a name, not a path", text, "write the name alone.", line)
            return False
        if text and not text[0].isalnum():
            # A sign in front makes a formula of it where a table is opened.
            self.bad(key, "must begin with a letter or a digit", text, "write it anew.", line)
            return False
        return True

    def name(self, key: str) -> str:
        """The value of a key that has to be there and be a name."""
        text = tidy(self.form.text(key.lower()))
        if not text:
            self.bad(key, "must be filled in", None, f"add a line {key}: and the name.")
            return ""
        return text if self.is_name(key, text) else ""

    def note(self) -> str:
        """The note as it was written, without empty lines around it."""
        entries = self.form.values.get("note", ())
        text = "\n".join(entry.text for entry in entries).strip("\n")
        flat = text.replace("\n", " ")
        if not self.is_plain("Note", flat, LONGEST_NOTE):
            return ""
        if found := private_in(text):
            fix = "take it out: it would stand on a public page."
            self.bad("Note", f"must not hold {found}", None, fix)
        return text

    def is_of_board(self, name: str) -> bool:
        """Whether the form is for the board of this name."""
        said = tidy(self.form.text("board"))
        whole = tidy(name)
        # A form gives a long name up to the length of a line.
        if said.casefold() in (whole.casefold(), whole[:LONGEST_LINE].strip().casefold()):
            return True
        self.bad("Board", f"must be {name}, the name of this board", said or None,
                 "take it with --board, or ask whether it was meant for another board.")
        return False

    def compare_sender(self, letter: Letter, maker: str, mails: dict[str, set[str]]) -> None:
        """Warn where a letter in a maker's name comes from an address that is not theirs."""
        known = mails.get(maker)
        if letter.sender and known and letter.sender not in known:
            fix = f"make sure that it is {maker} before you say yes."
            self.warn("From", f"comes from another address than is known of {maker}",
                      letter.sender, fix)


def find_maker(board: Board, text: str) -> str | None:
    """The maker whose file's name, or public name, a text is; else None."""
    if found := Names(board.makers).find(text):
        return found
    titles: dict[str, list[str]] = {}
    for name, maker in board.makers.items():
        titles.setdefault(maker.title, []).append(name)
    found = titles.get(Names(titles).find(text) or "", [])
    return found[0] if len(found) == 1 else None
