"""From pieces to the sticks and sheets they are cut from, cheaply, with a bound that anybody can check.

Duty
    Takes framed buildings and prices; gives ``Piece``s, a ``LumberCutting`` and a ``SheetCutting``. It adds no
    allowance for culls: that is the order's.

The faces
    ``pieces.pieces_of`` and ``panel_pieces.panel_pieces_of`` count what is to be cut; ``offers.offers_for`` and
    ``offers.sheet_offers_for`` say what is on sale; ``lumber.cut`` and ``sheets.cut_sheets`` cut;
    ``assign.assign_sheets`` tells each placed panel its sheet. ``splices`` chooses where plates and fascia are joined,
    among the ``ways`` that their studs and rafters allow. ``exact`` holds the exact lumber cutter, ``fitting`` the
    plain one; ``compare`` tells what a choice of lengths or nesting costs, ``bench`` how well and fast all of it is.

How to add to it
    A better way to cut is one function of the protocol ``LumberCutter`` or ``SheetCutter``, named in ``lumber`` or
    ``sheets``. It takes whole numbers from ``groups`` and gives its sticks to ``assembly``, so that rounding, money,
    marks, order and the bound stay in one place.

Whole numbers
    Inside, lengths are sixteenths of an inch (a piece rounded up, a stick or sheet rounded down) and money is cents, so
    that what fits, fits, and equal inputs give equal cuts on every machine.
"""
