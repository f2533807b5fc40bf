"""From what was cut to what is bought: the lines of the order, by load, with allowances, weights and prices.

Duty
    Takes the boards, the sheets and the frame; gives ``OrderLine``s and the findings a buyer should hear of. Cutting
    loss is already in the boards and sheets; the allowance for culls and miscuts comes on top here, once, and is shown
    apart.

The faces
    ``lines.order_lines`` makes the order, ``hardware.count_hardware`` counts connectors from joints,
    ``findings.order_findings`` says what has to be asked for, ``weights.member_weight_lb`` what a beam weighs.

How to add to it
    A kind of thing to buy is a function in a module of its own that gives order lines, and one line in ``order_lines``.
    Its category needs a row in the catalog's table of allowances, whose order is the order's.
"""
