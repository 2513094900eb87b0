"""How the cards look: the firm's own colour and logo, and another colour that is tried."""

import re
from dataclasses import replace

from tests.builders import firm
from tests.kb.card.cards import LOGO
from tests.server.html import Page
from tests.server.preview.conftest import PASSWORD, browsing


def pictures(office, address: str) -> list[bytes]:
    found = re.findall(r'<img src="([^"]*)"', office.get(address).text)
    assert len(found) == 2
    return [office.get(each.replace("&amp;", "&")).content for each in found]


def test_without_a_colour_the_name_is_in_the_ink_and_the_page_says_so(office):
    words = Page(office.get("/office/look").text).words
    assert "We named no colour, so our name is in #0F2E33." in words
    assert "We named no logo" in words


def test_the_firms_own_colour_is_told_with_its_contrast(office):
    own = browsing_office(replace(office.site, firm=firm(colour="#1d4e5f", logo="logo.svg"), logo=LOGO))
    words = Page(own.text("/office/look")).words
    # 9.1 by the formula of WCAG 2.2, worked out by wcag-contrast-ratio.
    assert "Our name is printed in #1d4e5f. On white paper it has a contrast of 9.1 to 1; words need 4.5 to 1." in words
    assert "Our logo comes from logo.svg." in words


def browsing_office(site):
    from kb.staff import Account, Role
    from server.staff.passwords import hashed
    from tests.server.conftest import WEDNESDAY_NOON

    site.store.staff.add(Account("Robin", frozenset({Role.OFFICE})), hashed(PASSWORD), WEDNESDAY_NOON)
    return browsing(site)


def test_a_colour_that_is_tried_changes_the_name_and_nothing_that_is_kept(office):
    before = pictures(office, "/office/look")
    tried = pictures(office, "/office/look?colour=%23883300")
    assert [one == other for one, other in zip(before, tried, strict=True)] == [False, True]
    words = Page(office.get("/office/look?colour=%23883300").text).words
    assert 'To keep this colour, write colour = "#883300" in our firm\'s file.' in words
    assert pictures(office, "/office/look") == before


def test_the_sizes_keep_the_colour_that_is_tried(office):
    page = Page(office.get("/office/look/a5?colour=%23883300").text)
    assert page.links["Bank card"] == "/office/look/id1?colour=%23883300"


def test_a_colour_too_light_is_refused_with_its_contrast_and_a_darker_one(office):
    told = office.get("/office/look?colour=%23ffcc00")
    words = Page(told.text).words
    assert told.status_code == 422
    assert "#ffcc00 on white paper has a contrast of 1.51 to 1, and words need 4.5 to 1" in words
    assert "choose a darker one, for example #8e7200" in words
    assert "To keep this colour" not in words
    assert len(re.findall("<img", told.text)) == 2


def test_what_is_no_colour_and_no_size_is_told(office):
    assert "Expected a colour like #1d4e5f, found" in Page(office.get("/office/look?colour=teal").text).words
    assert office.get("/office/look/a0").status_code == 404
    assert office.get("/office/look/a0-front.png").status_code == 404
