// The page of the line: dragging, keys, forms, errors, undo, two windows.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { ask, browse, designNamed, screens, start } from "./workbench.mjs";

let served, web, creek;
before(async () => {
  served = await start();
  web = await browse();
  creek = await designNamed(served.address, "Tidal creek");
});
after(async () => {
  await web.browser.close();
  await served.stop();
  served.clean();
});

async function design(id = creek, size) {
  const opened = await web.open(served.address, size);
  await opened.page.goto(`${served.address}/designs/${id}`);
  await opened.page.waitForSelector("#check-pull\\.joint-force, [id='check-burst.force.rig']");
  await opened.page.waitForFunction(() => !document.getElementById("verdict")?.textContent?.startsWith("…"));
  return opened;
}
const revision = (page) => page.locator("#revision").textContent().then(Number);
async function centre(locator) {
  const box = await locator.boundingBox();
  return [box.x + box.width / 2, box.y + box.height / 2];
}

test("the picture follows a dragged handle, and letting go saves one revision that undo takes back", async () => {
  const { page, wrong } = await design();
  assert.equal(await revision(page), 1);
  const depth = page.locator("#handle-lowest-level");
  const before = await depth.getAttribute("aria-valuetext");
  const value = () => page.locator("[id='check-line.clearance.creek'] .values").textContent();
  const first = await value();
  const [x, y] = await centre(depth.locator(".reach"));
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y + 12, { steps: 4 });
  await page.waitForFunction((old) => document.querySelector("[id='check-line.clearance.creek'] .values").textContent !== old, first);
  assert.equal(await revision(page), 1, "nothing is saved while the hand holds");
  await page.mouse.up();
  await page.waitForFunction(() => document.getElementById("revision").textContent === "2");
  assert.notEqual(await depth.getAttribute("aria-valuetext"), before);
  const saved = await ask(served.address, "GET", `/designs/${creek}`);
  assert.match(saved.body.text, /# The bore axis: down at 12 deg/, "comments stay");
  assert.doesNotMatch(saved.body.text, /lowest_level = "-7 m"/);
  await page.keyboard.press("Control+z");
  await page.waitForFunction((old) => document.getElementById("handle-lowest-level").getAttribute("aria-valuetext") === old, before);
  const undone = await ask(served.address, "GET", `/designs/${creek}`);
  assert.match(undone.body.text, /lowest_level = "-7 m"/);
  await page.locator("#redo").click();
  await page.waitForFunction((old) => document.getElementById("handle-lowest-level").getAttribute("aria-valuetext") !== old, before);
  await page.locator("#undo").click();
  await page.waitForFunction((old) => document.getElementById("handle-lowest-level").getAttribute("aria-valuetext") === old, before);
  assert.deepEqual(wrong, []);
});

test("arrow keys move a handle by its step", async () => {
  const { page, wrong } = await design();
  const angle = page.locator("#handle-entry-angle");
  await angle.focus();
  await page.keyboard.press("ArrowUp");
  await page.waitForFunction(() => document.getElementById("handle-entry-angle").getAttribute("aria-valuetext") === "12.1 deg");
  await page.keyboard.press("Control+z");
  await page.waitForFunction(() => document.getElementById("handle-entry-angle").getAttribute("aria-valuetext") === "12 deg");
  assert.deepEqual(wrong, []);
});

test("a wrong value is told beside its field and stays there; Escape takes it back", async () => {
  const { page, wrong } = await design();
  const start = await revision(page);
  await page.locator("details[data-path='/line'] > summary").click();
  const field = page.locator("#field-line-entry_radius");
  await field.fill("300 kg");
  await field.press("Tab");
  const fault = page.locator("#field-line-entry_radius-fault");
  await fault.waitFor({ state: "visible" });
  assert.match(await fault.textContent(), /kg/);
  assert.equal(await field.inputValue(), "300 kg");
  assert.equal(await revision(page), start);
  await field.press("Escape");
  assert.equal(await field.inputValue(), "250 m");
  await field.fill("260 m");
  await field.press("Tab");
  await page.waitForFunction((n) => Number(document.getElementById("revision").textContent) > n, start);
  await page.waitForFunction(() => document.getElementById("handle-entry-radius").getAttribute("aria-valuetext") === "260 m");
  await page.locator("#undo").click();
  await page.waitForFunction(() => document.getElementById("handle-entry-radius").getAttribute("aria-valuetext") === "250 m");
  await page.locator("details[data-path='/factors'] > summary").click();
  assert.match(await page.locator("#field-factors-friction_bore + .badge").textContent(), /assumed/);
  assert.deepEqual(wrong, []);
});

test("an obstacle is added and taken out again", async () => {
  const { page, wrong } = await design();
  const count = await page.locator("details[data-path^='/site/obstacle/']").count();
  await page.locator("button[data-list='/site/obstacle']").click();
  await page.waitForFunction((n) => document.querySelectorAll("details[data-path^='/site/obstacle/']").length > n, count);
  await page.locator("#undo").click();
  await page.waitForFunction((n) => document.querySelectorAll("details[data-path^='/site/obstacle/']").length === n, count);
  assert.deepEqual(wrong, []);
});

