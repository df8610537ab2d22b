"""The yard sketch: zones, features, heads and plug spots, drawn and changed to scale."""
