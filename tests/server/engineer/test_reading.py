import re

import pytest

from kb.article import Audience
from kb.header import Kind


def test_a_setting_shows_its_own_words_and_links_that_stay_in_the_room(engineer):
    page = engineer.get("/engineer/help/setting-bypass/none").text
    assert "What it does." in page
    links = re.findall(r'<a href="([^"]+)"', page.split("<main")[1])
    assert links
    assert all(link.startswith("/engineer") for link in links)
    assert "/engineer/help/setting-pump-head" in links


def test_a_walk_begins_with_the_danger_questions(engineer):
    page = engineer.get("/engineer/help/setting-bypass").text
    assert "<h1>Before anything else</h1>" in page
    assert "/engineer/help/setting-bypass/none" in page


def test_every_article_can_be_opened_and_its_first_answer_followed(engineer, site):
    for article in site.library.articles.values():
        first = article.first(Audience.ENGINEER) or article.first(Audience.HOUSEHOLD)
        if first is None or article.header.kind is Kind.DANGER:
            continue
        page = engineer.get(f"/engineer/help/{article.id}/none")
        assert page.status_code == 200, article.id
        choice = re.search(r'<ul class="choices">\s*<li><a href="([^"]+)"', page.text)
        assert choice, article.id
        assert engineer.get(choice[1]).status_code == 200, article.id


def test_a_reading_that_is_typed_is_followed(engineer, site):
    at = "/engineer/help/read-the-gauge"
    page = engineer.get(f"{at}/none")
    while 'name="reading"' not in page.text:
        at = re.search(r'<ul class="choices">\s*<li><a href="([^"]+)"', page.text)[1]
        page = engineer.get(at)
    here = re.search(r'<form class="ask" action="([^"]+)"', page.text)[1]
    onward = engineer.get(here, params={"reading": "1,2"})
    assert onward.status_code == 303
    assert engineer.get(onward.headers["location"]).status_code == 200
    assert engineer.get(here, params={"reading": "high"}).status_code == 422


def test_a_trail_that_leads_nowhere_is_told(engineer):
    assert "can no longer be followed" in engineer.get("/engineer/help/setting-bypass/zzz").text


@pytest.mark.parametrize("address", ["/engineer/help/nothing", "/engineer/sums/nothing", "/engineer/records/x/sign"])
def test_there_is_no_page_of_what_there_is_not(engineer, address):
    assert engineer.get(address).status_code == 404


@pytest.mark.parametrize(
    "address", ["/engineer", "/engineer/sums", "/engineer/help/setting-bypass", "/engineer/records/x"]
)
def test_the_room_is_the_engineers(client, address):
    assert client.get(address).headers["location"].startswith("/staff/sign-in")
