"""The exact lumber cutter: the cheapest set of sticks, with a proof of how near to the cheapest it is.

Duty
    Takes a ``LumberProblem``; gives a ``LumberCutting``. ``solve.solve`` is a ``LumberCutter`` and the only way in for
    the program; ``solve.solve_groups`` also gives the certificates, for those who want to check them.

How it goes, for each group of pieces that may share sticks
    ``instance`` puts it into whole numbers. ``start`` finds a first cutting by best fit. ``columns`` solves the linear
    programme of all patterns by adding one good ``pattern`` after another: ``knapsack`` finds them, ``master`` prices
    the pieces. The prices are a ``certificate``: no cutting costs less than they say. ``dive`` and ``integer`` look for
    cuttings as cheap as that, and ``proof`` lists all patterns that any cheaper cutting could use and shows that there
    is none. ``tidy`` then makes the cheapest cutting pleasant to saw: fewest boards, fewest patterns, longest rests.
    ``lengths`` chooses which lengths to buy where only so many are wanted.

Words
    An item is all equal pieces of a group, a stock is a stick on sale, a pattern is what is cut from one stick, a
    plan is how often each pattern is cut.

Repeatable
    All limits are numbers of rounds, columns and nodes (``effort``), never seconds; ties are broken by order; the
    solver works with one thread and a fixed seed. So the same input gives the same boards, whatever else runs.

Source
    Column generation: Gilmore and Gomory, Operations Research 9 (1961) and 11 (1963). Bound from any prices: Farley,
    Operations Research 38 (1990). Smoothing of prices: Wentges, Int. Trans. Opl. Res. 4 (1997). Fewest patterns:
    Vanderbeck, Operations Research 48 (2000).
"""
