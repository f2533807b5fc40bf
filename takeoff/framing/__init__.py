"""Framing: from a building of the plan to placed sticks, their joints and the layout marks.

Takes a ``Building`` of the plan; gives a ``FramedBuilding`` without panels, and findings. ``frame.py`` is the order
of the work. Everything framed is an outline on a face sliced by layout lines; the role of the edge that a slice
ends on decides how the stick is cut there.

To add a roof: a module beside ``gable_roof`` that gives its slopes (outline, roles, placement, rafter geometry);
rafters, rakes, eaves and ridge then work on it as they stand. To add a kind of stick: a function that takes
what stands already and gives members, and one line in ``frame.py``.
"""
