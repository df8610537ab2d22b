"""Formulas as they are shown, worked out: a reader of plain arithmetic and of nothing else.

It knows + − × ÷, powers (² and ^), brackets, √, min, max, exp, and symbols in braces. No text is
ever run as a program: it is read into a tree of numbers and signs, and anything else is refused.
"""

import math
import operator
import re
from collections.abc import Callable, Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import ast

_SIGNS = {"×": "*", "÷": "/", "−": "-", "½": "0.5", "²": "**2", "^": "**", "√": "sqrt"}
_OPERATORS: Mapping[str, Callable[[float, float], float]] = MappingProxyType(
    {
        "Add": operator.add,
        "Sub": operator.sub,
        "Mult": operator.mul,
        "Div": operator.truediv,
        "Pow": operator.pow,
    }
)
_FUNCTIONS: Mapping[str, Callable[..., float]] = MappingProxyType(
    {"min": min, "max": max, "exp": math.exp, "sqrt": math.sqrt}
)
_SYMBOL = re.compile(r"\{(\w+)(?::\d+)?\}")


def worked_out(formula: str, numbers: Mapping[str, float] = MappingProxyType({})) -> float:
    """A formula worked out, `{symbols}` standing for the `numbers` of these names.

    NaN where it divides by zero or leaves the numbers. ValueError for anything but arithmetic;
    KeyError for a symbol without a number.
    """
    try:
        return _value(_read(formula), numbers)
    except (ZeroDivisionError, OverflowError):
        return math.nan


def symbols_of(formula: str) -> tuple[str, ...]:
    """The symbols of a formula, each once, in order."""
    return tuple(dict.fromkeys(_SYMBOL.findall(formula)))


@lru_cache(maxsize=128)
def _read(formula: str) -> "ast.expr":
    # Read only when a working is opened: a plan does without.
    import ast

    plain = re.sub(r"(?<=\d),(?=\d{3})", "", _SYMBOL.sub(r"\1", formula))
    for sign, written in _SIGNS.items():
        plain = plain.replace(sign, written)
    try:
        return ast.parse(plain.strip(), mode="eval").body
    except SyntaxError as err:
        raise ValueError(f"no formula: {formula}") from err


def _value(node: "ast.expr", numbers: Mapping[str, float]) -> float:
    import ast

    match node:
        case ast.Constant(value=int() | float() as number):
            return float(number)
        case ast.Name(id=symbol):
            return numbers[symbol]
        case ast.UnaryOp(op=ast.USub(), operand=inner):
            return -_value(inner, numbers)
        case ast.BinOp(left=left, op=sign, right=right) if type(sign).__name__ in _OPERATORS:
            first, second = _value(left, numbers), _value(right, numbers)
            # A root of what is below zero would leave the numbers.
            if isinstance(sign, ast.Pow) and first < 0 and not second.is_integer():
                return math.nan
            return _OPERATORS[type(sign).__name__](first, second)
        case ast.Call(func=ast.Name(id=name), args=args, keywords=[]) if name in _FUNCTIONS:
            return float(_FUNCTIONS[name](*(_value(each, numbers) for each in args)))
    raise ValueError(f"not arithmetic: {type(node).__name__}")
