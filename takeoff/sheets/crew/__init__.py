"""What stands on each kind of crew sheet, as words and figures ready to be set.

Takes a `Takeoff`, gives frozen values that the template ``crew_book.typ`` reads as they are. Lengths and angles become
text here and nowhere before. To add a sheet: a module with its frozen value and the function that fills it, a field of
``crew_book.Book``, and a section of the template.
"""
