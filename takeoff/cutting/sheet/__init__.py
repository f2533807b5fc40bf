r"""The cutting of sheets at least cost: rows ripped from a sheet, pieces crosscut from a row, slanted ones nested.

Duty
    ``pack`` cuts given pieces from sheets; ``lay_ups`` chooses how the faces of a building are laid together with the
    cutting of what that takes. Both give a bound that no cutting in rows can beat.

How it goes
    ``shape``    a piece in sixteenths: a rectangle, or a convex outline with slanted ends
    ``block``    what stands in a row: a piece, or slanted pieces that share a saw cut
    ``pricing``  the best row of every height for every length, and the best sheet of such rows
    ``master``   the linear programme over sheets (and lay-ups of faces)
    ``rows``     the integer programme over rows, sheets (and lay-ups)
    ``pack``, ``lay_ups`` put them together; ``placing`` says where each piece lies on its sheet

Source
    Column generation: Gilmore and Gomory, A linear programming approach to the cutting-stock problem, 1961; in two
    stages: Multistage cutting stock problems of two and more dimensions, 1965.
"""
