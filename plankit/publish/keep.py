"""Putting files in place so that a reader finds the old ones or the new ones, never half of either."""

import ctypes
import errno
import os
import shutil
import sys
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from plankit.errors import PlanError

_HERE, _EXCHANGE = -100, 2  # AT_FDCWD and RENAME_EXCHANGE of Linux's renameat2(2)
_CANNOT = {errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EPERM, errno.EXDEV}


@contextmanager
def staged(target: Path) -> Iterator[Path]:
    """Give a new folder beside `target` to write in; it is gone again when the block ends.

    raises  PlanError where the disk is full or may not be written
    """
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        stage = Path(tempfile.mkdtemp(prefix=f".{target.name}.", dir=target.parent))
    except OSError as error:
        raise cannot_write(target, error) from error
    try:
        yield stage
    except OSError as error:
        raise cannot_write(target, error) from error
    finally:
        shutil.rmtree(stage, ignore_errors=True)


def cannot_write(target: Path, error: OSError) -> PlanError:
    """Return what to say when a folder cannot be written; what stood there before is untouched."""
    if error.errno == errno.ENOSPC:
        return PlanError(
            "the disk is full; what was there before is as it was",
            where=str(target),
            remedy="Free some space, or give another folder with --into.",
        )
    return PlanError(f"this cannot be written: {error.strerror or error}", where=str(target))


def write_all(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write files, by their path inside a folder, each anew: what a file of that name was linked to stays."""
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.unlink(missing_ok=True)
        with path.open("xb") as file:
            file.write(content)


def place_file(path: Path, content: bytes) -> None:
    """Put one file in place at once, written beside it first; through a link, what the link names.

    raises  PlanError where the disk is full or the place may not be written; what was there before stays
    """
    try:
        _place_file(_end_of_links(path), content)
    except OSError as error:
        raise cannot_write(path, error) from error


def _end_of_links(path: Path) -> Path:
    try:
        return path.resolve()
    except RuntimeError as error:  # links that lead round in a circle, before Python 3.13
        raise OSError(errno.ELOOP, os.strerror(errno.ELOOP)) from error


def _place_file(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    if path.exists() and not path.is_file():
        path.write_bytes(content)  # a device or a pipe is written to, not replaced
        return
    number, name = tempfile.mkstemp(prefix=".plankit.", dir=path.parent)
    beside = Path(name)
    try:
        with os.fdopen(number, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        beside.chmod(_mode(path))
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)


def _mode(path: Path) -> int:
    """Return the permissions of a file that is there, or those a new one gets."""
    try:
        return path.stat().st_mode & 0o777
    except OSError:
        mask = os.umask(0)
        os.umask(mask)
        return 0o666 & ~mask


def place(target: Path, files: Mapping[str, bytes], stale: Iterable[str] = ()) -> None:
    """Put files into a folder that may hold others: all are written beside it, then moved in one by one.

    stale   names of files of an earlier time to take away
    raises  PlanError where the disk is full; nothing in the folder has changed then
    """
    with staged(target) as stage:
        write_all(stage, files)
        target.mkdir(exist_ok=True)
        for name in files:
            (target / name).parent.mkdir(parents=True, exist_ok=True)
            (stage / name).replace(target / name)
        for name in stale:
            if name not in files:
                (target / name).unlink(missing_ok=True)


def switch(new: Path, target: Path) -> None:
    """Let a finished folder take the place of another at once; what stood there is then at `new`."""
    new.chmod(0o755)
    if not target.exists():
        new.rename(target)
        return
    if not _exchange(new, target):
        aside = new.with_name(new.name + ".old")
        target.rename(aside)
        try:
            new.rename(target)
        except OSError:
            aside.rename(target)
            raise
        aside.rename(new)


def _exchange(one: Path, other: Path) -> bool:
    """Exchange two folders in one step, where the system can."""
    if not sys.platform.startswith("linux"):
        return False
    try:
        call = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    done = call(_HERE, os.fsencode(one), _HERE, os.fsencode(other), _EXCHANGE)
    if done == 0:
        return True
    number = ctypes.get_errno()
    if number in _CANNOT:
        return False
    raise OSError(number, os.strerror(number), str(other))


def copy_folder(source: Path, target: Path) -> None:
    """Copy a folder without taking room for its files twice, where the disk allows."""
    shutil.copytree(source, target, copy_function=_link_or_copy)


def _link_or_copy(source: str, target: str) -> str:
    try:
        os.link(source, target)
    except OSError:
        shutil.copy2(source, target)
    return target
