"""A handover opened again: the notebook inside somebody's zip, taken out with care.

Only `notebook.lawnbook` is read. It counts where the other files in the zip say something else:
it holds every record and picture, and the program checks it as it checks any notebook. Nothing
else is unpacked, and nothing is written beside the zip.
"""

import shutil
import stat
import tempfile
import weakref
import zipfile
import zlib
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path, PurePosixPath
from typing import IO

from lawnbook.reading import tr
from lawnbook.store.files import opened_to_read, unreadable
from lawnbook.store.handover_names import NOTEBOOK_NAME, YARD_NAME, is_safe_member
from lawnbook.store.sqlite_store import load
from lawnbook.yard.notebook import Notebook, with_tables
from lawnbook.yard.numbers import whole
from lawnbook.yard.pictures import Picture
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.records import Pictured

MOST_MEMBERS = 20_000
MOST_BYTES = 4 * 2**30
"""The largest notebook that is taken out of a zip."""
MOST_TIMES = 200
"""How many times its packed size a notebook may be: more is a trap, not a notebook."""
ALWAYS_BYTES = 32 * 2**20
"""Up to this size the ratio is of no concern."""

_PIECE = 2**20
_METHODS = frozenset({zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED})
_ENCRYPTED = 1
_FROM_ELSEWHERE = "__MACOSX"


def load_handover(path: Path) -> Notebook:
    """The notebook of a handover, without changing the zip; OwnerError that names the zip.

    Its pictures are read from a copy in the system's folder for passing files, which goes when
    the notebook is forgotten or the program ends.
    """
    folder = _Folder()
    try:
        return _kept_with(_loaded(path, folder.path / NOTEBOOK_NAME), folder)
    except BaseException:
        # What went wrong may be held on to, and the folder with it.
        folder.remove()
        raise


def _loaded(path: Path, inside: Path) -> Notebook:
    with opened_to_read(path) as file, _explained(path), zipfile.ZipFile(file) as held:
        _take_out(held, path, _notebook_of(held, path), inside)
    try:
        return load(inside)
    except OwnerError as error:
        raise OwnerError(f"{path.name}: {error}") from error


class _Folder:
    """A folder of passing files that is removed when nobody holds it any more."""

    def __init__(self) -> None:
        self.path = Path(tempfile.mkdtemp(prefix="lawnbook-"))
        self.remove = weakref.finalize(self, shutil.rmtree, self.path, ignore_errors=True)


def _kept_with(notebook: Notebook, folder: _Folder) -> Notebook:
    """The notebook, its pictures holding on to the folder that they are read from."""

    def held(record: Pictured) -> Pictured:
        picture = record.data_b64

        def read(_folder: _Folder = folder) -> bytes:
            return picture.data()

        return replace(record, data_b64=Picture(picture.sha256, read))

    return with_tables(
        notebook,
        {
            "photos": map(held, notebook.photos.values()),
            "backdrops": map(held, notebook.backdrops.values()),
        },
    )


def _notebook_of(held: zipfile.ZipFile, path: Path) -> zipfile.ZipInfo:
    """The one notebook in the zip. OwnerError where the zip is none that Lawnbook would write."""
    members = held.infolist()
    if len(members) > MOST_MEMBERS:
        raise OwnerError(
            tr(
                "{name}: there are {whole} files in it; {not_ours}",
                name=path.name,
                whole=whole(len(members)),
                not_ours=_NOT_OURS,
            )
        )
    _refuse_bad_names(members, path)
    found = [each for each in members if _is_notebook(each.filename)]
    if not found:
        inside = any(PurePosixPath(each.filename).name == YARD_NAME for each in members)
        mend = (
            tr("unpack it and open its {yard_name} instead.", yard_name=YARD_NAME)
            if inside
            else _NOT_OURS
        )
        raise OwnerError(
            tr(
                "{name}: there is no {notebook_name} in it; {mend}",
                name=path.name,
                notebook_name=NOTEBOOK_NAME,
                mend=mend,
            )
        )
    if len(found) > 1:
        raise OwnerError(
            tr(
                "{name}: there are {count} notebooks in it; unpack it and open one of them.",
                name=path.name,
                count=len(found),
            )
        )
    _refuse_trap(found[0], path)
    return found[0]


