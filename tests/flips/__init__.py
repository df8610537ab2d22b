"""Notebooks damaged at random, and what becomes of every record in them."""
