// Asks a YAML language server, as an editor does, about the demonstration with the schemas of the program: what can be typed
// here, what does this key mean, what is wrong and where.
import { spawn } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [program, root, room] = process.argv.slice(2);
const server = createRequire(import.meta.url).resolve("yaml-language-server/bin/yaml-language-server");
const faults = [];
const hold = (holds, says) => { if (!holds) faults.push(says); };

/** What the program prints. */
async function printed(...words) {
  const run = spawn(program, words);
  let said = "";
  for await (const piece of run.stdout) said += piece;
  return said;
}

const schema = {};
for (const name of ["job", "shop"]) {
  const file = join(room, `${name}.schema.json`);
  writeFileSync(file, await printed("schema", name));
  schema[name] = pathToFileURL(file).href;
}
const settings = {
  yaml: {
    validate: true, hover: true, completion: true, schemaStore: { enable: false }, maxItemsComputed: 5000,
    schemas: { [schema.job]: ["job-*.yaml"], [schema.shop]: ["shop-*.yaml"] },
  },
};

// The protocol: messages of JSON behind a line of their length.
const process_ = spawn(process.execPath, [server, "--stdio"], { stdio: ["pipe", "pipe", "inherit"] });
const waiting = new Map();
const told = new Map();
let next = 1;
let bytes = Buffer.alloc(0);
const send = (message) => {
  const text = Buffer.from(JSON.stringify({ jsonrpc: "2.0", ...message }));
  process_.stdin.write(`Content-Length: ${text.length}\r\n\r\n`);
  process_.stdin.write(text);
};
const ask = (method, params) => new Promise((done, failed) => {
  const id = next++;
  waiting.set(id, { done, failed });
  send({ id, method, params });
});
const answer = (message) => {
  const all = { "workspace/configuration": () => message.params.items.map((item) => settings[item.section] ?? null) };
  send({ id: message.id, result: all[message.method]?.() ?? null });
};
process_.stdout.on("data", (piece) => {
  bytes = Buffer.concat([bytes, piece]);
  for (;;) {
    const end = bytes.indexOf("\r\n\r\n");
    if (end < 0) return;
    const length = Number(/Content-Length: (\d+)/i.exec(bytes.subarray(0, end).toString())[1]);
    if (bytes.length < end + 4 + length) return;
    const message = JSON.parse(bytes.subarray(end + 4, end + 4 + length).toString());
    bytes = bytes.subarray(end + 4 + length);
    if (message.method && message.id !== undefined) answer(message);
    else if (message.method === "textDocument/publishDiagnostics") {
      told.get(message.params.uri)?.(message.params.diagnostics);
    } else if (message.id !== undefined) {
      const { done, failed } = waiting.get(message.id);
      waiting.delete(message.id);
      if (message.error) failed(new Error(message.error.message)); else done(message.result);
    }
  }
});
setTimeout(() => { console.error("the language server gave no answer"); process.exit(1); }, 120_000).unref();

await ask("initialize", {
  processId: process.pid, rootUri: pathToFileURL(room).href,
  workspaceFolders: [{ uri: pathToFileURL(room).href, name: "room" }],
  capabilities: {
    workspace: { configuration: true, workspaceFolders: true },
    textDocument: {
      completion: { completionItem: { documentationFormat: ["markdown", "plaintext"], snippetSupport: true } },
      hover: { contentFormat: ["markdown", "plaintext"] }, publishDiagnostics: {},
    },
  },
});
send({ method: "initialized", params: {} });
send({ method: "workspace/didChangeConfiguration", params: { settings } });

/** Opens a text under a name: what the server finds wrong in it. */
async function opened(name, text) {
  const uri = pathToFileURL(join(room, name)).href;
  const wrong = new Promise((done) => told.set(uri, done));
  send({ method: "textDocument/didOpen", params: { textDocument: { uri, languageId: "yaml", version: 1, text } } });
  return { uri, wrong: await wrong, lines: text.split("\n") };
}
const at = (page, needle, of = needle) => {
  const line = page.lines.findIndex((line) => line.includes(needle));
  return { line, character: page.lines[line].indexOf(of) };
};
const words = (hover) => [hover?.contents ?? ""].flat().map((part) => part.value ?? part).join(" ");
const labels = (list) => (list?.items ?? list ?? []).map((item) => item.label);

// Nothing is wrong with the files of the demonstration and the examples.
const demo = readFileSync(join(root, "demo/tidewater.yaml"), "utf8");
const shop = readFileSync(join(root, "demo/shop.yaml"), "utf8");
const job = await opened("job-demo.yaml", demo);
hold(job.wrong.length === 0, `demo/tidewater.yaml: ${JSON.stringify(job.wrong.slice(0, 3))}`);
const own = await opened("shop-demo.yaml", shop);
hold(own.wrong.length === 0, `demo/shop.yaml: ${JSON.stringify(own.wrong.slice(0, 3))}`);

