"""Feedings as a table of comma-separated values, both ways: one line for each feeding and zone.

What is written comes back without loss. A table of one's own needs a date, a product, a zone, and
the pounds of product or the rate of nitrogen; lines that cannot be kept are told by their number.
"""

import csv
import difflib
import io
import math
from collections.abc import Iterable, Mapping
from dataclasses import field
from datetime import date
from types import MappingProxyType
from typing import TypeVar

from lawnbook.agronomy.nitrogen import n_lb_per_1000sqft, product_lb_for_rate
from lawnbook.agronomy.units import g_per_m2_to_lb_per_1000, lb_per_1000_to_g_per_m2, lb_to_kg
from lawnbook.frozen import dataclass
from lawnbook.plan.workings import LEAST_TOLD_LB
from lawnbook.reading import tr
from lawnbook.store.cells import shielded, unshielded
from lawnbook.store.feed_table import FedLine, FedTable, table_of
from lawnbook.yard.analysis import analysis_of
from lawnbook.yard.check import check_all
from lawnbook.yard.codec import LONGEST_ID
from lawnbook.yard.geometry import zone_area_sqft
from lawnbook.yard.limits import amount
from lawnbook.yard.notebook import Notebook, new_id
from lawnbook.yard.numbers import day
from lawnbook.yard.problems import in_plain_sight
from lawnbook.yard.records import Feeding, Product, Zone

COLUMNS = (
    "date",
    "product",
    "zone",
    "pounds",
    "kg",
    "treated_area_sqft",
    "n_lb_per_1000",
    "p2o5_lb_per_1000",
    "k2o_lb_per_1000",
    "n_g_per_m2",
    "spreader",
    "setting",
    "feeding",
)
"""The columns written. The area is empty where the whole zone, as drawn, was treated."""

N = TypeVar("N", Product, Zone)

ROUNDED = 1e-4
DISAGREES = 0.02
SHOWN = 40
MOST_NAMED = 6
SHORT_LABEL = 9
"""A feeding's number of fewer digits joins the lines of a table, and is no id to keep."""


@dataclass(frozen=True, slots=True)
class FeedingsRead:
    """What a table holds: new feedings, what is wrong by line, and how many are here already.

    `doubtful` are new feedings apart from the others, and `doubts` the questions about them;
    `problems` tell of what is left out or passed over.
    """

    feedings: tuple[Feeding, ...]
    problems: tuple[str, ...]
    repeats: int
    doubts: tuple[str, ...] = ()
    doubtful: tuple[Feeding, ...] = ()


@dataclass(slots=True)
class _Draft:
    """A feeding in the making: its lines joined as they come."""

    key: tuple[object, ...]
    feeding_id: str
    date: date
    product: Product
    spreader: str
    setting: str
    line: int
    pounds: dict[str, float] = field(default_factory=dict)
    areas: dict[str, float] = field(default_factory=dict)

    def feeding(self) -> Feeding:
        return Feeding(
            id=self.feeding_id or new_id(),
            date=self.date,
            product=self.product.id,
            pounds=MappingProxyType(self.pounds),
            treated_area_sqft=MappingProxyType(self.areas),
            spreader=self.spreader,
            setting=self.setting,
        )


