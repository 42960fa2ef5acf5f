"""The way from an empty database, or any earlier one, to the tables of today.

One file a step under versions/; a step that has been released is never edited.
"""
