"""Homes from a file and into one, through the page."""

import re

from kb.listing import TEMPLATE
from server.office import importing, lists
from server.office.list_pages import ColumnRow
from server.store import StoreUnavailable
from tests.listings import generated
from tests.registers import FIRST
from tests.server.html import Page


def send(office, content: str | bytes, do: str = "check"):
    return office.client.post(
        "/office/list", data={"csrf": office.csrf, "do": do}, files={"file": ("homes.csv", content, "text/csv")}
    )


def test_a_file_is_checked_and_then_imported(office):
    checked = send(office, generated(12))
    assert "12 new homes, 0 changed, 0 as they were" in Page(checked.text).words
    assert len(office.site.store.homes()) == 2
    imported = send(office, generated(12), "import")
    assert "Imported: 12 new homes" in Page(imported.text).words
    assert len(office.site.store.homes()) == 14


def test_every_problem_stands_in_a_table_and_nothing_is_imported(office):
    broken = generated(12).replace("07700 900003", "77").replace("ZZ15 ", "ZZ15X ").replace("Person 1 need 1,", "Need,")
    page = send(office, broken, "import")
    words = Page(page.text).words
    for told in (
        "1 Need Expected the name of a column",
        "5 Person 1 phone 1 Expected a whole phone number",
        "7 Postcode",
    ):
        assert told in words, told
    assert "Nothing was imported" in words
    assert len(office.site.store.homes()) == 2


def test_a_file_that_is_sent_twice_makes_no_home_twice(office):
    send(office, generated(12), "import")
    words = Page(send(office, generated(12), "import").text).words
    assert "12 things are to be mended. Nothing was imported." in words
    assert "2 Address 1 Expected a home that is not in the register yet, found the one with the key" in words
    assert len(office.site.store.homes()) == 14


def test_one_address_twice_in_a_file_is_told_unless_a_key_says_which_home(office):
    head, first, *_ = generated(1).split("\r\n")
    words = Page(send(office, "\r\n".join((head, first, first.upper()))).text).words
    assert "found the address of row 2 again" in words
    exported = office.get("/office/list/homes.csv").content
    assert "2 as they were" in Page(send(office, exported).text).words


def test_a_page_that_is_sent_in_pieces_tells_how_far_the_import_is(office):
    page = send(office, generated(1_200), "import").text
    told = re.findall(r"([\d,]+ of 1,200 homes \w+)", page)
    assert told == [f"{n} of 1,200 homes checked" for n in ("500", "1,000", "1,200")] + [
        f"{n} of 1,200 homes written" for n in ("500", "1,000")
    ]
    assert page.index(told[-1]) < page.index("Imported: 1,200 new homes") < page.index("<h2>Import</h2>")
    assert page.rstrip().endswith("</html>")


def test_a_register_that_cannot_be_reached_is_told_in_the_page():
    def failing(_tell):
        raise StoreUnavailable

    assert list(importing.watched(failing)) == [importing.Outcome(failed=importing.UNREACHED)]
    assert importing.UNREACHED in importing.outcome((), importing.Outcome(failed=importing.UNREACHED), False).alert


def test_a_file_that_is_not_utf_8_is_told(office):
    page = send(office, "Town,Appliance 1 plate\nCafé,C 28\n".encode("latin-1"))
    assert "letters in UTF-8" in page.text


def test_no_file_is_told(office):
    assert (send(office, "").status_code, lists._NO_FILE in send(office, "").text) == (422, True)


def test_what_is_exported_is_imported_as_it_was(office):
    exported = office.get("/office/list/homes.csv")
    assert exported.headers["content-type"] == "text/csv; charset=utf-8"
    assert "no-store" in exported.headers["cache-control"]
    assert exported.content.startswith(b"\xef\xbb\xbfKey,")
    assert "0 new homes, 0 changed, 2 as they were" in Page(send(office, exported.content, "import").text).words
    assert office.get("/office/list/homes.csv").content == exported.content
    assert office.site.store.register.trail(FIRST)[-1].by == "Wren"


def test_the_template_has_the_usual_columns_and_every_column_is_explained(office):
    assert len(office.get("/office/list/template.csv").text.split(",")) == len(TEMPLATE)
    told = Page(office.get("/office/list").text).words
    assert all(column.name in told for column in lists.EXPLAINED)
    assert ColumnRow("Tenure", "what is known of the home", (("own", "owned"), ("rent", "rented"))) in lists.EXPLAINED


def test_a_long_list_is_taken_where_other_forms_may_not_be_so_long(office):
    assert "9,000 new homes" in send(office, generated(9_000) + "\n" * 1_000_000).text
    assert office.post("/office/find", find="x" * 2_000_001).status_code == 413
