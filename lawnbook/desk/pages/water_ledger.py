"""The daily ledger of the zone on show, reckoned when asked for and remembered for a while."""

from datetime import date

from lawnbook.plan.ledger import zone_ledger
from lawnbook.plan.water_model import ZoneLedger
from lawnbook.plan.zone_facts import Setting, facts_of, setting_of
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
        zones = setting.notebook.zones
        if zone_id not in zones:
            return None
        if zone_id not in self._ledgers:
            number = list(zones).index(zone_id) + 1
            facts = facts_of(setting, zones[zone_id], number)
            self._ledgers[zone_id] = zone_ledger(setting, facts)
        return self._ledgers[zone_id]
