import re

import pytest

from kb.handover.record import texts
from kb.home import Home
from tests.kb.handover.records import COMBI
from tests.server.conftest import MOVED_OUT, SEALED
from tests.server.engineer.conftest import begin, csrf, write


def stored(site, record: str):
    found = site.store.handovers.record(record.rsplit("/", 1)[1])
    assert found is not None
    return found


def latest(site, record: str):
    return texts(stored(site, record).entries)


def test_a_record_of_a_home_begins_with_what_is_known_of_it(engineer, site):
    record = begin(engineer, SEALED.key)
    assert latest(site, record) == {
        "range": "marlpit-c",
        "appliance": "Marlpit C 28",
        "fuel": "natural-gas",
        "system": "sealed",
        "filling-loop": "keyed",
        "aim": "1.3",
        "low": "0.9",
        "high": "1.9",
        "stop-tap-place": "under the kitchen sink",
    }


def test_a_new_home_gets_a_key_that_opens_nothing_yet(engineer, site):
    key = stored(site, begin(engineer)).key
    assert site.store.home(key) is None
    assert engineer.get(f"/h/{key}").status_code == 404


@pytest.mark.parametrize("key", [MOVED_OUT.key, "nonsense"])
def test_no_record_is_begun_for_a_key_that_opens_nothing(engineer, key):
    answer = engineer.post("/engineer/records", data={"csrf": csrf(engineer), "key": key})
    page = engineer.get(answer.headers["location"])
    assert "No home has this key" in page.text


def test_an_entry_is_kept_once_and_the_answer_says_so(engineer, site):
    record = begin(engineer)
    first, again = (write(engineer, record, "cold-bar", "1.2").json() for _ in range(2))
    assert first["kept"] == again["kept"] == "entry-00001"
    assert first["worked"]["aim"] == "1.2"
    assert len(stored(site, record).entries) == 1


def test_a_wrong_figure_is_kept_as_typed_and_said_at_its_field(engineer, site):
    record = begin(engineer)
    news = write(engineer, record, "cold-bar", "abc").json()
    assert "Expected a figure in bar, found “abc”" in news["problems"]["cold-bar"]
    assert latest(site, record)["cold-bar"] == "abc"
    page = engineer.get(f"{record}/water").text
    assert 'value="abc"' in page
    assert 'aria-invalid="true"' in page


def test_a_question_comes_back_with_its_working_as_soon_as_it_is_known(engineer):
    record = begin(engineer)
    for number, field in enumerate(("fuel", "meter", "meter-kind", "input-net-kw", "gas-s"), 1):
        write(engineer, record, field, COMBI[field], number)
    news = write(engineer, record, "gas-m3", "0.425", 6).json()
    assert "0.0425 m³ would fit" in news["said"]["gas"]
    assert "0.425 m³ in 60 s" in news["said"]["gas"]
    assert 'class="said question"' in engineer.get(f"{record}/gas").text


def test_a_danger_says_to_stop(engineer):
    news = write(engineer, begin(engineer), "polarity", "no").json()
    assert 'class="said danger"' in news["said"]["electrics"]
    assert "unsafe-situations procedure" in news["said"]["electrics"]


@pytest.mark.parametrize(
    "changes",
    [
        {"field": "no-such-field"},
        {"field": "why-" + "x" * 60},
        {"id": "short"},
        {"id": "../../etc"},
        {"sequence": "-1"},
        {"sequence": "99999999"},
        {"sequence": "١"},
        {"text": "x" * 2001},
        {"text": "a\0b"},
    ],
)
def test_what_no_page_of_ours_sends_is_refused_and_not_kept(engineer, site, changes):
    record = begin(engineer)
    entry = {"id": "entry-00001", "sequence": "1", "field": "pump", "text": "2"}
    answer = engineer.post(f"{record}/entries", data={"csrf": csrf(engineer), **entry, **changes})
    assert answer.status_code == 422
    assert stored(site, record).entries == ()


def test_without_a_session_nothing_is_kept_and_nothing_is_lost(engineer, site):
    record, token = begin(engineer), csrf(engineer)
    engineer.cookies.clear()
    entry = {"id": "entry-00001", "sequence": "1", "field": "pump", "text": "2", "csrf": token}
    assert engineer.post(f"{record}/entries", data=entry).status_code == 303
    assert stored(site, record).entries == ()


