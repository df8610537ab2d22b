"""The daily ledger of the zone on show, reckoned when asked for and remembered for a while."""

from collections.abc import Sequence
from datetime import date

from lawnbook.plan.ledger import zone_ledger
from lawnbook.plan.water_model import ZoneLedger
from lawnbook.plan.working_model import Working
from lawnbook.plan.zone_facts import Setting, ZoneFacts, facts_of, setting_of
from lawnbook.yard.notebook import Notebook, as_of


class LedgerCache:
    """Ledgers of one notebook on one day, by zone. Notebooks are told apart by identity."""

    def __init__(self) -> None:
        self._held: tuple[Notebook, date, Setting] | None = None
        self._ledgers: dict[str, ZoneLedger] = {}

    def ledger(self, notebook: Notebook, on: date, zone_id: str) -> ZoneLedger | None:
        """The ledger of a zone up to a day; None where there is no such zone."""
        if self._held is None or self._held[0] is not notebook or self._held[1] != on:
            self._held = (notebook, on, setting_of(as_of(notebook, on), on))
            self._ledgers.clear()
        setting = self._held[2]
        if zone_id not in setting.notebook.zones:
            return None
        if zone_id not in self._ledgers:
            self._ledgers[zone_id] = zone_ledger(setting, _facts(setting, zone_id))
        return self._ledgers[zone_id]

    def day_workings(self, zone_id: str, that: date) -> Sequence[Working]:
        """How a day of the ledger that was asked for last came about."""
        from lawnbook.plan.ledger_workings import ledger_day_workings

        if self._held is None or zone_id not in self._ledgers:
            return ()
        setting = self._held[2]
        return ledger_day_workings(setting, _facts(setting, zone_id), that)


def _facts(setting: Setting, zone_id: str) -> ZoneFacts:
    zones = setting.notebook.zones
    return facts_of(setting, zones[zone_id], list(zones).index(zone_id) + 1)
