// Looks at pages in a browser without a window, as wide as a telephone and as a screen.
import { readFileSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import puppeteer from "puppeteer-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const WIDTHS = [360, 420, 1280];
const faults = [];

/** What is wrong with a page as it stands, found inside the browser. */
function look() {
  const wrong = [];
  const name = (e) => `<${e.tagName.toLowerCase()}> ${(e.textContent || e.getAttribute("aria-label") || "").trim().slice(0, 50)}`;
  if (document.documentElement.scrollWidth > window.innerWidth) {
    const wide = [...document.querySelectorAll(".screen *")].find((e) => !e.closest(".picture") && e.getBoundingClientRect().right > window.innerWidth + 0.5);
    wrong.push(`scrolls sideways: ${document.documentElement.scrollWidth} of ${window.innerWidth}${wide ? ", " + name(wide) : ""}`);
  }
  const body = parseFloat(getComputedStyle(document.body).fontSize);
  if (body < 17) wrong.push(`letters of ${body} px`);
  for (const e of document.querySelectorAll(".screen .figure")) {
    if (parseFloat(getComputedStyle(e).fontSize) < 2.5 * body) wrong.push(`a figure of less than 2.5 times the body: ${name(e)}`);
  }
  for (const e of document.querySelectorAll(".screen p, .screen li, .screen span, .screen b, .screen div, .screen a, .screen button")) {
    const own = [...e.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim());
    if (own && !e.closest("svg") && !e.closest(".unseen") && parseFloat(getComputedStyle(e).fontSize) < 17) wrong.push(`letters under 17 px: ${name(e)}`);
  }
  for (const e of document.querySelectorAll(".screen a, .screen button, .screen summary, .screen input[type=text], .screen .tick, .screen input[type=checkbox]")) {
    const r = e.getBoundingClientRect();
    if (r.height > 0 && (r.height < 44 || r.width < 44)) wrong.push(`a target of ${r.width.toFixed(0)} × ${r.height.toFixed(0)} px: ${name(e)}`);
  }
  // Words and fields on each other: every text by its lines.
  const boxes = [];
  const folded = (e) => e.closest("details:not([open])") && !e.closest("summary");
  const walk = document.createTreeWalker(document.querySelector(".screen"), NodeFilter.SHOW_TEXT);
  for (let n = walk.nextNode(); n; n = walk.nextNode()) {
    const e = n.parentElement;
    if (!n.textContent.trim() || e.closest("svg") || e.closest(".unseen") || e.closest("textarea") || folded(e)) continue;
    const range = document.createRange();
    range.selectNodeContents(n);
    for (const r of range.getClientRects()) if (r.width > 1) boxes.push([r, e]);
  }
  for (const e of document.querySelectorAll(".screen input, .screen svg, .screen button")) {
    const r = e.getBoundingClientRect();
    if (r.width > 0 && !folded(e)) boxes.push([r, e]);
  }
  boxes.sort((a, b) => a[0].top - b[0].top);
  const slack = 3;
  for (let i = 0; i < boxes.length; i += 1) {
    const [a, x] = boxes[i];
    for (let j = i + 1; j < boxes.length && boxes[j][0].top < a.bottom - slack; j += 1) {
      const [b, y] = boxes[j];
      if (x.contains(y) || y.contains(x)) continue;
      // Letters stand well inside the boxes of their lines.
      const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      if (wide > 1 && high > 0.4 * Math.min(a.height, b.height)) wrong.push(`${name(x)} lies on ${name(y)}`);
    }
  }
  return wrong;
}

/** Looks at one page, in a browser that looks at no other meanwhile. */
async function look_at(browser, file) {
  const url = pathToFileURL(resolve(file)).href;
  const said = (what) => faults.push(`${file}: ${what}`);
  for (const width of WIDTHS) {
    const page = await browser.newPage();
    page.on("pageerror", (error) => said(`script: ${error.message}`));
    page.on("request", (request) => { if (request.url() !== url && !request.url().startsWith("blob:")) said(`asks for ${request.url()}`); });
    await page.setBypassCSP(true);
    await page.setViewport({ width, height: 800, isMobile: width < 600, hasTouch: width < 600 });
    await page.goto(url);
    for (const opened of [false, true]) {
      await page.evaluate((open) => { document.querySelectorAll("details").forEach((d) => { d.open = open; }); }, opened);
      for (const fault of await page.evaluate(look)) said(`at ${width} px: ${fault}`);
    }
    // What is laid out for paper no screen shows: with it there the rules take four times as long.
    await page.evaluate(() => document.querySelectorAll(".print").forEach((e) => e.remove()));
    await page.evaluate(axe);
    const found = await page.evaluate(() => axe.run(document, { runOnly: { type: "tag", values: ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }, rules: { "color-contrast-enhanced": { enabled: true } } }));
    for (const one of found.violations) said(`at ${width} px: ${one.id}: ${one.help} (${one.nodes.length}): ${one.nodes[0].html.slice(0, 120)}`);
    await page.close();
  }
  // What is typed is kept, given out as text, and put into the printed pages.
  const page = await browser.newPage();
  await page.goto(url);
  const field = await page.$(".screen input[data-unit]");
  if (field) {
    await field.type("21.677");
    const id = await field.evaluate((e) => e.id);
    await page.reload();
    const after = await page.evaluate((of) => ({
      kept: document.getElementById(of).value,
      text: document.getElementById("text").value,
      printed: [...document.querySelectorAll(".print [data-of]")].find((e) => e.dataset.of === of)?.textContent,
    }), id);
    if (after.kept !== "21.677") said(`what was typed is not kept: ${after.kept}`);
    // An entry of the log, as `setover log --from` reads it.
    if (!/^- \{part: ".+", operation: ".+", \w+: .*21\.677 \S+, date: \d{4}-\d\d-\d\d\}$/m.test(after.text)) said(`the reading is given out as "${after.text}"`);
    if (after.printed !== "21.677") said("what was typed is not in its blank on the printed page");
  }
  const sheets = await page.$$eval(".print > svg", (all) => all.length);
  const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
  const pages = (Buffer.from(pdf).toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g) || []).length;
  // A page without printed sheets of its own prints as it is.
  if (sheets > 0 && pages !== sheets) said(`prints on ${pages} pages, laid out are ${sheets}`);
  await page.close();
  // Without its script it reads whole.
  const plain = await browser.newPage();
  await plain.setJavaScriptEnabled(false);
  await plain.goto(url);
  const words = async (p) => (await p.$eval("main", (e) => e.innerText)).replace(/\s+/g, " ").length;
  const with_script = await browser.newPage();
  await with_script.goto(url);
  if ((await words(plain)) !== (await words(with_script))) said("reads otherwise without its script");
  await plain.close();
  await with_script.close();
}

// One after the other: a page that waits for the processor has not kept yet what was typed when it is read again.
const waiting = process.argv.slice(2).sort((a, b) => statSync(b).size - statSync(a).size);

async function look_at_the_next() {
  const browser = await puppeteer.launch({ executablePath: process.env.BROWSER, args: ["--no-sandbox", "--disable-gpu"] });
  try {
    for (let file = waiting.shift(); file; file = waiting.shift()) await look_at(browser, file);
  } finally {
    await browser.close();
  }
}

await look_at_the_next();
if (faults.length) {
  const all = [...new Set(faults)];
  console.error(all.slice(0, 60).join("\n"));
  console.error(`${all.length} faults`);
  process.exit(1);
}
console.log(`${process.argv.length - 2} pages looked at in a browser at ${WIDTHS.join(", ")} px: nothing wrong`);
