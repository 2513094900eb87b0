"""Which visits stand in an engineer's own calendar?"""

from collections.abc import Iterator

from kb.calendar import Coming
from server.diary.reading import home_of
from server.site import Site


def coming(site: Site, name: str) -> Iterator[Coming]:
    """Somebody's own visits still to be made for which a time was agreed; nothing of it tells who lives where."""
    visits = [each for each in site.store.appointments.to_visit() if each.owner == name and each.agreed]
    towns = site.store.lists.towns([each.key for each in visits if each.key])
    for each in visits:
        if each.agreed is None:
            continue
        home = home_of(site, each.key)
        town, postcode = towns.get(each.key, ("", ""))
        yield Coming(
            id=each.id,
            appliance=home.appliance if home else "",
            begins=each.agreed.window.begins(site.firm.clock),
            ends=each.agreed.window.ends(site.firm.clock),
            town=town,
            postcode=postcode,
            link=f"{site.firm.site}/engineer/visits" + (f"/{each.job}" if each.job else ""),
        )
