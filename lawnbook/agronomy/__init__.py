"""The science room: plain functions on numbers and arrays, each with units and a source.

Nothing here knows what a notebook is. Each module is one subject; import the module's names where
they are used.
"""
