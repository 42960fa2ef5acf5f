"""A small Bot API on loopback that goes wrong on purpose: the faults, checks and chats that no package offers.

Polling with offsets and 409, webhooks that keep a chat's order as Telegram does, 429, 502, answers lost before and
after the call took effect, updates delivered again. The chats themselves are in world.py.
"""

import asyncio
import json
import random
import ssl
from collections import defaultdict
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress
from dataclasses import dataclass, field
from typing import Any

import aiohttp
from aiohttp import web

from tests.telegram.world import BOT, Json, Refused, World

TOKEN = "4242:abcdefghijklmnopqrstuvwxyz_ABCDEFGH"
FAULTLESS = ("getMe", "setWebhook", "deleteWebhook", "setMyCommands")


@dataclass
class Faults:
    """How often, of all calls, each thing goes wrong; and how long a lost answer hangs."""

    too_many: float = 0.0
    bad_gateway: float = 0.0
    lost_before: float = 0.0
    lost_after: float = 0.0
    again: float = 0.0  # of updates: delivered a second time although they were acknowledged
    retry_after: int = 1
    hang_s: float = 2.0
    chance: random.Random = field(default_factory=lambda: random.Random(7))
    done: dict[str, int] = field(default_factory=lambda: defaultdict(int))

    def pick(self, method: str) -> str:
        if method in FAULTLESS:
            return ""
        at = self.chance.random()
        for name in ("too_many", "bad_gateway", "lost_before", "lost_after"):
            at -= getattr(self, name)
            if at < 0:
                self.done[name] += 1
                return name
        return ""


