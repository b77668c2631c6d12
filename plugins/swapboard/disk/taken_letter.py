"""Letters taken one after another, each against the board as those before it leave it."""

import tempfile
from dataclasses import replace
from pathlib import Path

from swapboard.disk.adding import Cut, cut_picture, free_stem, posts_of, words_for
from swapboard.disk.body_limits import body_problems
from swapboard.disk.ledger import Step, tell
from swapboard.disk.load import Loaded
from swapboard.problems import Problem, errors
from swapboard.records.board import read_board
from swapboard.records.header import write_post
from swapboard.records.standing import standing
from swapboard.records.types import Board
from swapboard.taking.form import read_forms
from swapboard.taking.here import Here, mail_row
from swapboard.taking.news import read_news
from swapboard.taking.offers import plan_offer
from swapboard.taking.sign_up import plan_sign_up
from swapboard.taking.types import MAIL_TABLE, Attached, Change, Form, Letter, NewCard, Row
from swapboard.vocabulary import stem_of


class Taking:
    """What gathers: the board's texts as they would be, which `changed`, `photos` by path,
    private `rows`, the paths that were `created`, `words` and `problems`. `found` says
    whether anything was there to take; `in_vain` are the letters without a form."""

    def __init__(self, loaded: Loaded, mails: dict[str, set[str]]) -> None:
        self._loaded = loaded
        self._mails = {maker: set(known) for maker, known in mails.items()}
        self.texts = dict(loaded.texts.texts)
        self._read: tuple[Board, list[Problem]] | None = None
        self.changed: dict[str, str] = {}
        self.photos: dict[str, bytes] = {}
        self.rows: list[Row] = []
        self.created: set[str] = set()
        self.words: list[str] = []
        self.problems: list[Problem] = []
        self.found = False
        self.in_vain: list[str] = []

    def take(self, letter: Letter) -> None:
        """Add what a letter changes, or what is wrong with it."""
        forms, problems = _forms_of(letter)
        self.problems += problems
        if forms or problems:
            self.found = True
        elif letter.pictures and (maker := self._maker_of(letter)):
            self.found = True
            pictures = tuple((maker, picture) for picture in letter.pictures)
            self._apply(Change(pictures=pictures), letter.where)
        else:
            self.in_vain.append(letter.where)
        for form in forms:
            self._take_form(form, letter)

    def _take_form(self, form: Form, letter: Letter) -> None:
        here = self._here()
        if form.kind == "news":
            return self._take_news(form, letter, here)
        if form.kind == "offer":
            change, problems = plan_offer(form, letter, here)
        else:
            change, problems = plan_sign_up(form, letter, here, self.texts)
        self.problems += problems
        if change is not None:
            self._apply(change, letter.where)
        return None

    def _here(self) -> Here:
        loaded = self._loaded
        board = self._as_it_is()[0]
        stands = standing(board, loaded.today, loaded.settings.swaps.offer_days)
        names = self._photo_names()
        return Here(board, loaded.settings, loaded.today, stands, names, self._mails)

    def _as_it_is(self) -> tuple[Board, list[Problem]]:
        """The board as the letters so far leave it; read once for each change."""
        if self._read is None:
            names, today = self._photo_names(), self._loaded.today
            board, _, problems = read_board(self.texts, names, today=today)
            self._read = board, problems
        return self._read

    def _photo_names(self) -> frozenset[str]:
        made = (path.removeprefix("photos/") for path in self.photos)
        return self._loaded.texts.photos | frozenset(made)

    def _take_news(self, form: Form, letter: Letter, here: Here) -> None:
        said, problems = read_news(form, letter, here)
        self.problems += problems
        if said is None:
            return
        loaded = self._loaded
        texts = replace(loaded.texts, photos=self._photo_names())
        told, wrong = tell(replace(loaded, texts=texts), self.texts, Step(*said))
        self.problems += [replace(p, path=letter.where, line=form.line, must=f"{p.path}: {p.must}")
                          for p in wrong]  # fmt: skip
        if told is not None:
            self._put({told.path: told.text}, (told.words,))
            self._keep(mail_row(letter, said[2], self._mails))

    def _maker_of(self, letter: Letter) -> str:
        """The one maker who writes from a letter's address, "" where none or several do."""
        makers = [maker for maker, known in self._mails.items()
                  if letter.sender in known and f"makers/{maker}.md" in self.texts]  # fmt: skip
        return makers[0] if len(makers) == 1 else ""

    def _apply(self, change: Change, where: str) -> None:
        """Cut the pictures, then add everything if the board has no error by it."""
        texts, photos, words = dict(change.texts), {}, list(change.words)
        for card in change.cards:
            self._cut_one(card, where, texts, photos, words)
        for maker, picture in change.pictures:
            self._cut_all(maker, picture, where, texts, photos, words)
        names = self._photo_names() | {path.removeprefix("photos/") for path in photos}
        today = self._loaded.today
        before = self._as_it_is()[1]
        board, _, after = read_board({**self.texts, **texts}, names, today=today)
        wrong = [p for p in errors([*after, *body_problems(texts)]) if p not in before]
        self.problems += [replace(p, must=f"would have an error, so {where} is not taken: {p.must}")
                          for p in wrong]  # fmt: skip
        self._put(texts, tuple(words))
        self._read = board, after
        self.photos |= photos
        self.created |= set(photos)
        self._keep(change.rows)

    def _keep(self, rows: tuple[Row, ...]) -> None:
        self.rows += [row for row in rows if row not in self.rows]
        for row in rows:
            if row.path == MAIL_TABLE:
                self._mails.setdefault(row.cells[0], set()).add(row.cells[1])

    def _put(self, texts: dict[str, str], words: tuple[str, ...]) -> None:
        self.created |= {path for path in texts if path not in self.texts}
        self.texts |= texts
        self.changed |= texts
        self.words += words
        self._read = None

    def _cut(self, picture: Attached, where: str) -> Cut | None:
        with tempfile.TemporaryDirectory(prefix="swapboard-") as folder:
            file = Path(folder) / "picture"
            file.write_bytes(picture.data)
            name = f"{where}, {picture.name or 'a picture'}"
            cut, problems = cut_picture(file, name, self._loaded.settings.photos)
        self.problems += problems
        return cut

    def _cut_one(self, card: NewCard, where: str, texts: dict, photos: dict, words: list) -> None:
        """The post of a card that is known by a line: its picture shows that one card."""
        cut = self._cut(card.picture, where)
        if cut is None:
            return
        file = f"{card.name}{cut.ending}"
        texts[f"cards/{card.name}.md"] = write_post([*card.fields, ("Photo", file)])
        photos[f"photos/{file}"] = cut.data
        if len(cut.found) > 1:
            words.append(f"photos/{file}: shows several cards; the surest one is taken")
        elif not cut.found or cut.found[0].doubtful:
            words.append(f"photos/{file}: {words_for(cut.found[0] if cut.found else None)}")

    def _cut_all(
        self, maker: str, picture: Attached, where: str, texts: dict, photos: dict, words: list
    ) -> None:
        """A post for each card found in a maker's picture, as `add card` makes them."""
        cut = self._cut(picture, where)
        if cut is None:
            return
        taken = [*self._photo_names(), *(path.removeprefix("photos/") for path in photos)]
        posts = [path.removeprefix("cards/").removesuffix(".md")
                 for path in (*self.texts, *texts) if path.startswith("cards/")]  # fmt: skip
        bare = picture.name.rpartition(".")[0] or picture.name or "card"
        stem = free_stem(stem_of(bare), cut, taken, posts)
        photos[f"photos/{stem}{cut.ending}"] = cut.data
        for name, text, said in posts_of(cut, stem, [("Maker", maker)]):
            texts[f"cards/{name}.md"] = text
            words.append(f"cards/{name}.md: a new card of {maker}'s, {said}")


def _forms_of(letter: Letter) -> tuple[list[Form], list[Problem]]:
    """The forms in a letter's plain texts; in its pages only where those have none."""
    for readings in (letter.texts, letter.pages):
        found: dict[tuple, Form] = {}
        problems: list[Problem] = []
        for text in dict.fromkeys(readings):
            forms, wrong = read_forms(text, letter.where)
            problems += wrong
            for form in forms:
                found.setdefault(form.words, form)
        if found or problems:
            return list(found.values()), problems
    return [], []
