// Holds each bundle to the structure definitions and value sets of R4 (npm: fhir), and each unit to UCUM
// (npm: @lhncbc/ucum-lhc). Ends with 1 when anything is wrong: node check.mjs FHIR UCUM FOLDER,
// the first two being where those packages were installed
import { createRequire } from "node:module";
import { readFileSync, readdirSync } from "node:fs";
import { join, resolve } from "node:path";

const [fhirHome, ucumHome, folder] = process.argv.slice(2);
const load = (home, name) => createRequire(join(resolve(home), "x.js"))(name);
const { Fhir } = load(fhirHome, "fhir");
const ucum = load(ucumHome, "@lhncbc/ucum-lhc").UcumLhcUtils.getInstance();
const fhir = new Fhir();
let wrong = 0;
const say = (...words) => {
  console.log(...words);
  wrong += 1;
};

/** Every quantity with a UCUM code in a part of a bundle. */
function* quantities(part) {
  if (part === null || typeof part !== "object") return;
  if (part.system === "http://unitsofmeasure.org") yield part;
  for (const value of Object.values(part)) yield* quantities(value);
}

const files = readdirSync(folder).filter((name) => name.endsWith(".fhir.json"));
const codes = new Set();
for (const name of files) {
  const bundle = JSON.parse(readFileSync(join(folder, name), "utf8"));
  // One by one: the validator looks into the resources of a bundle but does not hold them to their kind.
  for (const resource of [bundle, ...bundle.entry.map((entry) => entry.resource)]) {
    for (const { severity, location, message } of fhir.validate(resource, { errorOnUnexpected: true }).messages) {
      if (severity === "error" || severity === "fatal") say(`${name}: ${resource.resourceType} ${location}: ${message}`);
    }
  }
  for (const quantity of quantities(bundle)) {
    codes.add(quantity.code);
    if (typeof quantity.value !== "number") say(`${name}: no number in ${JSON.stringify(quantity)}`);
  }
}
for (const code of codes) {
  const read = ucum.validateUnitString(code);
  if (read.status !== "valid" || read.ucumCode !== code) say(`${code} is no UCUM unit`);
}
// What the enzyme's unit must not be turned into.
for (const other of ["U", "[iU]", "[USP'U]"]) {
  if (ucum.convertUnitTo("[arb'U]", 1, other).status === "succeeded") say(`[arb'U] is turned into ${other}`);
}
if (files.length === 0 || codes.size === 0) say("nothing to read");
console.log(`${files.length} bundles held to R4; units: ${[...codes].join(" ")}`);
process.exit(wrong === 0 ? 0 : 1);
