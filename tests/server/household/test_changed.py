"""An old bookmark keeps every answer that still exists, and its page says which do not."""

from dataclasses import replace

import pytest
from starlette.testclient import TestClient

from kb.library import Library, build
from server.app import create_app
from server.site import Site
from tests.builders import DANGER, ENDS, TRIED, article, region
from tests.server.html import Page

COLD = """
# The boiler is cold

## For the household

### Is it on?

- [Yes](#is-it-warm)
- [No](ends.md#call-us)

### Is it warm?

- [Warm](#is-it-loud)
- [Cold](ends.md#call-us)

### Is it loud?

- [Loud](ends.md#call-us)
- [Still](ends.md#it-works)
"""


def library(text: str, danger: str = DANGER) -> Library:
    shared = [article("danger", danger, "danger"), article("tried", TRIED, "shared"), article("ends", ENDS, "ends")]
    return build([*shared, article("cold", text, category="cold")], [region()])


def browse(site: Site, books: Library) -> TestClient:
    return TestClient(create_app(replace(site, library=books)), follow_redirects=False)


def at(client: TestClient, address: str) -> Page:
    return Page(client.get(address).text)


@pytest.fixture
def bookmark(site: Site) -> str:
    """The address after two answers, in the library of before."""
    client = browse(site, library(COLD))
    address = at(client, "/help/cold").links["None of these. I am sure."]
    for words in ("Yes", "Warm"):
        address = at(client, address).links[words]
    return address


def test_a_bookmark_of_today_opens_the_very_step(site: Site, bookmark: str) -> None:
    assert at(browse(site, library(COLD)), bookmark).heading == "Is it loud?"


def test_a_question_that_was_put_in_is_asked_and_the_rest_kept(site: Site, bookmark: str) -> None:
    newer = COLD.replace("[Yes](#is-it-warm)", "[Yes](#is-it-new)").replace(
        "### Is it warm", "### Is it new?\n\n- [New](#is-it-warm)\n- [Old](ends.md#call-us)\n\n### Is it warm"
    )
    client = browse(site, library(newer))
    asked = client.get(bookmark)
    assert asked.status_code == 200
    assert Page(asked.text).heading == "Is it new?"
    assert at(client, Page(asked.text).links["New"]).heading == "Is it loud?"


def test_an_answer_that_is_gone_is_told_once(site: Site, bookmark: str) -> None:
    client = browse(site, library(COLD.replace("[Yes]", "[It is]")))
    asked = client.get(bookmark)
    assert asked.status_code == 422
    assert Page(asked.text).heading == "Is it on?"
    assert "is no longer in our guidance. Your other answers still count." in Page(asked.text).words

    onward = client.get(Page(asked.text).links["It is"])
    assert (onward.status_code, Page(onward.text).heading) == (200, "Is it loud?")
    assert "no longer in our guidance" not in onward.text


def test_danger_questions_that_changed_are_asked_before_anything_else(site: Site, bookmark: str) -> None:
    client = browse(site, library(COLD, DANGER.replace("smell gas", "smell gas or oil")))
    asked = at(client, bookmark)
    assert "Can you smell gas or oil?" in asked.words
    assert "The danger questions have changed since then." in asked.words
    assert at(client, asked.links["None of these. I am sure."]).heading == "Is it loud?"
