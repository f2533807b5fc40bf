"""Drawings in: from a DXF file to the part of a plan that it gives.

Duty
    `put_in.put_in` takes a plan's tree in which outlines name a drawing, and gives the tree with the drawing's values
    in their place: corners, openings, partitions, floors, porches, dormers, skylights, overhangs. Each such value
    stands in the drawing (file, layer, handle), so what is found later about it points there. What only can be
    compared (ridges, hips, valleys, elevations) comes beside the tree. So a drawing goes through the same schema and
    rules as text.

How a drawing is read
    `ascii_tags` and `binary_tags` find where each entity lies in the file, without reading it; `document` keeps those
    that name a wanted layer, and `expand` reads these alone, puts blocks in place and gives inches. `chains` closes
    outlines and heals them; `openings`, `inside` (partitions, floors, girders, porches, dormers), `skylights`,
    `overhangs` and `elevations` say what they mean for a building.

Rules, by the ids that findings carry

    id                    severity  what
    drawing.unreadable    error     the file is missing, not in the plan's folder, or not to be opened
    drawing.not-dxf       error     something else than DXF
    drawing.too-large     error     larger, or with more in it, than any plan of a house
    drawing.truncated     error     the file ends before its end
    drawing.syntax        error     a pair of code and value, or a number, that can't be read
    drawing.units         error     no unit, and none stated (a warning where both are there and differ)
    drawing.block         error     a block that contains itself, or is nested too deep
    drawing.no-outline    error     no closed outline on the layer, or several and none is named for the building
    drawing.gap           error     lines that don't close
    drawing.label         error     an opening or loft without a label, or one that isn't read (a warning where unused)
    drawing.opening       error     an opening or skylight that lies in no wall or slope
    drawing.healed        note      a gap, duplicate, or stub that was healed within tolerance
    drawing.flattened     warning   a curve, taken as straight pieces
    drawing.left-out      warning   something on a layer of ours that isn't read
    drawing.differs       warning   the drawing says something else than the plan, its label or the roof laid out
    drawing.moved         note      a drawing far from the origin, moved there
    drawing.not-used      note      both the plan and the drawing say it, or nothing is made of that layer yet

How to add
    A layer: its key in `settings.Layers`, a module that makes nodes of its shapes, a line in `put_in`.
"""
