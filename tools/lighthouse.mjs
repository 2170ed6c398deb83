// What Lighthouse says of the built app, as a phone meets it on its first visit:
//   node tools/lighthouse.mjs FOLDER LIGHTHOUSE
// Prints lines for the README's table: the median of three runs, since a run now and then loses a
// point or two to the machine. Fails where one is under 100.
import { execFile, spawn } from "node:child_process";
import { createInterface } from "node:readline";
import { promisify } from "node:util";

const [folder, lighthouse] = process.argv.slice(2);
const RUNS = 3;
const CHROME = [
  "--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
  "--disable-component-update", "--disable-sync",
];

/** The address that the server names. */
async function named(server) {
  for await (const line of createInterface(server.stdout)) {
    const address = line.match(/http:\S+/)?.[0];
    if (address) return address;
  }
  throw new Error("the server has ended");
}

/** The scores of one run, of 100, by name. */
async function scores(address) {
  const flags = ["--quiet", "--output=json", "--form-factor=mobile", `--chrome-flags=${CHROME.join(" ")}`];
  const { stdout } = await promisify(execFile)(lighthouse, [address, ...flags], { maxBuffer: 2 ** 28 });
  const { categories } = JSON.parse(stdout);
  return Object.fromEntries(Object.values(categories).map(({ title, score }) => [title, Math.round(score * 100)]));
}

const here = new URL("serve.mjs", import.meta.url).pathname;
const server = spawn(process.execPath, [here, folder], { stdio: ["ignore", "pipe", "inherit"] });
try {
  const address = await named(server);
  // Not counted: this server compresses a file when it is first asked for, as no host does.
  await scores(address);
  const runs = [];
  for (let run = 0; run < RUNS; run += 1) runs.push(await scores(address));
  for (const title of Object.keys(runs[0])) {
    const sorted = runs.map((run) => run[title]).sort((a, b) => a - b);
    const median = sorted[(RUNS - 1) / 2];
    const what = `Lighthouse, mobile, ${title.toLowerCase()}: median and lowest of ${RUNS} runs`;
    console.log(`| ${what} | ${median}, ${sorted[0]} | 100 |`);
    if (median < 100) process.exitCode = 1;
  }
} finally {
  server.kill();
}
