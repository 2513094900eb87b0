import re

import pytest

from kb.handover import seal
from kb.home import Home
from tests.kb.handover.records import COMBI
from tests.server.conftest import SEALED
from tests.server.engineer.conftest import begin, csrf, write
from tests.server.engineer.test_records import stored


def filled(engineer, key: str = "", **changed: str) -> str:
    record = begin(engineer, key)
    fields = {**COMBI, **{name.replace("_", "-"): text for name, text in changed.items()}}
    for number, (field, text) in enumerate(fields.items(), 100):
        write(engineer, record, field, text, number)
    return record


def sign(engineer, record: str, name: str = "R. Thorne", **answers: str):
    seen = re.search(r'name="seen" value="(\w+)"', engineer.get(f"{record}/sign").text)
    assert seen
    form = {"csrf": csrf(engineer), "seen": seen[1], "name": name, **answers}
    return engineer.post(f"{record}/sign", data=form)


def test_a_record_is_signed_and_the_household_has_its_page_and_card(engineer, site):
    record = filled(engineer)
    signed = sign(engineer, record)
    assert signed.headers["location"] == f"{record}/signed"
    key = stored(site, record).key
    page = engineer.get(f"{record}/signed").text
    assert "Signed by <b>R. Thorne</b>" in page
    assert f'href="/h/{key}"' in page
    card = engineer.get(f"{record}/card.pdf")
    assert card.headers["content-type"] == "application/pdf"
    assert card.content.startswith(b"%PDF-")
    household = engineer.get(f"/h/{key}").text
    assert "Marlpit C 28" in household
    assert "under the sink" in household
    assert "Thorne" not in household


def test_what_is_signed_stands_on_its_own(engineer, site):
    record = filled(engineer)
    sign(engineer, record)
    kept = stored(site, record)
    assert seal.is_unaltered(kept)
    assert {"aim", "low", "high", "drop-mbar", "fitted", "next-service"} <= {entry.field for entry in kept.entries}


def test_a_home_learns_what_the_record_found(engineer, site):
    sign(engineer, filled(engineer, SEALED.key, switch_place="in the loft", aim="1.1", low="0.8", high="1.7"))
    home = site.store.home(SEALED.key)
    assert isinstance(home, Home)
    assert home.places["switch"] == "in the loft"
    assert home.known.marks.aim == 1.1
    assert home.known.facts["condensate"] == "inside"


def test_what_is_missing_is_named_with_the_way_to_it(engineer, site):
    record = filled(engineer, vessel_l="")
    refused = sign(engineer, record)
    assert refused.status_code == 422
    assert f'href="{record}/water#f-vessel-l"' in refused.text
    assert stored(site, record).signature is None


def test_a_question_is_answered_in_words_and_the_answer_is_signed(engineer, site):
    record = filled(engineer, loop_closed="no")
    page = engineer.get(f"{record}/sign").text
    question = re.search(r'name="(why-\w+)"', page)
    assert question
    assert sign(engineer, record).status_code == 422
    assert sign(engineer, record, **{question[1]: "The plumber comes back."}).status_code == 303
    assert "The plumber comes back." in engineer.get(f"{record}/signed").text


def test_a_danger_cannot_be_signed_away(engineer, site):
    record = filled(engineer, polarity="no")
    assert sign(engineer, record).status_code == 422
    page = engineer.get(f"{record}/sign").text
    assert "This cannot be signed as safe" in page
    assert 'name="why-' not in page


def test_an_unsafe_appliance_is_signed_as_such_and_gets_no_card(engineer, site):
    record = filled(
        engineer, polarity="no", outcome="unsafe", unsafe_class="at-risk", unsafe_why="Polarity", unsafe_off="off",
        unsafe_label="yes", unsafe_notice="yes", unsafe_told="The owner",
    )  # fmt: skip
    assert sign(engineer, record).status_code == 303
    page = engineer.get(f"{record}/signed").text
    assert "Not left in use" in page
    assert "card.pdf" not in page
    assert site.store.home(stored(site, record).key) is None


def test_nobody_signs_without_a_name(engineer):
    assert "Type your name" in sign(engineer, filled(engineer), name=" ").text


def test_nobody_signs_what_changed_since_they_looked(engineer, site):
    record = filled(engineer)
    seen = re.search(r'name="seen" value="(\w+)"', engineer.get(f"{record}/sign").text)
    assert seen
    write(engineer, record, "pump", "3", 900)
    form = {"csrf": csrf(engineer), "seen": seen[1], "name": "R. Thorne"}
    assert "Something was written since" in engineer.post(f"{record}/sign", data=form).text
    assert stored(site, record).signature is None


def test_signing_twice_signs_once(engineer, site):
    record = filled(engineer)
    sign(engineer, record)
    first = stored(site, record)
    again = engineer.post(f"{record}/sign", data={"csrf": csrf(engineer), "name": "Another"})
    assert again.headers["location"] == f"{record}/signed"
    assert stored(site, record) == first


def test_what_arrives_after_the_signing_is_added_in_words_and_alters_nothing(engineer, site):
    record = filled(engineer)
    sign(engineer, record)
    before = stored(site, record)
    for _ in range(2):
        assert write(engineer, record, "pump", "3", 950).json()["late"]
    after = stored(site, record)
    assert (after.entries, after.signature) == (before.entries, before.signature)
    assert [each.words for each in after.additions] == ["Written before the signing, arrived after it. Pump setting: 3"]
    assert seal.is_unaltered(after)


def test_words_are_added_once(engineer, site):
    record = filled(engineer)
    sign(engineer, record)
    token = re.search(r'name="token" value="([\w-]+)"', engineer.get(f"{record}/signed").text)
    assert token
    form = {"csrf": csrf(engineer), "token": token[1], "words": "The cap was found.\r\nIt is on."}
    for _ in range(2):
        assert engineer.post(f"{record}/additions", data=form).status_code == 303
    assert [each.words for each in stored(site, record).additions] == ["The cap was found.\nIt is on."]
    assert "The cap was found." in engineer.get(f"{record}/signed").text


def test_a_signed_record_can_no_longer_be_filled_in(engineer):
    record = filled(engineer)
    sign(engineer, record)
    for address in (record, f"{record}/water", f"{record}/sign"):
        assert engineer.get(address).headers["location"] == f"{record}/signed"


@pytest.mark.parametrize("address", ["signed", "card.pdf"])
def test_what_comes_after_the_signing_is_not_there_before(engineer, address):
    assert engineer.get(f"{begin(engineer)}/{address}").status_code == 404


def test_a_card_that_cannot_be_printed_says_why(engineer):
    record = filled(engineer, range="other", hot_water="combi", system="sealed")
    sign(engineer, record)
    refused = engineer.get(f"{record}/card.pdf")
    assert refused.status_code == 422
    assert "No card yet" in refused.text


@pytest.mark.parametrize(
    ("changed", "way"), [({"loop_closed": "no"}, "water#f-loop-closed"), ({"polarity": "no"}, "electrics#f-polarity")]
)
def test_what_is_asked_before_signing_leads_back_to_its_field(engineer, changed, way):
    record = filled(engineer, **changed)
    assert f'href="{record}/{way}">Correct it: ' in engineer.get(f"{record}/sign").text
