"""Cards that come as pictures: each line of a form with the picture that it means."""

import re
from collections.abc import Sequence

from swapboard.records.names import name_of
from swapboard.records.new_offer import free_name
from swapboard.settings import Settings
from swapboard.taking.fit import LONGEST_LINE, Checked
from swapboard.taking.here import Here
from swapboard.taking.types import Attached, Entry, NewCard
from swapboard.vocabulary import tidy
from swapboard.vocabulary.media import media_for

PICTURE = re.compile(r"picture\s*(\d{1,3})\s*(?::\s*(.*))?", re.IGNORECASE | re.DOTALL)
_NUMBERED = re.compile(r"picture-(\d{1,3})\.\w{1,5}", re.IGNORECASE)


def cards_of_pictures(
    checked: Checked,
    here: Here,
    giver: str,
    pictured: Sequence[tuple[Entry, re.Match]],
    pictures: tuple[Attached, ...],
) -> list[NewCard]:
    """The cards of a list that come as pictures: `pictured` are its lines that say so, as
    `PICTURE` matches them, `pictures` what was attached."""
    by_number = _by_number(checked, [int(found[1]) for _, found in pictured], pictures)
    taken = [*here.board.cards, *(photo.rpartition(".")[0] or photo for photo in here.photos)]
    taken += [name_of(left.path) for left in here.board.left_out if left.path.startswith("cards/")]
    made: list[NewCard] = []
    for entry, found in pictured:
        line = tidy(found[2] or "")
        if not checked.is_plain("Gives", line, LONGEST_LINE, entry.line):
            continue
        if int(found[1]) not in by_number:
            fix = "attach it as a file, and name it like picture-1.jpg."
            checked.bad("Gives", f"must come with its picture, picture-{int(found[1])}.jpg",
                        entry.text, fix, entry.line)  # fmt: skip
            continue
        title, media = _title_and_media(line, here.settings)
        title = title or f"A card by {tidy(checked.form.text('from'))}"
        name = free_name(title, taken)
        taken.append(name)
        fields = [("Title", title), ("Date", here.today.isoformat()), ("Maker", giver)]
        fields += [("Media", media)] if media else []
        made.append(NewCard(name, tuple(fields), by_number[int(found[1])]))
    return made


def _by_number(
    checked: Checked, numbers: list[int], pictures: tuple[Attached, ...]
) -> dict[int, Attached]:
    """Which picture each number means: by the files' names, or in their order where none
    has such a name and there are as many."""
    if len(set(numbers)) < len(numbers):
        checked.bad("Gives", "must give each picture a number of its own", None, "count them up.")
        return {}
    named = [(int(found[1]), picture) for picture in pictures
             if (found := _NUMBERED.fullmatch(picture.name))]  # fmt: skip
    if not named and len(pictures) == len(numbers):
        return dict(zip(sorted(numbers), pictures, strict=True))
    found: dict[int, Attached] = {}
    for number, picture in named:
        if found.setdefault(number, picture).data != picture.data:
            must = f"must have one picture of the name {picture.name}"
            checked.bad("Gives", must, None, "ask which of the two is meant.")
    extra = len(pictures) - sum(number in numbers for number, _ in named)
    if extra > 0:
        fix = "nothing, if it is not a card; else ask for a line for it below Gives:."
        checked.warn("Gives", "comes with pictures that no line names, and they are left out",
                     str(extra), fix)  # fmt: skip
    return {number: picture for number, picture in found.items() if number in numbers}


def _title_and_media(line: str, settings: Settings) -> tuple[str, str]:
    """"Blue heron, gouache" is a title and a medium, where all after the first comma are
    media; else the line is the title."""
    title, comma, rest = line.partition(",")
    known = media_for(settings.words, settings.board.language)
    media = [known.find(tidy(part)) for part in rest.split(",")] if comma else []
    if media and all(media) and tidy(title):
        return tidy(title), ", ".join(dict.fromkeys(media))
    return line, ""
