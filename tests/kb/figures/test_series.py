"""Series against counts by hand, and against pandas for what is grouped by week."""

import pandas
from hypothesis import given

from kb.figures.bars import callers, overdue, parts, stops
from kb.figures.calls import calls_by_week
from kb.figures.expected import ANY_OTHER, expected_causes
from kb.figures.figure import Point
from kb.figures.rows import Caller, CallsAlike, CausesAlike, JobsAlike, PartsAlike, StopsAlike
from kb.figures.shares import danger_soon, fixed_first_time, solved_by_phone
from kb.figures.weeks import Span, Week
from tests import figuring
from tests.figuring import NOW, THIS_WEEK

SPAN = Span(Week(THIS_WEEK.number - 3), THIS_WEEK)
LONG = Span(Week(THIS_WEEK.number - 8), THIS_WEEK)


def week(number: int) -> Week:
    return Week(SPAN.first.number + number)


def test_calls_stand_in_their_weeks_the_commonest_kind_first() -> None:
    figure = calls_by_week([CallsAlike(week(0), "noise", 2), CallsAlike(week(2), "wont-stop", 5)], SPAN)

    assert [(row.label, row.values) for row in figure.chart.rows] == [
        ("All calls", (2, 0, 5, 0)),
        ("Won't stop", (0, 0, 5, 0)),
        ("Noise", (2, 0, 0, 0)),
    ]
    assert figure.cases == 7


def test_a_week_is_cold_at_and_under_nought_degrees_whatever_kind_of_call_said_so() -> None:
    temperatures = {0: (5.0, -1.0), 1: (0.0, None), 2: (0.1, 7.0), 3: (None, None)}
    calls = [
        CallsAlike(week(n), category, 1, coldest=degrees)
        for n, pair in temperatures.items()
        for category, degrees in zip(("a", "b"), pair, strict=True)
    ]
    figure = calls_by_week(calls, SPAN)

    assert figure.chart.marked == (True, True, False, False)
    assert "In 2 weeks it was 0 °C or colder." in figure.says
    assert figure.note == "How cold it was is known for 3 weeks of 4."


def test_rare_kinds_are_drawn_together_and_listed_apart() -> None:
    calls = [CallsAlike(week(0), f"kind-{number:02}", 30 - number) for number in range(20)]
    figure = calls_by_week(calls, SPAN)

    assert figure.chart.rows[-1].label == "12 other kinds"
    assert sum(row.total for row in figure.chart.rows[1:]) == figure.chart.rows[0].total == figure.cases
    assert len(figure.table.columns) == 4 + 20


@given(rows=figuring.calls())
def test_calls_by_week_are_those_that_pandas_counts(rows) -> None:
    figure = calls_by_week(list(figuring.count_calls(rows, LONG, NOW)), LONG)
    frame = pandas.DataFrame({"at": [row.began for row in rows]})
    theirs = frame.groupby(frame["at"].map(lambda at: f"{at.isocalendar()[0]}-W{at.isocalendar()[1]:02}")).size()

    assert {row[0]: row[3] for row in figure.table.rows if row[3]} == {
        week: count for week, count in theirs.items() if week in {str(each) for each in LONG.weeks}
    }


def test_solved_by_phone_stands_beside_what_came_back() -> None:
    calls = [
        CallsAlike(week(0), "noise", 40, solved=20, settled=20, back=5),
        CallsAlike(week(0), "controls", 60, solved=30, settled=30, back=1),
        CallsAlike(week(3), "noise", 10, solved=10, settled=0),
    ]
    figure = solved_by_phone(calls, SPAN)
    solved, back = figure.chart.panels

    assert solved.points == (Point(50, 100), Point(0, 0), Point(0, 0), Point(10, 10))
    assert back.points == (Point(6, 50), Point(0, 0), Point(0, 0), Point(0, 0))
    assert figure.says.startswith("55% of the calls were solved by phone. Of those, 12% came back within 48 hours.")


