// Trunk's last step on a build: lists every file with its hash in the service worker, and
// marks page and worker with one version. Called by Trunk, which names the folders.
import { createHash } from "node:crypto";
import { readFile, readdir, rm, writeFile } from "node:fs/promises";
import { join, relative } from "node:path";
import { readHeaders } from "./headers.mjs";

const staging = process.env.TRUNK_STAGING_DIR;
const source = process.env.TRUNK_SOURCE_DIR;
const release = process.env.TRUNK_PROFILE === "release";

/** Files that the app never asks for itself. */
const UNLISTED = new Set(["sw.js", "_headers"]);

const hash = (bytes) => createHash("sha256").update(bytes);
const policy = (text) => text.replace(/\s*frame-ancestors[^;]*;?/, "").replace(/;\s*$/, "").trim();

async function* walk(folder) {
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) yield* walk(path);
    else yield path;
  }
}

/** The page carries the same policy as the headers, for hosts that send none. */
async function checkPolicy() {
  const page = await readFile(join(source, "index.html"), "utf8");
  const inPage = page.match(/http-equiv="Content-Security-Policy"\s+content="([^"]*)"/)?.[1];
  const inHeaders = (await readHeaders(join(staging, "_headers")))["Content-Security-Policy"];
  if (!inPage || policy(inPage) !== policy(inHeaders)) {
    throw new Error("index.html and public/_headers differ in their content security policy");
  }
}

async function fill(file, marks) {
  let text = await readFile(file, "utf8");
  for (const [mark, value] of Object.entries(marks)) {
    if (!text.includes(mark)) throw new Error(`${file}: the mark ${mark} is missing`);
    text = text.replace(mark, value);
  }
  await writeFile(file, text);
}

await checkPolicy();
const files = [];
for await (const path of walk(staging)) {
  const name = relative(staging, path).split("\\").join("/");
  if (!UNLISTED.has(name)) files.push(name);
}
files.sort();

const page = join(staging, "index.html");
const worker = join(staging, "sw.js");

if (release) {
  const all = createHash("sha256");
  for (const name of [...files, "sw.js"]) all.update(name).update(await readFile(join(staging, name)));
  const number = (await readFile(join(source, "Cargo.toml"), "utf8")).match(/^version = "(.*)"/m)[1];
  const version = `${number}-${all.digest("hex").slice(0, 10)}`;

  await fill(page, { "@VERSION@": version });
  const list = [];
  for (const name of files) {
    const digest = hash(await readFile(join(staging, name))).digest("base64");
    // The page is kept under the folder's own address, which no host redirects.
    list.push([name === "index.html" ? "./" : `./${name}`, `sha256-${digest}`]);
  }
  await fill(worker, { "@VERSION@": version, '"@FILES@"': JSON.stringify(list, null, 1) });
  console.log(`sealed ${list.length} files as ${version}`);
} else {
  // No worker while working: a reload must show the newest build.
  await fill(page, { "@VERSION@": "" });
  await rm(worker);
}
