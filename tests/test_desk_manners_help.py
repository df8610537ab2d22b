"""Help is the manual: README.md is there whole, and what it names is in the program."""

import re
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from lawnbook import cli
from lawnbook.desk import help_text
from lawnbook.desk.key_list import keys_table
from lawnbook.desk.leaf_help import MOST_TERMS, help_passages
from lawnbook.desk.leaf_news import news_passages
from lawnbook.desk.pages.feed import SECTIONS as FEED
from lawnbook.desk.pages.plugs import SECTIONS as PLUGS
from lawnbook.desk.pages.season import SECTIONS as SEASON
from lawnbook.desk.pages.sheet import SECTIONS as SHEET
from lawnbook.desk.pages.water import SECTIONS as WATER
from lawnbook.desk.pages.yard import SECTIONS as YARD
from lawnbook.desk.settings import Settings
from lawnbook.desk.spread import TABS
from lawnbook.desk.window import BookWindow
from lawnbook.languages import words_of as words_in
from lawnbook.reading import Reading, reading_as, tr
from lawnbook.session.open_notebook import OpenNotebook
from lawnbook.yard.places import manual, resource
from tests.leaf_hand import Host, text_leaf

pytest_plugins = ["tests.desk_book", "tests.leaf_book"]

README = manual().read_text("utf-8")
HEADINGS = re.findall(r"^##? (.+)$", README, re.MULTILINE)
STEPS = README.partition("## First steps")[2].partition("\n## ")[0]
ITEMS = re.findall(r"^\d+\. \*\*([^*]+)\*\*", STEPS, re.MULTILINE)
PASSAGES = {each.key: each for each in help_passages("en")}
PAGES = {
    "Yard": YARD,
    "Plugs": PLUGS,
    "Water": WATER,
    "Feed": FEED,
    "Season": SEASON,
    "Sheet": SHEET,
}


SPANISH = Reading(language="es", words=words_in("es", resource("languages")))


SPANISH_LINES = {
    "watered 30 min front lawn yesterday": "riego 30 min césped delantero ayer",
    "mowed": "siega",
    "rain 0.4": "lluvia 0.4",
}
"""What the manual shows of the quick line, in both languages."""


def words_of(text: str) -> set[str]:
    return set(re.findall(r"\w+", text))


def test_the_manual_has_the_sections_that_the_tests_below_walk() -> None:
    assert len(HEADINGS) >= 8
    assert {name for name, _ in TABS} <= set(ITEMS)


@pytest.mark.parametrize("heading", HEADINGS)
def test_every_section_of_the_readme_is_a_passage_with_all_its_words(heading: str) -> None:
    found = help_text.found_in(tuple(PASSAGES.values()), heading)
    passage = PASSAGES[found]
    body = re.split(r"^##? .+$", README, flags=re.MULTILINE)[HEADINGS.index(heading) + 1]
    below = [each.plain for key, each in PASSAGES.items() if key.startswith(f"{found}/")]
    told = " ".join([passage.plain, *below, passage.html])
    wanted = words_of(re.sub(r"\]\([^)]*\)|^```\w*$", "]", body, flags=re.MULTILINE))
    missing = wanted - words_of(told)
    assert missing <= set(re.findall(r"\d+", body)), heading


@pytest.mark.parametrize("item", ITEMS)
def test_every_step_of_the_first_steps_has_a_passage_of_its_own(item: str) -> None:
    assert f"first-steps/{help_text.key_of(item)}" in PASSAGES


def test_the_keys_that_the_manual_names_are_in_the_list_of_keys() -> None:
    named = set(re.findall(r"\b(?:Ctrl|Shift|Alt)\+\w+|\bF\d+\b", README))
    assert named
    assert {each for each in named if each not in keys_table()} == set()


def test_the_commands_that_the_manual_names_are_there() -> None:
    named = set(re.findall(r"^lawnbook ([a-z-]+) ", README, re.MULTILINE))
    assert named == set(cli.COMMANDS)


@pytest.mark.parametrize("page", PAGES)
def test_the_sections_that_the_manual_names_stand_on_their_page(page: str) -> None:
    text = PASSAGES[f"first-steps/{page.lower()}"]
    named = re.findall(r"<i>([A-Z][a-z ]+)</i>(?: \([^)]*\))?:", text.html)
    assert set(named) <= set(PAGES[page]), page


