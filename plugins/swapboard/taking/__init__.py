"""What came by mail: bytes → letters → forms → what would change on the board, or why not.

letters     a file's bytes → the mails or the pasted text in it, sizes capped before anything else
mail        one mail → its texts and pictures, its sender
plain       text as mail programs leave it (quoted, flowed, HTML) → lines
form        lines → forms: swap offer, call sign-up, swap news
fit         what a text of others must not hold: markup, script, paths, addresses
here        the board that a letter meets, and what is free on it
new_cards   cards that come as pictures
offers      an offer's form against the board
sign_up     a sign-up's form against its call
news        news of an offer as a step of its story

Everything here is other people's writing: whatever does not fit is a problem, and nothing is
written from here.
"""
