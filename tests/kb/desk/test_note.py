from datetime import date
from zoneinfo import ZoneInfo

import pytest

from kb.desk.causing import causes_of
from kb.desk.events import Did
from kb.desk.note import NOT_ASKED, Note, note
from kb.desk.reading import read
from kb.facts import Known
from kb.home import Home
from tests.kb.desk.calling import Told, books, no_to

BOOKS = books()
TODAY = date(2026, 11, 25)
LONDON = ZoneInfo("Europe/London")
HOME = Home("9EJFP-R992N-EKTAM", "any", "Any 20", Known({"fuel": "lpg"}), fitted=date(2020, 2, 1))


def whole() -> Note:
    told = Told().clear(BOOKS)
    told.did(Did.CALLER, phone="01632 960111", address="1 Any Street", name="Robin", relation="lives there",
             access="dog in the yard", authority="up to 100")  # fmt: skip
    told.did(Did.HOME, key=HOME.key, repeat="2026-11-10").did(Did.WORDS, words="it has gone cold")
    told.did(Did.TOLD, heating="no", hot_water="yes", hob="yes", code="P seven", since="this morning", changed="none")
    told.did(Did.PEOPLE, needs="over-65", consent="yes", indoor="14", asked="yes").did(Did.FLAGS, flags="tenant")
    told.did(Did.BEGAN, article="pressure", trail=no_to(BOOKS))
    told.answered(BOOKS, "Yes", "Low~0.4", "Once", "It stopped again", start=2)
    told.did(Did.PROMISED, what="an engineer", by="17:00").did(Did.HANDED, to="Ash").did(Did.CLOSED, how="booked")
    reading = read(BOOKS, told.events, TODAY, HOME.known)
    return note(reading, LONDON, HOME, causes=causes_of(BOOKS, reading.places[0]))


def lines(found: Note) -> dict[str, str]:
    return {line.name: line.words for section in found.sections for line in section.lines}


# What a good call note holds: common practice of desks in the trade, each field of it once.
@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("Call-back number", "01632 960111"),
        ("Address", "1 Any Street"),
        ("Access, parking, pets", "dog in the yard"),
        ("Who may order the work, up to how much", "up to 100"),
        ("The caller", "rents the home"),
        ("Can you smell gas?", "No (08:00:00)"),
        ("Is an alarm sounding?", "No (08:00:10)"),
        ("Fuel", "LPG from a tank or bottles"),
        ("Appliance", "Any 20"),
        ("Fitted", "1 February 2020"),
        ("Rang before, within 28 days", "10 November 2026"),
        ("What the display shows, as said", "“P seven”"),
        ("Heating", "No"),
        ("Since when, and when it comes", "this morning"),
        ("What does it say?", "Low (0.4 bar)"),
        ("Tries: reset", "1 before the call, 1 in it"),
        ("Somebody at home", "is over 65"),
        ("They agree that it is noted", "Yes"),
        ("Degrees outdoors", NOT_ASKED),
        ("Promised", "an engineer (by 17:00)"),
        ("Handed over", "Wren to Ash, 08:02:20"),
        ("Closed", "Booked"),
        ("Recorded by", "Wren"),
    ],
)
def test_the_note_says(name: str, words: str) -> None:
    assert lines(whole())[name] == words


def test_the_callers_words_stand_in_quotes_with_their_time() -> None:
    section = next(each for each in whole().sections if each.title == "In their own words")
    assert (section.lines[0].name, section.lines[0].words) == ("08:00:40", "“it has gone cold”")


def test_the_likeliest_two_causes_stand_with_their_chance() -> None:
    found = [line for each in whole().sections for line in each.lines if line.name.startswith("Likely")]
    assert [line.words for line in found] == ["Vessel flat", "Weep"]


def test_a_call_that_has_only_begun_says_what_is_missing() -> None:
    found = note(read(BOOKS, Told().asked(BOOKS, "no").events, TODAY), LONDON)
    assert lines(found)["Is an alarm sounding?"] == NOT_ASKED
    assert lines(found)["Their words"] == NOT_ASKED


def test_danger_that_ended_the_call_stands_in_it() -> None:
    found = note(read(BOOKS, Told().asked(BOOKS, "not-sure").events, TODAY), LONDON)
    assert lines(found)["Can you smell gas?"] == "Not sure, taken as yes (08:00:00)"
    assert lines(found)["This ended the fault questions"] == "Get out"
    assert found.pace == "leave"
