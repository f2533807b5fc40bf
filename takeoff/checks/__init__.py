"""Checks: screening of a framed building against published rules. Screening, not design.

Takes a framed building beside its plan; gives findings. What passes is a note, what does not a warning, and both
say the rule, its section, what was found and the limit. To add a check: a function
``(building, plan) -> findings`` in the module of its subject, its rule as a row of ``catalog/data/rules.csv``,
and one line in ``screen.CHECKS``.
"""
