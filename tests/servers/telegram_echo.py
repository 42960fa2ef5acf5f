"""A bare echo bot of the library that the Telegram adapter uses: what ours is measured against.

python -m tests.servers.telegram_echo poll, or hook PORT; TELEGRAM_TOKEN and TELEGRAM_API in the environment.
"""

import os
import sys

from telegram import Update
from telegram.ext import Application, ContextTypes, MessageHandler, filters


async def echo(update: Update, context: ContextTypes.DEFAULT_TYPE) -> None:
    message = update.effective_message
    if message is not None and message.text:
        await message.reply_text(message.text)


def main(how: str, port: int) -> None:
    token, api = os.environ["TELEGRAM_TOKEN"], os.environ["TELEGRAM_API"]
    made = Application.builder().token(token).base_url(api + "/bot").base_file_url(api + "/file/bot").build()
    made.add_handler(MessageHandler(filters.TEXT, echo))
    if how == "poll":
        made.run_polling(poll_interval=0.0, timeout=10, allowed_updates=Update.ALL_TYPES)
    else:
        made.run_webhook(listen="127.0.0.1", port=port, url_path="hook", webhook_url=f"http://127.0.0.1:{port}/hook")


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 0)
