"""What a notebook holds: frozen records, geometry, and the one set of plausibility rules."""
