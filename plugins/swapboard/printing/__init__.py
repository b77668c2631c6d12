"""Things to print: millimetres in, PDF bytes out, always the same for the same input.

`paper.py` is the sheet that all are drawn on, `labels.py` address labels, `lists.py`
pick lists, `flyer.py` a call on one page.
"""
