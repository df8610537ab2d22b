"""Importing with Qt loaded: no module's source is read for it, and none is kept in memory."""

from tests.small_book import in_child


def test_no_source_is_read_while_the_window_is_loaded() -> None:
    child = in_child(
        """
        import builtins, linecache, sys
        import lawnbook.desk.window
        import matplotlib.figure
        from PySide6.QtWidgets import QApplication
        from PySide6.QtSvg import QSvgRenderer
        assert "PySide6.QtWidgets" in sys.modules
        read = [name for name in linecache.cache if "lawnbook" in name or "matplotlib" in name]
        print(len(read), len(linecache.cache) < 20)
        """
    )
    assert child.stdout.strip() == "0 True", child.stderr