_NOT_OURS = tr("it is no handover of Lawnbook; ask for the file anew.")


def _is_notebook(name: str) -> bool:
    place = PurePosixPath(name)
    return place.name == NOTEBOOK_NAME and _FROM_ELSEWHERE not in place.parts


def _refuse_bad_names(members: Iterable[zipfile.ZipInfo], path: Path) -> None:
    seen: set[str] = set()
    for each in members:
        name = each.filename
        if not is_safe_member(each.orig_filename) or not is_safe_member(name):
            raise OwnerError(
                tr(
                    "{name}: a file in it leads outside of it; {not_ours}",
                    name=path.name,
                    not_ours=_NOT_OURS,
                )
            )
        if stat.S_ISLNK(each.external_attr >> 16):
            raise OwnerError(
                tr(
                    "{name}: a file in it is only a link; {not_ours}",
                    name=path.name,
                    not_ours=_NOT_OURS,
                )
            )
        if name.casefold() in seen:
            raise OwnerError(
                tr(
                    "{name}: two files in it have one name; {not_ours}",
                    name=path.name,
                    not_ours=_NOT_OURS,
                )
            )
        seen.add(name.casefold())


def _refuse_trap(member: zipfile.ZipInfo, path: Path) -> None:
    if member.flag_bits & _ENCRYPTED:
        raise OwnerError(
            tr(
                "{name}: it is locked with a password; unpack it, then open the {notebook_name}.",
                name=path.name,
                notebook_name=NOTEBOOK_NAME,
            )
        )
    if member.compress_type not in _METHODS:
        raise OwnerError(
            tr(
                "{name}: it is packed in a way that is not read here; unpack it, then open the "
                "{notebook_name}.",
                name=path.name,
                notebook_name=NOTEBOOK_NAME,
            )
        )
    if member.file_size > MOST_BYTES:
        raise OwnerError(
            tr(
                "{name}: the notebook in it is larger than {most_bytes} GB; {not_ours}",
                name=path.name,
                most_bytes=MOST_BYTES // 2**30,
                not_ours=_NOT_OURS,
            )
        )
    most = max(ALWAYS_BYTES, MOST_TIMES * member.compress_size)
    if member.file_size > most:
        raise OwnerError(
            tr(
                "{name}: the notebook in it would grow to more than {most_times} times its "
                "packed size; {not_ours}",
                name=path.name,
                most_times=MOST_TIMES,
                not_ours=_NOT_OURS,
            )
        )


def _take_out(held: zipfile.ZipFile, path: Path, member: zipfile.ZipInfo, to: Path) -> None:
    """Write the notebook out piece by piece, never more than it says it is."""
    left = member.file_size
    with held.open(member) as source, _copying(path, to), to.open("wb") as target:
        while piece := _piece(source, path):
            left -= len(piece)
            if left < 0:
                break
            target.write(piece)
    if left:
        raise OwnerError(tr("{name}: the file is damaged; {anew}", name=path.name, anew=_ANEW))


def _piece(source: IO[bytes], path: Path) -> bytes:
    with _explained(path):
        return source.read(_PIECE)


@contextmanager
def _copying(path: Path, to: Path) -> Iterator[None]:
    """Tell of a full disk as such: it is the copy that finds no room, not the zip that is bad."""
    try:
        yield
    except OSError as error:
        why = (error.strerror or type(error).__name__).lower()
        raise OwnerError(
            tr(
                "{name}: its notebook cannot be unpacked into {parent} ({why}); free some "
                "space there.",
                name=path.name,
                parent=to.parent,
                why=why,
            )
        ) from error


_ANEW = tr("ask for it anew, or take another copy.")


@contextmanager
def _explained(path: Path) -> Iterator[None]:
    """Turn what is wrong with a zip, or with the disk, into an OwnerError."""
    try:
        yield
    except zipfile.BadZipFile as error:
        raise OwnerError(
            tr("{name}: this is no zip file, or a damaged one; {anew}", name=path.name, anew=_ANEW)
        ) from error
    except (zlib.error, EOFError, NotImplementedError, RuntimeError, ValueError) as error:
        raise OwnerError(
            tr("{name}: the file is damaged; {anew}", name=path.name, anew=_ANEW)
        ) from error
    except OSError as error:
        raise OwnerError(unreadable(path, error)) from error
