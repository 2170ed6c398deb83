// Whether a screen fits the shape that it has now: nothing wider than it, no words cut off, the bars
// leave room, and whatever takes the focus is then in sight and not covered.
const found = [];
const room = document.documentElement.clientWidth;
const tall = document.documentElement.clientHeight;
const named = (el) => `${el.tagName.toLowerCase()}.${el.getAttribute("class") ?? ""} ${JSON.stringify(norm(el.getAttribute("aria-label") ?? el.innerText).slice(0, 40))}`;
const sheet = document.querySelector("dialog[open]");

if (document.scrollingElement.scrollWidth > room) found.push(`the page is ${document.scrollingElement.scrollWidth} wide of ${room}`);

// What only a screen reader reads is one pixel wide.
const unseen = (el) => { for (; el; el = el.parentElement) if (getComputedStyle(el).clipPath !== "none") return true; return false; };
const hides = (el, side) => /hidden|clip/.test(getComputedStyle(el)[side]);

for (const el of scope().querySelectorAll("*")) {
  if (el.closest("svg") || !shown(el) || unseen(el)) continue;
  const style = getComputedStyle(el);
  if (/auto|scroll/.test(style.overflowX) && el.scrollWidth > el.clientWidth + 1 && !el.matches("textarea, input")) found.push(`${named(el)} scrolls sideways`);
  for (const text of el.childNodes) {
    if (text.nodeType !== Node.TEXT_NODE || !text.data.trim()) continue;
    const range = document.createRange();
    range.selectNodeContents(text);
    const box = range.getBoundingClientRect();
    if (box.right > room + 1 || box.left < -1) found.push(`${named(el)} runs out of the screen: ${Math.round(box.left)}..${Math.round(box.right)}`);
    for (let around = el; around && around !== document.body; around = around.parentElement) {
      const edge = around.getBoundingClientRect();
      if (hides(around, "overflowX") && (box.right > edge.right + 1 || box.left < edge.left - 1)) { found.push(`${named(el)} is cut off by ${named(around)}`); break; }
      if (hides(around, "overflowY") && (box.bottom > edge.bottom + 2 || box.top < edge.top - 2)) { found.push(`${named(el)} is cut off below by ${named(around)}`); break; }
    }
  }
}

// No words over others, and none past the edge of what they stand in.
const lines = [];
for (const el of (sheet ?? document.querySelector("main")).querySelectorAll("*")) {
  // What passes over the rest, or stays while it scrolls, lies over it for a while.
  if (el.closest("svg, .toast, .sheet-top") || !shown(el) || unseen(el)) continue;
  for (const text of el.childNodes) {
    if (text.nodeType !== Node.TEXT_NODE || !text.data.trim()) continue;
    const range = document.createRange();
    range.selectNodeContents(text);
    for (const box of range.getClientRects()) if (box.width > 1 && box.height > 1) lines.push([el, box]);
    const holder = el.closest("button, .option, .figure, .tally, .row, .banner, .note");
    const edge = holder?.getBoundingClientRect(), box = range.getBoundingClientRect();
    if (edge && getComputedStyle(holder).display !== "inline" && (box.right > edge.right + 1 || box.left < edge.left - 1 || box.bottom > edge.bottom + 2 || box.top < edge.top - 2)) found.push(`${named(el)} runs out of ${named(holder)}`);
  }
}
lines.forEach(([one, a], n) => {
  for (const [other, b] of lines.slice(n + 1)) {
    if (one === other || one.contains(other) || other.contains(one)) continue;
    const across = Math.min(a.right, b.right) - Math.max(a.left, b.left), down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
    // A line's box is higher than its letters.
    if (across > 2 && down > Math.min(a.height, b.height) * 0.35) found.push(`${named(one)} lies over ${named(other)}`);
  }
});

/** What stays at the top and at the bottom while the rest scrolls. */
const sticks = (el) => el && /sticky|fixed/.test(getComputedStyle(el).position) && shown(el);
const above = [...document.querySelectorAll(".strip, .top-line, dialog[open] .sheet-top")].filter(sticks);
const below = sheet ? [] : [...document.querySelectorAll(".foot")].filter(sticks);
const high = (bars) => bars.reduce((sum, bar) => sum + bar.getBoundingClientRect().height, 0);
const bars = high(sheet ? above.filter((bar) => sheet.contains(bar)) : above) + high(below);
if (bars > tall * 0.55) found.push(`the bars take ${Math.round(bars)} of ${tall}`);

// Each thing in turn, as the Tab key brings it in sight.
const before = document.activeElement;
const scrolled = [scrollX, scrollY];
const stops = [...scope().querySelectorAll("a[href], button, input, select, textarea, summary, [tabindex='0']")];
for (const stop of stops) {
  if (stop.disabled || !stop.checkVisibility({ visibilityProperty: true })) continue;
  stop.focus();
  // A browser that brings it in view a moment later is not waited for: what it would do is done.
  if (arguments[0]) stop.scrollIntoView({ block: "nearest", behavior: "instant" });
  if (document.activeElement !== stop) continue;
  const shape = stop.closest("label") ?? stop;
  const box = shape.getBoundingClientRect();
  const bar = [...above, ...below].find((one) => one.contains(stop));
  const from = bar ? 0 : Math.max(0, ...above.filter((one) => !sheet || sheet.contains(one)).map((one) => one.getBoundingClientRect().bottom));
  const to = bar ? tall : Math.min(tall, ...below.map((one) => one.getBoundingClientRect().top));
  const inSight = Math.min(box.bottom, to) - Math.max(box.top, from);
  // The standard asks that some of it shows (2.4.11); a browser that finds most of a thing in sight
  // already may leave it at that.
  if (inSight < (Math.min(box.height, to - from) * 2) / 3 - 1) found.push(`${named(shape)} has the focus and shows ${Math.round(inSight)} of ${Math.round(box.height)}, between ${Math.round(from)} and ${Math.round(to)}`);
  const x = Math.min(Math.max((box.left + box.right) / 2, 1), room - 1);
  const y = Math.min(Math.max((Math.max(box.top, from) + Math.min(box.bottom, to)) / 2, 1), tall - 1);
  const hit = document.elementFromPoint(x, y);
  if (hit && !shape.contains(hit) && !hit.contains(shape)) found.push(`${named(shape)} is covered by ${named(hit)}`);
}
before?.focus?.({ preventScroll: true });
scrollTo({ left: scrolled[0], top: scrolled[1], behavior: "instant" });
return found;
