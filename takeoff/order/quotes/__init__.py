"""Prices asked of several yards, read back and compared.

Duty
    Takes the lines of an order and the workbooks that yards sent back; gives what each yard asks for each item, the
    cheapest single yard and the cheapest split over yards, each delivery's charge counted.

The faces
    ``asked.asked_items`` lists what prices are asked for, ``reader.read_quote_file`` reads one answer,
    ``compare.compare`` puts them side by side.

How to add to it
    Another kind of file is one more function in ``grid`` that gives rows of cells; another wording of a heading is one
    more entry in ``reader.HEADINGS``.
"""
