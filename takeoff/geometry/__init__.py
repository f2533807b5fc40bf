"""Pure mathematics: outlines and their slices, slopes, cut planes, placements in space. No lumber.

Takes and gives plain numbers [in], tuples and shapely polygons; knows no plan, catalog or member.
To add: one shape or formula a module, with its source in the docstring; tolerances only from ``tolerance``.
"""
