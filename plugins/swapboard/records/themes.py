"""Themes are free words: one spelling for each, and a web address of its own."""

from collections import Counter
from dataclasses import replace

from swapboard.problems import WARNING, Problem
from swapboard.records.drafts import Drafts
from swapboard.records.types import Card
from swapboard.settings import PATH
from swapboard.vocabulary import fold, slug
from swapboard.vocabulary.media import media_for


def settle_themes(drafts: Drafts) -> None:
    """Show every theme in the spelling of the first file that has it.

    Themes that differ in more than case but would share a page are an error in
    the later file; a singular beside its plural is a warning.
    """
    spelling: dict[str, str] = {}
    by_slug: dict[str, tuple[str, Card]] = {}
    clashes: dict[str, tuple[str, Card]] = {}
    count: Counter[str] = Counter()
    first: dict[str, Card] = {}
    cards = drafts.records["cards"]
    for card in sorted(cards.values(), key=lambda card: card.path):
        for theme in card.themes:
            key = fold(theme)
            count[key] += 1
            if key not in spelling:
                spelling[key], first[key] = theme, card
                if by_slug.setdefault(slug(theme), (theme, card))[0] != theme:
                    clashes[key] = by_slug[slug(theme)]
            if key in clashes:
                drafts.add(_clash(card, theme, *clashes[key]))
        shown = tuple(spelling[fold(theme)] for theme in card.themes)
        if shown != card.themes:
            cards[card.name] = replace(card, themes=shown)
    if drafts.settings.board.language.partition("-")[0] == "en":
        _warn_of_plurals(drafts, spelling, count, first)


def check_own_words(drafts: Drafts) -> None:
    """[words] of board.toml: media with pages of their own, words for known media."""
    settings = drafts.settings
    words, lines = settings.words, settings.lines
    media = media_for(words, settings.board.language)
    by_slug: dict[str, str] = {}
    for name in sorted(media.names, key=lambda name: (name in words.media, name)):
        if (first := by_slug.setdefault(slug(name), name)) != name:
            must = "must have a web address of its own"
            line, fix = lines.get("words.media", 0), f"it would share that of {first}: rename it."
            drafts.add(Problem(PATH, line, "media", must, name, fix))
    for _, medium in words.same_as:
        if media.find(medium) is None:
            fix = media.suggest(medium) or "add it to media under [words]."
            line = lines.get("words.same_as", 0)
            must = "must lead to a medium this board knows"
            drafts.add(Problem(PATH, line, "same_as", must, medium, fix))


def _clash(card: Card, theme: str, first: str, first_card: Card) -> Problem:
    must = "must be spelt as on other cards, or differ in more than accents and signs"
    fix = f'write "{first}" as in {first_card.path}, or choose another word for one of them.'
    return Problem(card.path, card.lines.get("themes", 0), "Themes", must, theme, fix)


def _warn_of_plurals(
    drafts: Drafts, spelling: dict[str, str], count: Counter[str], first: dict[str, Card]
) -> None:
    for key in spelling:
        for plural in (f"{key}s", f"{key}es"):
            if plural in spelling:
                rarer, other = sorted((key, plural), key=lambda k: (count[k], k))
                card = first[rarer]
                must = f'is a theme beside "{spelling[other]}"'
                fix = "if both mean the same, use one of them."
                line = card.lines.get("themes", 0)
                problem = (card.path, line, "Themes", must, spelling[rarer], fix, WARNING)
                drafts.add(Problem(*problem))
