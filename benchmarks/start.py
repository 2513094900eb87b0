"""From the command to the first answer, and how long a walk of twelve answers takes."""

import os
import subprocess
import sys
import tempfile
import time
import timeit
import urllib.request
from pathlib import Path

from kb.article import Audience, Step
from kb.library import load
from kb.walk import Standing, walk

ROOT = Path(__file__).parents[1]


def first_answer() -> float:
    with tempfile.TemporaryDirectory() as folder:
        database = f"sqlite:///{Path(folder) / 'homes.db'}"
        environment = {**os.environ, "TUNDISH_DATABASE": database, "TUNDISH_PORT": "18480"}
        tundish = [sys.executable, "-m", "server.cli"]
        subprocess.run([*tundish, "migrate"], env=environment, cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
        began = time.perf_counter()
        server = subprocess.Popen([*tundish, "serve"], env=environment, cwd=ROOT)
        try:
            while True:
                try:
                    urllib.request.urlopen("http://127.0.0.1:18480/").close()
                    return time.perf_counter() - began
                except OSError:
                    time.sleep(0.005)
        finally:
            server.terminate()
            server.wait()


def longest_walk() -> tuple[Standing, float]:
    library = load(ROOT / "articles/en")
    start = library.articles["low-pressure"].first(Audience.HOUSEHOLD)
    assert start is not None
    standing = walk(library, start, "none")
    while isinstance(standing.at, Step) and len(standing.trail.split("-")) < 12:
        standing = walk(library, start, standing.trail_with(standing.at.answers[0]))
    once = min(timeit.repeat(lambda: walk(library, start, standing.trail), number=500, repeat=5)) / 500
    return standing, once


def main() -> None:
    times = sorted(first_answer() for _ in range(3))
    print(f"start to first answer  {times[1]:.2f} s (under 2)")
    standing, once = longest_walk()
    print(f"a walk of {len(standing.trail.split('-'))} answers  {once * 1e6:.0f} µs (under 100)")


if __name__ == "__main__":
    main()
