"""Numbers that captions put for one another."""

from __future__ import annotations


def heard_for(number: int) -> tuple[int, ...]:
    """What may have been said where the captions have a number, likeliest first: 30 -> 13, 57 -> 5 or 7.

    "Thirty" for "thirteen", "three" for "thirteen" and back, two numbers run together. Common practice, no
    source.
    """
    if number < 0:
        return ()
    tens, ones = divmod(number, 10)
    found = [10 + tens] if ones == 0 and 3 <= tens <= 9 else []
    found += [10 + number] if 3 <= number <= 9 else []
    digits = [int(digit) for digit in str(number)] if number > 9 else []
    found += reversed(digits) if tens == 1 else digits
    return tuple(dict.fromkeys(found))
