"""The ledger's table: feedings in ink, irrigation water in quiet italics, the year's total."""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from lawnbook.desk.pages.feed_ledger_words import (
    HEADS,
    KG_HEAD,
    NONE,
    OXIDES,
    POUNDS,
    POUNDS_HEAD,
    PRODUCT,
    WORDS_COLUMNS,
    ZONE,
    LedgerLine,
    YearTotal,
)
from lawnbook.desk.pages.record_table import ROW_PX, RecordTable, Row
from lawnbook.desk.roles import hear_as
from lawnbook.desk.theme import palette, px, sans
from lawnbook.desk.widgets import name_control
from lawnbook.reading import tr

MOST_ROWS = 12
PAD_PX, NARROW_PX = 6, 560


class LedgerTable(RecordTable):
    """Rows of the ledger; `picked_id` is a row's key.

    A narrow page leaves out phosphate or potash where no row brought any: names come first.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        self._waters: frozenset[int] = frozenset()
        names = ("feedings_list", tr("Feedings and irrigation water"))
        super().__init__(HEADS, names, WORDS_COLUMNS, MOST_ROWS, parent)
        self.stretch(PRODUCT)
        # A name of a product ends in its grade, that of water in its month.
        self.setTextElideMode(Qt.TextElideMode.ElideMiddle)

    def show_lines(self, lines: Sequence[LedgerLine], with_zone: bool) -> None:
        """Show these lines; the zone's column only where there are several zones."""
        self.setColumnHidden(ZONE, not with_zone)
        self._waters = frozenset(n for n, line in enumerate(lines) if line.is_water)
        self.show_rows([Row(line.key, line.cells, line.spoken) for line in lines])
        unused = [each for each in OXIDES if all(line.cells[each] == NONE for line in lines)]
        self.spare(unused, NARROW_PX)

    def show_weight_unit(self, metric: bool) -> None:
        """Head the column of product by the unit that its cells are in."""
        item = self.horizontalHeaderItem(POUNDS)
        if item is not None:
            item.setText(KG_HEAD if metric else POUNDS_HEAD)

    def _colour(self) -> None:
        super()._colour()
        quiet, italic = QColor(palette().quiet), sans()
        italic.setItalic(True)
        for number in self._waters:
            for column in range(self.columnCount()):
                item = self.cell(number, column)
                if item is not None:
                    item.setForeground(quiet)
                    item.setFont(italic)


class TotalLine(QWidget):
    """A line of totals below a table, each figure under its column, whatever their widths."""

    def __init__(self, table: RecordTable, object_name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        hear_as(self, "ListItem")
        name_control(self, object_name, tr("Total of the year"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self._table = table
        self._cells: tuple[str, ...] = ()
        header = table.horizontalHeader()
        header.sectionResized.connect(lambda *_: self.update())
        header.geometriesChanged.connect(self.update)

    def show_total(self, total: YearTotal) -> None:
        """Show other figures."""
        self._cells = total.cells
        self.setAccessibleDescription(total.spoken)
        self.setToolTip(total.spoken)
        self.update()

    def cells(self) -> tuple[str, ...]:
        """What is shown, column by column."""
        return self._cells

    def sizeHint(self) -> QSize:
        """As high as a row."""
        return QSize(400, px(ROW_PX) + 2)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Each cell where its column stands; the table's own frame is the line above."""
        painter = QPainter(self)
        painter.setPen(QColor(palette().ink))
        painter.setFont(sans(weight=QFont.Weight.DemiBold))
        for column, words in enumerate(self._cells):
            if not self._table.isColumnHidden(column):
                painter.drawText(self._room(column), self._alignment(column), words)
        painter.end()

    def _room(self, column: int) -> QRectF:
        table = self._table
        left = table.columnViewportPosition(column) + table.frameWidth()
        width = table.columnWidth(column)
        return QRectF(left + PAD_PX, 1, width - 2 * PAD_PX, self.height() - 1)

    def _alignment(self, column: int) -> Qt.AlignmentFlag:
        words = column in WORDS_COLUMNS
        side = Qt.AlignmentFlag.AlignLeft if words else Qt.AlignmentFlag.AlignRight
        return side | Qt.AlignmentFlag.AlignVCenter
