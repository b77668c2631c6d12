"""The network that sees a card's sides near: what it is shown, and how it learns.

`python -m finder_training.loupe` trains it; `plugins/swapboard/photo/loupe.py` uses it.
"""