def test_pictures_and_links_of_the_manual_stay_inside_the_program(
    host: Host, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[QUrl] = []
    monkeypatch.setattr(QDesktopServices, "openUrl", opened.append)
    leaf = text_leaf(host, "help")
    for name in re.findall(r"!\[[^\]]*\]\(([^)]+)\)", README):
        picture = leaf.draw(name, 300)
        assert 0 < picture.width() / picture.devicePixelRatio() <= 300
        assert not picture.isNull()
    links = {each for p in PASSAGES.values() for each in re.findall(r'href="([^"]+)"', p.html)}
    assert {each.partition(":")[0] for each in links} <= {"section", "file-of-ours", "glossary"}
    for each in links:
        if not each.startswith("glossary:"):
            leaf.follow(QUrl(each))
    assert opened
    assert all(url.isLocalFile() and Path(url.toLocalFile()).is_file() for url in opened)


def test_a_link_leads_to_its_passage(host: Host) -> None:
    leaf = text_leaf(host, "help", "First steps")
    leaf.follow(QUrl("section:first-steps/water"))
    assert leaf.contents.picked == "first-steps/water"
    assert leaf.text.toPlainText().startswith("Water")


def test_a_passage_leads_to_the_terms_it_uses(host: Host) -> None:
    leaf = text_leaf(host, "help", "Plugs")
    html = PASSAGES["first-steps/plugs"].html
    terms = re.findall(r'href="glossary:([^"]+)"', html)
    assert {"thatch", "comparison-strip"} <= set(terms)
    assert len(terms) <= MOST_TERMS
    leaf.follow(QUrl(f"glossary:{terms[0]}"))
    glossary = text_leaf(host, "glossary")
    assert glossary.isVisible()
    assert not leaf.isVisible()
    assert glossary.contents.picked == terms[0]


def test_f1_opens_help_at_the_page_that_is_open(
    qtbot: QtBot, dressed: QApplication, empty_book: OpenNotebook, settings: Settings
) -> None:
    window = BookWindow(empty_book, settings)
    window.show()
    qtbot.waitUntil(lambda: window.held_plan is not None)
    for name, _ in TABS:
        window.turn_to(name)
        QTest.keyClick(window, Qt.Key.Key_F1)
        leaf = text_leaf(window, "help")
        assert leaf.contents.picked == f"first-steps/{name.lower()}"
    window.open_help("Cautions")
    assert leaf.contents.picked == "cautions"
    leaf.close()
    window.close()
    window.deleteLater()


def test_a_link_is_reached_and_followed_by_keys(qtbot: QtBot, host: Host) -> None:
    leaf = text_leaf(host, "help", "First steps")
    leaf.activateWindow()
    qtbot.waitUntil(leaf.isActiveWindow)
    leaf.text.setFocus()
    QTest.keyClick(leaf.text, Qt.Key.Key_Tab)
    assert leaf.text.hasFocus()
    QTest.keyClick(leaf.text, Qt.Key.Key_Return)
    assert leaf.contents.picked == f"first-steps/{help_text.key_of(ITEMS[0])}"


def test_an_installed_program_finds_its_manual_and_a_translation_comes_first(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """A wheel carries README.md beside the resources, inside the package."""
    held = tmp_path / "lawnbook" / "_data"
    (held / "resources" / "help").mkdir(parents=True)
    (held / "README.md").write_text("# Lawnbook\n\nIn English.\n", encoding="utf-8")
    monkeypatch.setattr("lawnbook.yard.places._PACKAGE", tmp_path / "lawnbook")
    assert [each.plain for each in help_passages("es")] == ["In English."]
    translated = held / "resources" / "help" / "README.es.md"
    translated.write_text("# Lawnbook\n\nEn español.\n", encoding="utf-8")
    assert [each.plain for each in help_passages("es")] == ["En español."]
    assert manual("en") == held / "README.md"


def in_spanish(text: str) -> str:
    """The manual with its plain lines of the quick line as somebody types them in Spanish."""
    for line, typed in SPANISH_LINES.items():
        assert f"`{line}`" in text
        text = text.replace(f"`{line}`", f"`{typed}`")
    return text


def test_the_spanish_manual_has_every_passage_and_each_page_finds_its_help() -> None:
    text = manual("es").read_text("utf-8")
    with reading_as(SPANISH):
        told = help_passages("es")
        found = {name: help_text.found_in(told, name) for name in PAGES}
        titles = {each.key: each.title for each in told}
        assert {name: titles[key] for name, key in found.items()} == {p: tr(p) for p in PAGES}
        assert all(key.startswith("primeros-pasos/") for key in found.values())
    assert [each.depth for each in told] == [each.depth for each in PASSAGES.values()]
    for marks in (r"(?:Ctrl|Shift)\+[\w.,]|\bF\d\b", r"^lawnbook .+$", r"(?<!`)`[^`\n]+`(?!`)"):
        # A key is called as it is written on the keyboards of the language.
        both = (in_spanish(README), text.replace("Mayús", "Shift"))
        english, spanish = (re.findall(marks, each, re.MULTILINE) for each in both)
        assert sorted(english) == sorted(spanish) != []
    for target in re.findall(r"\]\(([^)]+)\)", text):
        assert (resource("help") / target).is_file(), target


@pytest.mark.parametrize("page", PAGES)
def test_the_spanish_manual_names_sections_as_the_page_does(page: str) -> None:
    section = r"<li><i>([^<]+)</i>(?: \([^)]*\))?:"
    plain = re.findall(section, PASSAGES[f"first-steps/{page.lower()}"].html)
    with reading_as(SPANISH):
        told = {each.key: each for each in help_passages("es")}
        named = re.findall(section, told[help_text.found_in(tuple(told.values()), page)].html)
    assert len(named) == len(plain)
    words = SPANISH.words
    assert [words.get(each, other) for each, other in zip(plain, named, strict=True)] == named


def test_pictures_and_files_of_the_spanish_manual_are_those_of_the_english_one() -> None:
    with reading_as(SPANISH):
        html = "".join(each.html for each in help_passages("es"))
    plain = "".join(each.html for each in PASSAGES.values())
    for marks in (r'src="([^"]+)"', r'href="(file-of-ours:[^"]+)"'):
        assert re.findall(marks, html) == re.findall(marks, plain) != []


def test_the_spanish_news_tell_of_every_version() -> None:
    told, plain = news_passages("es"), news_passages("en")
    assert [each.key for each in told] == [each.key for each in plain]
    for spanish, english in zip(told, plain, strict=True):
        assert spanish.html.count("<li>") == english.html.count("<li>")
        assert spanish.plain != english.plain


def test_a_text_of_every_mark_is_read_whole() -> None:
    text = (
        "# Head\n\nA **bold** and *slanted* `co<de` with [a link](#there), [net](https://x.org).\n\n"
        "- one\n  goes on\n- two\n\n1. first\n2. second\n\n| a | b |\n| --- | --- |\n| c | d |\n\n"
        "```sh\n# no heading\n```\n\n### Below\n\nEnd & out."
    )
    (passage,) = help_text.passages_of(text)
    assert passage.title == "Head"
    for each in (
        "<b>bold</b>",
        "<i>slanted</i>",
        "<code>co&lt;de</code>",
        '<a href="section:there">a link</a>',
        "net (https://x.org)",
        "<ul><li>one goes on</li><li>two</li></ul>",
        "<ol><li>first</li><li>second</li></ol>",
        "<tr><td>a</td><td>b</td></tr><tr><td>c</td><td>d</td></tr>",
        "<pre># no heading</pre>",
        "<h3>Below</h3>",
        "End &amp; out.",
    ):
        assert each in passage.html
    assert passage.holds("BOLD there") is False
    assert passage.holds("BOLD out")


def test_an_installation_without_its_manual_says_so(
    host: Host, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr("lawnbook.desk.leaf_help.manual", lambda _: tmp_path / "none.md")
    leaf = text_leaf(host, "help")
    assert "missing from this installation" in leaf.text.toPlainText()
    QTest.keyClick(leaf, Qt.Key.Key_Escape)
    assert not leaf.isVisible()
