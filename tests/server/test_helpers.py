"""Helpers print what one process prints; a dead helper, a dead parent and a stopped run are found and told."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from itertools import cycle, islice
from multiprocessing import active_children
from pathlib import Path

import pytest

from kb.card import CardError
from server.helpers import cores, done_alone, done_by_helpers
from server.parts import Part, Work
from server.printing import FEWEST_FOR_HELPERS, PART, Wanted, print_cards
from tests.kb.card.cards import fleet
from tests.server.test_printing import HOMES, UNKNOWN, pages

ROOT = Path(__file__).parents[2]
PATIENCE = 40.0


def works(folder: Path, count: int = 3) -> list[Work]:
    cards = islice(cycle(fleet("id1", 2)), count)
    return [Work(Part(folder, n), [f"key {n}"], [card], False) for n, card in enumerate(cards, 1)]


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_helpers_write_the_very_bytes_that_one_process_writes(tmp_path):
    (tmp_path / "alone").mkdir()
    (tmp_path / "helped").mkdir()
    alone = list(done_alone(works(tmp_path / "alone")))
    helped = list(done_by_helpers(works(tmp_path / "helped"), 2))
    assert (alone, contents(tmp_path / "alone")) == (helped, contents(tmp_path / "helped"))
    assert len(contents(tmp_path / "helped")) == 6


def test_helped_cards_come_in_one_pdf_with_the_refused_named_in_order(site, tmp_path):
    told: list[int] = []
    homes = (*HOMES[: PART - 1], UNKNOWN, *HOMES[PART:])
    (refusal,) = print_cards(site, Wanted(homes, "id1", False), tmp_path / "new" / "cards.pdf", told.append, helpers=2)
    assert refusal.key == UNKNOWN.key
    assert pages(tmp_path / "new" / "cards.pdf") == 2 * (len(homes) - 1)
    assert told == [PART, 2]
    assert [path.name for path in (tmp_path / "new").iterdir()] == ["cards.pdf"]


@pytest.mark.parametrize(("parts", "helped"), [(FEWEST_FOR_HELPERS - 1, False), (FEWEST_FOR_HELPERS, cores() > 1)])
def test_helpers_are_started_only_for_as_many_parts_as_are_worth_it(site, tmp_path, parts, helped):
    seen: list[bool] = []
    wanted = Wanted([UNKNOWN] * (parts * PART), "id1", False)
    assert (
        len(print_cards(site, wanted, tmp_path / "c", lambda _: seen.append(bool(active_children())))) == parts * PART
    )
    assert seen[0] is helped
    assert not active_children()


class Deadly:
    """Ends whichever process unpacks it, as a machine short of memory would."""

    def __reduce__(self):
        return os._exit, (9,)


def test_a_helper_that_dies_is_told_and_what_was_printed_before_is_kept(tmp_path):
    first, second, third = works(tmp_path)
    broken = Work(second.part, [Deadly()], second.cards, False)
    done = done_by_helpers([first, *[broken] * 5, third], 2)
    with pytest.raises(CardError, match=r"Expected the helpers .* the machine ended one.*Print the same cards"):
        list(done)
    assert list(done_alone([first])) == [()]
    assert not third.part.pdf.exists()


def without_processes(helpers: int):
    raise OSError("no semaphores here")


def test_a_machine_that_lets_nobody_start_processes_prints_without_helpers(tmp_path):
    assert list(done_by_helpers(works(tmp_path), 2, without_processes)) == [(), (), ()]
    assert len(list(tmp_path.glob("*.pdf"))) == 3


def test_what_cannot_be_written_is_told_as_in_one_process(tmp_path):
    (work,) = works(tmp_path / "nowhere", 1)
    with pytest.raises(OSError, match="nowhere"):
        list(done_by_helpers([work], 2))


def test_only_a_few_parts_are_taken_ahead(tmp_path):
    taken: list[int] = []

    def watched() -> Iterator[Work]:
        for work in works(tmp_path, 12):
            taken.append(work.part.number)
            yield work

    done = done_by_helpers(watched(), 2)
    next(done)
    assert len(taken) == 5
    done.close()


RUN = """
if __name__ == "__main__":
    # Helpers load this file as well, and need none of it.
    import os, sys
    from pathlib import Path
    from server.helpers import cores, done_by_helpers
    from tests.server.test_helpers import works

    os.sched_setaffinity(0, set(list(os.sched_getaffinity(0))[: int(sys.argv[2])]))
    print(cores(), flush=True)
    for place, _ in enumerate(done_by_helpers(works(Path(sys.argv[1]), 200), 2)):
        print(place, flush=True)
"""


@pytest.fixture
def run(tmp_path) -> Iterator[Callable[[int], "subprocess.Popen[str]"]]:
    """A process of our own, in a group of its own, that prints 200 parts with two helpers."""
    (tmp_path / "run.py").write_text(RUN)
    begun: list[subprocess.Popen[str]] = []

    def begin(cores: int) -> "subprocess.Popen[str]":
        command = [sys.executable, str(tmp_path / "run.py"), str(tmp_path), str(cores)]
        there = {**os.environ, "PYTHONPATH": str(ROOT)}
        piped = subprocess.PIPE
        begun.append(subprocess.Popen(command, env=there, stdout=piped, stderr=piped, text=True, process_group=0))
        return begun[-1]

    yield begin
    for process in begun:
        if process.poll() is None:
            os.killpg(process.pid, signal.SIGKILL)
        process.communicate()


def children(of: int) -> list[int]:
    """The processes that a process started, Python's own keeper of their semaphores aside."""
    found = Path(f"/proc/{of}/task/{of}/children").read_text().split()
    return [int(each) for each in found if b"spawn_main" in Path(f"/proc/{each}/cmdline").read_bytes()]


def gone(process: int) -> bool:
    """Whether a process has ended; one that nobody has asked after is a zombie."""
    try:
        return Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0] == "Z"
    except OSError:
        return True


def until_line(process: "subprocess.Popen[str]", wanted: str) -> None:
    assert process.stdout is not None
    assert any(line.strip() == wanted for line in process.stdout)


@pytest.mark.skipif(not Path("/proc").is_dir(), reason="looks at processes where Linux shows them")
@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGTERM])
def test_helpers_do_not_outlive_a_killed_parent(run, how):
    process = run(2)
    until_line(process, "3")
    helpers = children(process.pid)
    assert helpers
    process.send_signal(how)
    process.wait(PATIENCE)
    until = time.monotonic() + PATIENCE
    while not all(map(gone, helpers)):
        assert time.monotonic() < until, "a helper is still there"
        time.sleep(0.05)


def test_a_keystroke_stops_the_run_without_a_word_from_its_helpers_and_parts_are_kept(run, tmp_path):
    process = run(2)
    until_line(process, "3")
    os.killpg(process.pid, signal.SIGINT)
    _, aside = process.communicate(timeout=PATIENCE)
    assert aside.count("Traceback") == 1, "the run's own"
    assert process.returncode in (-signal.SIGINT, 130, 1)
    assert all(work.done_earlier() == () for work in works(tmp_path, 4))


@pytest.mark.skipif(not hasattr(os, "sched_setaffinity"), reason="this machine binds no process to a core")
def test_it_is_known_how_many_cores_this_process_may_use(run):
    process = run(1)
    until_line(process, "1")
    assert cores() == len(os.sched_getaffinity(0))
