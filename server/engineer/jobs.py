"""What is known of one visit by now: its call, its home, what the checks and the closing form say, the chances?"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from secrets import token_urlsafe

from starlette.requests import Request

from kb.appointment import Appointment
from kb.article import Article, End, Pace, Step
from kb.desk.reading import Reading
from kb.facts import NOTHING_KNOWN, Known
from kb.home import Home
from kb.prose import Target
from kb.triage.brief import Brief, Told, brief
from kb.triage.causes import Chance, chances
from kb.triage.jobs import Tally
from kb.visit.after import After
from kb.visit.changing import learnt
from kb.visit.checks import standing, starts
from kb.visit.closing import close
from kb.visit.form import form_for
from kb.visit.from_call import article_of, told
from kb.visit.history import LOOK_BACK, history, last_time
from kb.visit.job import Closed, Job
from kb.visit.learnt import evidence
from kb.visit.returning import agreed, returning
from kb.visit.unsafe import UNSAFE_END
from kb.visit.written import Written, written
from kb.walk import Standing
from server.diary.booking import agreed_words
from server.diary.reading import home_of, reading_of
from server.engineer.book import ROOM
from server.site import Site
from server.web.errors import NotFound

VISITS = f"{ROOM}/visits"
NOTHING_TOLD = Told(Pace.ROUTINE, "")


@dataclass(frozen=True, slots=True)
class Seen:
    """A job that was read, with all that follows from it.

    `before` are the chances before anybody went, `chances` those after what was found so far.
    """

    job: Job
    article: Article | None
    home: Home | None
    known: Known
    told: Told
    starts: tuple[Step, ...]
    walks: tuple[Standing, ...]
    tally: Tally
    before: tuple[Chance, ...]
    chances: tuple[Chance, ...]
    written: Written

    @property
    def address(self) -> str:
        """Where the brief lies."""
        return f"{VISITS}/{self.job.id}"

    @property
    def title(self) -> str:
        """What the visit is about."""
        return self.article.title if self.article else "A visit"


class JobBook:
    """The visits of one site."""

    def __init__(self, site: Site) -> None:
        """Read jobs of this site's store with this site's articles."""
        self.site = site
        self.steps: Mapping[Target, Step] = {step.target: step for step in site.library.steps()}

    def today(self) -> date:
        """The day where the firm is."""
        return self.site.now().astimezone(self.site.firm.clock).date()

    def find(self, request: Request) -> Seen:
        """The visit that an address names; raises NotFound."""
        job = self.site.store.jobs.job(request.path_params["job"])
        if job is None:
            raise NotFound
        return self.read(job)

    def read(self, job: Job) -> Seen:
        """All that follows from a job."""
        library, home = self.site.library, self.home(job.key)
        known = self.site.known(home) if home else NOTHING_KNOWN
        reading = self.reading(job.told_in)
        before_it = told(reading, self.site.firm.clock) if reading else NOTHING_TOLD
        article = library.articles.get(job.article)
        first = starts(library, job.article) if article else ()
        walks = tuple(standing(library, start, job.texts, known) for start in first)
        tally = self.site.store.jobs.tally(job.article)
        given = evidence(library, before_it.given, ())
        before = self._chances(article, given, tally, job.range)
        now = self._chances(article, evidence(library, given, walks), tally, job.range)
        form = written(form_for(now), job.texts, self.today(), _ended(walks), known.marks)
        return Seen(job, article, home, known, before_it, first, walks, tally, before, now, form)

    def home(self, key: str) -> Home | None:
        """The home of a key, where its key opens it."""
        return home_of(self.site, key)

    def reading(self, call: str) -> Reading | None:
        """A call as it was read on its day; None where there is none, or its fault's article is gone."""
        return reading_of(self.site, call)

    def fault_of(self, call: str) -> Article | None:
        """The fault that a call is about."""
        reading = self.reading(call)
        return article_of(self.site.library, reading) if reading else None

    def brief(self, seen: Seen, by: str) -> Brief | None:
        """What to read before setting off; None where the fault's article is gone."""
        if seen.article is None:
            return None
        key, zone = seen.job.key, self.site.firm.clock
        record = self.site.store.register.read(key, by) if seen.home else None
        calls = self.site.store.calls.of_home(key, seen.job.begun - LOOK_BACK, seen.job.told_in) if key else ()
        jobs = [job for job in self.site.store.jobs.of_home(key) if job.id != seen.job.id] if key else []
        before = history([(call.began, call.how) for call in calls], jobs, zone)
        first = self.site.store.jobs.job(seen.job.returns.job) if seen.job.returns else None
        again = last_time(first, seen.job, zone) if first else ()
        return brief(
            seen.article,
            self.steps,
            seen.told,
            seen.home,
            record,
            seen.tally,
            before,
            self.when(seen),
            again,
            self.site.firm.region,
        )

    def when(self, seen: Seen) -> str:
        """What was agreed about the visit, in words; nothing where nothing was."""
        trail = self.site.store.appointments.trail_of(seen.job)
        last = trail[-1] if trail else None
        return agreed_words(last if isinstance(last, Appointment) else None)

    def closed(self, seen: Seen, by: str) -> Closed:
        """How a visit is closed as it stands."""
        return close(seen.written, self.site.now(), by, [each.cause.name for each in seen.before[:2]])

    def after(self, seen: Seen, by: str) -> After:
        """What follows from closing a visit as it stands."""
        now, form = self.site.now(), seen.written
        again = returning(seen.job, form, token_urlsafe(12), by, now)
        then = agreed(form, self.site.firm.hours, by, now) if again else None
        return After(again, then, learnt(form, seen.home) if seen.home else {})

    def evidence(self, seen: Seen) -> Mapping[Target, str]:
        """What its cause is learnt from."""
        return evidence(self.site.library, seen.told.given, seen.walks)

    def _chances(
        self, article: Article | None, given: Mapping[Target, str], tally: Tally, family: str
    ) -> tuple[Chance, ...]:
        return chances(article, self.steps, given, tally, family) if article and article.causes else ()


def _ended(walks: Iterable[Standing]) -> str:
    """The anchor of the end the checks came to; something unsafe counts wherever it was found."""
    ends = [walk.at.anchor for walk in walks if isinstance(walk.at, End)]
    return UNSAFE_END if UNSAFE_END in ends else ends[-1] if ends else ""
