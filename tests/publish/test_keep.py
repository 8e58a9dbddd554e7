"""A reader finds the old files or the new ones: a full disk or a failure leaves nothing half-written."""

import errno
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from plankit.errors import PlanError
from plankit.publish import keep
from plankit.publish.keep import copy_folder, place, place_file, staged, switch, write_all

NEW = {"index.html": b"new", "figures/step-1.svg": b"<svg/>"}


def tree(folder: Path) -> dict[str, bytes]:
    return {
        p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()
    }


@pytest.fixture
def built(tmp_path: Path) -> Path:
    folder = tmp_path / "bench"
    write_all(
        folder,
        {
            "index.html": b"old",
            "figures/step-1.svg": b"old",
            "figures/step-9.svg": b"old",
            "my-photo.jpg": b"mine",
        },
    )
    return folder


def test_new_files_take_the_place_of_old_ones_and_others_stay(built: Path):
    place(built, NEW, stale=["figures/step-9.svg", "index.html", "never-was.pdf"])
    assert tree(built) == NEW | {"my-photo.jpg": b"mine"}
    assert [p.name for p in built.parent.iterdir()] == ["bench"]  # no folder of ours is left beside it


def test_a_full_disk_leaves_everything_as_it_was(built: Path, monkeypatch: pytest.MonkeyPatch):
    before = tree(built)

    def full(folder: Path, files: object) -> None:
        (folder / "index.html").write_bytes(b"ne")
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(keep, "write_all", full)
    with pytest.raises(PlanError, match="the disk is full; what was there before is as it was"):
        place(built, NEW)
    assert tree(built) == before
    assert [p.name for p in built.parent.iterdir()] == ["bench"]


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A real disk of 64 kB."""
    mount = tmp_path / "disk"
    mount.mkdir()
    command = ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(mount)]
    if (
        not sys.platform.startswith("linux")
        or subprocess.run(command, capture_output=True, check=False).returncode
    ):
        pytest.skip("a small disk cannot be mounted here")
    yield mount
    subprocess.run(["umount", str(mount)], check=True)


def test_a_disk_that_is_really_full_leaves_everything_as_it_was(small_disk: Path):
    target = small_disk / "bench"
    place(target, {"index.html": b"old"})
    with pytest.raises(PlanError, match="the disk is full"):
        place(target, {"index.html": b"new", "plan.pdf": b"x" * 100_000})
    assert tree(small_disk) == {"bench/index.html": b"old"}


def test_a_folder_that_may_not_be_written_is_named(tmp_path: Path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(PlanError, match="cannot be written"):
        place(tmp_path / "file" / "bench", NEW)


@pytest.mark.parametrize("exchanging", [True, False])
def test_a_folder_takes_the_place_of_another_at_once(
    built: Path, monkeypatch: pytest.MonkeyPatch, exchanging: bool
):
    if not exchanging:
        monkeypatch.setattr(keep, "_exchange", lambda one, other: False)
    with staged(built) as stage:
        write_all(stage, NEW)
        switch(stage, built)
    assert tree(built) == NEW
    assert [p.name for p in built.parent.iterdir()] == ["bench"]


def test_linux_exchanges_folders_in_one_step(built: Path):
    if not sys.platform.startswith("linux"):
        pytest.skip("renameat2 is Linux's")
    other = built.parent / "other"
    write_all(other, NEW)
    old = tree(built)
    if not keep._exchange(other, built):
        pytest.skip("this file system does not exchange folders")
    assert (tree(built), tree(other)) == (NEW, old)


def test_a_first_folder_is_put_in_place(tmp_path: Path):
    with staged(tmp_path / "a" / "site") as stage:
        write_all(stage, NEW)
        switch(stage, tmp_path / "a" / "site")
    assert tree(tmp_path) == {f"a/site/{name}": content for name, content in NEW.items()}
    assert (tmp_path / "a" / "site").stat().st_mode & 0o777 == 0o755  # a web server may read it


def test_a_failure_inside_leaves_nothing(tmp_path: Path):
    def interrupted() -> None:
        with staged(tmp_path / "site") as stage:
            write_all(stage, NEW)
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        interrupted()
    assert list(tmp_path.iterdir()) == []


def test_copies_read_as_their_originals(built: Path):
    copy_folder(built, built.parent / "copy")
    assert tree(built.parent / "copy") == tree(built)


def test_a_kept_copy_is_written_anew_and_its_original_stays(built: Path):
    copy_folder(built, built.parent / "copy")
    write_all(built.parent / "copy", {"index.html": b"new"})
    assert (built / "index.html").read_bytes() == b"old"
    assert (built.parent / "copy" / "index.html").read_bytes() == b"new"


def test_one_file_is_put_in_place_beside_others(built: Path):
    (built / "index.html").chmod(0o640)
    place_file(built / "index.html", b"new")
    place_file(built / "result.json", b"{}")
    assert (built / "index.html").read_bytes() == b"new"
    assert (built / "index.html").stat().st_mode & 0o777 == 0o640
    assert {p.name for p in built.iterdir()} == {"index.html", "result.json", "figures", "my-photo.jpg"}


def test_one_file_needs_room_in_its_own_folder_only(small_disk: Path):
    """The folder is a disk of its own, so nothing moves into it from the folder above in one step."""
    place_file(small_disk / "result.json", b"old")
    with pytest.raises(PlanError, match="the disk is full"):
        place_file(small_disk / "result.json", b"x" * 100_000)
    assert tree(small_disk) == {"result.json": b"old"}


def test_links_that_lead_round_are_told(tmp_path: Path):
    (tmp_path / "a").symlink_to(tmp_path / "b")
    (tmp_path / "b").symlink_to(tmp_path / "a")
    with pytest.raises(PlanError, match="cannot be written"):
        place_file(tmp_path / "a", b"")
