"""python -m bot: the sub-commands. Each imports what it needs when it runs, so that one message starts quickly."""

import argparse
import gc
import sys


def main(argv: list[str] | None = None) -> int:
    """Run a sub-command and return its exit code."""
    gc.disable()  # nothing that is loaded at start is garbage, and looking for it costs a fifth of the start
    parser = argparse.ArgumentParser(prog="python -m bot", description="Bar maths: batches, strengths, conversions.")
    commands = parser.add_subparsers(dest="command", required=True)
    ask = commands.add_parser("ask", help="answer a message, JSON lines, or a console chat")
    ask.add_argument("--chat", default="", help="the chat whose memory to use")
    ask.add_argument("--jsonl", action="store_true", help="read and write one JSON object a line")
    ask.add_argument("text", nargs="*", help="the message")
    explain = commands.add_parser("explain", help="show what each stage made of a message")
    explain.add_argument("text", nargs="+")
    serve = commands.add_parser("serve", help="serve a chat platform, configured by the environment")
    serve.add_argument("platform", choices=("telegram", "matrix"))
    commands.add_parser("check", help="try every kind of request, the database, and the tokens that are set")
    for name, does in (("backup", "write the whole memory to a file"), ("restore", "put a backup in the memory's place")):
        commands.add_parser(name, help=does).add_argument("file")
    asked, extra = parser.parse_known_args(_guarded(sys.argv[1:] if argv is None else argv))
    if extra:
        parser.error(f"unknown option {extra[0]}")
    try:
        match asked.command:
            case "explain":
                return _explain(asked.text)
            case "serve":
                return _serve(asked.platform)
            case "check":
                return _check()
            case "backup" | "restore":
                return _backup(asked.command, asked.file)
            case _:
                return _ask(asked)
    except BrokenPipeError:
        return 1
    except KeyboardInterrupt:
        return 130


def _guarded(argv: list[str]) -> list[str]:
    """A message may open with "-": only our own options before the text are options."""
    if not argv or argv[0] not in ("ask", "explain"):
        return argv
    at = 1
    while at < len(argv) and argv[0] == "ask":
        if argv[at] in ("--jsonl", "--help", "-h") or argv[at].startswith("--chat="):
            at += 1
        elif argv[at] == "--chat":
            at += 2
        else:
            break
    rest = argv[at:]
    if rest[:1] == ["--"] or (argv[0] == "explain" and rest[:1] in (["-h"], ["--help"])):
        return argv
    return [*argv[:at], "--", *rest] if rest else argv


def _ask(asked: argparse.Namespace) -> int:
    from bot.adapters import console
    from bot.desk import start_quickly

    if sys.pycache_prefix:
        start_quickly(sys.pycache_prefix)
    text = " ".join(asked.text)
    gc.freeze()
    if asked.jsonl or not asked.text:
        gc.enable()
        return console.run_json_lines() if asked.jsonl else console.run_chat()
    if asked.chat:
        import asyncio  # a tenth of one message's start-up

        return asyncio.run(console.ask_in_chat(asked.chat, text))
    return console.ask_once(text)


def _serve(platform: str) -> int:
    from bot.serve import serve

    gc.freeze()
    gc.enable()
    return serve(platform)


def _check() -> int:
    from bot.check import check

    return check()


def _backup(command: str, file: str) -> int:
    from bot import backup

    return backup.backup(file) if command == "backup" else backup.restore(file)


def _explain(words: list[str]) -> int:
    from bot.explain import explain

    print(explain(" ".join(words)))
    return 0


if __name__ == "__main__":
    sys.exit(main())
