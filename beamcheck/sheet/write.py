"""Files are written whole or not at all, those of one run together, and never over somebody else's."""

from __future__ import annotations

import os
import secrets
from collections.abc import Iterable, Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from errno import ELOOP
from pathlib import Path
from typing import IO

from ..errors import BeamcheckError
from .folder import alone, held, sweep
from .kept import WriteError, made_here, why_kept

__all__ = ["WriteError", "check_target", "made_here", "why_kept", "write_atomically", "write_together"]
FilePath = str | os.PathLike[str]
Content = str | bytes | Iterable[bytes]  # what is large in pieces, so that it is never in memory whole
_NAME = 40  # letters of its own name in that of a temporary file


def write_atomically(path: FilePath, content: Content, *, overwrite: bool = False) -> Path:
    """Write `content` to `path` by way of a temporary file in the same folder.

    Text is written as UTF-8 with the line ends it has. An existing file is replaced only when it was made by this tool
    and nothing shows that it was signed or edited since (see `why_kept`), or with `overwrite=True`.

    Raises WriteError if the folder is missing or not writable, the path is a folder, or the file is not to be replaced.
    """
    with _told(path), ExitStack() as stack:
        part = _Part(Path(path), content, overwrite, stack)
        part.put()
    return part.target


def write_together(files: Sequence[tuple[FilePath, Content]], *, overwrite: bool = False) -> list[Path]:
    """Write the files of one run: all of them or none, and none of another run between them.

    Raises WriteError as `write_atomically`, and where another run does not let go of a folder; nothing is changed then.
    """
    if not files:
        return []
    with ExitStack() as stack:
        with _told(files[0][0]):
            stack.enter_context(alone(*(_real(Path(path)).parent for path, _ in files)))
        parts: list[_Part] = []
        for path, content in files:
            with _told(path):
                parts.append(_Part(Path(path), content, overwrite, stack))
        done: list[_Part] = []
        try:
            for part in parts:
                with _told(part.target):
                    if len(parts) > 1:
                        part.keep_old()
                    part.put()
                done.append(part)
        except BaseException:
            for part in reversed(done):
                part.undo()
            raise
    return [part.target for part in parts]


def check_target(path: FilePath, *, overwrite: bool = False) -> None:
    """Whether a file may be written there, before any work is done for it. Raises WriteError if it may not."""
    with _told(path):
        _allowed(Path(path), overwrite)


class _Part:
    """One file on its way: written under another name in the folder, then put in its place in one step."""

    def __init__(self, path: Path, content: Content, overwrite: bool, stack: ExitStack) -> None:
        _allowed(path, overwrite)
        self.target = _real(path)  # a link stays, the file it names is replaced
        self.had_one = self.target.exists()
        self.old: Path | None = None
        sweep(self.target, _NAME)
        self._stack = stack
        self.temporary = self._scrap()
        file = stack.enter_context(open(self.temporary, "xb"))  # noqa: SIM115  closed with the stack
        _written(file, content)
        if self.had_one:
            os.chmod(self.temporary, self.target.stat().st_mode & 0o777)

    def _scrap(self) -> Path:
        """A name in the folder that is free; what stands there at the end is taken away."""
        name = self.target.with_name(f".{self.target.name[:_NAME]}.{secrets.token_hex(4)}.part")
        self._stack.callback(_gone, name)
        return name

    def keep_old(self) -> None:
        """Keep the file as it was under a second name until all of the run are in place; where the disk can do that."""
        if self.had_one:
            name = self._scrap()
            with suppress(OSError):
                os.link(self.target, name)
                self.old = name

    def put(self) -> None:
        os.replace(self.temporary, self.target)

    def undo(self) -> None:
        """As it was before, as far as that can be had."""
        with suppress(OSError):
            if self.old is not None:
                os.replace(self.old, self.target)
            elif not self.had_one:
                self.target.unlink()


def _written(file: IO[bytes], content: Content) -> None:
    held(file.fileno())  # whoever sweeps the folder sees that somebody is at work on it
    for piece in (content,) if isinstance(content, str | bytes) else content:
        file.write(piece.encode("utf-8", errors="replace") if isinstance(piece, str) else piece)
    file.flush()
    os.fsync(file.fileno())


def _gone(name: Path) -> None:
    with suppress(OSError):  # it is gone when all went well, and was never there when it could not be made
        name.unlink()


def _allowed(target: Path, overwrite: bool) -> None:
    _real(target)
    if target.is_dir():
        raise WriteError(f"{target} is a folder; give the name of a file in it")
    if target.exists() and not target.is_file():
        raise WriteError(f"{target} is a device or a pipe, not a file; give the name of a file")
    if not overwrite and target.exists() and (why := why_kept(target)):
        raise WriteError(f"{target} exists and {why}; give another name, or allow replacing it")


def _real(path: Path) -> Path:
    """The file that a link names in the end."""
    try:
        if path.is_symlink():
            path.stat()
    except FileNotFoundError:
        pass  # it names a file that is not there yet
    except OSError as error:
        if error.errno != ELOOP:
            raise
        raise WriteError(f"{path} is a link that leads back to itself; give another name") from None
    try:
        return path.resolve()
    except RuntimeError:  # what Python before 3.13 says of such a link
        raise WriteError(f"{path} lies behind a link that leads back to itself; give another name") from None


@contextmanager
def _told(path: FilePath) -> Iterator[None]:
    """What the system says of a file, in our words."""
    try:
        yield
    except WriteError:
        raise
    except (OSError, ValueError) as error:  # ValueError: a null character in the path
        if isinstance(error, BeamcheckError):
            raise
        why = error.strerror if isinstance(error, OSError) else str(error)
        raise WriteError(
            f"{os.fsdecode(path)} could not be written: {why}; "
            "check that the folder is there, may be written to and has room"
        ) from error
