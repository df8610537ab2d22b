"""One SQLite file: schema, migrations, load, write the difference, import and export."""
