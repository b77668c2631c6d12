"""Letters as they come, for tests to send; the people in them are invented."""

import io
from email.message import EmailMessage

OFFER = """Swap offer, form 1
Board: Reed Street
From: tom-varga
To: ines-okafor
Asks:
    night-heron
Gives:
    fern
Note:
    I like herons.
End of offer
"""
STRANGER = """Swap offer, form 1
Board: Reed Street
From: Ama Darko
Country: Ghana
To: ines-okafor
Asks:
    night-heron
    river-fox
Gives:
    picture 1: Blue heron, gouache
    picture 2: Harbour at six, on wood
Note:
    Hello from the coast.
End of offer
"""
NEWS = """Swap news, form 1
Board: Reed Street
Offer: heron-for-moth
By: tom-varga
News: yes
End of news
"""
SIGN_UP = """Call sign-up, form 1
Board: Reed Street
Call: small-lights
From: Ama Darko
Country: Ghana
Cards: 4
Note:
    First time.
End of sign-up
"""


def jpeg(shade: int = 235, size: tuple[int, int] = (300, 400)) -> bytes:
    """A pale card on a dark table."""
    import numpy as np
    from PIL import Image

    pixels = np.full((size[1], size[0], 3), 50, np.uint8)
    pixels[60:-60, 60:-60] = shade
    pixels[120:200, 100:180] = (200, 40, 40)
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "JPEG", quality=90)
    return out.getvalue()


def mail(
    text: str = OFFER,
    sender: str = "Tom Varga <tom@post.example>",
    pictures: tuple[tuple[str, bytes], ...] = (),
    html: str = "",
    charset: str = "utf-8",
) -> EmailMessage:
    """A mail as a mail program makes it."""
    made = EmailMessage()
    if sender:
        made["From"] = sender
    made["To"] = "keeper@reeds.example"
    made["Subject"] = "A swap?"
    if text:
        made.set_content(text, charset=charset)
    if html:
        (made.add_alternative if text else made.set_content)(html, subtype="html")
    for name, data in pictures:
        made.add_attachment(data, maintype="image", subtype="jpeg", filename=name)
    return made