test("one reading line goes through section and strips, and a check opens its working as a formula", async () => {
  const { page, wrong } = await design();
  const box = await page.locator("#section").boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.waitForFunction(() => document.getElementById("place").textContent.startsWith("chainage"));
  assert.match(await page.locator("#strip-pull-0 .readout").textContent(), /at the head/);
  assert.equal(await page.locator("#strips .crosshair[visibility=visible]").count(), await page.locator("#strips .strip").count());
  await page.locator("[id='check-line.radius-pipe'] > summary").click();
  await page.locator("[id='check-line.radius-pipe'] math mfrac").first().waitFor();
  await page.keyboard.press("+");
  assert.deepEqual(wrong, []);
});

test("two windows: the second follows, and a change that comes late loses nothing", async () => {
  const one = await design();
  const two = await design();
  const start = await revision(one.page);
  await one.page.locator("#handle-exit-angle").focus();
  await one.page.keyboard.press("ArrowUp");
  await two.page.waitForFunction((n) => Number(document.getElementById("revision").textContent) > n, start);
  assert.match(await two.page.locator("#message").textContent(), /another window/);
  const late = await ask(served.address, "PATCH", `/designs/${creek}`, {
    base: start, edits: [{ path: "/line/exit_radius", text: "310 m" }], note: "late",
  });
  assert.equal(late.status, 409);
  const copies = await ask(served.address, "GET", `/designs/${creek}/copies`);
  assert.ok(copies.body.copies.some((c) => c.text.includes('exit_radius = "310 m"')));
  assert.deepEqual([...one.wrong, ...two.wrong], []);
  await one.context.close();
  await two.context.close();
});

test("the failing demo says what must change", async () => {
  const id = await designNamed(served.address, "Tidal creek, with mistakes");
  const { page, wrong } = await design(id);
  assert.equal(await page.locator("#verdict").getAttribute("data-status"), "not-feasible");
  await page.locator("#changes > summary").click();
  await page.locator("#changes .answer li, #changes .answer td").first().waitFor();
  await page.screenshot({ path: `${screens}/failing.png` });
  assert.deepEqual(wrong, []);
});

test("bursting has its own section, with pits to move", async () => {
  const id = await designNamed(served.address, "Street with an old main");
  const { page, wrong } = await design(id);
  const pit = page.locator("#handle-run-1-launch");
  await pit.focus();
  await page.keyboard.press("ArrowLeft");
  await page.waitForFunction(() => document.getElementById("handle-run-1-launch").getAttribute("aria-valuetext") === "117.5 m");
  for (const strip of ["burst-rig", "burst-string", "heave", "cover"]) {
    assert.equal(await page.locator(`#strip-${strip}-0`).count(), 1, strip);
  }
  await page.screenshot({ path: `${screens}/bursting.png`, fullPage: true });
  assert.deepEqual(wrong, []);
});

test("pages fit from a tablet to a wide screen, light and dark, and print", async () => {
  for (const [width, theme] of [[768, "light"], [1280, "dark"], [1920, "light"]]) {
    await ask(served.address, "PUT", "/preferences", { theme });
    const { page, wrong, context } = await design(creek, { width, height: 1000 });
    const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.ok(over <= 0, `${width}: ${over} px too wide`);
    await page.screenshot({ path: `${screens}/design-${width}-${theme}.png`, fullPage: width === 768 });
    if (width === 1280) {
      await page.emulateMedia({ media: "print" });
      await page.screenshot({ path: `${screens}/print.png`, fullPage: true });
    }
    assert.deepEqual(wrong, []);
    await context.close();
  }
  await ask(served.address, "PUT", "/preferences", { theme: "system" });
});

test("every field has a label, and text is told from its ground in both themes", async () => {
  const { page } = await design();
  for (const section of await page.locator("#forms details > summary").all()) await section.click();
  const bare = await page.evaluate(() => [...document.querySelectorAll("input, select, textarea")]
    .filter((e) => !e.labels?.length && !e.getAttribute("aria-label")).map((e) => e.outerHTML));
  assert.deepEqual(bare, []);
  for (const theme of ["light", "dark"]) {
    const pairs = await page.evaluate((name) => {
      document.documentElement.dataset.theme = name;
      const style = getComputedStyle(document.documentElement);
      const light = (key) => {
        const hex = style.getPropertyValue(key).trim().slice(1);
        const [r, g, b] = [0, 2, 4].map((i) => parseInt(hex.slice(i, i + 2), 16) / 255)
          .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
        return 0.2126 * r + 0.7152 * g + 0.0722 * b;
      };
      const list = [];
      for (const ink of ["--ink", "--quiet", "--line", "--limit", "--good", "--close", "--bad", "--open", "--link", "--water"]) {
        for (const ground of ["--paper", "--sheet", "--field"]) {
          const [a, b] = [light(ink), light(ground)].sort((x, y) => y - x);
          list.push([ink, ground, (a + 0.05) / (b + 0.05)]);
        }
      }
      return list;
    }, theme);
    for (const [ink, ground, ratio] of pairs) assert.ok(ratio >= 4.5, `${theme}: ${ink} on ${ground} ${ratio.toFixed(2)}`);
  }
});
