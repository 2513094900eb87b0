"""The pages of the author's desk."""

from dataclasses import fields
from pathlib import Path
from xml.etree import ElementTree

import pytest
from starlette.testclient import TestClient

from kb.rules import explain
from server.author import Shelf, pages, static
from server.web.pages import Page as Shown
from tests.server.html import Page
from tests.server.web.test_pages import used

PAGES = [
    each for each in vars(pages).values() if isinstance(each, type) and issubclass(each, Shown) and each is not Shown
]


def read(desk: TestClient, address: str, status: int = 200) -> Page:
    answer = desk.get(address)
    assert answer.status_code == status, answer.text
    return Page(answer.text)


def break_link(folder: Path) -> None:
    file = folder / "cold-boiler.md"
    file.write_text(file.read_text(encoding="utf-8").replace("](#is-it-loud)", "](#nowhere)"), encoding="utf-8")


@pytest.mark.parametrize("page", PAGES)
def test_a_template_uses_what_its_page_declares(page: type[Shown]) -> None:
    assert used(page.template) - {"files"} == {field.name for field in fields(page)}


def test_the_list_names_every_article_with_its_findings(desk: TestClient, shelf: Shelf, folder: Path) -> None:
    break_link(folder)
    shelf.look_again()

    page = read(desk, "/")

    assert page.links["The boiler is cold"] == "/articles/cold-boiler"
    assert page.links["Plain"] == "/ranges/plain"
    assert "cold-boiler · fault2 findings" in page.words.replace(" 2", "2")
    assert "no findings" in page.words


def test_a_page_says_what_was_run(desk: TestClient, shelf: Shelf) -> None:
    before = read(desk, "/").words
    shelf.prove()
    after = read(desk, "/").words

    assert "Read at 12:00:00. Every rule was held against 5 articles and 1 ranges" in before
    assert "The proof over all walks is running" in before
    assert "The proof went over all walks" in after


def test_an_article_shows_its_findings_as_the_check_does(desk: TestClient, shelf: Shelf, folder: Path) -> None:
    break_link(folder)
    shelf.look_again()

    page = read(desk, "/articles/cold-boiler")

    for finding in shelf.look.findings("cold-boiler.md"):
        assert f"Line {finding.place.line}: {finding.found} {finding.remedy}" in page.words
    assert page.links["unknown-link"] == "/rules/unknown-link"
    assert "Leads nowhere" in page.words


def test_an_article_is_drawn_for_both_and_told_in_words(desk: TestClient) -> None:
    page = read(desk, "/articles/cold-boiler")

    assert page.tags.count("svg") == 3  # the funnel, and two trees
    assert "The boiler is cold: the household’s part" in page.words
    assert "The boiler is cold: the engineer’s part" in page.words
    assert "Yes → “Is it loud?”" in page.words
    assert "Yes → the end “Book a visit”" in page.words


def test_a_file_that_is_half_saved_shows_its_finding(desk: TestClient, shelf: Shelf, folder: Path) -> None:
    (folder / "cold-boiler.md").write_text("---\ntitle: The boi", encoding="utf-8")
    shelf.look_again()

    page = read(desk, "/articles/cold-boiler")

    assert "cannot be read as it stands" in page.words
    assert "There is no header." in page.words
    assert page.heading == "cold-boiler.md"


def test_a_skeleton_shows_what_is_still_to_be_said_apart_from_mistakes(
    desk: TestClient, shelf: Shelf, folder: Path
) -> None:
    file = folder / "cold-boiler.md"
    file.write_text(file.read_text(encoding="utf-8").replace("Listen at", "‹Listen› at"), encoding="utf-8")
    shelf.look_again()

    page = read(desk, "/articles/cold-boiler")

    assert "What is still to be said, in 1 places" in page.words
    assert "Nothing was found." in page.words
    assert "Here still stands ‹Listen›." in page.words


def test_the_picture_alone_may_bring_its_letters_and_nothing_else(desk: TestClient) -> None:
    answer = desk.get("/articles/cold-boiler/engineer.svg")

    assert answer.headers["content-type"] == "image/svg+xml"
    assert ElementTree.fromstring(answer.text).attrib["role"] == "img"
    assert "default-src 'none'; style-src 'sha256-" in answer.headers["content-security-policy"]
    assert "script" not in answer.headers["content-security-policy"]


def test_a_rule_explains_itself(desk: TestClient) -> None:
    page = read(desk, "/rules/dead-end")

    assert " ".join(str(explain("dead-end")).split()) in page.words


@pytest.mark.parametrize(
    "address",
    ["/nothing", "/articles/nothing", "/articles/nothing/household.svg", "/articles/cold-boiler/both.svg",
     "/articles/ends/household.svg", "/ranges/nothing", "/rules/nothing"],
)  # fmt: skip
def test_what_is_not_there_is_told_with_a_way_on(desk: TestClient, address: str) -> None:
    page = read(desk, address, 404)

    assert page.heading == "There is nothing here"
    assert page.links["All articles"] == "/"


def test_a_link_in_an_articles_words_leads_to_its_page(desk: TestClient) -> None:
    answer = desk.get("/help/on-arrival")

    assert (answer.status_code, answer.headers["location"]) == (303, "/articles/on-arrival")


def test_no_page_runs_a_script_but_the_desks_own_file(desk: TestClient) -> None:
    answer = desk.get("/articles/cold-boiler")

    policy = dict(part.strip().split(" ", 1) for part in answer.headers["content-security-policy"].split(";"))
    assert policy["default-src"] == "'none'"
    assert policy["script-src"] == policy["connect-src"] == policy["style-src"] == "'self'"
    assert answer.text.count("<script") == 1
    assert " style=" not in answer.text
    assert "<style" not in answer.text
    for asset in (static.stylesheet(), static.script()):
        assert desk.get(asset.address).content == asset.body


def test_another_sites_name_does_not_open_the_desk(desk: TestClient) -> None:
    assert desk.get("/", headers={"host": "heating.example"}).status_code == 400


def test_whoever_has_seen_an_older_page_is_told_at_once(desk: TestClient, shelf: Shelf) -> None:
    assert desk.get("/changes?since=1").json() == {"version": shelf.look.version}


def test_whoever_has_seen_it_all_waits(desk: TestClient, shelf: Shelf) -> None:
    answer = desk.get(f"/changes?since={shelf.look.version}")

    assert answer.json() == {"version": shelf.look.version}
    assert answer.elapsed.total_seconds() > 1.5


def test_a_fault_of_ours_is_told_without_its_inner_words(shelf: Shelf, desk: TestClient) -> None:
    shelf.look = object.__new__(type(shelf.look))
    answer = desk.get("/")

    assert answer.status_code == 500
    assert "AttributeError" not in answer.text