def feedings_csv(notebook: Notebook) -> str:
    """Every feeding of a notebook, by date, one line for each zone; see `COLUMNS`."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for feeding in sorted(notebook.feedings.values(), key=lambda each: each.date):
        for zone_id in feeding.pounds:
            writer.writerow(_written(notebook, feeding, zone_id))
    return out.getvalue()


def read_feedings(text: str, notebook: Notebook, today: date) -> FeedingsRead:
    """The feedings that a table adds to a notebook; nothing is changed.

    Lines of one feeding share its id in the column "feeding", or else day, product, spreader and
    setting. A feeding that the notebook has already is a repeat.
    """
    table = table_of(text)
    return _Reading(table, notebook, today).result()


def _written(notebook: Notebook, feeding: Feeding, zone_id: str) -> tuple[str, ...]:
    """One line: what was put down on a zone, and what that was by the product's analysis."""
    product, zone = notebook.products.get(feeding.product), notebook.zones.get(zone_id)
    pounds, treated = feeding.pounds[zone_id], feeding.treated_area_sqft.get(zone_id)
    return (
        feeding.date.isoformat(),
        shielded(product.name if product else feeding.product),
        shielded(zone.name if zone else zone_id),
        repr(float(pounds)),
        f"{lb_to_kg(pounds):.6g}",
        "" if treated is None else repr(float(treated)),
        *_rates(product, pounds, _area(zone, treated)),
        shielded(feeding.spreader),
        shielded(feeding.setting),
        shielded(feeding.id),
    )


def _rates(product: Product | None, pounds: float, area_sqft: float) -> tuple[str, ...]:
    """N, P2O5 and K2O in lb per 1,000 sq ft and N in g/m2; empty where they cannot be told."""
    if product is None or not area_sqft > 0:
        return ("", "", "", "")
    held = analysis_of(product)
    shares = (held.n_pct, held.p2o5_pct, held.k2o_pct)
    n, p2o5, k2o = (n_lb_per_1000sqft(pounds, share, area_sqft) for share in shares)
    return tuple(f"{each:.6g}" for each in (n, p2o5, k2o, lb_per_1000_to_g_per_m2(n)))


def _area(zone: Zone | None, treated: float | None) -> float:
    if treated is not None:
        return treated
    return zone_area_sqft(zone) if zone is not None else 0.0