// Each word of an operation, and each key of one, with its meaning.
const operations = (await printed("operations")).split("\n").map((line) => /^ {2}([a-z][a-z-]*)/.exec(line)?.[1]).filter(Boolean);
hold(operations.length >= 8, `operations: ${operations}`);
const bare = await opened("job-bare.yaml", "job: x\nparts:\n  - part: y\n    operations:\n      - \n");
const offered = labels(await ask("textDocument/completion", { textDocument: { uri: bare.uri }, position: { line: 4, character: 8 } }));
for (const word of operations) hold(offered.some((label) => label.includes(word)), `${word} is not offered: ${offered}`);

const within = await opened("job-keys.yaml", "job: x\nparts:\n  - part: y\n    operations:\n      - thread-insert:\n          thread: M8\n          \n");
const keys = await ask("textDocument/completion", { textDocument: { uri: within.uri }, position: { line: 6, character: 10 } });
for (const key of ["wall", "hole", "lead", "least-left", "bolt"]) hold(labels(keys).includes(key), `${key} is not offered: ${labels(keys)}`);
const wall = (keys.items ?? keys).find((item) => item.label === "wall");
hold(JSON.stringify(wall?.documentation ?? "").length > 20, `wall is offered without a meaning: ${JSON.stringify(wall)}`);
const values = await opened("job-values.yaml", "job: x\nparts:\n  - part: y\n    operations:\n      - thread-insert:\n          hole: \n");
const holes = labels(await ask("textDocument/completion", { textDocument: { uri: values.uri }, position: { line: 5, character: 16 } }));
for (const word of ["blind", "through"]) hold(holes.includes(word), `hole: ${word} is not offered: ${holes}`);
const tools = await opened("shop-keys.yaml", "shop: x\n\n");
const of_shop = labels(await ask("textDocument/completion", { textDocument: { uri: tools.uri }, position: { line: 1, character: 0 } }));
for (const key of ["machines", "instruments", "units", "paper"]) hold(of_shop.includes(key), `${key} is not offered: ${of_shop}`);

// What a part is held in stands alone, or with its keys: both are offered, neither is an error, and a word that is none is.
const held = (hold) => `job: x\nparts:\n  - part: y\n    operations:\n      - drill:\n          diameter: 5 mm\n          depth: 10 mm\n          wall: 25 ± 0.2 mm\n          hold: ${hold}\n`;
for (const hold_of of ["vice", "three-jaw", "{in: vice}", "{in: vice, grip: 12 mm}"]) {
  const page = await opened(`job-hold-${hold_of.replace(/[^a-z]/g, "")}.yaml`, held(hold_of));
  hold(page.wrong.length === 0, `hold: ${hold_of}: ${JSON.stringify(page.wrong)}`);
}
for (const hold_of of ["vive", "{inn: vice}"]) {
  const page = await opened(`job-no-hold-${hold_of.replace(/[^a-z]/g, "")}.yaml`, held(hold_of));
  hold(page.wrong.length > 0, `hold: ${hold_of} is taken`);
}
const holding = await opened("job-holding.yaml", held("\n            "));
const of_hold = labels(await ask("textDocument/completion", { textDocument: { uri: holding.uri }, position: { line: 9, character: 12 } }));
for (const key of ["in", "grip", "tested"]) hold(of_hold.includes(key), `hold: ${key} is not offered: ${of_hold}`);

// What a key means.
for (const [page, needle, wanted] of [[job, "wall:", /wall|metal/i], [job, "case-depth:", /case/i], [job, "oil-holes:", /oil/i], [own, "spindle:", /spindle|rev/i]]) {
  const hover = words(await ask("textDocument/hover", { textDocument: { uri: page.uri }, position: at(page, needle) }));
  hold(wanted.test(hover.replace(needle.slice(0, -1), "")) && hover.length > 20, `${needle} means ${JSON.stringify(hover)}`);
}

// What is wrong is marked where it stands.
const slips = [
  ["job", demo, "hole: blind", "hole: blnd", "blnd"],
  ["job", demo, "          wall:", "          wal:", "wal"],
  ["job", demo, "by: hand", "by: feet", "feet"],
  ["job", demo, "interrupted: 4", "interrupted: four", "four"],
  ["shop", shop, "units:", "unit:", "unit"],
];
for (const [kind, text, right, slip, mark] of slips) {
  hold(text.includes(right), `${right} no longer stands in the demonstration`);
  const page = await opened(`${kind}-slip-${mark}.yaml`, text.replace(right, slip));
  const { line, character } = at(page, slip.trim(), mark);
  const marked = page.wrong.some(({ range: { start, end } }) => start.line === line && start.character <= character && (end.line > line || end.character >= character + mark.length));
  hold(marked, `${slip.trim()} on line ${line + 1}: ${JSON.stringify(page.wrong.slice(0, 3).map((one) => [one.range.start, one.message]))}`);
}

process_.kill();
for (const fault of faults) console.error(fault);
console.log(faults.length ? `${faults.length} faults` : `completion, hover and errors hold (${operations.length} operations, ${slips.length} slips)`);
process.exit(faults.length ? 1 : 0);
