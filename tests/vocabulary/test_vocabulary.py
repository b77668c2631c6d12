"""Words of the trade and how they are looked up."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from swapboard.settings import Words
from swapboard.vocabulary import fold, slug, tidy
from swapboard.vocabulary.countries import countries_in
from swapboard.vocabulary.media import MEDIA, SAME_AS, media_for
from swapboard.vocabulary.paper import CARD, PAPER
from swapboard.vocabulary.spelling import RESERVED_NAMES, bare


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Café & crème", "cafe-creme"),
        ("children's  books", "childrens-books"),
        ("Straße", "strasse"),
        ("Œuvre Ø", "oeuvre-o"),
        ("İstanbul", "istanbul"),
        ("Ελλάδα", "ελλάδα"),
        ("हिन्दी", "हिन्दी"),
        ("夜の鷺", "夜の鷺"),
        ("con", "con-"),
        ("★", "u2605"),
        ("", "unnamed"),
        ("../..", "u2e-u2e-u2f-u2e-u2e"),
    ],
)
def test_slugs(text, expected):
    """Latin letters lose their accents, other scripts stay, nothing is empty or reserved."""
    assert slug(text) == expected


@given(st.text())
def test_any_slug_is_fit_for_a_file_and_an_address(text):
    """A slug is never empty, reserved, long or upper case, and a slug of itself."""
    made = slug(text)
    assert made and made not in RESERVED_NAMES and len(made.encode()) <= 160
    assert not set(made) & set(' /\\:*?"<>|.%#') and made == made.strip()
    assert unicodedata.is_normalized("NFC", made)
    assert slug(made) == made


@given(st.text())
def test_folding_twice_is_folding_once(text):
    """Folds and tidied texts stay as they are."""
    assert fold(fold(text)) == fold(text)
    assert tidy(tidy(text)) == tidy(text)
    assert bare(bare(text)) == bare(text)


def test_every_word_for_a_medium_leads_to_one():
    """Each other word is found, and each medium finds itself."""
    media = media_for(Words(), "en")
    names = [name for _, group in MEDIA for name in group]
    assert sorted(names) == list(media.names)
    assert [media.find(name) for name in names] == names
    assert {media.find(medium) for medium in SAME_AS.values()} <= set(names)
    assert [media.find(word) for word in SAME_AS] == [media.find(m) for m in SAME_AS.values()]


@pytest.mark.parametrize(
    ("language", "word", "medium"),
    [
        ("en", "watercolor", "watercolour"),
        ("en-GB", "Water-Colour", "watercolour"),
        ("en-US", "watercolour", "watercolor"),
        ("en-US", "coloured pencils", "colored pencil"),
        ("de", "colored pencil", "coloured pencil"),
        ("en", "lino print", "linocut"),
        ("en", "moss", None),
    ],
)
def test_spellings_fold_by_the_language_of_the_board(language, word, medium):
    """One medium has one name on a board, whichever way it is spelt."""
    assert media_for(Words(), language).find(word) == medium


def test_a_keeper_adds_media_and_words():
    """Media of a keeper's own stand in a group of their own, with their own other words."""
    media = media_for(Words(("Moss", "linocut"), (("peat", "moss"),)), "en")
    assert (media.find("PEAT"), media.group_of("Moss")) == ("Moss", "more")
    assert media.group_of("linocut") == "print"


@pytest.mark.parametrize(
    ("language", "text", "name"),
    [
        # Codes and names: ISO 3166-1, as in CLDR.
        ("en", "de", "Germany"),
        ("de", "Germany", "Deutschland"),
        ("de", "Deutschland", "Deutschland"),
        ("en", "USA", "United States"),
        ("en", "cote d'ivoire", "Côte d’Ivoire"),
        ("en", "Scotland", "United Kingdom"),
        ("en", "EU", None),
        ("en", "Atlantis", None),
        ("xx-not-a-language", "fr", "France"),
    ],
)
def test_countries(language, text, name):
    """A country is found by code or name and named in the language of the board."""
    assert countries_in(language).find(text) == name


def test_a_misspelt_country_is_guessed():
    """The nearest country is suggested."""
    assert countries_in("en").suggest("Germny") == 'did you mean "Germany"?'


def test_guesses_do_not_depend_on_what_was_asked_before():
    """The words of the trade are guessed at however many others were misspelt first."""
    media = media_for(Words(), "en")
    for number in range(2500):
        media.suggest(f"linocut{number}")
    assert media.suggest("gouash") == 'did you mean "gouache"?'


def test_sizes():
    """The card is 2.5 by 3.5 inches; paper follows ISO 216 (A4) and 8.5 by 11 inches."""
    assert pytest.approx((2.5 * 25.4, 3.5 * 25.4)) == CARD
    assert PAPER["A4"] == (210, 297)
    assert pytest.approx((8.5 * 25.4, 11 * 25.4)) == PAPER["Letter"]
