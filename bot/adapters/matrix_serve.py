"""Serving Matrix from start to end: sign in, open the post room, listen until told to stop, finish what is in hand."""

from pathlib import Path

from bot.adapters.matrix import Listener
from bot.adapters.matrix_device import sign_in
from bot.adapters.matrix_out import Matrix
from bot.logs import logger
from bot.memory.store import Memory
from bot.post.allow import Allow
from bot.post.counts import Counts
from bot.post.room import PostRoom

GRACE_S = 10.0


async def serve(
    memory: Memory, *, homeserver: str, user: str, password: str, folder: Path, allow: Allow, counts: Counts | None = None
) -> None:
    """Serve until cancelled. CannotSignIn when the homeserver does not let us in, at the start or later."""
    device = await sign_in(homeserver, user, password, folder)
    try:
        platform = Matrix(device)
        post = PostRoom(memory, platform, counts=counts)
        logger(__name__).info(
            "listening", platform="matrix", user=device.user_id, device=device.device_id, fingerprint=device.fingerprint
        )
        try:
            await Listener(device, platform, post, allow).listen()
        finally:
            await post.close(GRACE_S)
    finally:
        await device.close()
