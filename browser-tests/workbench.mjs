// The real program with a store of its own, and a browser that looks at it.
import { spawn } from "node:child_process";
import { mkdtempSync, mkdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const here = dirname(fileURLToPath(import.meta.url));
const program = process.env.UNDERHAUL_BIN ?? join(here, "../target/debug/underhaul");
export const screens = join(here, "screens");
mkdirSync(screens, { recursive: true });

/** Starts the program; `stop` kills it, as a power cut would. */
export async function start(store, listen = "127.0.0.1:0") {
  const folder = store ?? mkdtempSync(join(tmpdir(), "workbench-"));
  const child = spawn(program, ["serve", "--listen", listen, "--store", join(folder, "a.designs")]);
  const address = await new Promise((found, failed) => {
    let text = "";
    child.stdout.on("data", (part) => {
      text += part;
      const match = text.match(/workbench: (http:\/\/\S+?)\/\s/);
      if (match) found(match[1]);
    });
    child.stderr.on("data", (part) => (text += part));
    child.on("exit", (code) => failed(new Error(`the program ended with ${code}: ${text}`)));
    child.on("error", failed);
  });
  const stop = () => new Promise((done) => {
    child.on("exit", done);
    child.kill("SIGKILL");
  });
  const clean = () => rmSync(folder, { recursive: true, force: true });
  return { address, folder, stop, clean };
}

/** A browser, and a page that remembers everything that went wrong. */
export async function browse() {
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
      "--disable-component-update", "--disable-sync"],
  });
  const open = async (address, size = { width: 1280, height: 900 }) => {
    const context = await browser.newContext({ viewport: size, acceptDownloads: true });
    const page = await context.newPage();
    const wrong = [];
    page.on("pageerror", (e) => wrong.push(`error: ${e.message}`));
    page.on("console", (m) => {
      if (m.type() === "error" && !/status of (4\d\d|507)|WebSocket|ERR_CONNECTION/.test(m.text())) wrong.push(`console: ${m.text()}`);
    });
    page.on("request", (r) => {
      const url = r.url();
      if (!url.startsWith(address) && !url.startsWith("data:") && !url.startsWith("blob:")) wrong.push(`left the machine: ${url}`);
    });
    return { page, wrong, context };
  };
  return { browser, open };
}

/** Sends JSON to the API. */
export async function ask(address, method, path, body) {
  const answer = await fetch(`${address}/api/v1${path}`, {
    method, headers: body ? { "content-type": "application/json" } : {}, body: body ? JSON.stringify(body) : undefined,
  });
  const text = await answer.text();
  return { status: answer.status, body: text ? JSON.parse(text) : null };
}

/** Number of the design with a name. */
export async function designNamed(address, name) {
  const { body } = await ask(address, "GET", `/designs?search=${encodeURIComponent(name)}`);
  const found = body.designs.find((d) => d.name === name);
  if (!found) throw new Error(`no design is called ${name}`);
  return found.id;
}
