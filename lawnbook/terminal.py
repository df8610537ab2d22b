"""What a command says in a terminal: the answer on stdout, one line of trouble on stderr."""

import os
import sys
from types import TracebackType

from lawnbook.reading import tr
from lawnbook.yard.problems import OwnerError


def say(text: str) -> None:
    """Print for the owner. A reader that has gone away, as `head` does, changes nothing else.

    Raises OwnerError where the output cannot be written.
    """
    try:
        print(text, flush=True)
    except BrokenPipeError:
        _let_go_of_stdout()
    except UnicodeEncodeError:
        encoding = sys.stdout.encoding
        print(text.encode(encoding, "replace").decode(encoding), flush=True)
    except OSError as error:
        _let_go_of_stdout()
        raise OwnerError(tr("the output cannot be written ({why})", why=error.strerror)) from error


def tell(sentence: str) -> None:
    """One line on stderr, whatever the sentence holds: no sign in it may steer a terminal."""
    line = " ".join(sentence.split())
    print("".join(c if c.isprintable() else ascii(c)[1:-1] for c in line), file=sys.stderr)


def report_bug(
    kind: type[BaseException], error: BaseException, trace: TracebackType | None
) -> None:
    """What Python calls for an exception that nobody caught: a report, and no traceback."""
    from lawnbook.session.bug_report import sentence_about

    tell(sentence_about(error))


def _let_go_of_stdout() -> None:
    # Python flushes standard output once more on leaving; that must not fail a second time.
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
