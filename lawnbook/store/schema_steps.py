"""The statements that make the notebook file's schema, frozen: one step for each version.

A step that was released is never edited: a change of the records is a new step at the end.
"""

STEPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "the first notebook",
        (
            """
            CREATE TABLE yard (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              name TEXT NOT NULL,
              latitude_deg REAL,
              longitude_deg REAL,
              elevation_ft REAL,
              time_zone TEXT,
              north_deg REAL NOT NULL,
              units TEXT NOT NULL,
              target_depth_in REAL NOT NULL,
              irrigation_season TEXT,
              water_price_per_kgal REAL,
              water_source TEXT NOT NULL,
              water_n_mg_per_l REAL,
              max_gpm REAL
            ) STRICT
            """,
            """
            CREATE TABLE n_budgets (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              name TEXT NOT NULL,
              by_month TEXT NOT NULL,
              year_lb REAL
            ) STRICT
            """,
            """
            CREATE TABLE zones (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              name TEXT NOT NULL,
              outline_ft TEXT NOT NULL,
              holes_ft TEXT NOT NULL,
              grass TEXT NOT NULL,
              species TEXT NOT NULL,
              soil TEXT,
              slope_pct REAL NOT NULL,
              microclimate REAL NOT NULL,
              irrigated INTEGER NOT NULL CHECK (irrigated IN (0, 1)),
              precipitation_in_per_h REAL,
              flow_gpm REAL,
              target_depth_in REAL,
              allowed_depletion REAL,
              default_root_depth_in REAL,
              budget TEXT REFERENCES n_budgets (id) DEFERRABLE INITIALLY DEFERRED,
              budget_level TEXT NOT NULL,
              annual_n_lb_per_1000 REAL,
              clippings TEXT,
              mow_height_in REAL,
              established TEXT,
              habit TEXT
            ) STRICT
            """,
            """
            CREATE TABLE features (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              kind TEXT NOT NULL,
              outline_ft TEXT NOT NULL,
              name TEXT NOT NULL,
              no_spread_ft REAL
            ) STRICT
            """,
            """
            CREATE TABLE heads (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              zone TEXT NOT NULL REFERENCES zones (id) DEFERRABLE INITIALLY DEFERRED,
              at_ft TEXT NOT NULL,
              radius_ft REAL NOT NULL,
              start_deg REAL NOT NULL,
              sweep_deg REAL NOT NULL,
              flow_gpm REAL,
              profile TEXT,
              changed_on TEXT
            ) STRICT
            """,
            """
            CREATE TABLE catch_tests (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              zone TEXT NOT NULL REFERENCES zones (id) DEFERRABLE INITIALLY DEFERRED,
              date TEXT NOT NULL,
              run_minutes REAL NOT NULL,
              can_mouth_sqin REAL,
              volumes_ml TEXT NOT NULL,
              depths_in TEXT NOT NULL,
              at_ft TEXT NOT NULL,
              pressure_psi REAL
            ) STRICT
            """,
            """
            CREATE TABLE spots (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              name TEXT NOT NULL,
              at_ft TEXT,
              zone TEXT REFERENCES zones (id) DEFERRABLE INITIALLY DEFERRED,
              comparison INTEGER NOT NULL CHECK (comparison IN (0, 1))
            ) STRICT
            """,
            """
            CREATE TABLE cores (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              spot TEXT NOT NULL REFERENCES spots (id) DEFERRABLE INITIALLY DEFERRED,
              date TEXT NOT NULL,
              thatch_in TEXT NOT NULL,
              pressed INTEGER NOT NULL CHECK (pressed IN (0, 1)),
              resolution_in REAL,
              root_depth_in REAL,
              sponge INTEGER,
              soil_in_thatch INTEGER,
              worms INTEGER,
              thatch_moisture TEXT,
              soil_moisture TEXT,
              clock INTEGER,
              note TEXT NOT NULL
            ) STRICT
            """,
            """
            CREATE TABLE products (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              name TEXT NOT NULL,
              form TEXT NOT NULL,
              n_pct REAL NOT NULL,
              p2o5_pct REAL NOT NULL,
              k2o_pct REAL NOT NULL,
              slow_n_pct REAL NOT NULL,
              slow_sources TEXT NOT NULL,
              release_weeks REAL,
              density_lb_per_gal REAL,
              bag_lb REAL,
              jug_gal REAL,
              price REAL,
              ingredients TEXT NOT NULL
            ) STRICT
            """,
            """
            CREATE TABLE feedings (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              date TEXT NOT NULL,
              product TEXT NOT NULL REFERENCES products (id) DEFERRABLE INITIALLY DEFERRED,
              pounds TEXT NOT NULL,
              treated_area_sqft TEXT NOT NULL
            ) STRICT
            """,
            """
            CREATE TABLE waterings (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              date TEXT NOT NULL,
              zone TEXT NOT NULL REFERENCES zones (id) DEFERRABLE INITIALLY DEFERRED,
              minutes REAL,
              depth_in REAL
            ) STRICT
            """,
            """
            CREATE TABLE weather (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              date TEXT NOT NULL,
              tmin_f REAL,
              tmax_f REAL,
              rain_in REAL,
              tdew_f REAL,
              wind_mph REAL,
              solar_mj_m2 REAL,
              reported_eto_in REAL
            ) STRICT
            """,
            """
            CREATE TABLE climate (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              month INTEGER NOT NULL,
              tmean_f REAL,
              eto_in_per_day REAL,
              rain_in REAL
            ) STRICT
            """,
            """
            CREATE TABLE n_rules (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              max_total_lb REAL,
              max_quick_lb REAL,
              year_lb REAL,
              min_slow_pct REAL,
              min_days INTEGER,
              blackouts TEXT NOT NULL
            ) STRICT
            """,
            """
            CREATE TABLE water_rules (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              days TEXT NOT NULL,
              hours TEXT NOT NULL
            ) STRICT
            """,
            """
            CREATE TABLE soil_tests (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              date TEXT NOT NULL,
              zone TEXT NOT NULL REFERENCES zones (id) DEFERRABLE INITIALLY DEFERRED,
              ph REAL,
              om_pct REAL,
              p_ppm REAL,
              k_ppm REAL
            ) STRICT
            """,
            """
            CREATE TABLE care (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              date TEXT NOT NULL,
              kind TEXT NOT NULL,
              zones TEXT NOT NULL,
              note TEXT NOT NULL
            ) STRICT
            """,
            """
            CREATE TABLE photos (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              core TEXT NOT NULL REFERENCES cores (id) DEFERRABLE INITIALLY DEFERRED,
              sha256 TEXT NOT NULL,
              data BLOB NOT NULL,
              marks TEXT NOT NULL
            ) STRICT
            """,
        ),
    ),
    (
        "water in full",
        (
            "ALTER TABLE yard ADD COLUMN pressure_changed_on TEXT",
            "ALTER TABLE yard ADD COLUMN water_ec_ds_per_m REAL",
            "ALTER TABLE yard ADD COLUMN drought TEXT NOT NULL DEFAULT 'off'",
            "ALTER TABLE yard ADD COLUMN drought_share REAL",
            "ALTER TABLE zones ADD COLUMN sprinklers TEXT NOT NULL DEFAULT 'in-ground'",
            "ALTER TABLE zones ADD COLUMN hose_places INTEGER",
            "ALTER TABLE zones ADD COLUMN program TEXT NOT NULL DEFAULT ''",
            "ALTER TABLE zones ADD COLUMN thatch_water_in_per_in REAL",
            "ALTER TABLE waterings ADD COLUMN cycles INTEGER",
            "ALTER TABLE weather ADD COLUMN gauge_in REAL",
        ),
    ),
    (
        "feed in full",
        (
            "ALTER TABLE zones ADD COLUMN budget_spread TEXT NOT NULL DEFAULT 'table'",
            "ALTER TABLE products ADD COLUMN slow_kind TEXT",
            """
            ALTER TABLE products ADD COLUMN starter INTEGER NOT NULL DEFAULT 0
              CHECK (starter IN (0, 1))
            """,
            "ALTER TABLE feedings ADD COLUMN spreader TEXT NOT NULL DEFAULT ''",
            "ALTER TABLE feedings ADD COLUMN setting TEXT NOT NULL DEFAULT ''",
            "ALTER TABLE n_rules ADD COLUMN name TEXT NOT NULL DEFAULT ''",
            "ALTER TABLE n_rules ADD COLUMN waterside_ft REAL",
            """
            ALTER TABLE n_rules ADD COLUMN phosphorus_needs_test INTEGER NOT NULL DEFAULT 1
              CHECK (phosphorus_needs_test IN (0, 1))
            """,
            "ALTER TABLE n_rules ADD COLUMN p_enough_ppm REAL",
            "ALTER TABLE soil_tests ADD COLUMN depth_in REAL",
            "ALTER TABLE soil_tests ADD COLUMN thatch TEXT",
            "ALTER TABLE care ADD COLUMN no_seed_until TEXT",
            """
            CREATE TABLE spreader_runs (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              date TEXT NOT NULL,
              product TEXT NOT NULL REFERENCES products (id) DEFERRABLE INITIALLY DEFERRED,
              spreader TEXT NOT NULL,
              setting TEXT NOT NULL,
              strip_ft REAL NOT NULL,
              width_ft REAL NOT NULL,
              used_lb REAL NOT NULL
            ) STRICT
            """,
            """
            CREATE TABLE sprayer_runs (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              date TEXT NOT NULL,
              sprayer TEXT NOT NULL,
              area_sqft REAL NOT NULL,
              used_gal REAL NOT NULL,
              tank_gal REAL NOT NULL,
              seconds REAL
            ) STRICT
            """,
        ),
    ),
    (
        "plugs as evidence",
        (
            "ALTER TABLE cores ADD COLUMN core_depth_in REAL",
            "ALTER TABLE cores ADD COLUMN ring_in REAL",
            # Pictures lie apart, so that a book is opened without reading them.
            "CREATE TABLE pictures (sha256 TEXT NOT NULL PRIMARY KEY, data BLOB NOT NULL) STRICT",
            "INSERT OR IGNORE INTO pictures SELECT sha256, data FROM photos",
            "ALTER TABLE photos DROP COLUMN data",
            "ALTER TABLE photos ADD COLUMN ruler TEXT",
            "ALTER TABLE photos ADD COLUMN taken_on TEXT",
            "ALTER TABLE photos ADD COLUMN width_px INTEGER",
            "ALTER TABLE photos ADD COLUMN height_px INTEGER",
        ),
    ),
    (
        "a drawing table",
        (
            "ALTER TABLE yard ADD COLUMN origin_latitude_deg REAL",
            "ALTER TABLE yard ADD COLUMN origin_longitude_deg REAL",
            (
                "ALTER TABLE zones ADD COLUMN locked INTEGER NOT NULL DEFAULT 0 "
                "CHECK (locked IN (0, 1))"
            ),
            (
                "ALTER TABLE features ADD COLUMN locked INTEGER NOT NULL DEFAULT 0 "
                "CHECK (locked IN (0, 1))"
            ),
            (
                "ALTER TABLE heads ADD COLUMN locked INTEGER NOT NULL DEFAULT 0 "
                "CHECK (locked IN (0, 1))"
            ),
            (
                "ALTER TABLE spots ADD COLUMN locked INTEGER NOT NULL DEFAULT 0 "
                "CHECK (locked IN (0, 1))"
            ),
            """
            CREATE TABLE backdrops (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              name TEXT NOT NULL,
              sha256 TEXT NOT NULL,
              width_px INTEGER NOT NULL,
              height_px INTEGER NOT NULL,
              middle_ft TEXT NOT NULL,
              ft_per_px REAL NOT NULL,
              turn_deg REAL NOT NULL,
              fade REAL NOT NULL,
              shown INTEGER NOT NULL CHECK (shown IN (0, 1)),
              locked INTEGER NOT NULL CHECK (locked IN (0, 1)),
              scale_ends TEXT,
              scale_ft REAL,
              note TEXT NOT NULL
            ) STRICT
            """,
        ),
    ),
    (
        "the season",
        (
            "ALTER TABLE zones ADD COLUMN peak_growth_in_per_week REAL",
            "ALTER TABLE care ADD COLUMN cost REAL",
            """
            CREATE TABLE ticks (
              id TEXT NOT NULL PRIMARY KEY,
              rank INTEGER NOT NULL,
              date TEXT NOT NULL,
              checklist TEXT NOT NULL,
              step TEXT NOT NULL,
              zone TEXT REFERENCES zones (id) DEFERRABLE INITIALLY DEFERRED,
              found TEXT NOT NULL,
              care TEXT REFERENCES care (id) DEFERRABLE INITIALLY DEFERRED
            ) STRICT
            """,
        ),
    ),
    (
        "what is assumed",
        (
            "ALTER TABLE yard ADD COLUMN steps_left TEXT NOT NULL DEFAULT '[]'",
            "ALTER TABLE zones ADD COLUMN assumed TEXT NOT NULL DEFAULT '[]'",
        ),
    ),
)
"""Each version's name and its statements, in order; version n is the first n of them."""
