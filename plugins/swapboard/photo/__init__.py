"""Cards in photographs: found, cut out, straightened, made smaller.

Pure: arrays in, arrays out. `find` finds the corners: small `networks` look
first (`voting`, `closer`, `refining`, `looking`, `readings`, `learned`), edges
and colours where they leave a doubt (`proposals`, `rating`, `selection`),
`whole_frame` where the picture is nothing but the card, and each card is seen a
last time (`finishing`). `filling` says whether a card fills the picture. What
lies beside a card says more of it: `rows`, `one_size`, `equals`, `panels`,
`plane`; and what lies about it, to another network and to the eye:
`surroundings`, `witness`, `bare`, `flatbed`. `sleeves` and `shadows` leave out
what is no part of it, the `loupe` sees its sides near, `sides` fits to a fraction of a pixel,
`verdict` says how sure, `telling` what is told; `choose` picks the card a post
means; `rectify` and `derive` make its pictures; `proportion` measures its true
shape.
"""
