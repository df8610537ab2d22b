"""The manual as passages to read inside the program: README.md parted at its headings; no Qt.

It reads the few marks that our own texts use: headings, paragraphs, lists, tables, code, pictures,
bold, italics, links. What it does not know stays as it was written, so that nothing is lost.
"""

import re
from collections.abc import Iterator
from html import escape
from itertools import groupby

from lawnbook.frozen import dataclass
from lawnbook.reading import tr
from lawnbook.yard.places import resource

_INLINE = re.compile(
    r"`(?P<code>[^`]+)`|!\[(?P<alt>[^\]]*)\]\((?P<picture>[^)\s]+)\)"
    r"|\[(?P<words>[^\]]+)\]\((?P<target>[^)\s]+)\)"
    r"|\*\*(?P<bold>.+?)\*\*|\*(?P<slanted>[^*\s][^*]*)\*"
)
_ITEM = re.compile(r"(?:(?P<number>\d+)\.|[-*]) +")
_NAMED = re.compile(r"\*\*(?P<name>[^*]+?)\.?\*\*")
_SECTION = re.compile(r"(?<=[.;,)]) (?=(?:(?:and|y) )?\*[A-ZÁÉÍÓÚÑ][^*]+\*(?: \([^)]*\))?:)")
_RESOURCES = "resources/"
_BESIDE = re.compile(r"^\.\./(?=\w)")
"""How a translation, which lies in `resources/help`, leads to the other resources."""
PICTURES = "picture:"
"""The beginning of the address of a picture that the leaf draws or reads itself."""
FILES = "file-of-ours:"
"""The beginning of the address of a file that came with the program."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """A part of a text under a name of its own; `depth` is 1 for a part of the one before."""

    key: str
    title: str
    html: str
    plain: str
    depth: int = 0

    def holds(self, words: str) -> bool:
        """Whether every one of these words stands in it, in capitals or not."""
        text = f"{self.title}\n{self.plain}".casefold()
        return all(each in text for each in words.casefold().split())


def passages_of(text: str, parted: tuple[str, ...] | None = None) -> tuple[Passage, ...]:
    """The passages of a text in our marks: one for each heading, in the order of the text.

    Sections named in `parted` (with None the first steps, as the reader reads them) have a passage
    of its own for each item of their list that begins with a name in bold: so each page of the book
    finds its help.
    """
    found: list[Passage] = []
    parted = (tr("First steps"),) if parted is None else parted
    for level, title, lines in _sections(text):
        heads, items = _items_apart(lines) if title in parted else (lines, [])
        body = "\n".join(lines if not items else heads)
        told = html_of(body)
        if items:
            told += "<ul>" + "".join(_link_to(title, name) for name, _ in items) + "</ul>"
        depth = max(0, level - 2)
        found.append(_passage(key_of(title), title, told, body, depth))
        for name, item in items:
            key = f"{key_of(title)}/{key_of(name)}"
            found.append(_passage(key, name, html_of(_sections_apart(item)), item, depth + 1))
    return tuple(each for each in found if each.html)


def key_of(title: str) -> str:
    """A heading as part of an address: "First steps" is "first-steps"."""
    return re.sub(r"[^\w]+", "-", title.casefold()).strip("-")


def found_in(passages: tuple[Passage, ...], section: str) -> str:
    """The key of the passage of a key or name, "" where there is none.

    A page's own name, which is English, finds its help in the reader's language as well.
    """
    wanted = {section.casefold(), tr(section).casefold()}
    for each in passages:
        if not wanted.isdisjoint((each.key, each.title.casefold(), each.key.rpartition("/")[2])):
            return each.key
    return ""


def html_of(text: str) -> str:
    """A text in our marks as HTML of the few tags that Qt's text shows."""
    return "".join(_blocks(text.strip("\n").split("\n")))


def plain_of(text: str) -> str:
    """The words of a text without its marks, for searching."""

    def bare(found: re.Match[str]) -> str:
        return next((part for part in found.groups() if part is not None), "")

    lines = (re.sub(r"^ *(?:#+|[-*]|\d+\.) +", "", line) for line in text.split("\n"))
    joined = " ".join(line.strip() for line in lines if not line.startswith("```"))
    return " ".join(_INLINE.sub(bare, joined).split())


def _passage(key: str, title: str, html: str, text: str, depth: int) -> Passage:
    return Passage(key=key, title=title, html=html, plain=plain_of(text), depth=depth)


def _link_to(section: str, name: str) -> str:
    return f'<li><a href="section:{key_of(section)}/{key_of(name)}">{escape(name)}</a></li>'


def _sections_apart(item: str) -> str:
    """A page's help with each section of the page (*Now*: …) as a point of a list."""
    first, *others = _SECTION.split(" ".join(item.split()))
    return "\n".join([first, "", *(f"- {each}" for each in others)])


