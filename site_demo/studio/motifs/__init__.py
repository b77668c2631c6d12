"""Things that turn up in more than one picture, drawn about (0, 0): creatures, growing, things.

Each takes its colours and gives a motif to `Cartoon.place`.
"""
