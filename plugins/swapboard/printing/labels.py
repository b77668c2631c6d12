"""Address labels."""

import unicodedata
from dataclasses import dataclass

from swapboard.printing.paper import Fonts, Sheet
from swapboard.vocabulary.label_sheets import LabelSheet

_MARGIN = 3.0
_SIZE = 12.0
# Where the postcode stands: the national guides that the Universal Postal Union collects,
# from memory; elsewhere before the town, as common practice has it.
_TOWN_REGION_POSTCODE = frozenset(["AU", "CA", "US"])
_POSTCODE_BELOW = frozenset(["GB", "IE"])


@dataclass(frozen=True, slots=True)
class Address:
    """Where an envelope goes; `code` is the country's two letters, "" where unknown."""

    maker: str
    name: str
    street: tuple[str, ...]
    postcode: str
    town: str
    region: str
    country: str
    code: str


def address_lines(address: Address) -> list[str]:
    """The lines of a label: name, street, town, and the country last, in capitals.

    Nothing is changed but that Unicode is composed (NFC); empty lines are left out.
    """
    town = " ".join(filter(None, (address.postcode, address.town)))
    lines = [address.name, *address.street]
    if address.code in _TOWN_REGION_POSTCODE:
        lines.append(" ".join(filter(None, (address.town, address.region, address.postcode))))
    elif address.code in _POSTCODE_BELOW:
        lines += [address.town, address.region, address.postcode]
    else:
        lines += [town, address.region]
    lines.append(address.country.upper())
    return [unicodedata.normalize("NFC", line) for line in lines if line.strip()]


def labels(addresses: list[Address], sheet: LabelSheet, fonts: Fonts, first: int = 1) -> bytes:
    """Labels in the order given, beginning with label `first` of the first sheet.

    Text keeps 3 mm from a label's edges; a long line gets smaller, or is wrapped.
    Raises ValueError where `first` is no label of the sheet or there is nothing to print.
    """
    if not 1 <= first <= sheet.count:
        raise ValueError(f"first must be from 1 to {sheet.count}")
    if not addresses:
        raise ValueError("there must be an address")
    drawn = Sheet(sheet.paper, fonts, "Address labels")
    for number, address in enumerate(addresses, first - 1):
        at = number % sheet.count
        if at == 0 and number > first - 1:
            drawn.next_page()
        x, y = sheet.place(at)
        # A sheet without margins is cut at the paper's edge, where printers do not reach.
        left = max(x + _MARGIN, 5.0)
        right = min(x + sheet.width - _MARGIN, drawn.width - 5.0)
        drawn.block(left, y + _MARGIN, right - left, sheet.height - 2 * _MARGIN,
                    address_lines(address), _SIZE, whole_lines=True)  # fmt: skip
    return drawn.pdf()
