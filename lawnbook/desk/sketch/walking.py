"""Going through the shapes by Tab, and keeping those marked with M."""

from lawnbook.desk.sketch.choosing import in_order
from lawnbook.desk.sketch.control import SketchControl
from lawnbook.reading import tr
from lawnbook.yard.notebook import Key
from lawnbook.yard.numbers import counted


class Walk:
    """Where Tab stands, and what it keeps. What was marked with the mouse is let go by Tab."""

    def __init__(self, control: SketchControl) -> None:
        self._control = control
        self._kept: tuple[Key, ...] = ()
        self._at: Key | None = None

    def step(self, forward: bool) -> bool:
        """Choose the next shape with those that are kept; False past the last one."""
        control = self._control
        order = [each.key for each in in_order(control.notebook)]
        if not order:
            return False
        now = self._now()
        index = order.index(now) if now in order else (-1 if forward else len(order))
        index += 1 if forward else -1
        if not 0 <= index < len(order):
            return False
        self._at = order[index]
        control.choose_all((*self._kept_now(), self._at))
        return True

    def mark(self) -> None:
        """Keep all that is chosen while Tab goes on; or, where it is kept already, let go of it."""
        keys, now = self._control.chosen_keys, self._now()
        if now is None:
            return
        kept = self._kept_now()
        if set(keys) <= set(kept):
            self._kept = tuple(key for key in kept if key != now and now == self._at)
            self._control.say(
                tr("{name} is no longer marked; Tab lets go of it.", name=self._name(now))
            )
            return
        self._kept = keys
        count = counted(len(keys), "shape")
        self._control.say(
            tr("{name} is marked: Tab goes on and keeps it.", name=self._name(keys[0]))
            if len(keys) == 1
            else tr("{shapes} are marked: Tab goes on and keeps them.", shapes=count)
        )

    def _kept_now(self) -> tuple[Key, ...]:
        """What is kept, of what is still chosen: another choice lets go of the marks."""
        chosen = self._control.chosen_keys
        self._kept = tuple(key for key in self._kept if key in chosen)
        return self._kept

    def _now(self) -> Key | None:
        """Where Tab stands: the shape it chose last, else the one that was chosen first."""
        keys = self._control.chosen_keys
        if self._at in keys:
            return self._at
        return keys[0] if keys else None

    def _name(self, key: Key) -> str:
        name = self._control.name(*key)
        return name[:1].upper() + name[1:]
