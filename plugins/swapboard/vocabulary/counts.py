"""Counts in the terminal's words and in mails."""


def counted(number: int, one: str, more: str = "") -> str:
    """A number and what is counted, `one` or more of it: "1 card", "0 cards"."""
    return f"{number} {one if number == 1 else more or one + 's'}"
