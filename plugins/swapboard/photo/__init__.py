"""Cards in photographs: found, cut out, straightened, made smaller.

Pure: arrays in, arrays out. `find` finds the corners, by way of `proposals`
(where cards may be), `rating` (which of them hold), `sides` (to a fraction of
a pixel) and `verdict` (how sure); `choose` picks the card a post means;
`rectify` and `derive` make its pictures; `proportion` measures its true shape.
"""
