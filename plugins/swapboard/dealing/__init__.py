"""A provably fair deal of a group swap: feasibility, sampling, seed and proof.

`deal` is the whole of it in one call, `prepare` the same for many seeds.
`rules` → `flow` (what must be relaxed) → `face` (all valid deals at once) →
`sampling` by `counting`, `rejection` or `chain` → `result`; `obstacles` says what
blocks a deal, `check` checks one without trusting any of this, `proof` ties it to a
secret and a list published before. `repair` mends it later: `repair_search` finds the least
change in a `repair_program`, `repair_bound` proves it, `repair_check` trusts neither.
SPECIFICATION.md tells all of it for another language. Pure: no clock, no file, no
chance but the seed.
"""

from swapboard.dealing.plan import Plan, deal, prepare
from swapboard.dealing.result import Deal, DealtCard, Relaxed

__all__ = ["VERSION", "Deal", "DealtCard", "Plan", "Relaxed", "deal", "prepare"]

# Of the way from a seed to a deal; a change that deals otherwise raises it.
VERSION = 1
