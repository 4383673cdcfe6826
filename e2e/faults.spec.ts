import { expect, test } from "@playwright/test";
import { block, openDay } from "./days.ts";

for (const [what, script] of [
  [
    "hangs in a pack",
    `onmessage = ({ data }) => {
       if (data.type === "ping") postMessage({ type: "pong" });
       if (data.type !== "call") return;
       postMessage({ type: "begun", id: data.id });
       if (data.name === "pack") for (;;);
       postMessage({ type: "failure", id: data.id, message: "not here" });
     };`,
  ],
  [
    "dies in a pack without a word",
    `onmessage = ({ data }) => {
       if (data.type === "ping") postMessage({ type: "pong" });
       if (data.type !== "call") return;
       postMessage({ type: "begun", id: data.id });
       if (data.name === "pack") close();
       else postMessage({ type: "failure", id: data.id, message: "not here" });
     };`,
  ],
  [
    "throws where nobody catches it",
    `onmessage = ({ data }) => {
       if (data.type !== "call") return;
       postMessage({ type: "begun", id: data.id });
       if (data.name === "pack") throw new Error("out of memory");
       postMessage({ type: "failure", id: data.id, message: "not here" });
     };`,
  ],
] as const) {
  test(`a worker that ${what} is told, the pack is over, the plan is as it was, and the next pack works`, async ({
    page,
  }) => {
    let broken = true;
    await page.route(/worker-[\w-]+\.js/, (route) =>
      broken ? route.fulfill({ body: script, contentType: "text/javascript" }) : route.fallback(),
    );
    await openDay(page);
    const before = await block(page, "First scoop").getAttribute("aria-label");
    await page.getByRole("button", { name: "Pack", exact: true }).click();
    broken = false;
    const alert = page.getByRole("alert").filter({ hasText: "in the background" });
    await expect(alert.first()).toContainText("started anew; the plan is as it was");
    await expect(page.getByRole("alert").filter({ hasText: "The pack failed" })).toBeVisible();
    await expect(block(page, "First scoop")).toHaveAttribute("aria-label", before ?? "");
    await page.getByRole("button", { name: "Pack", exact: true }).click();
    await expect(page.getByRole("button", { name: /^Undo/ })).toHaveAttribute("title", "Undo: Pack");
  });
}

test("a worker that hangs in the ways of the plan at the start is told, and the plan is open all the same", async ({
  page,
}) => {
  const script = `onmessage = ({ data }) => {
    if (data.type === "call") postMessage({ type: "begun", id: data.id });
    if (data.name === "ways") for (;;);
  };`;
  let broken = true;
  await page.route(/worker-[\w-]+\.js/, (route) => {
    if (!broken || /metronome/.test(route.request().url())) return route.fallback();
    broken = false;
    return route.fulfill({ body: script, contentType: "text/javascript" });
  });
  await openDay(page);
  await expect(page.getByRole("alert").filter({ hasText: "in the background" })).toContainText(
    "did not answer any more. It was started anew; the plan is as it was",
  );
});
