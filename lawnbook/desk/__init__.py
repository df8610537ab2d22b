"""The PySide6 window."""

from lawnbook.desk.qt_imports import import_plainly

# Before any other module of the window is imported.
import_plainly()
