"""What a command needs to know: said by an option, else asked, else a default."""

from collections.abc import Callable
from dataclasses import dataclass

from swapboard.problems import Problem

# Asks a question with a default for a bare Enter, after a complaint about the last
# answer ("" at first), and gives what was typed.
Ask = Callable[[str, str, str], str]

# A text → the value to use or None, what it must be, and how to mend it.
Check = Callable[[str], tuple[str | None, str, str]]


@dataclass(frozen=True, slots=True)
class Question:
    """One thing to know: the `option` that answers it, its `words` on a terminal,
    the `default`, and what an answer has to be."""

    option: str
    words: str
    default: str
    check: Check


def answer(question: Question, given: str | None, ask: Ask | None) -> tuple[str, Problem | None]:
    """The answer to a question, and a problem where the one given cannot be used.

    `given` (None: nothing was said) is taken as it is; else `ask` (None: there is
    nobody to answer) is called until the answer is good; else the default holds.
    """
    if given is not None:
        value, must, fix = question.check(given)
        if value is None:
            return question.default, Problem(question.option, 0, "", must, given, fix)
        return value, None
    complaint = ""
    while ask is not None:
        typed = ask(question.words, question.default, complaint)
        value, must, fix = question.check(typed)
        if value is not None:
            return value, None
        complaint = f"It {must}: {fix}"
    return question.default, None
