// How fast the picture follows the pointer, and how fast pages come; prints figures, judges nothing.
import { ask, browse, designNamed, start } from "./workbench.mjs";

const served = await start();
const web = await browse();
const id = await designNamed(served.address, "Tidal creek");
const { page } = await web.open(served.address);
const begun = performance.now();
await page.goto(`${served.address}/designs/${id}`, { waitUntil: "domcontentloaded" });
console.log(`first page, cold: ${(performance.now() - begun).toFixed(0)} ms to its document`);
await page.waitForSelector("#check-pull\\.joint-force");
const box = await page.locator("#handle-lowest-level .reach").boundingBox();
const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
await page.mouse.move(x, y);
await page.mouse.down();
const server = [];
for (let k = 0; k < 300; k += 1) {
  await page.mouse.move(x, y + 10 * Math.sin(k / 9));
  server.push(Number(await page.locator("#design").getAttribute("data-server")));
}
await page.mouse.up();
const at = await page.locator("#design").evaluate((e) => ({ frames: e.dataset.frames, p95: e.dataset.p95 }));
const share = (list, part) => [...list].sort((a, b) => a - b)[Math.floor(part * list.length)];
const times = server.filter((v) => v > 0);
console.log(`${at.frames} pictures, pointer to picture p95 ${at.p95} ms; program p50 ${share(times, 0.5).toFixed(1)} ms, p95 ${share(times, 0.95).toFixed(1)} ms`);
const text = (await ask(served.address, "GET", `/designs/${id}`)).body.text;
for (let k = 0; k < 1000; k += 1) {
  await ask(served.address, "POST", "/designs", { text: text.replace("Tidal creek", `Tidal creek ${k}`) });
}
const list = [];
for (let k = 0; k < 20; k += 1) {
  const from = performance.now();
  await (await fetch(`${served.address}/?page=${k}`)).text();
  list.push(performance.now() - from);
}
console.log(`list of 1004 designs, one page of 50: p50 ${share(list, 0.5).toFixed(1)} ms`);
await web.browser.close();
await served.stop();
served.clean();
