"""The whole office, as its owner works through it, on both databases, with the process killed again and again.

Five thousand homes come in from a file that was wrong at first, cards that changed are printed anew, and somebody is
forgotten.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from io import BytesIO
from pathlib import Path

import pypdf
import pytest
from playwright.sync_api import Browser, expect

from server.store import Store
from tests.browser.office import OWNER, Office, bytes_of, firm_with, office_at, tables_with
from tests.listings import generated

HOMES = 5_000
FROM_THE_DEMO = 5
PLACE = "ZZ20"
HERS, HIS = "Ottoline Quarrender", "Quillon Farthingale"
HER_PHONE, HIS_PHONE = "01632 960987", "01632 960986"


@pytest.fixture
def office(browser: Browser, address: str) -> Iterator[Office]:
    with office_at(browser, address) as office:
        yield office


def test_the_whole_office(office: Office, tmp_path: Path) -> None:
    right = tmp_path / "homes.csv"
    right.write_text(generated(HOMES), encoding="utf-8")
    mistakes_are_told_by_row_and_column(office, tmp_path, right)
    a_killed_import_leaves_nothing_half(office, right)
    all_come_in_once(office, tmp_path, right)
    cards_are_printed(office)
    twelve_changed_cards_are_printed_anew(office, tmp_path)
    a_new_number_of_the_firm_changes_them_all(office, tmp_path)
    home = two_people_are_noted(office, right)
    who_is_forgotten_is_nowhere(office, home)


def mistakes_are_told_by_row_and_column(office: Office, folder: Path, right: Path) -> None:
    lines = right.read_text(encoding="utf-8").splitlines()
    lines[1] = lines[1].replace("07700 900000", "07700 9")
    lines[4_000] = lines[4_000].replace("2033-01-31", "31 Juno 2033")
    wrong = folder / "wrong.csv"
    wrong.write_text("\n".join(lines), encoding="utf-8")
    office.send(wrong, "Check")
    office.told("2 things are to be mended. Nothing was imported.")
    rows = office.page.get_by_role("region", name="What is to be mended").locator("tbody tr")
    assert [row.locator("td").all_inner_texts()[:2] for row in rows.all()] == [
        ["2", "Person 1 phone 1"],
        ["4001", "Appliance 1 warranty ends"],
    ]
    assert office.homes() == FROM_THE_DEMO


def a_killed_import_leaves_nothing_half(office: Office, right: Path) -> None:
    office.send(right, "Import")
    expect(office.page.locator(".going").last).to_contain_text("of 5,000 homes written", timeout=60_000)
    office.kill()
    assert office.homes() == FROM_THE_DEMO


def all_come_in_once(office: Office, folder: Path, right: Path) -> None:
    office.send(right, "Import")
    office.told("Imported: 5,000 new homes, 0 changed, 0 as they were.")
    office.kill()
    assert office.homes() == FROM_THE_DEMO + HOMES
    some = folder / "some.csv"
    some.write_text("\n".join(right.read_text(encoding="utf-8").splitlines()[:101]), encoding="utf-8")
    office.send(some, "Import")
    office.told("100 things are to be mended. Nothing was imported.")
    assert office.homes() == FROM_THE_DEMO + HOMES


def cards_are_printed(office: Office) -> None:
    page = office.page
    page.goto("/office/homes")
    page.get_by_label("first part of the postcode").fill(PLACE)
    page.get_by_label("Card").select_option("none printed yet")
    page.get_by_role("button", name="Show", exact=True).click()
    expect(page.locator("#found")).to_have_text("56 homes")
    page.get_by_role("link", name="Print their cards").click()
    assert pages_of(office, "Make the PDF") == 28
    page.get_by_role("button", name="mark as printed").click()
    expect(page.locator("#found")).to_have_text("0 homes")


def twelve_changed_cards_are_printed_anew(office: Office, folder: Path) -> None:
    keys = re.findall(r"^\ufeff?([\w-]{17}),", office.got(f"/office/homes.csv?place={PLACE}"), re.M)
    some = folder / "marks.csv"
    some.write_text("Key;Gauge low\n" + "".join(f"{key};0.9\n" for key in keys[:12]), encoding="utf-8")
    office.send(some, "Import")
    office.told("Imported: 0 new homes, 12 changed, 0 as they were.")
    changed_cards_are(office, keys[:12])
    assert pages_of(office, "Make the PDF of all") == 24
    changed_cards_are(office, keys[:12])
    mark_all(office)


def a_new_number_of_the_firm_changes_them_all(office: Office, folder: Path) -> None:
    firm = firm_with(folder, "01632 960147", "01632 960199")
    office.server.settings = replace(office.server.settings, firm=firm)
    office.kill()
    office.page.goto("/office/cards")
    assert office.page.locator("tbody tr").count() == 56
    mark_all(office)


def two_people_are_noted(office: Office, right: Path) -> str:
    page = office.page
    office.find(next(each for each in right.read_text(encoding="utf-8").split(",") if each.endswith(" 4321")))
    home = page.url
    for name, phone in ((HERS, HER_PHONE), (HIS, HIS_PHONE)):
        page.get_by_role("link", name="Add a person").click()
        page.get_by_label("Name").fill(name)
        page.get_by_label("Phone 1").fill(phone)
        page.get_by_role("group", name="Is over 65").get_by_label("Has this need").check()
        page.get_by_role("group", name="Is over 65").get_by_label("Agreed").fill("2026-10-01")
        page.get_by_role("button", name="Save").click()
        expect(page.get_by_role("link", name=phone)).to_be_visible()
    office.kill()
    office.find(HER_PHONE.replace(" ", "")[-6:])
    assert page.url == home
    with Store(office.database) as store:
        record = store.register.read(home.rpartition("/")[2], OWNER)
        assert record is not None
        his = next(each.id for each in record.people if each.name == HIS)
        assert store.register.keep(record.key, "invoice", date(2026, 11, 2), OWNER, his)
    return home


def who_is_forgotten_is_nowhere(office: Office, home: str) -> None:
    page = office.page
    page.goto("/staff/calendar")
    page.get_by_role("button", name="Make my address").click()
    calendar = "/calendar/" + page.locator(".secret").inner_text().rpartition("/")[2]
    for name in (HERS, HIS):
        page.goto(home)
        page.get_by_role("link", name=f"Forget {name}").click()
        page.get_by_label(re.compile("I made sure")).check()
        page.get_by_role("button", name=f"Forget {name}").click()
        expect(page.get_by_role("heading", level=1)).to_have_text(f"{name} is forgotten")
    expect(page.get_by_text(f"Invoice for {HIS} of 2 November 2026, kept until 2 November 2033")).to_be_visible()
    office.kill()
    for name, phone in ((HERS, HER_PHONE), (HIS, HIS_PHONE)):
        for words in (name, name.split()[1], phone):
            office.find(words)
            expect(page.get_by_role("alert")).to_contain_text("No home was found.")
    everywhere = office.got(home) + office.got("/office/homes.csv") + office.got(calendar) + office.got(f"{home}/trail")
    assert "BEGIN:VEVENT" in everywhere
    for words in ("Quarrender", "Farthingale", "960987", "960986"):
        assert words not in everywhere
    gone = ("Quarrender", "quarrender", "960987", HER_PHONE.replace(" ", "")[:0:-1])
    assert [tables_with(office.database, words) for words in gone] == [set()] * 4
    assert [words for words in gone if words.encode() in bytes_of(office.database)] == []
    assert tables_with(office.database, "Farthingale") == {"kept_papers"}


def changed_cards_are(office: Office, keys: list[str]) -> None:
    office.page.goto("/office/cards")
    assert sorted(office.page.locator("tbody .key").all_inner_texts()) == sorted(keys)


def mark_all(office: Office) -> None:
    office.page.get_by_role("button", name="mark as printed").click()
    expect(office.page.get_by_text("Every printed card still says what is known.")).to_be_visible()


def pages_of(office: Office, button: str) -> int:
    """How many pages the PDF has that a button makes."""
    with office.page.expect_download() as waiting:
        office.page.get_by_role("button", name=button).click()
    return len(pypdf.PdfReader(BytesIO(Path(waiting.value.path()).read_bytes())).pages)
