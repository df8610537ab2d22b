"""A strict reader of iCalendar's line rules, written from RFC 5545, for the tests only.

It knows nothing of the library that writes the files. Section numbers are RFC 5545's.
"""

import re
from dataclasses import dataclass
from datetime import date

MOST_OCTETS = 75
NAME = re.compile(r"[A-Za-z0-9-]+")
# 3.1: name *(";" param) ":" value, and no control character but the tab.
LINE = re.compile(r"([A-Za-z0-9-]+)((?:;[A-Za-z0-9-]+=(?:\"[^\"]*\"|[^\";:,]*))*):(.*)", re.DOTALL)
CONTROL = re.compile("[\x00-\x08\x0a-\x1f\x7f]")
# 3.3.11: a text holds no bare comma, semicolon or backslash.
TEXT = re.compile(r"(?:\\[\\;,nN]|[^\\;,])*")
TEXTS = {"SUMMARY", "DESCRIPTION", "UID", "NAME", "X-WR-CALNAME", "PRODID"}
ONCE = ("UID", "DTSTAMP", "SEQUENCE", "DTSTART", "DTEND", "SUMMARY", "DESCRIPTION", "TRANSP")


@dataclass(frozen=True, slots=True)
class Line:
    """A content line: its name, its parameters as written, its value as written."""

    name: str
    parameters: str
    value: str


@dataclass(frozen=True, slots=True)
class ReadEvent:
    """An event as it was read: texts without their escapes, days as dates."""

    uid: str
    sequence: int
    starts: date
    ends: date
    summary: str
    description: str
    categories: tuple[str, ...]


def lines_of(data: bytes) -> list[Line]:
    """The content lines, unfolded (3.1); AssertionError where a rule is broken."""
    assert data.endswith(b"\r\n")
    physical = data[:-2].split(b"\r\n")
    assert all(b"\r" not in each and b"\n" not in each for each in physical)
    assert all(0 < len(each) <= MOST_OCTETS for each in physical)
    unfolded: list[str] = []
    for each in physical:
        # A fold may not part the bytes of one letter, so that every line is UTF-8 by itself.
        text = each.decode("utf-8")
        if text[0] in " \t":
            unfolded[-1] += text[1:]
        else:
            unfolded.append(text)
    return [_line(each) for each in unfolded]


def read_events(data: bytes) -> tuple[dict[str, str], list[ReadEvent]]:
    """The calendar's own properties and its events; AssertionError where a rule is broken."""
    lines = lines_of(data)
    assert (lines[0].name, lines[0].value) == ("BEGIN", "VCALENDAR")
    assert (lines[-1].name, lines[-1].value) == ("END", "VCALENDAR")
    head: dict[str, str] = {}
    events: list[ReadEvent] = []
    inside: dict[str, Line] | None = None
    for line in lines[1:-1]:
        if (line.name, line.value) == ("BEGIN", "VEVENT"):
            assert inside is None
            inside = {}
        elif (line.name, line.value) == ("END", "VEVENT"):
            assert inside is not None
            events.append(_event(inside))
            inside = None
        else:
            kept = head if inside is None else None
            if kept is not None:
                assert line.name not in kept
                kept[line.name] = _text(line)
            elif inside is not None:
                assert line.name not in inside
                inside[line.name] = line
    assert head["VERSION"] == "2.0"
    assert head["PRODID"]
    assert "METHOD" not in head
    # 3.6: a calendar holds at least one component.
    assert events
    return head, events


def _line(text: str) -> Line:
    assert not CONTROL.search(text), text
    match = LINE.fullmatch(text)
    assert match is not None, text
    return Line(match[1].upper(), match[2], match[3])


def _event(lines: dict[str, Line]) -> ReadEvent:
    assert set(ONCE) <= set(lines)
    assert lines["TRANSP"].value == "TRANSPARENT"
    # 3.8.7.2: the stamp is told in UTC.
    assert re.fullmatch(r"\d{8}T\d{6}Z", lines["DTSTAMP"].value)
    starts, ends = _day(lines["DTSTART"]), _day(lines["DTEND"])
    # 3.8.2.2: the end comes later than the start, and is not part of the event.
    assert starts < ends
    return ReadEvent(
        uid=_text(lines["UID"]),
        sequence=int(lines["SEQUENCE"].value),
        starts=starts,
        ends=ends,
        summary=_text(lines["SUMMARY"]),
        description=_text(lines["DESCRIPTION"]),
        categories=tuple(_unescaped(each) for each in _parted(lines["CATEGORIES"].value)),
    )


def _day(line: Line) -> date:
    assert line.parameters == ";VALUE=DATE"
    assert re.fullmatch(r"\d{8}", line.value)
    return date(int(line.value[:4]), int(line.value[4:6]), int(line.value[6:]))


def _text(line: Line) -> str:
    if line.name in TEXTS:
        assert TEXT.fullmatch(line.value), line.value
        return _unescaped(line.value)
    return line.value


def _parted(value: str) -> list[str]:
    return re.findall(r"(?:\\.|[^,\\])+", value)


def _unescaped(value: str) -> str:
    return re.sub(r"\\(.)", lambda found: "\n" if found[1] in "nN" else found[1], value)
