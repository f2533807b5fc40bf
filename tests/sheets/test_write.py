from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from takeoff.model.takeoff import Takeoff
from takeoff.sheets.document import DOCUMENT
from takeoff.sheets.write import WRITERS, write_files

OURS = b'{"schema_version": 1, "job": "x", "settings": {}}'


def held(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_every_writer_gives_the_same_bytes_twice(hand_takeoff: Takeoff) -> None:
    for name, write in WRITERS.items():
        assert write(hand_takeoff) == write(hand_takeoff), name


def test_writers_load_no_workbook_library_until_used() -> None:
    heavy = "{'xlsxwriter', 'openpyxl', 'shapely', 'typst', 'ezdxf'}"
    code = f"import sys, takeoff.sheets.write; sys.exit(str({heavy} & set(sys.modules) or ''))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.stderr.strip() == ""


def test_files_are_written_with_their_folders(tmp_path: Path) -> None:
    files = {DOCUMENT: OURS, "drawings/rafter-R1.svg": b"<svg/>"}
    write_files(files, tmp_path / "new" / "job")
    assert held(tmp_path / "new" / "job") == files


def test_an_empty_folder_is_filled(tmp_path: Path) -> None:
    write_files({DOCUMENT: OURS}, tmp_path)
    assert held(tmp_path) == {DOCUMENT: OURS}


def test_files_of_the_earlier_run_go_and_files_of_others_stay(tmp_path: Path) -> None:
    folder = tmp_path / "job"
    write_files({DOCUMENT: OURS, "rafters.csv": b"old", "drawings/rafter-R9.svg": b"old"}, folder)
    (folder / "my notes").mkdir()
    (folder / "my notes" / "call the yard.txt").write_bytes(b"mine")
    write_files({DOCUMENT: OURS + b" ", "drawings/rafter-R1.svg": b"new"}, folder)
    assert held(folder) == {
        DOCUMENT: OURS + b" ",
        "drawings/rafter-R1.svg": b"new",
        "my notes/call the yard.txt": b"mine",
    }


def test_a_folder_that_is_not_ours_is_refused_and_left_alone(tmp_path: Path) -> None:
    (tmp_path / "order.csv").write_bytes(b"somebody's order")
    with pytest.raises(FileExistsError, match="isn't replaced"):
        write_files({DOCUMENT: OURS, "order.csv": b"ours"}, tmp_path)
    assert held(tmp_path) == {"order.csv": b"somebody's order"}


def test_another_program_s_document_does_not_make_a_folder_ours(tmp_path: Path) -> None:
    (tmp_path / DOCUMENT).write_bytes(b"[1, 2]")
    with pytest.raises(FileExistsError, match="isn't replaced"):
        write_files({DOCUMENT: OURS}, tmp_path)


def test_a_file_in_the_folder_s_place_is_refused(tmp_path: Path) -> None:
    (tmp_path / "job").write_bytes(b"a file")
    with pytest.raises(FileExistsError, match="need a folder"):
        write_files({DOCUMENT: OURS}, tmp_path / "job")
    assert (tmp_path / "job").read_bytes() == b"a file"


def test_a_failure_half_way_leaves_the_earlier_results_whole(tmp_path: Path) -> None:
    folder = tmp_path / "job"
    earlier = {DOCUMENT: OURS, "order.csv": b"earlier"}
    write_files(earlier, folder)
    with pytest.raises(OSError, match="order"):
        # A file where a folder must be: the second write fails after the first is on disk.
        write_files({DOCUMENT: OURS, "order.csv": b"later", "order.csv/never.svg": b""}, folder)
    assert held(folder) == earlier
    assert [path.name for path in tmp_path.iterdir()] == ["job"]


def test_a_failed_exchange_puts_the_earlier_results_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = tmp_path / "job"
    write_files({DOCUMENT: OURS}, folder)
    rename = Path.rename

    def refusing(self: Path, target: Path) -> Path:
        if self.name == "new":
            raise PermissionError("held by another program")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", refusing)
    with pytest.raises(PermissionError):
        write_files({DOCUMENT: OURS + b" "}, folder)
    assert held(folder) == {DOCUMENT: OURS}
    assert [path.name for path in tmp_path.iterdir()] == ["job"]


def test_a_link_to_a_folder_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "real", target_is_directory=True)
    write_files({DOCUMENT: OURS}, tmp_path / "link")
    assert (tmp_path / "link").is_symlink()
    assert held(tmp_path / "real") == {DOCUMENT: OURS}
