"""The PySide6 window."""
