"""What a board is made of: text → record or problems. Nothing here reads a file.

types           the records
header          a post's header and body
fields          values of fields: dates, numbers, lists, choices
spots           a photo, a point in it, four corners
card, call, offer, maker, page, people    one kind of file each
names           file stems: fit, unique, found
drafts          all files as first read
references      makers, cards and pictures that have to exist
themes          one spelling and one address for each theme
want, want_words, wants    sentences about what somebody would like
offer_story     whether dated lines can have happened so
standing        what has become of offers and cards
swap_checks     offers against cards
board           read_board: all of it together
set_aside       publishing without the broken posts
"""