class _Reading:
    """One table being read into the feedings of one notebook."""

    def __init__(self, table: FedTable, notebook: Notebook, today: date) -> None:
        self._table = table
        self._notebook = notebook
        self._today = today
        self._problems: list[tuple[int, str]] = list(table.problems)
        self._products = _by_name(notebook.products.values())
        self._zones = _by_name(notebook.zones.values())
        self._drafts: dict[tuple[object, ...], _Draft] = {}

    def result(self) -> FeedingsRead:
        """All of it: lines joined, repeats left out, the rest checked as the notebook would."""
        told = [
            (
                1,
                tr(
                    'the column "{name}" is not one of feedings and is passed over.', name=name[:40]
                ),
            )
            for name in self._table.unknown
        ]
        for line in self._table.lines:
            try:
                self._join(line)
            except ValueError as wrong:
                self._problems.append((line.number, str(wrong)))
        fresh, repeats = self._fresh()
        kept, doubts = self._sound(fresh)
        asked = {feeding_id for _, feeding_id, _ in doubts}
        return FeedingsRead(
            tuple(each for each in kept if each.id not in asked),
            _by_line(told + self._problems),
            repeats,
            _by_line((line, sentence) for line, _, sentence in doubts),
            tuple(each for each in kept if each.id in asked),
        )

    def _join(self, line: FedLine) -> None:
        """Add a line to the feeding it belongs to; ValueError with the sentence."""
        on = self._table.day(line)
        product = _found(self._products, line.cells["product"], tr("Product"), tr("on the shelf"))
        zone = _found(self._zones, line.cells["zone"], tr("Zone"), tr("in the yard"))
        treated = self._table.number(line, "treated_area_sqft", tr("Area treated"))
        pounds = self._pounds(line, product, _area(zone, treated))
        spreader, setting = (unshielded(line.cells[each]) for each in ("spreader", "setting"))
        label = unshielded(line.cells["feeding"])
        if len(label) > LONGEST_ID:
            raise ValueError(
                tr("Feeding: a name has at most {most} letters; shorten it.", most=LONGEST_ID)
            )
        key: tuple[object, ...] = (label,) if label else (on, product.id, spreader, setting)
        feeding_id = "" if label.isdigit() and len(label) < SHORT_LABEL else label
        fresh = _Draft(key, feeding_id, on, product, spreader, setting, line.number)
        draft = self._drafts.get(key, fresh)
        begun = (draft.date, draft.product.id, draft.spreader, draft.setting)
        if begun != (on, product.id, spreader, setting):
            told = tr(
                'feeding "{name}" has another day, product, spreader or setting in line {line}; '
                "one feeding has one of each.",
                name=label,
                line=draft.line,
            )
            raise ValueError(told)
        if zone.id in draft.pounds:
            mend = tr("add the pounds together, or number the feedings in the column feeding")
            told = tr("{name} stands twice in one feeding of {on}", name=zone.name, on=day(on))
            raise ValueError(f"{told}; {mend}.")
        self._drafts[key] = draft
        draft.pounds[zone.id] = pounds
        if treated is not None:
            draft.areas[zone.id] = treated

    def _pounds(self, line: FedLine, product: Product, area_sqft: float) -> float:
        """Pounds of product of a line, as they stand or by its rate; ValueError with the sentence.

        Where both are there the pounds count, and a rate or kilograms that say otherwise are told.
        """
        pounds = self._table.number(line, "pounds", "Pounds")
        rate = self._table.number(line, "n_lb_per_1000", tr("Nitrogen"))
        if rate is None:
            metric = self._table.number(line, "n_g_per_m2", tr("Nitrogen"))
            rate = None if metric is None else g_per_m2_to_lb_per_1000(metric)
        n_pct = analysis_of(product).n_pct
        if pounds is None:
            return _pounds_for(rate, product.name, n_pct, area_sqft)
        kg = self._table.number(line, "kg", "Kilograms")
        if kg is not None and not math.isclose(lb_to_kg(pounds), kg, rel_tol=DISAGREES):
            told = tr(
                "{amount} lb are {lb_to_kg:.3g} kg, and {kg:.3g} is written; ",
                amount=amount(pounds),
                lb_to_kg=lb_to_kg(pounds),
                kg=kg,
            )
            self._problems.append((line.number, tr("{told}the pounds count.", told=told)))
        if rate is not None and area_sqft > 0:
            truly = n_lb_per_1000sqft(pounds, n_pct, area_sqft)
            if not math.isclose(truly, rate, rel_tol=DISAGREES, abs_tol=LEAST_TOLD_LB):
                told = tr(
                    "{amount} lb of {name} are {truly:.2f} lb of nitrogen ",
                    amount=amount(pounds),
                    name=product.name,
                    truly=truly,
                )
                mend = tr(
                    "per 1,000 sq ft, and {rate:.2f} is written; the pounds count.", rate=rate
                )
                self._problems.append((line.number, told + mend))
        return pounds

    def _fresh(self) -> tuple[list[_Draft], int]:
        """The feedings that are not in the notebook yet, and how many are."""
        left = dict(self._notebook.feedings)
        drafts: list[_Draft] = []
        repeats = 0
        for draft in self._drafts.values():
            held = left.pop(draft.feeding_id, None)
            if held is None:
                drafts.append(draft)
            elif self._is_same(draft, held):
                repeats += 1
            else:
                told = tr(
                    'feeding "{feeding_id}" of {date} is in the notebook with ',
                    feeding_id=draft.feeding_id,
                    date=day(draft.date),
                )
                mend = tr(
                    "other figures; change it there, or clear its cell in the column feeding."
                )
                self._problems.append((draft.line, told + mend))
        alike: dict[tuple[date, str], list[Feeding]] = {}
        for held in left.values():
            alike.setdefault((held.date, held.product), []).append(held)
        fresh = []
        for draft in drafts:
            among = alike.get((draft.date, draft.product.id), [])
            twin = next((each for each in among if self._is_same(draft, each)), None)
            if twin is None:
                fresh.append(draft)
            else:
                among.remove(twin)
                repeats += 1
        return fresh, repeats

    def _is_same(self, draft: _Draft, held: Feeding) -> bool:
        """Whether a feeding of the notebook is the one that the table tells of."""
        words = (draft.spreader, draft.setting)
        return (
            (draft.date, draft.product.id) == (held.date, held.product)
            and words in (("", ""), (held.spreader, held.setting))
            and draft.pounds.keys() == held.pounds.keys()
            and all(
                math.isclose(pounds, held.pounds[zone_id], rel_tol=ROUNDED)
                and math.isclose(
                    _area(self._notebook.zones[zone_id], draft.areas.get(zone_id)),
                    _area(self._notebook.zones[zone_id], held.treated_area_sqft.get(zone_id)),
                    rel_tol=ROUNDED,
                )
                for zone_id, pounds in draft.pounds.items()
            )
        )

    def _sound(self, drafts: list[_Draft]) -> tuple[list[Feeding], list[tuple[int, str, str]]]:
        """The feedings that the notebook's rules let in; each question's line, id and sentence."""
        made = {feeding.id: (draft, feeding) for draft in drafts for feeding in [draft.feeding()]}
        doubts: list[tuple[int, str, str]] = []
        bad: set[str] = set()
        feedings = [feeding for _, feeding in made.values()]
        for problem in check_all(feedings, self._notebook, self._today):
            line = made[problem.record_id][0].line
            if problem.severity == "refuse":
                bad.add(problem.record_id)
                self._problems.append((line, problem.sentence))
            elif problem.record_id not in bad:
                doubts.append((line, problem.record_id, problem.sentence))
        return [each for each in feedings if each.id not in bad], doubts


