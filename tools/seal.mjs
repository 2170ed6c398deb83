// Trunk's last step on a build. For a release: joins the styles, makes them and the scripts
// small, lists every file with its hash in the service worker, and marks page and worker with
// one version.
// Called by Trunk, which names the folders.
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { readFile, readdir, rm, writeFile } from "node:fs/promises";
import { extname, join, relative, sep } from "node:path";
import { readHeaders } from "./headers.mjs";

const staging = process.env.TRUNK_STAGING_DIR;
const source = process.env.TRUNK_SOURCE_DIR;
const page = join(staging, "index.html");
const worker = join(staging, "sw.js");

/** Files that the worker does not keep: itself, and what only hosts read. */
const UNLISTED = new Set(["sw.js", "_headers"]);
/** Files that the worker keeps only on phones that have read them. */
const ASKED = /^translations\//;

async function* walk(folder) {
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) yield* walk(path);
    else yield path;
  }
}

/** The page carries the same policy as the headers, for hosts that send none. */
async function checkPolicy() {
  // A policy in a page cannot say who may frame it.
  const bare = (policy) => policy?.replace(/;\s*frame-ancestors[^;]*/, "");
  const html = await readFile(join(source, "index.html"), "utf8");
  const inPage = html.match(/http-equiv="Content-Security-Policy"\s+content="([^"]*)"/)?.[1];
  const inHeaders = (await readHeaders(join(staging, "_headers")))["Content-Security-Policy"];
  if (!inPage || inPage !== bare(inHeaders)) {
    throw new Error("index.html and public/_headers differ in their content security policy");
  }
}

async function fill(file, marks) {
  let text = await readFile(file, "utf8");
  for (const [mark, value] of Object.entries(marks)) {
    if (!text.includes(mark)) throw new Error(`${file}: the mark ${mark} is missing`);
    text = text.replace(mark, () => value);
  }
  await writeFile(file, text);
}

/** One style sheet instead of many: the first screen waits for each. */
async function joinStyles() {
  const link = /<link rel="stylesheet" href="\.\/([^"]+)"\s*\/?>\s*/g;
  const html = await readFile(page, "utf8");
  const names = [...html.matchAll(link)].map((match) => match[1]);
  const sheets = await Promise.all(names.map((name) => readFile(join(staging, name), "utf8")));
  const joined = sheets.join("\n");
  const name = `style-${createHash("sha256").update(joined).digest("hex").slice(0, 16)}.css`;
  await Promise.all(names.map((old) => rm(join(staging, old))));
  await writeFile(join(staging, name), joined);
  let first = true;
  const one = () => {
    const keep = first ? `<link rel="stylesheet" href="./${name}">\n    ` : "";
    first = false;
    return keep;
  };
  await writeFile(page, html.replace(link, one));
}

function shrink(file) {
  execFileSync("esbuild", [file, "--minify", "--allow-overwrite", "--log-level=warning", `--outfile=${file}`]);
}

async function seal() {
  execFileSync(join(source, "tools", "licences"), [staging], { stdio: "inherit" });
  await joinStyles();
  const names = [];
  for await (const path of walk(staging)) {
    const name = relative(staging, path).split(sep).join("/");
    if (UNLISTED.has(name)) continue;
    if ([".js", ".css"].includes(extname(name))) shrink(path);
    names.push(name);
  }
  names.sort();

  const all = createHash("sha256");
  for (const name of [...names, "sw.js"]) all.update(name).update(await readFile(join(staging, name)));
  const number = (await readFile(join(source, "Cargo.toml"), "utf8")).match(/^version = "(.*)"/m)[1];
  const version = `${number}-${all.digest("hex").slice(0, 10)}`;
  await fill(page, { "@VERSION@": version });

  const list = [];
  const asked = [];
  for (const name of names) {
    const digest = createHash("sha256").update(await readFile(join(staging, name))).digest("base64");
    // The page is kept under the folder's own address, which no host redirects.
    const file = [name === "index.html" ? "./" : `./${name}`, `sha256-${digest}`];
    (ASKED.test(name) ? asked : list).push(file);
  }
  await fill(worker, { "@VERSION@": version, '"@FILES@"': JSON.stringify(list), '"@ASKED@"': JSON.stringify(asked) });
  shrink(worker);
  console.log(`sealed ${list.length + asked.length} files as ${version}`);
}

await checkPolicy();
if (process.env.TRUNK_PROFILE === "release") {
  await seal();
} else {
  // No worker while working: a reload must show the newest build.
  await fill(page, { "@VERSION@": "" });
  await rm(worker);
}
