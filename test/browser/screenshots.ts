/**
 * Takes the README's pictures anew, from the real program on its example: `npx node test/browser/screenshots.ts`.
 * The pictures lie in .github/screenshots.
 */
import { mkdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { wordsFor } from "../../core/index.ts";
import { beginRun, focusedKey, onPaper } from "./bench-steps.ts";
import { launchBrowser, openPage, startHost } from "./harness.ts";

const project = join(import.meta.dirname, "..", "..");
const folder = join(project, ".github", "screenshots");
const words = wordsFor("en").screens;
mkdirSync(folder, { recursive: true });

/** The example with a slip in it: a comma that may be a decimal mark or not. */
const withSlip = readFileSync(join(project, "sample-data", "good", "tall-kettle-stove.csv"), "utf8").replace(
  /(R02.*cold-start.*?,)(\d)(\d{3}),(\d{3,4}),/,
  '$1"$2,$3",$4,',
);

const browser = await launchBrowser();
const host = await startHost();
try {
  const { page, close } = await openPage(browser, host, {
    viewport: { width: 1280, height: 860 },
    colorScheme: "light",
  });
  for (const tab of ["compare", "runs", "import", "report"] as const) {
    await page.getByRole("link", { name: words.tabs[tab], exact: true }).click();
    if (tab === "import") {
      const [chooser] = await Promise.all([
        page.waitForEvent("filechooser"),
        page.getByText(words.importing.pickReadings, { exact: true }).click(),
      ]);
      await chooser.setFiles({ name: "second-week.csv", mimeType: "text/csv", buffer: Buffer.from(withSlip) });
    }
    if (tab === "runs") {
      await page.locator('[data-place="3:8"]').click();
      await page.keyboard.press("F2");
    }
    // Charts are drawn when the page's own font is there; the preview is a page of its own.
    await page.waitForLoadState("networkidle");
    await page.evaluate(() => document.fonts.ready);
    await page.waitForTimeout(700);
    await page.screenshot({ path: join(folder, `${tab}.png`) });
  }
  // Last, as it changes the study: a run up to the weighing after the cold start.
  await beginRun(page);
  for (let field = await focusedKey(page); field !== "cold-start.char_with_container_g"; ) {
    await page.keyboard.type(onPaper(field) ?? "");
    await page.keyboard.press("Enter");
    const left = field;
    await page.waitForFunction((key) => document.activeElement?.id !== `bench-${key}`, left);
    field = await focusedKey(page);
  }
  await page.waitForLoadState("networkidle");
  await page.waitForTimeout(700);
  await page.mouse.move(0, 0);
  await page.evaluate(() => document.documentElement.scrollTo(0, 0));
  await page.screenshot({ path: join(folder, "bench.png") });
  await close();
} finally {
  await browser.close();
  await host.close();
}