class BotApi:
    """The server. targets: where updates are delivered in the place of the webhook's address, one after the other."""

    def __init__(self, world: World, faults: Faults | None = None) -> None:
        self.world = world
        self.faults = faults or Faults()
        self.calls: dict[str, int] = defaultdict(int)
        self.targets: list[str] = []
        self.secret = ""
        self.webhook = ""
        self.trusts = b""  # a certificate that deliveries trust
        self.certificate = b""  # the one handed in with the webhook: they trust that alone
        self.offset = 0
        self.port = 0
        self._polling = 0
        self._handed = 0  # updates that webhook queues took
        self._queues: dict[object, asyncio.Queue[Json]] = {}
        self._tasks: set[asyncio.Task[None]] = set()

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    async def handle(self, request: web.Request) -> web.StreamResponse:
        if request.match_info["token"] != TOKEN:
            return _error(Refused(401, "Unauthorized"))
        method = request.match_info["method"]
        self.calls[method] += 1
        try:
            data = {key: _value(value) for key, value in (await request.post()).items()}
        except ConnectionResetError:  # the bot was killed while it called
            return web.Response(status=400)
        if request.content_type == "application/json" and request.can_read_body:
            data = await request.json()
        fault = self.faults.pick(method)
        if fault == "too_many":
            return _error(Refused(429, "Too Many Requests: retry later", retry_after=self.faults.retry_after))
        if fault == "bad_gateway":
            return web.Response(status=502, text="<html>Bad Gateway</html>")
        if fault == "lost_before":
            return await self._lost(request)
        try:
            result = await getattr(self, method, self._unknown)(data)
        except Refused as refused:
            return _error(refused)
        if fault == "lost_after":
            return await self._lost(request)
        return web.json_response({"ok": True, "result": result})

    async def _lost(self, request: web.Request) -> web.StreamResponse:
        await asyncio.sleep(self.faults.hang_s)
        if request.transport is not None:
            request.transport.abort()
        return web.Response(status=500)

    async def _unknown(self, data: Json) -> Json:
        raise Refused(404, "Not Found")

    async def getMe(self, data: Json) -> Json:
        return {**BOT, "can_join_groups": True, "can_read_all_group_messages": False, "supports_inline_queries": True}

    async def setMyCommands(self, data: Json) -> bool:
        self.world.commands = data["commands"]
        return True

    async def setWebhook(self, data: Json) -> bool:
        self.webhook, self.secret = data["url"], data.get("secret_token", "")
        self.certificate = data["certificate"].file.read() if "certificate" in data else b""
        return True

    async def deleteWebhook(self, data: Json) -> bool:
        self.webhook = ""
        return True

    async def getUpdates(self, data: Json) -> list[Json]:
        self.offset = max(self.offset, int(data.get("offset") or 0))
        self._polling += 1
        mine = self._polling
        give_up = asyncio.get_running_loop().time() + float(data.get("timeout") or 0)
        while True:
            if self._polling != mine:
                raise Refused(409, "Conflict: terminated by other getUpdates request")
            found = [update for update in self.world.updates if update["update_id"] >= self.offset]
            if self.world.updates and self.faults.again > self.faults.chance.random():
                self.faults.done["again"] += 1
                found = [update for update in self.world.updates if update["update_id"] < self.offset][-3:] + found
            if found or asyncio.get_running_loop().time() > give_up:
                return found[:100]
            self.world.changed.clear()
            with suppress(TimeoutError):
                async with asyncio.timeout(0.25):
                    await self.world.changed.wait()

    async def sendMessage(self, data: Json) -> Json:
        assert data.get("parse_mode") in ("HTML", None)
        question = (data.get("reply_parameters") or {}).get("message_id")
        thread = int(data["message_thread_id"]) if data.get("message_thread_id") else None
        buttons = data.get("reply_markup")
        wire = (data["text"], json.dumps(buttons))
        return self.world.send(int(data["chat_id"]), data["text"], wire, question, thread, buttons)

    async def editMessageText(self, data: Json) -> Json:
        wire = (data["text"], json.dumps(data.get("reply_markup")))
        return self.world.change(int(data["chat_id"]), int(data["message_id"]), data["text"], wire, data.get("reply_markup"))

    async def answerCallbackQuery(self, data: Json) -> bool:
        self.world.toasts.append(data.get("text"))
        return True

    async def answerInlineQuery(self, data: Json) -> bool:
        self.world.shared.append(data["results"])
        return True

    async def getChatMember(self, data: Json) -> Json:
        user = int(data["user_id"])
        status = "administrator" if user in self.world.admins else "member"
        who = {"id": user, "is_bot": False, "first_name": "Ann"}
        rights = dict.fromkeys(
            (
                "can_be_edited", "is_anonymous", "can_manage_chat", "can_delete_messages", "can_manage_video_chats",
                "can_restrict_members", "can_promote_members", "can_change_info", "can_invite_users",
                "can_post_stories", "can_edit_stories", "can_delete_stories",
            ),
            False,
        )  # fmt: skip
        return {"status": status, "user": who, **(rights if status == "administrator" else {})}

    async def deliver(self) -> None:
        """Hand updates to the webhook: one at a time in a chat, chats side by side, again until it says 200."""
        async with aiohttp.ClientSession(timeout=aiohttp.ClientTimeout(total=5.0)) as session:
            while True:
                for update in self.world.updates[self._handed :]:
                    part: Any = next(value for key, value in update.items() if key != "update_id")
                    where = part.get("chat", part.get("from"))["id"]
                    if where not in self._queues:
                        self._queues[where] = asyncio.Queue()
                        task = asyncio.create_task(self._deliver_chat(session, self._queues[where]))
                        self._tasks.add(task)
                    self._queues[where].put_nowait(update)
                self._handed = len(self.world.updates)
                self.world.changed.clear()
                with suppress(TimeoutError):
                    async with asyncio.timeout(0.25):
                        await self.world.changed.wait()

    async def _deliver_chat(self, session: aiohttp.ClientSession, queue: "asyncio.Queue[Json]") -> None:
        turn = 0
        while True:
            update = await queue.get()
            times = 2 if self.faults.again > self.faults.chance.random() else 1
            self.faults.done["again"] += times - 1
            while times:
                target = self.targets[turn % len(self.targets)] if self.targets else self.webhook
                turn += 1
                headers = {"X-Telegram-Bot-Api-Secret-Token": self.secret}
                try:
                    async with session.post(target, json=update, headers=headers, ssl=self._trusted()) as answer:
                        times -= answer.status == 200
                except (aiohttp.ClientError, TimeoutError):
                    await asyncio.sleep(0.1)

    def _trusted(self) -> ssl.SSLContext | bool:
        found = self.certificate or self.trusts
        return ssl.create_default_context(cadata=found.decode()) if found else True

    @asynccontextmanager
    async def running(self, webhook: bool = False) -> AsyncIterator["BotApi"]:
        """Serve until the block ends. webhook: also deliver updates."""
        application = web.Application(client_max_size=2**20)
        application.router.add_route("*", "/bot{token}/{method}", self.handle)
        runner = web.AppRunner(application, access_log=None, shutdown_timeout=0.2)
        await runner.setup()
        site = web.TCPSite(runner, "127.0.0.1", 0)
        await site.start()
        self.port = runner.addresses[0][1]
        if webhook:
            self._tasks.add(asyncio.create_task(self.deliver()))
        try:
            yield self
        finally:
            for task in self._tasks:
                task.cancel()
            await asyncio.gather(*self._tasks, return_exceptions=True)
            await runner.cleanup()


def _error(refused: Refused) -> web.Response:
    body: Json = {"ok": False, "error_code": refused.code, "description": refused.description}
    if refused.parameters:
        body["parameters"] = refused.parameters
    return web.json_response(body, status=refused.code)


def _value(value: Any) -> Any:
    """A form field: JSON where it is an object or a list, as PTB sends them."""
    if isinstance(value, str) and value[:1] in ("{", "["):
        with suppress(ValueError):
            return json.loads(value)
    return value
