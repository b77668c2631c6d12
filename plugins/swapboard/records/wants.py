"""Reading every want of a board with the board's own words."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from swapboard.problems import WARNING, Problem
from swapboard.records.drafts import Drafts
from swapboard.records.types import Part, Want
from swapboard.records.want import parse_want
from swapboard.records.want_words import WantWords
from swapboard.vocabulary.media import media_for

_ANYTHING = (Part("anything"),)


def board_words(drafts: Drafts) -> WantWords:
    """What a want may name on this board: files that cannot be read still count."""
    settings = drafts.settings
    media = media_for(settings.words, settings.board.language)
    cards = drafts.records["cards"].values()
    return WantWords(
        {
            "theme": ((t, t) for t in sorted({theme for card in cards for theme in card.themes})),
            "medium": sorted(media.words()),
            "maker": _names(drafts, "makers"),
            "card": _names(drafts, "cards"),
        }
    )


def read_wants(drafts: Drafts) -> None:
    """Turn the sentences of cards and makers into wants; warn of what stays unread."""
    words = board_words(drafts)
    known: dict[str, Want] = {}

    def read(path: str, key: str, sentences: tuple[Want, ...]) -> tuple[Want, ...]:
        wants = tuple(_once(sentence, words, known) for sentence in sentences)
        _warn(drafts, words, path, key, wants)
        return wants

    cards, makers = drafts.records["cards"], drafts.records["makers"]
    for name, card in cards.items():
        if card.wants:
            cards[name] = replace(card, wants=read(card.path, "Wants", card.wants))
    for name, maker in makers.items():
        if maker.likes or maker.rather_not:
            likes = read(maker.path, "Likes", maker.likes)
            unliked = tuple(_unliked(want, words) for want in maker.rather_not)
            _warn(drafts, words, maker.path, "Rather not", unliked)
            makers[name] = replace(maker, likes=likes, rather_not=unliked)


def _names(drafts: Drafts, kind: str) -> Iterator[tuple[str, str]]:
    """Names first, then titles that only one of the kind has."""
    yield from ((name, name) for name in drafts.names[kind])
    records = drafts.records[kind]
    titles = Counter(record.title.casefold() for record in records.values())
    for name, record in records.items():
        if titles[record.title.casefold()] == 1:
            yield record.title, name


def _once(sentence: Want, words: WantWords, known: dict[str, Want]) -> Want:
    """A sentence as a want; many cards have the same one, which is read once."""
    if sentence.text not in known:
        known[sentence.text] = parse_want(sentence.text, sentence.line, words)
    want = known[sentence.text]
    return want if want.line == sentence.line else replace(want, line=sentence.line)


def _warn(drafts: Drafts, words: WantWords, path: str, key: str, wants: tuple[Want, ...]) -> None:
    for want in wants:
        if not want.understood:
            near, example = words.suggest(want.text), f"write it like this: {words.example()}."
            fix = f"{near} Otherwise {example}" if near else example
            must = "cannot be read as a want, so it takes no part in matching"
            drafts.add(Problem(path, want.line, key, must, want.text, fix, WARNING))


def _unliked(sentence: Want, words: WantWords) -> Want:
    """Under "Rather not", "no cats" and "cats" mean the same: a want for cats.

    As after "no", a bare word that nothing on the board is called is a theme.
    """
    want = parse_want(sentence.text, sentence.line, words)
    if not want.understood:
        want = replace(parse_want(f"no {sentence.text}", sentence.line, words), text=sentence.text)
    if want.all_of == _ANYTHING and want.none_of:
        return replace(want, all_of=want.none_of, none_of=())
    return want
