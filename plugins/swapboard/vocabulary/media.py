"""What cards are made with, in the trade's own words."""

from collections.abc import Iterable
from functools import lru_cache

from swapboard.problems import Suggestions
from swapboard.settings import Words
from swapboard.vocabulary.spelling import bare, tidy

# The grouping is from memory, not from a published list; a keeper adds to it
# with `media` under [words] in board.toml.
MEDIA: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "drawing",
        ("graphite", "coloured pencil", "charcoal", "ink pen", "brush ink", "marker", "ballpoint",
         "crayon", "soft pastel", "oil pastel", "silverpoint", "scratchboard"),
    ),
    (
        "painting",
        ("watercolour", "gouache", "acrylic", "oil", "casein", "egg tempera", "encaustic",
         "alcohol ink", "spray paint", "fluid paint"),
    ),
    (
        "print",
        ("linocut", "woodcut", "etching", "drypoint", "lithograph", "screenprint", "monotype",
         "gel plate print", "collagraph", "stencil", "letterpress"),
    ),
    ("stamping", ("rubber stamping",)),
    ("mixed", ("collage", "assemblage", "cut paper", "altered card", "mixed media")),
    ("textile", ("embroidery", "cross stitch", "fabric collage", "felt")),
    ("heat and metal", ("pyrography", "foil", "metalwork")),
    ("photo", ("photograph", "cyanotype")),
    ("digital", ("digital drawing",)),
)  # fmt: skip

OWN_GROUP = "more"

# Other words for the same medium: common practice of the trade, no source.
SAME_AS: dict[str, str] = {
    "aquarelle": "watercolour",
    "water colour": "watercolour",
    "pencil": "graphite",
    "color pencil": "coloured pencil",
    "coloured pencils": "coloured pencil",
    "pen and ink": "ink pen",
    "ink": "ink pen",
    "pen": "ink pen",
    "biro": "ballpoint",
    "ballpoint pen": "ballpoint",
    "markers": "marker",
    "felt tip": "marker",
    "crayons": "crayon",
    "pastel": "soft pastel",
    "pastels": "soft pastel",
    "scraperboard": "scratchboard",
    "acrylics": "acrylic",
    "acrylic paint": "acrylic",
    "oils": "oil",
    "oil paint": "oil",
    "tempera": "egg tempera",
    "wax paint": "encaustic",
    "lino": "linocut",
    "lino print": "linocut",
    "linoprint": "linocut",
    "linoleum cut": "linocut",
    "wood cut": "woodcut",
    "lithography": "lithograph",
    "screen print": "screenprint",
    "silkscreen": "screenprint",
    "serigraph": "screenprint",
    "monoprint": "monotype",
    "gelatin print": "gel plate print",
    "gelli print": "gel plate print",
    "stencilling": "stencil",
    "rubber stamp": "rubber stamping",
    "stamping": "rubber stamping",
    "papercut": "cut paper",
    "paper cut": "cut paper",
    "altered playing card": "altered card",
    "needlework": "embroidery",
    "stitching": "embroidery",
    "felting": "felt",
    "woodburning": "pyrography",
    "wood burning": "pyrography",
    "photo": "photograph",
    "photography": "photograph",
    "digital": "digital drawing",
    "digital art": "digital drawing",
}

# British and American spelling of one word; a board shows its own language's.
_SPELLINGS = (("watercolour", "watercolor"), ("coloured", "colored"), ("colour", "color"))


class Media:
    """The media a board knows, spelt in its language.

    `names` are sorted; `find` folds case, accents, hyphens, other spellings and
    other words for the same thing.
    """

    def __init__(self, words: Words, language: str) -> None:
        american = language.replace("_", "-").casefold() == "en-us"
        self._groups: dict[str, str] = {}
        self._by_word: dict[str, str] = {}
        for group, media in (*MEDIA, (OWN_GROUP, words.media)):
            for medium in media:
                self._add(group, tidy(medium), american)
        for word, medium in (*SAME_AS.items(), *words.same_as):
            if target := self.find(medium):
                for spelling in _spellings(tidy(word)):
                    self._by_word.setdefault(bare(spelling), target)
        self.names: tuple[str, ...] = tuple(sorted(self._groups))
        self._suggestions = Suggestions(self.names, most=None)

    def _add(self, group: str, medium: str, american: bool) -> None:
        if bare(medium) in self._by_word:
            return
        spellings = _spellings(medium)
        name = spellings[-1] if american and group != OWN_GROUP else medium
        self._groups[name] = group
        for spelling in spellings:
            self._by_word.setdefault(bare(spelling), name)

    def find(self, text: str) -> str | None:
        """The medium's name on this board, or None where it is unknown."""
        return self._by_word.get(bare(text))

    def group_of(self, name: str) -> str:
        """The group a medium stands in ("more" for a keeper's own)."""
        return self._groups[name]

    def words(self) -> Iterable[tuple[str, str]]:
        """Every word that `find` knows, folded, with the medium it means."""
        return self._by_word.items()

    def suggest(self, text: str) -> str:
        """A "did you mean" sentence, or ""."""
        return self._suggestions.near(text)


def _spellings(medium: str) -> tuple[str, ...]:
    """A word in British, then in American spelling; once where they agree."""
    british = american = medium
    for ours, theirs in _SPELLINGS:
        if ours in american:
            american = american.replace(ours, theirs)
        elif theirs in british:
            british = british.replace(theirs, ours)
    return (british, american) if british != american else (medium,)


@lru_cache(maxsize=16)
def media_for(words: Words, language: str) -> Media:
    """The media of a board with these words and this language."""
    return Media(words, language)
