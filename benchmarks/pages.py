"""Requests a second of a step page, public and behind a home's key, against a bare route with the same bytes.

All three are served by one uvicorn worker with uvloop and httptools, asked over 16 connections from another
process in turns, so that a noisy machine is noisy for all of them; the ratios are what counts.
"""

import asyncio
import multiprocessing
import socket
import statistics
import tempfile
import time
from pathlib import Path

CONNECTIONS = 16
SECONDS = 2.0
ROUNDS = 5
LEAST = {"public step": 0.7, "behind a key": 0.35}


def serve(bound: socket.socket, database: str, key: str) -> None:
    from dataclasses import replace
    from datetime import date

    import uvicorn
    from starlette.responses import Response
    from starlette.testclient import TestClient

    from server.app import create_app
    from server.opening import open_site
    from server.settings import Settings

    site = open_site(replace(Settings.read({}), database=database), date.today())
    app = create_app(site)
    body = TestClient(app).get("/help/low-pressure/none").content

    @app.get("/bare")
    async def bare() -> Response:
        return Response(body, media_type="text/html")

    config = uvicorn.Config(app, access_log=False, log_level="warning", loop="uvloop", http="httptools")
    uvicorn.Server(config).run(sockets=[bound])


async def ask(port: int, path: str, until: float, times: list[float]) -> None:
    reader, writer = await asyncio.open_connection("127.0.0.1", port)
    request = f"GET {path} HTTP/1.1\r\nHost: x\r\n\r\n".encode()
    while time.perf_counter() < until:
        began = time.perf_counter()
        writer.write(request)
        head = await reader.readuntil(b"\r\n\r\n")
        assert b" 200 " in head[:16], head[:200]
        length = int(head.lower().split(b"content-length: ")[1].split(b"\r\n")[0])
        await reader.readexactly(length)
        times.append(time.perf_counter() - began)
    writer.close()


async def load(port: int, path: str) -> list[float]:
    times: list[float] = []
    until = time.perf_counter() + SECONDS
    await asyncio.gather(*(ask(port, path, until, times) for _ in range(CONNECTIONS)))
    return times


def main() -> None:
    import uvloop

    from demo.load import keys
    from demo.load import load as load_demo

    with tempfile.TemporaryDirectory() as folder:
        database = f"sqlite:///{Path(folder) / 'homes.db'}"
        load_demo(database)
        bound = socket.socket()
        bound.bind(("127.0.0.1", 0))
        port = bound.getsockname()[1]
        server = multiprocessing.get_context("spawn").Process(target=serve, args=(bound, database, keys()[0]))
        began = time.perf_counter()
        server.start()
        try:
            while True:
                with socket.socket() as probe:
                    if probe.connect_ex(("127.0.0.1", port)) == 0:
                        break
                time.sleep(0.01)
            measure(port, keys()[0], uvloop)
        finally:
            server.terminate()
            server.join()
    print(f"(measured over {time.perf_counter() - began:.0f} s)")


def measure(port: int, key: str, uvloop: object) -> None:
    paths = {
        "bare route": "/bare",
        "public step": "/help/low-pressure/none",
        "behind a key": f"/h/{key}/help/low-pressure/none",
    }
    rates: dict[str, list[float]] = {name: [] for name in paths}
    slowest: dict[str, list[float]] = {name: [] for name in paths}
    for _ in range(ROUNDS):
        for name, path in paths.items():
            times = uvloop.run(load(port, path))  # type: ignore[attr-defined]
            rates[name].append(len(times) / SECONDS)
            slowest[name].append(sorted(times)[len(times) * 99 // 100])
    bare = statistics.median(rates["bare route"])
    for name in paths:
        rate = statistics.median(rates[name])
        least = f" (at least {LEAST[name]})" if name in LEAST else ""
        late = statistics.median(slowest[name]) * 1000
        print(f"{name:14} {rate:8.0f} a second   99th percentile {late:5.1f} ms   ratio {rate / bare:.2f}{least}")


if __name__ == "__main__":
    main()
