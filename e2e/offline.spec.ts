import { createReadStream, existsSync, readFileSync, statSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { extname, join } from "node:path";
import { expect, type Page, test } from "@playwright/test";

const SCREENS = ["Site", "Variants", "Odds", "Rehearsal", "Setup", "Paper", "Day"];
const show = (page: Page, screen: string) =>
  page
    .getByRole("navigation", { name: "Screens" })
    .getByRole("button", { name: screen, exact: true })
    .press("Enter");

/** Visits every screen, packs, and opens the window of lists. */
async function useAll(page: Page): Promise<void> {
  for (const screen of SCREENS) {
    await show(page, screen);
    await expect(page.getByText(/^Fetching the/)).toHaveCount(0);
    if (screen === "Paper") await expect(page.locator(".paper-page svg").first()).toBeVisible();
  }
  await page.getByRole("button", { name: /^Pack/ }).first().click();
  await page.keyboard.press("Control+k");
  await page.getByRole("dialog").getByText("Import a list", { exact: true }).first().click();
  await expect(page.getByRole("dialog", { name: "Import a list" })).toBeVisible();
  await page.keyboard.press("Escape");
}

test("asks nobody but where it came from, and keeps to its policy on every screen", async ({
  page,
  baseURL,
}) => {
  const asked: string[] = [];
  const broken: string[] = [];
  page.on("request", (request) => asked.push(request.url()));
  page.on("console", (message) => {
    if (/Content.Security.Policy/i.test(message.text())) broken.push(message.text());
  });
  await page.addInitScript(() => {
    document.addEventListener("securitypolicyviolation", (event) =>
      console.error(
        `Content Security Policy: ${event.violatedDirective} ${event.blockedURI} ${event.sourceFile}`,
      ),
    );
  });
  const answer = await page.goto("./?plan=small");
  expect(answer?.headers()["content-security-policy"]).toContain("default-src 'none'");
  const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute("content");
  for (const bad of ["unsafe-inline", "'unsafe-eval'", "http:", "https:", "*"])
    expect(policy).not.toContain(bad);
  await useAll(page);
  expect(asked.length).toBeGreaterThan(10);
  const own = new URL(baseURL ?? "").origin;
  const strange = asked.filter((url) => new URL(url).protocol !== "blob:" && new URL(url).origin !== own);
  expect(strange.filter((url) => !url.startsWith("data:"))).toEqual([]);
  expect(broken).toEqual([]);
});

test("its policy is one that stops code in the page's text and what comes from elsewhere", async ({
  page,
}) => {
  await page.goto("./?plan=small");
  const tried = await page.evaluate(async () => {
    const button = document.createElement("button");
    button.setAttribute("onclick", "document.title = 'ran'");
    button.click();
    const code = await import(String("data:text/javascript,export default 1")).then(
      () => "ran",
      () => "stopped",
    );
    const ask = await fetch("https://example.org/").then(
      () => "answered",
      () => "stopped",
    );
    return [document.title, code, ask];
  });
  expect(tried).toEqual(["Lopeline", "stopped", "stopped"]);
});

test("the licences of its parts and the bill of materials are with it", async ({ page }) => {
  await page.goto("./?plan=small");
  const [licences] = await Promise.all([
    page.waitForEvent("popup"),
    page.getByRole("link", { name: "Licences" }).click(),
  ]);
  await expect(licences.locator("body")).toContainText("react-dom");
  const bill = (await (await page.request.get("./bom.json")).json()) as { bomFormat: string };
  expect(bill.bomFormat).toBe("CycloneDX");
});

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".css": "text/css",
  ".json": "application/json",
  ".svg": "image/svg+xml",
  ".woff2": "font/woff2",
};

/** A plain host of the built files, whose offline worker can be made another one. */
function host(): { server: Server; renew(): void } {
  let newer = false;
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? "/", "http://host");
    const file = join("dist", pathname.endsWith("/") ? `${pathname}index.html` : pathname);
    if (!existsSync(file) || !statSync(file).isFile()) return response.writeHead(404).end();
    response.setHeader("Content-Type", TYPES[extname(file)] ?? "application/octet-stream");
    if (newer && file.endsWith("offline.js")) {
      const text = readFileSync(file, "utf8").replace(/"[0-9a-f]{16}"/, '"newer"');
      return response.end(text);
    }
    return createReadStream(file).pipe(response);
  });
  return { server, renew: () => (newer = true) };
}

test.describe("kept in the browser", () => {
  test.use({ serviceWorkers: "allow" });

  test("starts without network from the second start on, every screen of it", async ({ page, context }) => {
    const { server } = host();
    await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
    const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
    await page.goto(`${address}?plan=small`);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await expect(page.locator(".saved")).toHaveText("Saved here");
    // The host is gone, not only asleep.
    await context.setOffline(true);
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
    await page.goto(address);
    await useAll(page);
    // What comes from the browser's own store is bound by the policy too, workers with it.
    const policy = await page.evaluate(async () =>
      (await fetch("offline.js").catch(() => null))?.headers.get("Content-Security-Policy"),
    );
    expect(policy ?? "default-src 'none'").toContain("default-src 'none'");
  });

  test("tells of a newer version, and starts it without losing the open plan", async ({ page }) => {
    const { server, renew } = host();
    await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
    const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
    await page.goto(`${address}?plan=small`);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.goto(address);
    renew();
    await page.goto(address);
    await expect(page.getByText("A newer version of Lopeline is in this browser.")).toBeVisible();
    // An edit that nobody has waited for.
    await show(page, "Setup");
    await page.getByRole("button", { name: "Add task" }).first().click();
    await page.keyboard.type("Late thought");
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "Start it" }).click();
    await expect(page.getByText("A newer version of Lopeline is in this browser.")).toHaveCount(0);
    await expect(page.getByText("Late thought").first()).toBeVisible();
    const caches = await page.evaluate(() => window.caches.keys());
    expect(caches.filter((name) => name.startsWith("lopeline-program-"))).toHaveLength(1);
    server.closeAllConnections();
    server.close();
  });
});
