"""A picture's bytes behind their SHA-256: the same picture is the same value, read or not."""

import base64
import binascii
from collections.abc import Callable

from lawnbook.yard.problems import OwnerError


class Picture:
    """The bytes of a picture file, known by their SHA-256 and read only when asked for.

    Two pictures are equal where their bytes are. Immutable, but that bytes once read are kept if
    `of` made it: one that lies elsewhere is read anew each time, so that a book full of pictures
    does not fill the memory.
    """

    __slots__ = ("_read", "sha256")

    def __init__(self, sha256: str, read: Callable[[], bytes]) -> None:
        """A picture that lies elsewhere; `read` brings its bytes."""
        self.sha256 = sha256
        self._read = read

    @classmethod
    def of(cls, data: bytes) -> "Picture":
        """The picture of bytes that are at hand."""
        return cls(sha256_of(data), lambda: data)

    @classmethod
    def from_base64(cls, text: str) -> "Picture | None":
        """The picture of a base64 text, None where it is none or holds nothing."""
        try:
            data = base64.b64decode(text, validate=True)
        except (binascii.Error, ValueError):
            return None
        return cls.of(data) if data else None

    def data(self) -> bytes:
        """The bytes. Raises OwnerError where they cannot be read any more."""
        return self._read()

    def is_readable(self) -> bool:
        """Whether its bytes can be read now; they are, and let go again."""
        try:
            self._read()
        except OwnerError:
            return False
        return True

    def base64(self) -> str:
        """The bytes as base64 text."""
        return base64.b64encode(self.data()).decode("ascii")

    def __eq__(self, other: object) -> bool:
        """Whether the bytes are the same, by their SHA-256."""
        return isinstance(other, Picture) and other.sha256 == self.sha256

    def __hash__(self) -> int:
        """Of the SHA-256."""
        return hash(self.sha256)

    def __repr__(self) -> str:
        """The beginning of the SHA-256; never the bytes."""
        return f"Picture({self.sha256[:8]}…)"


def sha256_of(data: bytes) -> str:
    """The SHA-256 of bytes as 64 hexadecimal digits."""
    import hashlib

    return hashlib.sha256(data).hexdigest()