def test_danger_counts_every_call_and_says_how_many_are_to_be_looked_at() -> None:
    figure = danger_soon([CallsAlike(week(1), "noise", 1000, soon=999)], SPAN)

    assert "over 99% of the calls" in figure.says
    assert "In 1 call it took longer, or was not done" in figure.says
    assert figure.chart.panels[0].wanted == 1


def test_fixed_first_time_is_of_the_jobs_that_are_old_enough_to_say() -> None:
    figure = fixed_first_time([JobsAlike(week(0), 60, settled=50, lasting=40, timed=10, minutes=625)], SPAN)

    assert figure.cases == 50
    assert figure.says.startswith("80% of the jobs were fixed at the first visit")
    assert "A visit took 62 minutes on average." in figure.says


def test_parts_are_told_by_how_many_of_those_taken_were_used_and_which_were_wanted() -> None:
    figure = parts([PartsAlike("fan", 4, 1, 2), PartsAlike("seal", 6, 6, 0), PartsAlike("elbow", 0, 0, 3)])

    assert [(bar.label, bar.value, bar.inner, bar.words) for bar in figure.chart.bars] == [
        ("Seal", 6, 6, "6 of 6"),
        ("Fan", 4, 1, "1 of 4"),
    ]
    assert figure.says == "70% of the parts taken along were used. 5 times a part was wanted that nobody had taken."
    assert figure.table.rows[-1] == ("elbow", 0, 0, None, 3)


def test_the_steps_where_people_give_up_are_named_the_worst_first() -> None:
    figure = stops([StopsAlike("a", 1, 1), StopsAlike("b", 0, 5)], {"a": "Read", "b": "Press"}.__getitem__)

    assert [(bar.label, bar.value, bar.inner) for bar in figure.chart.bars] == [("Press", 5, 0), ("Read", 2, 1)]
    assert figure.says == "7 walks stopped at a step, 1 of them before anybody rang. Most often at “Press”."


def test_expected_causes_are_laid_against_what_it_was() -> None:
    found = [
        CausesAlike("ice", "dirt", "ice", 10),
        CausesAlike("ice", "dirt", "dirt", 4),
        CausesAlike("dirt", "sag", "ice", 2),
        CausesAlike("", "", "ice", 99),
    ]
    figure = expected_causes(found)

    assert figure.chart.labels == ("ice", "dirt")
    assert figure.chart.cells == ((10, 2, 0), (4, 0, 0))
    assert figure.chart.edge == (Point(10, 12), Point(4, 4))
    assert (
        figure.says == "In 88% of the jobs the cause was one of the first two expected, in 62% it was the very first."
    )


@given(rows=figuring.jobs())
def test_every_job_with_an_expected_cause_stands_in_the_matrix_once(rows) -> None:
    figure = expected_causes(list(figuring.count_causes(rows, LONG)))
    expected = [row for row in rows if row.expected and LONG.first <= row.week]

    assert sum(map(sum, figure.chart.cells)) == figure.cases == len(expected)
    assert sum(each.part for each in figure.chart.edge) == sum(row.cause in row.expected for row in expected)


def test_causes_beyond_the_commonest_are_any_other() -> None:
    figure = expected_causes([CausesAlike(f"{n}", "", f"{n}", 20 - n) for n in range(12)])

    assert figure.chart.labels[-1] == ANY_OTHER
    assert len(figure.chart.cells) == len(figure.chart.cells[0]) == 9
    assert sum(map(sum, figure.chart.cells)) == figure.cases


def test_homes_that_call_often_and_services_overdue_are_lists() -> None:
    often = callers([Caller("A", "Any 24", 3), Caller("B", "Any 28", 9)], 40)
    late = overdue((2, 0, 1, 0, 0), 20)

    assert [bar.value for bar in often.chart.bars] == [9, 3]
    assert often.says == "2 homes of 40 that called did so 3 times or more in the last year."
    assert late.says == "3 services of 20 with a date should have been done by today."
    assert not often.few
    assert not late.few
