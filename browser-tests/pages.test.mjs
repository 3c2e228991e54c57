// Lists, text, history, documents, bench; and what the program answers to bad requests.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { connect } from "node:net";
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

test("the list shows the demo designs; new ones of both techniques begin", async () => {
  const { page, wrong } = await web.open(served.address);
  await page.goto(served.address);
  assert.equal(await page.locator("table.designs tbody tr").count(), 4);
  await page.screenshot({ path: `${screens}/list.png`, fullPage: true });
  for (const technique of ["drilling", "bursting"]) {
    await page.goto(served.address);
    await page.locator(`button[data-new=${technique}]`).click();
    await page.waitForURL(/designs\/\d+$/);
    await page.waitForSelector(`#design[data-technique=${technique}][data-verdict]`);
  }
  await page.goto(`${served.address}/?search=nothing-is-called-so`);
  assert.match(await page.locator(".empty").textContent(), /No design/);
  assert.deepEqual(wrong, []);
});

test("a name that looks like a page stays text everywhere", async () => {
  const hostile = "<script>alert(1)</script> & \"quotes\"";
  const { body } = await ask(served.address, "GET", `/designs/${creek}`);
  const text = body.text.replace('name = "Tidal creek"', `name = ${JSON.stringify(hostile)}`);
  const made = await ask(served.address, "POST", "/designs", { text });
  assert.equal(made.status, 201);
  const { page, wrong } = await web.open(served.address);
  for (const path of ["/", `/designs/${made.body.id}`, `/designs/${made.body.id}/text`, `/designs/${made.body.id}/history`, `/designs/${made.body.id}/documents`]) {
    await page.goto(served.address + path);
    assert.ok((await page.locator("main").textContent()).includes(path.endsWith("/text") ? "alert(1)" : hostile), path);
    assert.equal(await page.locator("main script:not([src])").count(), 0, path);
  }
  assert.deepEqual(wrong, []);
});

test("broken text is told with line and column and survives a reload; mended it is saved", async () => {
  const { page, wrong } = await web.open(served.address);
  await page.goto(`${served.address}/designs/${creek}/text`);
  const area = page.locator("#text");
  const good = await area.inputValue();
  await area.fill(good.replace('entry_radius = "250 m"', 'entry_radius = "250 kg"'));
  await page.locator("#save").click();
  await page.locator("#faults li").first().waitFor();
  assert.match(await page.locator("#faults li").first().textContent(), /line \d+, column \d+: .*kg/);
  await page.reload();
  assert.match(await area.inputValue(), /250 kg/);
  assert.ok(await page.locator("#draft-note").isVisible());
  await area.fill(good.replace('entry_radius = "250 m"', 'entry_radius = "255 m"'));
  await page.locator("#save").click();
  await page.waitForFunction(() => document.getElementById("message").textContent.startsWith("Saved as revision"));
  await page.goto(`${served.address}/designs/${creek}/history?from=1&to=2`);
  assert.match(await page.locator("#comparison").textContent(), /\/line\/entry_radius.*250 m.*255 m/s);
  await page.screenshot({ path: `${screens}/history.png`, fullPage: true });
  assert.deepEqual(wrong, []);
});

test("documents are made with progress and downloaded", { timeout: 120000 }, async () => {
  const { page, wrong } = await web.open(served.address);
  await page.goto(`${served.address}/designs/${creek}/documents`);
  await page.locator("input[name=date]").fill("tomorrow");
  await page.locator("#order button").click();
  await page.locator("#faults li").first().waitFor();
  await page.locator("input[name=date]").fill("2026-05-31");
  for (const part of ["book", "drawings"]) await page.locator(`input[value=${part}]`).uncheck();
  await page.locator("#order button").click();
  await page.locator("#all").waitFor({ state: "visible", timeout: 100000 });
  const [file] = await Promise.all([page.waitForEvent("download"), page.locator("#files a", { hasText: "workbook.xlsx" }).click()]);
  assert.equal(readFileSync(await file.path()).subarray(0, 2).toString(), "PK");
  const [all] = await Promise.all([page.waitForEvent("download"), page.locator("#all").click()]);
  assert.equal(readFileSync(await all.path()).subarray(0, 2).toString(), "PK");
  await page.screenshot({ path: `${screens}/documents.png`, fullPage: true });
  assert.deepEqual(wrong, []);
});

test("the bench computes with its working, and tells a wrong unit", async () => {
  const { page, wrong } = await web.open(served.address);
  await page.goto(`${served.address}/bench`);
  await page.locator("#filter").fill("joint radius");
  await page.goto(`${served.address}/bench/joint-radius`);
  await page.locator("#example").click();
  await page.locator("form.sheet button", { hasText: "compute" }).click();
  await page.locator("[data-output=radius]").waitFor();
  assert.ok((await page.locator("#result math").count()) > 0);
  await page.screenshot({ path: `${screens}/bench.png`, fullPage: true });
  await page.locator("#input-laying_length").fill("6 kg");
  await page.locator("form.sheet button", { hasText: "compute" }).click();
  await page.locator(".faults").waitFor();
  assert.match(await page.locator(".faults").textContent(), /kg/);
  assert.deepEqual(wrong, []);
});

