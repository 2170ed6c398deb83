// Times the geometry in this browser and writes what it found into the page, as JSON.
import init, { Drawing } from "./freshet_speed.js";

// The same as the benchmark on the host has, and those between.
const VERTICES = [125, 250, 500, 1000, 2000, 4000, 8000];
/** About so many points, and how many millimetres across an outline for them is. */
const POINTS = [[30, 69], [60, 98], [125, 142], [250, 199], [500, 282], [1000, 399], [2000, 565]];
const DRAWN = 2000;
const ACROSS = 282;

// A browser compiles twice: fast first, well while the fast code runs.
const WARM_UP_MS = 300;
// The clock ticks once a millisecond at worst, so each sample is many ticks long.
const SAMPLE_MS = 40;
const SAMPLES = 7;

/** Calls until so many milliseconds are over; says how long one call took. */
function run(call, enough) {
  const start = performance.now();
  let calls = 0;
  let passed = 0;
  // Few looks at the clock, since some calls are shorter than a look.
  for (let batch = 1; passed < enough; batch = Math.max(1, Math.ceil(calls / 8))) {
    for (let once = 0; once < batch; once += 1) call();
    calls += batch;
    passed = performance.now() - start;
  }
  return passed / calls;
}

/** The median of several samples, in milliseconds. The page may breathe before each. */
async function time(call) {
  run(call, WARM_UP_MS);
  const samples = [];
  for (let sample = 0; sample < SAMPLES; sample += 1) {
    await new Promise((go) => setTimeout(go));
    samples.push(run(call, SAMPLE_MS));
  }
  return samples.sort((one, other) => one - other)[SAMPLES >> 1];
}

async function measure(drawing, names) {
  const times = {};
  const answers = {};
  for (const name of names) {
    answers[name] = drawing[name]() >>> 0;
    times[name] = await time(() => drawing[name]());
  }
  return { points: drawing.points(), times, answers };
}

async function series(what, names, sizes) {
  const rows = [];
  for (const [count, vertices, across] of sizes) {
    const drawing = new Drawing(vertices, across, false, 0);
    const measured = await measure(drawing, names);
    rows.push({ what, count, vertices, across, ...measured });
    drawing.free();
  }
  return rows;
}

async function territories() {
  const rows = [];
  for (const hexagonal of [false, true]) {
    for (const margin of [0, 3]) {
      const drawing = new Drawing(DRAWN, ACROSS, hexagonal, margin);
      const measured = await measure(drawing, ["territory"]);
      rows.push({ hexagonal, margin, vertices: DRAWN, across: ACROSS, ...measured });
      drawing.free();
    }
  }
  return rows;
}

/** The first time of all, as somebody meets it who has just drawn the first line. */
function first() {
  const start = performance.now();
  // Laid once as it is made.
  const drawn = new Drawing(DRAWN, ACROSS, false, 0);
  drawn.area();
  const passed = performance.now() - start;
  drawn.free();
  return passed;
}

async function all() {
  await init();
  return {
    first: first(),
    territories: await territories(),
    rows: [
      // The order knows the points alone.
      ...(await series("vertices", ["area", "lay", "reach"], VERTICES.map((count) => [count, count, ACROSS]))),
      ...(await series("points", ["area", "lay", "order", "reach"], POINTS.map(([count, across]) => [count, DRAWN, across]))),
    ],
  };
}

const say = (id, text) => { document.getElementById(id).textContent = text; };
all().then((found) => say("done", JSON.stringify(found)), (error) => say("failed", `${error}`));
