// A person with the Hydrogen client on a phone: logs in, opens a room, asks, reads the answers, takes pictures.
// node drive.js JSON: {chromium, page, homeserver, user, password, width, rooms: [{name, asks: [{say, wait, picture}]}]}
// Prints one JSON object: for every ask the text of the answer, and how its table stands on the screen.
const { chromium } = require("playwright-core");

const FLAGS = [
  "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
  "--disable-component-update", "--disable-sync",
];
const ANSWERS = ".Timeline_message:not(.own) .Timeline_messageBody";

// Of the last table: is its face fixed-width, does it fit, and where on the screen does each line's last "mL" end?
function table(body) {
  const pre = [...body.querySelectorAll("pre")].pop();
  if (!pre) return null;
  const text = pre.textContent;
  const walker = document.createTreeWalker(pre, NodeFilter.SHOW_TEXT);
  const ends = [];
  let lines = new Set();
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    for (const found of node.data.matchAll(/mL/g)) {
      const range = document.createRange();
      range.setStart(node, found.index);
      range.setEnd(node, found.index + 2);
      ends.push(Math.round(range.getBoundingClientRect().right * 10) / 10);
    }
    const all = document.createRange();
    all.selectNodeContents(node);
    for (const box of all.getClientRects()) lines.add(Math.round(box.top));
  }
  return {
    text, ends, family: getComputedStyle(pre).fontFamily, typed: text.trimEnd().split("\n").length,
    shown: lines.size, hidden: pre.scrollWidth - pre.clientWidth, page: document.documentElement.scrollWidth,
  };
}

async function main(wanted) {
  const browser = await chromium.launch({ executablePath: wanted.chromium, args: FLAGS });
  try {
    const context = await browser.newContext({ viewport: { width: wanted.width, height: 800 }, deviceScaleFactor: 2 });
    const page = await context.newPage();
    page.setDefaultTimeout(30000);
    await page.goto(`${wanted.page}?homeserver=${encodeURIComponent(wanted.homeserver)}`);
    await page.locator("input#username").waitFor();
    await page.fill("input#username", wanted.user);
    await page.fill("input#password", wanted.password);
    await page.click("button[type=submit]");
    const seen = [];
    for (const room of wanted.rooms) {
      await page.locator(".RoomList .name, .RoomList .description").filter({ hasText: room.name }).first().click();
      const box = page.locator(".MessageComposer_input textarea");
      for (const ask of room.asks) {
        const began = Date.now();
        await box.fill(ask.say);
        await box.press("Enter");
        const answer = page.locator(ANSWERS).filter({ hasText: ask.wait }).last();
        await answer.waitFor();
        const ms = Date.now() - began;
        await page.waitForTimeout(300);
        await page.screenshot({ path: ask.picture });
        seen.push({ room: room.name, say: ask.say, text: await answer.innerText(), ms, table: await answer.evaluate(table) });
      }
      await page.locator(".close-middle, a.close-middle").first().click();
    }
    console.log(JSON.stringify(seen));
  } catch (error) {
    for (const page of browser.contexts().flatMap((context) => context.pages())) {
      await page.screenshot({ path: wanted.trouble });
    }
    throw error;
  } finally {
    await browser.close();
  }
}

main(JSON.parse(process.argv[2])).catch((error) => {
  console.error(error.stack);
  process.exit(1);
});
