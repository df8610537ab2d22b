"""The colours of paper and ink, in one place: light, dark, both in high contrast, and print.

Roles, not colours, are named everywhere else. Contrast of every text role against the paper it
stands on is at least 4.5:1 in each palette, 7:1 in those of high contrast, whose rules and edges
have 3:1 (WCAG 2.2, success criteria 1.4.3, 1.4.6 and 1.4.11); a test computes it.
"""

from lawnbook.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """Hex colours by role.

    Surfaces: `desk` behind the book, `paper` the pages, `card` fields and panels on a page.
    Inks: `ink`, `quiet` (captions), `faint` (words of what cannot be used now), `rule` (hairlines),
    `edge` (around fields), `accent` (the one accent), `on_accent`.
    Words of judgement: `good`, `warn`, `bad`. Lawn: `turf`, `thatch`, `soil`, `root`, `verdure`,
    `worm`, `water`, `feed`, `stone` (house and paving), `shade` (dark lines and grains drawn in
    thatch and soil, dark in every palette). `tab_*` are the index tabs.
    """

    name: str
    is_dark: bool = False
    is_high: bool = False
    desk: str
    paper: str
    card: str
    ink: str
    quiet: str
    faint: str
    rule: str
    edge: str
    accent: str
    on_accent: str
    good: str
    warn: str
    bad: str
    turf: str
    thatch: str
    soil: str
    root: str
    verdure: str
    worm: str
    water: str
    feed: str
    stone: str
    shade: str
    tab_yard: str
    tab_plugs: str
    tab_water: str
    tab_feed: str
    tab_season: str
    tab_sheet: str


LIGHT = Palette(
    name="light",
    desk="#e4ddd0",
    paper="#fbf8f1",
    card="#ffffff",
    ink="#22262b",
    quiet="#5f5a51",
    faint="#8e8981",
    rule="#d9d1c1",
    edge="#8a8478",
    accent="#8a4a28",
    on_accent="#ffffff",
    good="#3c6b36",
    warn="#87560a",
    bad="#a3271f",
    turf="#b7c99a",
    thatch="#d3a256",
    soil="#8a6f5e",
    root="#fdf6e6",
    verdure="#6f9450",
    worm="#e7a59b",
    water="#3a6f94",
    feed="#76549a",
    stone="#e6dfd1",
    shade="#22262b",
    tab_yard="#d8c8ae",
    tab_plugs="#d3ab66",
    tab_water="#a9c3d6",
    tab_feed="#c7b6da",
    tab_season="#d9b8ae",
    tab_sheet="#c3d0b0",
)

DARK = Palette(
    name="dark",
    is_dark=True,
    desk="#15171a",
    paper="#20242a",
    card="#2a2f36",
    ink="#ece6da",
    quiet="#b0a99b",
    faint="#858179",
    rule="#434a53",
    edge="#868682",
    accent="#e09a66",
    on_accent="#20160f",
    good="#94c787",
    warn="#e2b45c",
    bad="#f08a7d",
    turf="#4f6441",
    thatch="#b98840",
    soil="#5d4a3f",
    root="#efe3c8",
    verdure="#86ad66",
    worm="#d98f86",
    water="#7fb3d6",
    feed="#b99ad8",
    stone="#3a3f46",
    shade="#15171a",
    tab_yard="#5b5140",
    tab_plugs="#7a5e2e",
    tab_water="#36536a",
    tab_feed="#54436a",
    tab_season="#6a443a",
    tab_sheet="#47573a",
)

PRINT = Palette(
    name="print",
    desk="#ffffff",
    paper="#ffffff",
    card="#ffffff",
    ink="#16181b",
    quiet="#4c4a46",
    faint="#82807e",
    rule="#b9b4aa",
    edge="#827f78",
    accent="#7a3f20",
    on_accent="#ffffff",
    good="#2f5a2b",
    warn="#6f4707",
    bad="#8c1f18",
    turf="#e9eee0",
    thatch="#dcb675",
    soil="#8a6f5e",
    root="#ffffff",
    verdure="#5f8443",
    worm="#f0c4bd",
    water="#2f6186",
    feed="#644587",
    stone="#f1eee8",
    shade="#16181b",
    tab_yard="#ffffff",
    tab_plugs="#ffffff",
    tab_water="#ffffff",
    tab_feed="#ffffff",
    tab_season="#ffffff",
    tab_sheet="#ffffff",
)

HIGH_LIGHT = Palette(
    name="high-light",
    is_high=True,
    desk="#c9c9c9",
    paper="#ffffff",
    card="#ffffff",
    ink="#000000",
    quiet="#333333",
    faint="#5e5e5e",
    rule="#757575",
    edge="#1c1c1c",
    accent="#7d3000",
    on_accent="#ffffff",
    good="#154a10",
    warn="#5e3a00",
    bad="#8c0d0d",
    turf="#a9c487",
    thatch="#dca94f",
    soil="#6e5443",
    root="#ffffff",
    verdure="#4f7a2c",
    worm="#f2b3a9",
    water="#0a4a78",
    feed="#532a80",
    stone="#dedede",
    shade="#000000",
    tab_yard="#e6dcc8",
    tab_plugs="#e6c486",
    tab_water="#bfd8ea",
    tab_feed="#dccdec",
    tab_season="#eccdc3",
    tab_sheet="#d3e2bd",
)

HIGH_DARK = Palette(
    name="high-dark",
    is_dark=True,
    is_high=True,
    desk="#000000",
    paper="#0b0d0f",
    card="#101316",
    ink="#ffffff",
    quiet="#dcdcd6",
    faint="#9c9c98",
    rule="#868b91",
    edge="#e2e2e2",
    accent="#ffbe85",
    on_accent="#000000",
    good="#a9e39a",
    warn="#ffd37a",
    bad="#ffa79b",
    turf="#3b5a2a",
    thatch="#c8923f",
    soil="#5d4a3f",
    root="#fff6dc",
    verdure="#9bd06f",
    worm="#f0aaa0",
    water="#9fd2f5",
    feed="#d5b8f5",
    stone="#3a3f46",
    shade="#000000",
    tab_yard="#453d2e",
    tab_plugs="#55401b",
    tab_water="#23435b",
    tab_feed="#43325a",
    tab_season="#5a3429",
    tab_sheet="#35462a",
)

PALETTES = {palette.name: palette for palette in (LIGHT, DARK, HIGH_LIGHT, HIGH_DARK, PRINT)}
