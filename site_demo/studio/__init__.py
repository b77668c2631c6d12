"""Draws the demo board's cards and photographs them; the same seed gives the same arrays.

The way of a picture, one module a step:

    grain      noise, paper tooth, weave, wood: the materials under every hand
    line       curves, ribbons and outlines: geometry in, points out
    lettering  hand-printed capitals
    sheet      masks and compositing: points in, arrays out
    hands/     one module a medium: how that hand puts a mark on a card
    pictures/  one module a medium: what was drawn, card by card, and `PICTURES`, all of them
    tables     what a card lies on when it is photographed
    camera     a pinhole camera over a table: the homography and the true corners
    photograph lays cards on a table, lights them, takes the picture
    scenes     which photograph shows which cards, how it was taken (`SCENES`, `STARTER`)
    phone      what a phone writes into a file besides the picture
    files      arrays and records to files: photos/ and truth.json

Pictures are float32 arrays [height, width, 3] in sRGB, 0 black to 1 white, with
x to the right and y down. A card is 750 × 1050 or 1050 × 750: 300 pixels per inch.
Points lie on the continuous picture plane: the pixel in column i covers x from
i to i + 1, so the outer corners of a picture are (0, 0) and (width, height).
"""
