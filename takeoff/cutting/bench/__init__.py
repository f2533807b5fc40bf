"""Measures of the exact cutter: ``python -m takeoff.cutting.bench`` prints them as a table.

Duty
    Runs published instances, classes made anew from their definitions, a large job, and every sample plan; beside each
    stands the least cost where it is known, the cost of best fit, and that of a general solver left alone with the
    textbook programme. It takes no part in a take-off.
"""
