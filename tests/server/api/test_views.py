import pytest
from starlette.testclient import TestClient

from tests.server.conftest import MOVED_OUT, SEALED


def test_a_walk_begins_with_the_danger_questions(client: TestClient) -> None:
    standing = client.get("/api/walk/low-pressure").json()

    assert standing["danger_questions"] is True
    assert standing["end"] is None
    assert standing["gas"] == "0800 111 999"


def test_an_answers_trail_leads_on(client: TestClient) -> None:
    first = client.get("/api/walk/low-pressure/none").json()
    answer = first["step"]["answers"][0]

    second = client.get(f"/api/walk/low-pressure/{answer['trail']}").json()

    assert second["trail"] == answer["trail"]
    assert second["told"][-1] == {"question": first["step"]["title"], "answer": answer["text"], "by": "person"}


def test_an_end_says_how_soon_and_whom_to_call(client: TestClient) -> None:
    danger = client.get("/api/walk/gas-smell").json()
    clear = danger["step"]["answers"]

    ended = client.get(f"/api/walk/gas-smell/{clear[0]['trail']}").json()["end"]

    assert ended["pace"] == "leave"
    assert ended["number"] == "999"
    assert ended["actions"]


def test_a_trail_that_breaks_is_a_value(client: TestClient) -> None:
    standing = client.get("/api/walk/low-pressure/none-zzz").json()

    assert standing["trouble"] == "answer-gone"
    assert standing["trail"] == "none"


def test_a_home_is_not_asked_what_is_known(client: TestClient) -> None:
    standing = client.get(f"/api/h/{SEALED.key}/walk/low-pressure/none").json()

    assert "fact" in [told["by"] for told in standing["told"]]


def test_search_says_danger_first(client: TestClient) -> None:
    found = client.get("/api/find", params={"words": "I can smell gas"}).json()

    assert "gas-smell" in found["danger"]


def test_a_code_is_weighed_against_the_words_for_it(client: TestClient) -> None:
    asked = {"words": "the radiators are cold", "code": "two three"}

    found = client.get(f"/api/h/{SEALED.key}/find", params=asked).json()

    assert found["articles"].index("cold-radiators") < found["articles"].index("low-pressure")
    code = next(code for code in found["codes"] if code["shown"] == "23")
    assert (code["certainty"], code["safety"], code["may_reset"]) == ("same", "look", True)


def test_an_engineers_code_says_what_is_to_be_read_out(client: TestClient) -> None:
    found = client.get(f"/api/h/{SEALED.key}/find", params={"code": "74"}).json()

    assert found["said"][0] == "If it shows 74, a Marlpit C needs an engineer. Do not reset. Call us today."
    assert [code["may_reset"] for code in found["codes"]] == [False]
    assert found["articles"] == []


def test_an_unknown_code_leads_on_by_the_words_in_it(client: TestClient) -> None:
    found = client.get("/api/find", params={"code": "radiators cold"}).json()

    assert (found["codes"], found["articles"][0]) == ([], "cold-radiators")


@pytest.mark.parametrize(
    ("address", "status"),
    [
        ("/api/walk/nothing", 404),
        ("/api/walk/on-arrival", 404),
        (f"/api/h/{MOVED_OUT.key}/walk/low-pressure", 410),
        ("/api/h/nonsense/walk/low-pressure", 404),
        ("/api/find", 422),
        ("/api/find?words=" + "x" * 501, 422),
        ("/api/find?code=" + "x" * 61, 422),
        ("/api/find?words=&code=", 422),
        (f"/api/h/{MOVED_OUT.key}/find?code=12", 410),
        ("/api/nowhere", 404),
    ],
)
def test_errors_are_json_with_the_next_step_and_the_numbers(client: TestClient, address: str, status: int) -> None:
    response = client.get(address)

    assert response.status_code == status
    assert set(response.json()) == {"error", "next", "call", "gas"}