def section_form(engineer, address: str) -> dict[str, str]:
    """What a browser without a script would send of a section."""
    page = engineer.get(address).text
    form = re.search(rf'<form class="section"[^>]*action="{address}".*?</form>', page, re.S)
    assert form
    fields = dict(
        re.findall(
            r'<input(?=[^>]* name="([^"]+)")(?=[^>]* value="([^"]*)")(?![^>]*type="(?:radio|checkbox)")', form[0]
        )
    )
    fields |= dict(re.findall(r'<input type="radio" name="([^"]+)" value="([^"]*)" checked', form[0]))
    fields |= dict(re.findall(r'<input type="checkbox" name="([^"]+)" value="([^"]*)" checked', form[0]))
    return fields


def test_a_section_is_kept_without_a_script_and_leads_on(engineer, site):
    record = begin(engineer)
    form = section_form(engineer, f"{record}/heating")
    sent = engineer.post(f"{record}/heating", data={**form, "flow-c": "60", "return-c": "42", "bypass": "inside"})
    assert sent.headers["location"] == f"{record}/hot-water"
    assert latest(site, record) == {"flow-c": "60", "return-c": "42", "bypass": "inside"}


def test_a_section_with_a_question_is_shown_again_once_and_then_left(engineer):
    record = begin(engineer)
    form = section_form(engineer, f"{record}/heating") | {"flow-c": "42", "return-c": "60"}
    assert engineer.post(f"{record}/heating", data=form).headers["location"] == f"{record}/heating"
    again = section_form(engineer, f"{record}/heating")
    assert engineer.post(f"{record}/heating", data=again).headers["location"] == f"{record}/hot-water"


def test_a_section_is_shown_again_when_a_choice_brings_more_to_fill_in(engineer):
    record = begin(engineer)
    form = section_form(engineer, f"{record}/heating") | {"bypass": "radiator"}
    assert engineer.post(f"{record}/heating", data=form).headers["location"] == f"{record}/heating"


def test_a_form_that_is_sent_twice_writes_once(engineer, site):
    record = begin(engineer)
    form = section_form(engineer, f"{record}/heating") | {"flow-c": "60"}
    for _ in range(2):
        engineer.post(f"{record}/heating", data=form)
    assert len(stored(site, record).entries) == 1


def test_a_field_that_was_left_alone_undoes_nothing_written_elsewhere(engineer, site):
    record = begin(engineer)
    form = section_form(engineer, f"{record}/heating")
    write(engineer, record, "flow-c", "55")
    engineer.post(f"{record}/heating", data={**form, "return-c": "42"})
    assert latest(site, record) == {"flow-c": "55", "return-c": "42"}


def test_ticks_can_be_taken_away_again(engineer, site):
    record = begin(engineer)
    form = section_form(engineer, f"{record}/customer")
    engineer.post(f"{record}/customer", data={**form, "did.gauge": "gauge", "did.reset": "reset"})
    assert latest(site, record)["did"] == "gauge reset"
    form = section_form(engineer, f"{record}/customer")
    del form["did.gauge"]
    engineer.post(f"{record}/customer", data=form)
    assert latest(site, record)["did"] == "reset"


def test_a_page_that_is_only_looked_at_and_sent_writes_nothing(engineer, site):
    record = begin(engineer, SEALED.key)
    before = stored(site, record).entries
    for section in ("appliance", "water", "left", "controls"):
        engineer.post(f"{record}/{section}", data=section_form(engineer, f"{record}/{section}"))
    assert stored(site, record).entries == before


def test_a_setting_leads_to_what_is_written_about_it(engineer):
    assert 'href="/engineer/help/setting-bypass"' in engineer.get(f"{begin(engineer)}/controls").text


@pytest.mark.parametrize("address", ["/engineer/records/none", "/engineer/records/none/water"])
def test_there_is_no_page_of_no_record(engineer, address):
    assert engineer.get(address).status_code == 404


def test_a_page_with_a_script_allows_ours_and_no_other(engineer):
    policy = engineer.get(begin(engineer)).headers["content-security-policy"]
    assert "script-src 'self'" in policy
    assert "unsafe" not in policy


def test_no_page_of_a_household_allows_any(engineer, site):
    assert isinstance(site.store.home(SEALED.key), Home)
    assert "script" not in engineer.get(f"/h/{SEALED.key}").headers["content-security-policy"]
