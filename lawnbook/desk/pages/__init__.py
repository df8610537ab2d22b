"""The right-hand pages of the book, one at a time."""
