"""One field in a form: its editor, the label above it, and what is wrong below."""

from collections.abc import Mapping, Sequence
from dataclasses import field
from datetime import date

from PySide6.QtWidgets import QCheckBox, QSizePolicy, QVBoxLayout, QWidget

from lawnbook.desk.editors import CheckEditor, Editor, NestedEditor, label_of
from lawnbook.desk.helping import help_of
from lawnbook.desk.telling import Label, words_of
from lawnbook.desk.theme import sized
from lawnbook.desk.widgets import Caption, Words, name_control
from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.problems import OwnerError, Problem

LINE_HEIGHT = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class FormSetting:
    """How a form is set.

    `today` is what dates without a year are measured by; controls are named `prefix` + field;
    `spans` says how many columns a field takes, `labels` what stands above one in place of its
    rule's label and unit.
    """

    today: date | None = None
    prefix: str = ""
    spans: Mapping[str, int] = field(default_factory=dict)
    labels: Mapping[str, Label] = field(default_factory=dict)


class Trouble(QWidget):
    """What is wrong, in a sentence, and a box to keep it all the same where it is a question."""

    def __init__(self, object_name: str, label: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.sentence = Words("", "refuse", self)
        self.sentence.setObjectName(f"{object_name}_problem")
        self.keep = QCheckBox(tr("Keep it all the same"), self)
        name_control(self.keep, f"{object_name}_keep", tr("Keep {label} all the same", label=label))
        below = QVBoxLayout(self)
        below.setContentsMargins(0, 0, 0, 0)
        below.setSpacing(2)
        below.addWidget(self.sentence)
        below.addWidget(self.keep)
        self.say("", "")

    def say(self, sentence: str, severity: str) -> None:
        """Show a sentence of severity "refuse" or "ask"; with none, nothing is shown.

        Another question asks for another tick.
        """
        if severity != "ask" or sentence != self.sentence.text():
            self.keep.setChecked(False)
        self.sentence.say(sentence, severity or "refuse")
        self.setVisible(bool(severity))
        self.keep.setVisible(severity == "ask")


class FormCell(QWidget):
    """A field's editor with what is wrong below; `label` stands in the grid row above.

    Its words are `label` where given, else the rule's. A form of fine columns takes `trouble` out
    of the cell and gives it the whole row.
    """

    def __init__(self, editor: Editor, prefix: str, label: Label = "") -> None:
        super().__init__()
        self.editor = editor
        self.trouble = Trouble(f"{prefix}{editor.info.name}", editor.info.rule.label, self)
        self.keep = self.trouble.keep
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(3)
        self.label = Caption("", wrap=True)
        self._own_label, self._help = label, help_of(editor.info)
        if not isinstance(editor, NestedEditor | CheckEditor):
            self.label.setText(words_of(label) or label_of(editor.info))
            self.label.setBuddy(editor.widget)
            self.label.setToolTip(editor.widget.toolTip())
        if isinstance(editor, CheckEditor):
            sized(editor.widget, least_height=LINE_HEIGHT)
        column.addWidget(editor.widget)
        column.addWidget(self.trouble)
        column.addStretch(1)

    def tell_again(self) -> None:
        """Tell label, name and value in the owner's units; what is typed stays."""
        self.editor.tell_again()
        if not isinstance(self.editor, NestedEditor | CheckEditor):
            self.label.setText(words_of(self._own_label) or label_of(self.editor.info))
            before, self._help = self._help, help_of(self.editor.info)
            self.label.setToolTip(self.label.toolTip().replace(before, self._help))

    @property
    def in_trouble(self) -> bool:
        """Whether something is said to be wrong."""
        return bool(self.trouble.sentence.text())

    def show_problem(self, problem: Problem | None) -> None:
        """Show what is wrong below the editor, or that nothing is."""
        severity = "" if problem is None else problem.severity
        self.trouble.say("" if problem is None else problem.sentence, severity)
        state = "" if severity == "ask" and self.keep.isChecked() else severity
        if isinstance(self.editor, NestedEditor):
            mark_parts(self.editor, state, "" if problem is None else problem.where)
        else:
            self.editor.set_state(state)


def mark_parts(editor: NestedEditor, state: str, path: str) -> None:
    """Mark the field of a small record that a path ends in, such as "zones[0].habit.minutes".

    Where it ends in none, those that cannot be read are marked; all where each can.
    """
    parts, named = editor.parts, path.rpartition(".")[2]
    wrong = {named} & set(parts) or {name for name, part in parts.items() if not _reads(part)}
    for name, part in parts.items():
        part.set_state(state if name in (wrong or parts) else "")


def _reads(editor: Editor) -> bool:
    try:
        editor.read()
    except OwnerError:
        return False
    return True


def questions_last(form: QWidget, boxes: Sequence[QCheckBox]) -> None:
    """Set the boxes of questions behind everything else in a form's order of Tab.

    A question comes up as its field is left: with its box next, a blind typist's keys would miss
    the field they were meant for.
    """
    last, each = form, form.nextInFocusChain()
    while each is not None and each is not form:
        if form.isAncestorOf(each) and each not in boxes:
            last = each
        each = each.nextInFocusChain()
    for box in boxes:
        QWidget.setTabOrder(last, box)
        last = box


def take_given_width(widget: QWidget) -> None:
    """Let the grid alone decide a width, so that its columns stay even."""
    widget.setSizePolicy(QSizePolicy.Policy.Ignored, widget.sizePolicy().verticalPolicy())