test("feet are shown to those who chose them", async () => {
  await ask(served.address, "PUT", "/preferences", { units: "us" });
  const { page, wrong } = await web.open(served.address);
  await page.goto(`${served.address}/designs/${creek}`);
  await page.waitForSelector("[id='check-line.cover']");
  await page.waitForFunction(() => /ft/.test(document.querySelector("[id='check-line.cover'] .values").textContent));
  await ask(served.address, "PUT", "/preferences", { units: "metric" });
  assert.deepEqual(wrong, []);
});

test("a page goes on by itself when the program comes back, and nothing saved is lost", async () => {
  const first = await start();
  const id = await designNamed(first.address, "Tidal creek");
  const { page } = await web.open(first.address);
  await page.goto(`${first.address}/designs/${id}`);
  await page.waitForSelector("[id='check-line.cover']");
  await page.locator("#handle-exit-angle").focus();
  await page.keyboard.press("ArrowUp");
  await page.waitForFunction(() => document.getElementById("revision").textContent === "2");
  await first.stop();
  await page.locator("#connection").waitFor({ state: "visible" });
  const again = await start(first.folder, new URL(first.address).host);
  await page.locator("#connection").waitFor({ state: "hidden", timeout: 15000 });
  assert.equal((await ask(again.address, "GET", `/designs/${id}`)).body.revision, 2);
  await again.stop();
  again.clean();
});

test("bad requests are refused in plain words and others go on", async () => {
  const { address } = served;
  const refused = async (method, path, body, status, code) => {
    const answer = await ask(address, method, path, body);
    assert.equal(answer.status, status, `${method} ${path}: ${JSON.stringify(answer.body)}`);
    assert.equal(answer.body.errors[0].code, code);
    assert.ok(answer.body.errors[0].message.length > 5);
  };
  const base = (await ask(address, "GET", `/designs/${creek}`)).body.revision;
  await refused("GET", "/designs/999", undefined, 404, "no_such_project");
  await refused("GET", "/nothing", undefined, 404, "no_such_address");
  await refused("PATCH", `/designs/${creek}`, { base, edits: [{ path: "/line/run", si: 1e300 }] }, 422, "out_of_range");
  await refused("PATCH", `/designs/${creek}`, { base, edits: [{ path: "/line/rum", text: "1 m" }] }, 422, "unknown_field");
  await refused("PUT", "/preferences", { units: "cubits" }, 400, "unknown_word");
  await refused("POST", "/worksheets/joint-radius", { laying_length: "6 kg" }, 422, (await ask(address, "POST", "/worksheets/joint-radius", { laying_length: "6 kg" })).body.errors[0].code);
  const broken = await fetch(`${address}/api/v1/designs`, { method: "POST", body: "{" });
  assert.equal(broken.status, 400);
  const large = await fetch(`${address}/api/v1/designs`, { method: "POST", body: "x".repeat(50_000_000) }).catch(() => null);
  assert.ok(large === null || large.status === 413, String(large?.status));
  const half = connect(Number(new URL(address).port), "127.0.0.1");
  half.on("error", () => {});
  half.write(`POST /api/v1/designs HTTP/1.1\r\nHost: ${new URL(address).host}\r\nContent-Length: 1000\r\n\r\n{`);
  assert.equal((await ask(address, "GET", "/designs")).status, 200);
  half.destroy();
});

test("the description of the API lists what the pages ask for", async () => {
  const { body } = await ask(served.address, "GET", "/openapi.json");
  assert.equal(body.openapi, "3.1.0");
  for (const path of ["/designs", "/designs/{id}", "/designs/{id}/live", "/designs/{id}/fields", "/designs/{id}/try", "/documents/{job}", "/worksheets/{id}"]) {
    assert.ok(body.paths[path], path);
  }
  for (const [path, methods] of Object.entries(body.paths)) {
    for (const method of Object.keys(methods)) {
      const real = path.replace("{id}", path.startsWith("/worksheets") ? "joint-radius" : String(creek))
        .replace("{number}", "1").replace("{check}", "line.cover").replace(/\{(job|name)\}/, "1");
      if (method !== "get" || /job|live|all\.zip|documents/.test(path)) continue;
      const query = path.endsWith("compare") ? "?from=1&to=1" : "";
      const answer = await fetch(`${served.address}/api/v1${real}${query}`);
      assert.equal(answer.status, 200, `${method} ${real}`);
    }
  }
});
