"""The words of the trade as data, and how to look them up.

spelling    folding, tidying and slugs: when two spellings are one name
media       what cards are made with, in groups, and other spellings
countries   names and codes of countries (ISO 3166, by Babel's locale data)
paper       sizes of sheets and of the card, in millimetres
"""

from swapboard.vocabulary.spelling import fold, slug, stem_of, tidy

__all__ = ["fold", "slug", "stem_of", "tidy"]
