"""The root of a function between two ends: all that the section needs of a solver, so scipy stays out."""

from collections.abc import Callable


def root_between(
    function: Callable[[float], float], low: float, high: float, tolerance: float = 1e-10, tries: int = 80
) -> float | None:
    """Where ``function`` is zero between ``low`` and ``high``, or None where its ends do not differ in sign.

    ``tolerance`` is in the units of the argument. False position with the halving of the idle end (the Illinois
    rule): never leaves the bracket, and needs about seven calls where bisection needs forty.
    """
    at_low, at_high = function(low), function(high)
    if at_low == 0.0:
        return low
    if at_high == 0.0:
        return high
    if not at_low * at_high < 0.0:
        return None
    last_side = 0
    for _ in range(tries):
        guess = (low * at_high - high * at_low) / (at_high - at_low)
        if not low < guess < high:
            guess = 0.5 * (low + high)
        value = function(guess)
        if value == 0.0:
            return guess
        if value * at_high > 0.0:
            step, high, at_high = high - guess, guess, value
            at_low *= 0.5 if last_side == 1 else 1.0
            last_side = 1
        else:
            step, low, at_low = guess - low, guess, value
            at_high *= 0.5 if last_side == -1 else 1.0
            last_side = -1
        if high - low < tolerance or (step < tolerance and abs(value) < tolerance):
            return guess
    return 0.5 * (low + high)
