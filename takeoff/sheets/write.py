"""Files on disk: what is written, and how a folder of results is replaced, whole or not at all."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path, PurePosixPath
from types import MappingProxyType

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.document import DOCUMENT, is_document, takeoff_json
from takeoff.sheets.order_text import order_txt
from takeoff.sheets.tables import TABLES
from takeoff.sheets.workbook import order_xlsx

WRITERS: Mapping[str, Callable[[Takeoff], bytes]] = MappingProxyType(
    {
        "order.xlsx": order_xlsx,
        "order.txt": order_txt,
        **{table.file: table.csv for table in TABLES},
        DOCUMENT: takeoff_json,
    }
)
"""Each file of a job but its book and drawings by name, with the function that makes its bytes from the take-off."""

BOOK = "cut_sheets.pdf"

DRAWINGS = "drawings"
"""Folder inside the results that belongs to this program: whatever it no longer writes there goes."""


def write_files(files: Mapping[str, bytes], folder: Path) -> None:
    """Make ``folder`` hold these files, all of them or, if anything fails, what it held before.

    The files are written into a new folder beside it, which then takes its place. Only a folder that doesn't exist, is
    empty, or holds the document of an earlier run is replaced. Files of that run that aren't written any more go;
    files that somebody else put there are carried over.

    Args:
        files: bytes by name; a name may have folders in it, such as ``drawings/rafter-R1.svg``.
        folder: where they go.

    Raises:
        FileExistsError: ``folder`` is a file, or a folder with files but not with results of this program.
        OSError: a file can't be written, or the folder not be replaced.
    """
    target = folder.resolve()
    _refuse_foreign(target)
    target.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix=f".{target.name}-", dir=target.parent) as room:
        new = Path(room, "new")
        for name, content in files.items():
            path = new / PurePosixPath(name)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)
        _carry_over(target, new)
        _swap(target, new, Path(room, "old"))


def write_file(content: bytes, file: Path) -> None:
    """Write one file, whole or not at all.

    Raises:
        OSError: it can't be written.
    """
    file.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix=f".{file.name}-", dir=file.parent) as room:
        beside = Path(room, file.name)
        beside.write_bytes(content)
        beside.replace(file)


def _refuse_foreign(target: Path) -> None:
    if target.exists() and not target.is_dir():
        raise FileExistsError(f"{target}: is a file; results need a folder")
    if not target.is_dir() or not any(target.iterdir()):
        return
    document = target / DOCUMENT
    if not (document.is_file() and is_document(document.read_bytes())):
        raise FileExistsError(
            f"{target}: holds files, but no {DOCUMENT} of an earlier run, so it isn't replaced; "
            "name another folder, or empty this one"
        )


def _carry_over(target: Path, new: Path) -> None:
    """Copy what somebody else put into the folder. Copied, not moved: a failure later must leave it where it was."""
    for path in sorted(target.rglob("*")):
        relative = path.relative_to(target)
        a_file = path.is_symlink() or not path.is_dir()
        if a_file and not _is_ours(relative) and not (new / relative).exists():
            (new / relative).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(path, new / relative, follow_symlinks=False)


def _is_ours(relative: Path) -> bool:
    return relative.as_posix() in (*WRITERS, BOOK) or relative.parts[0] == DRAWINGS


def _swap(target: Path, new: Path, old: Path) -> None:
    if not target.exists():
        new.rename(target)
        return
    target.rename(old)
    try:
        new.rename(target)
    finally:  # an interrupt too must leave the earlier results
        if not target.exists():
            old.rename(target)
