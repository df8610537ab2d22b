"""Two tests that tell a soil's texture at home: layers in a jar, a ribbon between the fingers."""

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, cast, get_args

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from lawnbook.agronomy.jar_test import (
    SOIL_OF_TEXTURE,
    Shares,
    Texture,
    jar_shares,
    texture_of,
    textures_near,
    whole_percents,
)
from lawnbook.agronomy.ribbon_test import Feel, ribbon_texture
from lawnbook.desk.figures import let_open
from lawnbook.desk.line_fields import ChoiceBox
from lawnbook.desk.pages.fold import Fold
from lawnbook.desk.pages.typed_row import TypedRow
from lawnbook.desk.widgets import Caption, QuietButton, Words, name_control
from lawnbook.reading import tr
from lawnbook.yard.amounts import told, unit_shown
from lawnbook.yard.numbers import and_joined, parse_inches
from lawnbook.yard.problems import OwnerError
from lawnbook.yard.record_base import SoilName
from lawnbook.yard.records import Zone

if TYPE_CHECKING:
    from lawnbook.plan.working_model import Working

LAYERS = ("sand", "silt", "clay")
NO_LAYER = tr("A layer is not thinner than nothing; enter 0 where there is none.")
DEEPEST_LAYER_IN, LONGEST_RIBBON_IN = 20.0, 12.0
"""More than any household jar is high, and than a ribbon holds: another unit was meant."""


class TexturePanel(Fold):
    """A test: how it is done, what is read, the class it gives, and a button that takes it over.

    `taken` tells the soil by its name.
    """

    taken = Signal(str)

    def __init__(self, title: str, object_name: str, how: str, parent: QWidget) -> None:
        super().__init__(title, object_name, parent)
        self._texture: Texture | None = None
        self.body.addWidget(Caption(how, self, wrap=True))
        self.row = TypedRow(object_name, self)
        self.body.addWidget(self.row)
        self.answer = Words("", "", self)
        self.answer.setObjectName(f"{object_name}_answer")
        self.take = QuietButton(tr("Take it over"), f"{object_name}_take", self)
        self.take.clicked.connect(self._take)
        foot = QHBoxLayout()
        foot.addWidget(self.take)
        foot.addStretch(1)
        self.body.addWidget(self.answer)
        self.body.addLayout(foot)
        self.lay_out()
        self.row.edited.connect(self.renew)
        self.renew()

    def lay_out(self) -> None:
        """Put what is read into the row."""
        raise NotImplementedError

    def read(self) -> tuple[Texture, str] | None:
        """The class and what is to be said of it; None while something is missing.

        OwnerError where it cannot be read.
        """
        raise NotImplementedError

    def renew(self) -> None:
        """Judge what stands there now."""
        self.row.refuse("")
        try:
            found = self.read()
        except OwnerError as problem:
            self.row.refuse_what(problem)
            found = None
        self._texture = None if found is None else found[0]
        self.answer.say("" if found is None else found[1])
        self.take.setVisible(found is not None)
        if self._texture is not None:
            words = tr("Take it over: {soil}", soil=tr(SOIL_OF_TEXTURE[self._texture]))
            self.take.setText(words)
            self.take.setAccessibleName(words)

    def _take(self) -> None:
        if self._texture is not None:
            self.taken.emit(SOIL_OF_TEXTURE[self._texture])


class JarPanel(TexturePanel):
    """The jar test: three layers by their depths."""

    def __init__(self, parent: QWidget) -> None:
        how = tr(
            "Shake a cup of soil from below the thatch in a straight jar of water with a spoon of "
            "dish soap, and let it stand: sand has settled after a minute, silt after six hours, "
            "clay after a day. Mark the top of each, and measure how thick each layer is."
        )
        super().__init__(tr("Jar test"), "first_jar", how, parent)

    def lay_out(self) -> None:
        """Three depths, from the bottom up."""
        self._depths: tuple[float, float, float] | None = None
        let_open(self._workings, self.answer)
        for name, words in zip(LAYERS, _layer_words(), strict=True):
            self.row.add_line(name, words, tr("Depth of the layer of {name}", name=words.lower()))
        self.row.end()

    def tell_units(self) -> None:
        """Name the layers in the owner's units."""
        for name, words in zip(LAYERS, _layer_words(), strict=True):
            self.row.caption(name, f"{words}, {unit_shown('in')}")

    def read(self) -> tuple[Texture, str] | None:
        """The class of the three layers, once all are there."""
        self._depths = None
        texts = [self.row.text(each).strip() for each in LAYERS]
        if not all(texts):
            return None
        depths = [
            self.row.read(name, partial(_layer_in, words))
            for name, words in zip(LAYERS, _layer_words(), strict=True)
        ]
        if sum(depths) <= 0:
            raise OwnerError(NO_LAYER)
        self._depths = (depths[0], depths[1], depths[2])
        shares = jar_shares(*self._depths)
        return texture_of(shares), jar_told(shares)

    def _workings(self) -> "tuple[Working, ...]":
        """How the shares of the layers came about."""
        if self._depths is None:
            return ()
        from lawnbook.plan.assumed_workings import jar_workings

        return jar_workings(*self._depths)


