// Runs in the page before each question: finds things by what is seen and said of them.
// A soft hyphen is not seen, and every space is a space.
const norm = (text) => (text ?? "").replace(/\u00ad/g, "").replace(/[\u00a0\u202f\u2009]/g, " ").replace(/\s+/g, " ").trim();
const scope = () => [...document.querySelectorAll("dialog[open]")].pop() ?? document.body;
const shown = (el) => {
  const box = el.getBoundingClientRect();
  return box.width > 0 && box.height > 0 && el.checkVisibility({ visibilityProperty: true, opacityProperty: false });
};
const byIds = (ids) => norm((ids ?? "").split(/\s+/).map((id) => document.getElementById(id)?.innerText ?? "").join(" "));

/** What a thing that can be pressed is called, in every way a user may read it. */
function names(el) {
  const all = [el.getAttribute("aria-label"), el.innerText];
  for (const part of el.querySelectorAll("*")) if (!part.closest("svg")) all.push(part.innerText);
  return all.map(norm).filter(Boolean);
}

/** Buttons, summaries and links. */
function buttons() {
  return [...scope().querySelectorAll("button, summary, a[href]")].filter(shown);
}

/** Labels of radios and ticks; with a question, only under it. */
function options(question) {
  let within = [scope()];
  if (question) {
    within = [...scope().querySelectorAll("fieldset, [role=group]")].filter((group) => {
      const legend = group.querySelector(":scope > legend");
      return norm(legend?.innerText || legend?.textContent || byIds(group.getAttribute("aria-labelledby"))) === question;
    });
  }
  return within.flatMap((group) =>
    [...group.querySelectorAll("input[type=radio], input[type=checkbox]")].map((input) => input.closest("label")).filter((label) => label && shown(label)),
  );
}

/** Fields by their label. */
function fields() {
  return [...scope().querySelectorAll("label[for]")]
    .map((label) => [norm(label.innerText), document.getElementById(label.htmlFor)])
    .filter(([, field]) => field && field.matches("input, textarea, select") && shown(field));
}

/** Things pressed by name: those called just so first, else those with a part called so. */
function pressed(all, name) {
  const whole = all.filter((el) => norm(el.getAttribute("aria-label")) === name || norm(el.innerText) === name);
  return whole.length ? whole : all.filter((el) => names(el).includes(name));
}

/** The one large button: the next action. */
function next() {
  return [...scope().querySelectorAll("footer button, dialog[open] .go-place button")].filter(shown).slice(0, 1);
}

/** The first row under a heading, whatever it says: what it says may change with the clock. */
function first(heading) {
  const section = [...scope().querySelectorAll("section")].find((one) => norm(one.querySelector("h2")?.innerText) === heading);
  return [...(section?.querySelectorAll("button") ?? [])].filter(shown).slice(0, 1);
}

function find(kind, name, question) {
  if (kind === "first") return first(name);
  if (kind === "next") return next().filter((el) => norm(el.innerText).includes(name));
  if (kind === "button") return pressed(buttons(), name);
  if (kind === "option") return pressed(options(question), name);
  return fields().filter(([label]) => label === name).map(([, field]) => field);
}

/** What there is to press or fill, for the message when something is missing. */
function offered() {
  return {
    heading: norm(document.querySelector("dialog[open] h2, h1")?.innerText),
    buttons: buttons().map((el) => norm(el.getAttribute("aria-label") ?? el.innerText)),
    options: options().map((el) => norm(el.innerText)),
    fields: fields().map(([label]) => label),
  };
}
