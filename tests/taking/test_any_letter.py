"""Whatever the bytes, reading them gives letters, forms or problems, and never an exception."""

from hypothesis import given, settings
from hypothesis import strategies as st
from letters import NEWS, OFFER, SIGN_UP, STRANGER, mail

from swapboard.taking.form import read_forms
from swapboard.taking.letters import read_letters

SEEDS = [OFFER.encode(), NEWS.encode(), SIGN_UP.encode(), STRANGER.encode(), bytes(mail()),
         bytes(mail("", html=f"<pre>{OFFER}</pre>")),
         bytes(mail("x", pictures=(("picture-1.jpg", b"\xff\xd8\xff" + b"x" * 50),)))]  # fmt: skip


@st.composite
def spoilt(draw):
    """A good letter with some pieces cut out, doubled or replaced by anything."""
    data = draw(st.sampled_from(SEEDS))
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(data)))
        end = min(len(data), start + draw(st.integers(0, 40)))
        middle = draw(st.one_of(st.binary(max_size=12), st.just(data[start:end] * 2)))
        data = data[:start] + middle + data[end:]
    return data


@settings(max_examples=300, deadline=None)
@given(st.one_of(spoilt(), st.binary(max_size=300)))
def test_any_bytes_are_read_or_refused(data):
    """There is a letter or a reason, and each reason says what to do."""
    letters, problems = read_letters(data, "x")
    assert letters or problems
    for letter in letters:
        for text in (*letter.texts, *letter.pages):
            problems += read_forms(text, "x")[1]
    assert all(problem.fix and problem.must and str(problem) for problem in problems)


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=60).map(lambda text: " ".join(text.split())))
def test_a_note_never_ends_the_form(note):
    """A line of a note, indented as the form has it, is a line of the note."""
    text = OFFER.replace("    I like herons.", f"    End of offer\n    {note}\n    To: somebody")
    (form,), problems = read_forms(text, "x")
    assert problems == [] and form.text("to") == "ines-okafor"
    assert form.values["note"][-1].text == "To: somebody"
