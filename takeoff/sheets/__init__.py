"""What people and other programs read: the order workbook, the tables, the drawings and the crew's book.

Every file is a pure function of the finished `Takeoff`: bytes out, nothing computed that the order or the frame could
have, lengths rounded here and nowhere before. Files are named in `write.WRITERS`, and put on disk all together or not
at all by `write.write_files`. To add a file: a function from the take-off to bytes, and a line in that mapping.
"""
