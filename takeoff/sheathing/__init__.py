"""Sheathing: faces -> panels.

Takes placed faces with what their sheets are nailed to and where their undersides show; gives panels, each a
polygon on its face with a product and a strength axis. ``cells`` divides a face, ``slopes`` and ``walls`` say how,
``sheathe`` clips the cells to the outline. Knows nothing of how a face was framed.

To add a lay-up: a function ``(face) -> cells`` and its line in ``sheathe.LAY_UPS``.
"""
