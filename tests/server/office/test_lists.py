"""Homes from a file and into one, through the page."""

from kb.listing import TEMPLATE
from server.office import lists
from server.office.list_pages import ColumnRow
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
    assert page.status_code == 422
    words = Page(page.text).words
    for told in (
        "1 Need Expected the name of a column",
        "5 Person 1 phone 1 Expected a whole phone number",
        "7 Postcode",
    ):
        assert told in words, told
    assert "Nothing was imported" in words
    assert len(office.site.store.homes()) == 2


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
