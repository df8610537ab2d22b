"""The science room: plain functions on numbers and arrays, units in every name, a source in every docstring.

Nothing here knows what a notebook is.  Each module is one subject; import the module's names where they are used.
"""