def _layer_in(words: str, text: str) -> float:
    """The depth of a layer (in). OwnerError below nothing, or for more than a jar holds."""
    depth = parse_inches(text, words)
    if depth < 0:
        raise OwnerError(NO_LAYER)
    if depth > DEEPEST_LAYER_IN:
        raise OwnerError(
            tr(
                "{layer} of {depth} is more than a jar holds; what is measured in another unit is "
                "typed with it, such as 60 mm.",
                layer=words,
                depth=told(depth, 0, "in"),
            )
        )
    return depth


def _ribbon_in(text: str) -> float:
    """The length of a ribbon (in). OwnerError where there is none, or for more than holds."""
    length = parse_inches(text, tr("Ribbon"))
    if length <= 0:
        raise OwnerError(tr("A ribbon is longer than nothing; choose “no ribbon” instead."))
    if length > LONGEST_RIBBON_IN:
        raise OwnerError(
            tr(
                "A ribbon of {length} breaks before; what is measured in another unit is typed "
                "with it, such as 40 mm.",
                length=told(length, 0, "in"),
            )
        )
    return length


def _layer_words() -> tuple[str, str, str]:
    """What the layers are called, in their order."""
    return (tr("Sand"), tr("Silt"), tr("Clay"))


class RibbonPanel(TexturePanel):
    """The ribbon test: how long a ribbon grows, and how the soil feels."""

    def __init__(self, parent: QWidget) -> None:
        how = tr(
            "Knead a moist ball of soil from below the thatch, as soft as putty, and press it "
            "between thumb and finger into a ribbon until it breaks by its own weight. Measure the "
            "ribbon, then rub a very wet pinch in the palm: gritty, smooth, or neither."
        )
        super().__init__(tr("Ribbon test"), "first_ribbon", how, parent)

    def lay_out(self) -> None:
        """What it holds as, the ribbon's length, and its feel."""
        self.holds = ChoiceBox(self)
        name_control(self.holds, "first_ribbon_holds", tr("What the soil holds as"))
        self.holds.addItem(tr("a ribbon"), "ribbon")
        self.holds.addItem(tr("a ball, but no ribbon"), "ball")
        self.holds.addItem(tr("not even a ball"), "nothing")
        self.holds.setMinimumContentsLength(17)
        self.feel = ChoiceBox(self)
        name_control(self.feel, "first_ribbon_feel", tr("How the wet soil feels"))
        self.feel.addItem(tr("gritty"), "gritty")
        self.feel.addItem(tr("smooth"), "smooth")
        self.feel.addItem(tr("neither"), "neither")
        self.feel.setCurrentIndex(2)
        self.feel.setMinimumContentsLength(8)
        self.row.add(tr("It holds as"), self.holds)
        self.row.add_line("length", tr("Ribbon"), tr("Length of the ribbon"))
        self.row.add(tr("Wet, it feels"), self.feel)
        self.row.end()
        for box in (self.holds, self.feel):
            box.activated.connect(lambda _: self.renew())

    def tell_units(self) -> None:
        """Name the length in the owner's units."""
        self.row.caption("length", f"{tr('Ribbon')}, {unit_shown('in')}")

    def read(self) -> tuple[Texture, str] | None:
        """The class by feel, once the ribbon is measured where there is one."""
        holds = str(self.holds.currentData())
        for each in (self.row.lines["length"], self.feel):
            self.row.show_control(each, shown=holds == "ribbon")
        length, text = 0.0, self.row.text("length").strip()
        if holds == "ribbon":
            if not text:
                return None
            length = self.row.read("length", _ribbon_in)
        feel = cast(Feel, self.feel.currentData())
        texture = ribbon_texture(length, feel, holds_as_ball=holds != "nothing")
        return texture, ribbon_told(texture)


def jar_told(shares: Shares) -> str:
    """What a jar says: the shares, the class, and which others it may be."""
    texture = texture_of(shares)
    sand, silt, clay = whole_percents(shares)
    parts = tr(
        "{sand} sand, {silt} silt, {clay} clay: {texture}.",
        sand=told(sand, 0, "%"),
        silt=told(silt, 0, "%"),
        clay=told(clay, 0, "%"),
        texture=tr(texture),
    )
    near = [tr(each) for each in textures_near(shares)]
    beside = (
        tr("A jar may be a little off: it may be {near} as well.", near=and_joined(near, "or"))
        if near
        else ""
    )
    return " ".join(each for each in (parts, beside, _stands_for(texture)) if each)


def ribbon_told(texture: Texture) -> str:
    """What a ribbon says: the class, and the soil that stands for it here."""
    by_feel = tr("By feel: {texture}.", texture=tr(texture))
    return f"{by_feel} {_stands_for(texture)}".strip()


def _stands_for(texture: Texture) -> str:
    soil = SOIL_OF_TEXTURE[texture]
    if soil == texture:
        return ""
    return tr("Here {soil} stands for it, the nearest in how it takes water in.", soil=tr(soil))


def with_soil(zone: Zone, soil: str) -> Zone:
    """The zone on a soil by its name. KeyError for a name that is none."""
    known = {each: each for each in get_args(SoilName)}
    return replace(zone, soil=cast(SoilName, known[soil]))
