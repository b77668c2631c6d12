"""The options of `add maker` and `add call`: the header keys that they write, each
with its help. Plain data, so that asking for help reads nothing else."""

from collections.abc import Iterable

MAKER_OPTIONS: tuple[tuple[str, str], ...] = (
    ("Country", "The country they live in."),
    ("Media", "What they work in, with commas between."),
    ("Likes", "What they would love to receive."),
    ("Rather not", "What they would rather not receive."),
    ("Takes up to", "How many cards they can take now."),
    ("Household", "A word shared by makers who share a letter box."),
    ("Links", "Their web address."),
)

CALL_OPTIONS: tuple[tuple[str, str], ...] = (
    ("Theme", "What the cards are about."),
    ("Host", "The maker who hosts it; the keeper if left out."),
    ("By", "post, or in person."),
    ("Place", "Where you meet, if in person."),
    ("Hour", "When you meet, like 14:00."),
    ("Send", "How many cards each sends; 4 if left out."),
    ("Receive", "How many each gets back; as many if left out."),
    ("Chosen by", "host or maker: who chooses what goes to whom."),
    ("Host takes part", "yes or no."),
    ("Media", "The media wanted, with commas between."),
    ("Not", "What is not wanted, with commas between."),
    ("Must have", "What every card needs, with commas between."),
    ("Thickness", "How thick a card may be, in words."),
    ("Places", "How many can take part."),
    ("Sign up by", "The last day to sign up; in 3 weeks if left out."),
    ("Arrive by", "The day cards have to be there; 4 weeks later."),
    ("Mail out by", "The day they go out again; 2 weeks later."),
    ("Countries", "Who can take part, with commas between."),
    ("Return postage", "What to enclose, like: Poland: two reply stamps."),
    ("Adults only", "yes or no."),
    ("Guardian", "yes where who is not of age takes part through a grown-up."),
    ("Two places", "yes where one maker may hold two."),
    ("Days of grace", "How long a late parcel is waited for; 7 if left out."),
    ("Public value", "A figure nobody can know yet, by name; it completes the seed."),
    ("Relax", "Rules that may give way, first first: earlier swaps, two of one maker, households."),
    ("Dealing", "card by card, or by maker."),
)


def flag_of(key: str) -> str:
    """The option that answers a key: "--sign-up-by" for "Sign up by"."""
    return "--" + key.lower().replace(" ", "-")


def by_key(
    options: Iterable[tuple[str, str]], said: dict[str, str | None]
) -> dict[str, str]:
    """What was said, by key: `said` has "sign_up_by" for "Sign up by", and None for
    what was left out."""
    found = {key: said.get(key.lower().replace(" ", "_")) for key, _ in options}
    return {key: value for key, value in found.items() if value is not None}
