"""A notebook as another copy of it has it: the same words and figures, other ids throughout."""

from dataclasses import replace

from lawnbook.store.tables_columns import SETTLED
from lawnbook.yard.notebook import Notebook, with_tables
from lawnbook.yard.records import TABLES
from lawnbook.yard.references import with_references


def with_other_ids(notebook: Notebook) -> Notebook:
    """The same records, each with another id, and leading to one another as before."""
    tables = {
        table: [
            replace(with_references(record, lambda each: f"o-{each.target}"), id=f"o-{record.id}")
            for record in notebook.table(table).values()
        ]
        for table in TABLES
        if table not in SETTLED
    }
    yard = with_references(notebook.yard, lambda each: f"o-{each.target}")
    return with_tables(replace(notebook, yard=yard), tables)
