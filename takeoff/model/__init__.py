"""The nouns between the rooms: faces, members, panels, joints, layout lines, stock, the order, the whole take-off.

All are frozen values: a stage takes some and returns new ones. Lengths [in], areas [sq in], angles [deg] in
names that say so. Nothing here computes a frame; what a noun knows of itself it computes from its own fields.
"""
