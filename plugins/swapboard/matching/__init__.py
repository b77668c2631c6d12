"""Who could swap with whom: wants and cards in, proposed swaps and proofs out.

types        the market, and what is proposed: plain data
wants        which cards suit which want, by sets of names
market       a board's makers, free cards and wants as numbered rows
arcs         which maker could mail which cards to which other
pairs        two makers, card for card
rings        three or four makers, each mailing to the next
exchanges    pairs and rings as columns of one table, all of them or the promising ones
rows         the limits that exchanges share: copies, counts, room
prices       the linear programme over all exchanges: a bound, and what looks promising
gradient     prices of very many columns, step by step
local_cuts   bounds below those of the prices, from makers near each other
effort       how much a search may do, counted in its own steps
objective    what is better than what: the levels, one after the other
program      integer programmes through HiGHS: value, bound and choice
search       one part of the market through every level
first_level  the most cards that move, by the way that their number allows
columns      columns by their rows and makers: who is near whom
neighbourhood  a part given up and filled again, where there are very many
annealing    columns in and out by chance, where every card can go many ways
greedy       the first answer that comes to hand: a start, and a measure
circulation  rings of any length: an upper bound
match        all of it: a market in, proposals out
report       proposals as data and as text
certificate  a checker that shares nothing with the search
people       for each maker their proposals, and everyone worth writing to, with reasons
"""
