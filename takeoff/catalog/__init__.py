"""What can be bought and what is published: sizes, grades, sheets, spans, weights, prices, rules, words of the trade.

Duty
    Answer questions by name (``profile("2x10")``, ``sheet_product("cdx-5/8")``, ``rule("notch.end-depth")``) with
    frozen values. Nothing here knows a building. A name that isn't known raises ``UnknownItem``, which offers the
    nearest ones.

How tables are kept
    Numbers live in ``data/*.csv``, one fact a row, the unit in the column's name. Every row has a ``source`` and says
    ``how_known``: ``seen`` (read in the source), ``memory`` (recalled, not read), ``derived`` (worked out from its
    source) or ``practice`` (common practice, no source). A standard or a code has its ``edition`` beside it.
    ``read_table`` refuses a row without source, and the tests read every table. Several names in a cell are parted by
    ``;``. ``data/prices.csv`` has the columns of a builder's own price list, so that it serves as a pattern for one.

How to add to it
    A fact: a row in its table. A table: ``data/<noun>.csv``, and a module of that noun with a frozen dataclass, a
    cached reader and one function that looks a name up. Carry over only what the tool uses.
"""
