"""Training of the networks that find cards: invented scenes, networks, training, export.

Not part of the package: only its weights are shipped. README.md says how it is run.
"""