def _pounds_for(rate: float | None, name: str, n_pct: float, area_sqft: float) -> float:
    if rate is None:
        raise ValueError(tr("Pounds is missing; enter it, or the nitrogen in n_lb_per_1000."))
    if n_pct <= 0:
        raise ValueError(tr("{name} holds no nitrogen to reckon by; enter its pounds.", name=name))
    return product_lb_for_rate(rate, n_pct, area_sqft)


def _by_name(rows: Iterable[N]) -> Mapping[str, N]:
    """Records by their names and ids, in small letters; a name goes before an id."""
    listed = list(rows)
    return {row.id.casefold(): row for row in listed} | {_key(row.name): row for row in listed}


def _key(name: str) -> str:
    return name.strip().casefold()


def _found(known: Mapping[str, N], cell: str, label: str, where: str) -> N:
    """The record that a cell names; ValueError with the sentence."""
    name = unshielded(cell).strip()
    found = known.get(_key(name))
    if found is not None:
        return found
    if not name:
        raise ValueError(tr("{label} is missing; enter it, or take the line out.", label=label))
    names = list(dict.fromkeys(row.name for row in known.values()))
    if not names:
        raise ValueError(
            tr(
                '{label}: there is no "{name}" {where} yet; add it first.',
                label=label,
                name=name[:SHOWN],
                where=where,
            )
        )
    near = difflib.get_close_matches(_key(name), list(map(_key, names)), n=1)
    told = next((each for each in names if [_key(each)] == near), "")
    few = ", ".join(names[:MOST_NAMED]) + (tr(" or another") if len(names) > MOST_NAMED else "")
    mend = (
        tr("write {told}, or add it first", told=told)
        if told
        else tr("write {few}, or add it first", few=few)
    )
    raise ValueError(
        tr(
            '{label}: there is no "{name}" {where}; {mend}.',
            label=label,
            name=name[:SHOWN],
            where=where,
            mend=mend,
        )
    )


def _by_line(told: Iterable[tuple[int, str]]) -> tuple[str, ...]:
    return tuple(
        in_plain_sight(tr("Line {line}: {sentence}", line=line, sentence=sentence))
        for line, sentence in sorted(told)
    )
