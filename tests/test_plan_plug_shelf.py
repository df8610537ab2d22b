"""What the shelf keeps of the plugs: all that an edit does not touch, and nothing that it does."""

from dataclasses import replace
from datetime import date

from lawnbook.plan.evidence import yard_thatch, zones_thatch
from lawnbook.plan.findings import findings_of
from lawnbook.plan.plug_model import Place, SpotThatch
from lawnbook.plan.plug_series import SpotPlugs
from lawnbook.plan.plug_shelf import PlugShelf
from lawnbook.plan.thatch import spots_thatch
from lawnbook.plan.zone_facts import setting_of
from lawnbook.yard.notebook import Notebook, apply, put
from tests.plan_yards import core, spot, yard, zone

TODAY = date(2026, 7, 15)


def plugged() -> Notebook:
    """Two spots of one zone and one of another, six plugs each."""
    spots = [
        spot(id="a", name="gate"),
        spot(id="b", name="oak"),
        spot(id="c", name="pond", zone="z2"),
    ]
    cores = [
        core(
            date(2020 + year, 5, 1),
            0.9 - 0.04 * year - 0.01 * n,
            id=f"{each.id}{year}",
            spot=each.id,
        )
        for n, each in enumerate(spots)
        for year in range(6)
    ]
    zones = [zone(), zone(id="z2", name="Back")]
    return yard(zones=zones, spots=spots, cores=cores)


def thatch(notebook: Notebook, shelf: PlugShelf, on: date = TODAY) -> dict[str, SpotThatch]:
    """What the plugs of each spot show."""
    return {each.spot_id: each for each in spots_thatch(setting_of(notebook, on), shelf)}


def test_a_new_plug_makes_its_spot_anew_and_keeps_the_others() -> None:
    shelf, before = PlugShelf(), plugged()
    then = thatch(before, shelf)
    after = apply(before, put(before, "cores", core(TODAY, 0.3, id="new", spot="a")))
    now = thatch(after, shelf)
    assert (now["b"], now["c"]) == (then["b"], then["c"])
    assert now["b"] is then["b"]
    assert now["c"] is then["c"]
    assert now["a"] == thatch(after, PlugShelf())["a"]
    assert now["a"].latest_in == 0.3 != then["a"].latest_in


def test_another_day_another_name_another_latitude_are_told_as_they_are() -> None:
    shelf, notebook = PlugShelf(), plugged()
    thatch(notebook, shelf)
    renamed = apply(notebook, put(notebook, "zones", replace(notebook.zones["z2"], name="Orchard")))
    south = replace(notebook, yard=replace(notebook.yard, latitude_deg=-33.0))
    for changed, on in ((renamed, TODAY), (south, TODAY), (notebook, date(2024, 1, 1))):
        assert thatch(changed, shelf, on) == thatch(changed, PlugShelf(), on)
    assert thatch(renamed, shelf)["c"].zone == "Orchard"


def test_figures_of_zones_and_yard_stay_while_their_plugs_do() -> None:
    shelf, notebook = PlugShelf(), plugged()
    setting = setting_of(notebook, TODAY)
    zones_thatch(setting, shelf)
    yard_of = yard_thatch(setting, shelf)
    assert yard_of is not None
    assert yard_of.evidence.spots == 3
    longer = apply(notebook, put(notebook, "cores", core(TODAY, 0.2, id="new", spot="c")))
    later = setting_of(longer, TODAY)
    assert zones_thatch(later, shelf) == zones_thatch(later)
    assert yard_thatch(later, shelf) == yard_thatch(later)
    assert findings_of(later, (), (), shelf) == findings_of(later, (), ())


def test_spots_that_are_gone_are_let_go() -> None:
    shelf, notebook = PlugShelf(), plugged()
    kept = thatch(notebook, shelf)["a"]
    fewer = replace(notebook, spots={"b": notebook.spots["b"]})
    assert list(thatch(fewer, shelf)) == ["b"]
    again = thatch(notebook, shelf)["a"]
    assert again == kept
    assert again is not kept


def test_zones_that_are_gone_are_let_go() -> None:
    shelf, notebook = PlugShelf(), plugged()
    setting = setting_of(notebook, TODAY)
    compared = SpotPlugs(notebook.spots["c"], setting.cores["c"]).compared
    place = Place("zone", "z2")
    kept = shelf.figures(place, compared, 40.0)
    thatch(notebook, shelf)
    assert shelf.figures(place, compared, 40.0) is kept
    spots = {key: each for key, each in notebook.spots.items() if key != "c"}
    thatch(replace(notebook, spots=spots, zones={"z": zone()}), shelf)
    assert shelf.figures(place, compared, 40.0) is not kept