def _sections(text: str) -> Iterator[tuple[int, str, list[str]]]:
    """Level, heading and lines of each section; lines of code are no headings."""
    level, title, lines, in_code = 1, "", list[str](), False
    for line in text.splitlines():
        in_code ^= line.startswith("```")
        head = None if in_code else re.match(r"(#{1,2}) +(.+)", line)
        if head is None:
            lines.append(line)
            continue
        if title or any(lines):
            yield level, title, lines
        level, title, lines = len(head[1]), head[2].strip(), []
    yield level, title, lines


def _items_apart(lines: list[str]) -> tuple[list[str], list[tuple[str, str]]]:
    """The lines before and after a section's list, and its items by the names they begin with."""
    rest: list[str] = []
    items: list[tuple[str, str]] = []
    for line in lines:
        head = _ITEM.match(line)
        named = _NAMED.match(line[head.end() :]) if head is not None else None
        if head is not None and named is not None:
            items.append((named["name"], line[head.end() :]))
        elif items and (line.startswith("  ") and line.strip()):
            items[-1] = (items[-1][0], f"{items[-1][1]}\n{line.strip()}")
        else:
            rest.append(line)
    return rest, items


def _blocks(lines: list[str]) -> Iterator[str]:
    """The HTML of paragraphs, lists, tables and code, one after the other."""
    row = 0
    while row < len(lines):
        line = lines[row]
        end = row + 1
        if line.startswith("```"):
            while end < len(lines) and not lines[end].startswith("```"):
                end += 1
            yield f"<pre>{escape(chr(10).join(lines[row + 1 : end]))}</pre>"
            row = end + 1
            continue
        while line.strip() and end < len(lines) and _goes_on(line, lines[end]):
            end += 1
        if line.strip():
            yield _block(lines[row:end])
        row = end


def _goes_on(first: str, line: str) -> bool:
    """Whether a line belongs to the block that begins with `first`."""
    if not line.strip() or line.startswith(("```", "#")):
        return False
    if _ITEM.match(first):
        return True
    return bool(first.startswith("|") == line.startswith("|")) and not _ITEM.match(line)


def _block(lines: list[str]) -> str:
    first = lines[0]
    if head := re.match(r"#+ +(.+)", first):
        return f"<h3>{_inline(head[1])}</h3>"
    if first.startswith("|"):
        return _table(lines)
    if found := _ITEM.match(first):
        tag = "ol" if found["number"] else "ul"
        items: list[str] = []
        for line in lines:
            head = _ITEM.match(line)
            if head:
                items.append(line[head.end() :])
            else:
                items[-1] += f" {line.strip()}"
        return f"<{tag}>" + "".join(f"<li>{_inline(item)}</li>" for item in items) + f"</{tag}>"
    return f"<p>{_inline(' '.join(line.strip() for line in lines))}</p>"


def _table(lines: list[str]) -> str:
    rows = [[cell.strip() for cell in line.strip().strip("|").split("|")] for line in lines]
    shown = [row for row in rows if not all(set(cell) <= set("-: ") for cell in row)]
    cells = ("".join(f"<td>{_inline(cell)}</td>" for cell in row) for row in shown)
    return "<table>" + "".join(f"<tr>{each}</tr>" for each in cells) + "</table>"


def _inline(text: str) -> str:
    told, end = "", 0
    for found in _INLINE.finditer(text):
        told += escape(text[end : found.start()], quote=False) + _span(found)
        end = found.end()
    return told + escape(text[end:], quote=False)


def _span(found: re.Match[str]) -> str:
    if (code := found["code"]) is not None:
        return f"<code>{escape(code)}</code>"
    if (bold := found["bold"]) is not None:
        return f"<b>{_inline(bold)}</b>"
    if (slanted := found["slanted"]) is not None:
        return f"<i>{_inline(slanted)}</i>"
    if (picture := found["picture"]) is not None:
        said, lies = escape(found["alt"]), escape(_BESIDE.sub(_RESOURCES, picture))
        return f'<img src="{PICTURES}{lies}" alt="{said}"><br><i>{said}</i>'
    return _link(found["words"], found["target"])


def _link(words: str, target: str) -> str:
    """A link that stays inside the program; an address elsewhere is told, not followed."""
    if target.startswith("#"):
        return f'<a href="section:{escape(target[1:])}">{_inline(words)}</a>'
    if target.startswith(("http:", "https:")):
        return f"{_inline(words)} ({escape(target)})" if words != target else escape(target)
    target = _BESIDE.sub(_RESOURCES, target)
    if target.startswith(_RESOURCES) and _is_ours(target.removeprefix(_RESOURCES)):
        return f'<a href="{FILES}{escape(target.removeprefix(_RESOURCES))}">{_inline(words)}</a>'
    return _inline(words)


def _is_ours(name: str) -> bool:
    try:
        return resource(name).is_file()
    except FileNotFoundError:
        return False


def grouped(passages: tuple[Passage, ...]) -> list[list[Passage]]:
    """The passages in groups: one of depth 0 with those below it."""
    tops = -1
    marked: list[tuple[int, Passage]] = []
    for each in passages:
        tops += each.depth == 0
        marked.append((tops, each))
    return [[each for _, each in group] for _, group in groupby(marked, lambda pair: pair[0])]
