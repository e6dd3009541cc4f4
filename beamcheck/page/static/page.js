// The script of the page: sends what is typed, shows what comes back. No request to anywhere but this server.
"use strict";
const job = document.body.dataset.job, at = `/job/${job}`;
const look = "look" in document.body.dataset;
const tab = Math.random().toString(36).slice(2);
const $ = (id) => document.getElementById(id);
let digest = document.body.dataset.digest || "";

async function post(where, data, raw) {
  const reply = await fetch(where, {method: "POST", headers: {"Content-Type": raw ? "application/octet-stream" : "application/json"},
    body: raw ? data : JSON.stringify(data), credentials: "same-origin"});
  let said = {};
  try { said = await reply.json(); } catch { said = {}; }
  if (reply.status === 409 && said.changed) { changed(said); return null; }
  if (!reply.ok) { tell(said.said || "This could not be done. Nothing was changed."); return null; }
  return said;
}
function tell(text) { $("live").textContent = text; let n = $("told"); if (!n) { n = document.createElement("p"); n.id = "told"; n.className = "note"; n.setAttribute("role", "alert"); $("main").prepend(n); } n.textContent = text; n.scrollIntoView({block: "nearest"}); }
function untell() { const n = $("told"); if (n) n.remove(); }
function changed(said) {
  $("changed-said").textContent = said.changed;
  $("changed-mine").textContent = [...pending].map(([path, one]) => `${path} = ${typeof one.value === "string" ? one.value : JSON.stringify(one.value)}`).join("\n") || ($("text") ? $("text").value : "nothing");
  $("changed-now").textContent = said.now;
  if (!$("changed").open) $("changed").showModal();
}
$("changed-again")?.addEventListener("click", () => { pending.clear(); location.reload(); });
$("changed-close")?.addEventListener("click", () => $("changed").close());

// ---- what a control says -------------------------------------------------------------------------------------------
function textOf(f) {
  const tape = f.querySelector(".tape");
  if (tape && !tape.classList.contains("num")) {
    const ft = (tape.querySelector(".ft")?.value || "").trim(), inch = tape.querySelector(".in").value.trim();
    if (/[a-z'"]/i.test(ft + inch)) return `${ft} ${inch}`.trim();
    if (/\d[ -]\d/.test(ft) && !inch) return ft;           // feet and inches as spoken: 13 6
    return [ft && `${ft} ft`, inch && `${inch} in`].filter(Boolean).join(" ");
  }
  if (tape) {
    const n = tape.querySelector(".n").value.trim(), u = tape.querySelector(".u");
    return n && !/[a-z%]/i.test(n) ? `${n} ${u.dataset.unit || u.value}` : n;
  }
  const radio = f.querySelector("input[type=radio]");
  if (radio) return f.querySelector("input[type=radio]:checked")?.value || "";
  const one = f.querySelector("select,input,textarea");
  return one ? one.value : "";
}
function table(inside) {   // the fields of a blank entry, by their keys
  const made = {};
  for (const f of inside.querySelectorAll(".f[data-path]")) {
    const text = textOf(f).trim();
    if (!text) continue;
    let place = made;
    const keys = f.dataset.path.split(".");
    keys.forEach((key, i) => {
      const last = i === keys.length - 1, next = keys[i + 1];
      if (Array.isArray(place)) { const n = Number(key) - 1; while (place.length <= n) place.push({}); if (!last) place = place[n]; }
      else if (last) place[key] = text;
      else { place[key] ??= /^\d+$/.test(next) ? [] : {}; place = place[key]; }
    });
  }
  return made;
}

// ---- the form of a piece: tried at each key, written when the field is left ----------------------------------------
const pending = new Map();
const form = $("form");
let seq = 0, shownSeq = 0, speak = 0, writeTimer = 0;
function sets() { return [...pending].map(([path, one]) => [path, one.value, one.before]); }
function base() { return {page: tab, digest, kind: form.dataset.kind, number: Number(form.dataset.number)}; }

function wrong(problems) {
  document.querySelectorAll(".f.wrong-here").forEach((f) => { f.classList.remove("wrong-here"); const w = f.querySelector(".wrong"); w.hidden = true; f.querySelectorAll("[aria-invalid]").forEach((i) => i.removeAttribute("aria-invalid")); });
  let beside = 0;
  for (const one of problems || []) {
    const found = [...document.querySelectorAll("#form .f[data-where]")].filter((f) => f.dataset.where && (one.where === f.dataset.where || one.where.startsWith(f.dataset.where + ",")));
    let f = found.sort((a, b) => b.dataset.where.length - a.dataset.where.length)[0];
    if (!f && pending.size === 1) f = document.querySelector(`#form .f[data-path="${CSS.escape([...pending.keys()][0])}"]`);
    if (!f) continue;
    beside += 1;
    f.classList.add("wrong-here");
    const w = f.querySelector(".wrong");
    w.textContent = one.text; w.hidden = false;
    f.querySelectorAll("input,select").forEach((i) => i.setAttribute("aria-invalid", "true"));
    const odd = one.text.match(/meant = \{ (\w+) =/);
    if (odd) insist(w, f.dataset.path, odd[1]);
  }
  return beside;
}
// an odd figure may be right: why is written beside it, as `meant` of the entry whose field it is
function insist(box, path, name) {
  const at = path.slice(0, path.lastIndexOf("."));
  const row = document.createElement("span"), label = document.createElement("label"), why = document.createElement("input"), yes = document.createElement("button");
  row.className = "row"; why.className = "text"; why.setAttribute("data-free", ""); yes.type = "button"; yes.className = "btn small";
  label.textContent = "It is right, because"; yes.textContent = "Write it so"; label.append(why); row.append(label, yes);
  row.addEventListener("input", (e) => e.stopPropagation());
  row.addEventListener("change", (e) => e.stopPropagation());
  yes.addEventListener("click", () => { pending.set(`${at}.meant.${name}`, {value: why.value, before: ""}); write(); });
  box.append(document.createElement("br"), row);
}
async function attempt() {
  const mine = ++seq;
  $("see").setAttribute("aria-busy", "true");
  const said = await post(`${at}/try`, {...base(), sets: sets()});
  if (!said || said.superseded || mine < shownSeq) return;
  shownSeq = mine;
  if (mine === seq) $("see").removeAttribute("aria-busy");
  show(said, false);
}
function show(said, written) {
  const beside = wrong(said.problems);
  const bar = $("bar");
  if (said.see !== undefined) { $("see").innerHTML = said.see; if (bar) bar.innerHTML = said.bar; untell(); }
  else if (said.problems.length) {
    if (bar) { bar.textContent = ""; const s = document.createElement("span"); s.className = "say"; s.textContent = `Not written: ${said.problems[0].text}`; bar.append(s); }
    if (!beside) tell(said.problems.map((p) => `${p.where ? p.where + ": " : ""}${p.text}`).join(" "));
    $("see").removeAttribute("aria-busy");
  }
  if (said.lines) {
    document.querySelectorAll("#toml .hot").forEach((n) => n.classList.remove("hot"));
    for (const [number, line] of said.lines) { const n = document.querySelector(`#toml [data-line="${number}"]`); if (n) { n.textContent = line; n.classList.add("hot"); } }
  }
  if (said.ms !== undefined && $("ms")) $("ms").textContent = `Checked again in ${said.ms} ms.`;
  const kept = $("kept-said");
  if (kept) kept.textContent = written ? "written" : "tried, written when you leave the field";
  window.lastShown = performance.now();
  clearTimeout(speak);
  const words = said.say || (said.problems?.length ? "It cannot be read yet." : "");
  speak = setTimeout(() => { if (words && $("live").textContent !== words) $("live").textContent = words; }, 600);
}
// what writes goes one after the other: two at once would each tell the other that the file was changed
let last = Promise.resolve();
function inTurn(work) { last = last.then(work, work); return last; }
function write() { return inTurn(writeNow); }
async function writeNow() {
  if (!pending.size || look) return;
  const sent = sets(), mine = ++seq;
  const said = await post(`${at}/set`, {...base(), sets: sent});
  if (!said) return;
  if (said.digest) {
    digest = said.digest;
    for (const [path, value] of sent) if (pending.get(path)?.value === value) pending.delete(path);
    for (const [path, value] of sent) { const f = document.querySelector(`#form .f[data-path="${CSS.escape(path)}"]`); if (f && typeof value === "string") f.dataset.before = value; }
  }
  if (said.superseded) return;
  shownSeq = mine;
  show(said, Boolean(said.written));
  if (said.written) { if (sent.some(([path]) => path === `${form.dataset.kind}.${nameOf()}.name`)) location.reload(); more(); }
}
function nameOf() { return document.querySelector("h1 .tag")?.textContent || ""; }
let moreTimer = 0;
function more() {
  clearTimeout(moreTimer);
  moreTimer = setTimeout(async () => {
    const said = await post(`${at}/more`, {digest, kind: form.dataset.kind, number: Number(form.dataset.number)});
    if (!said || said.digest !== digest) return;
    const box = $("more"), has = said.more.trim() !== "";
    box.hidden = !has;
    box.innerHTML = said.more;
  }, 350);
}
function touch(f) {
  pending.set(f.dataset.path, {value: textOf(f), before: f.dataset.before});
  attempt();
}
if (form) {
  form.addEventListener("submit", (e) => { e.preventDefault(); write(); });
  form.addEventListener("input", (e) => {
    if (e.target.closest("[data-add]")) return;
    const f = e.target.closest(".f[data-path]");
    if (f) touch(f);
  });
  form.addEventListener("change", (e) => {
    if (e.target.closest("[data-add]")) return;
    clearTimeout(writeTimer);
    writeTimer = setTimeout(write, e.target.matches("input.ft") ? 400 : 30);   // feet are followed by inches
  });
  form.addEventListener("keydown", (e) => { if (e.key === "Enter" && e.target.matches("input:not([type=radio])")) { e.preventDefault(); clearTimeout(writeTimer); write(); } });
  more();
  const first = document.querySelector("#why .top");
  if ($("bar") && first) $("bar").innerHTML = first.innerHTML;
}
// Fractions stand under the length that is typed in. They go once the finger is up again: as soon as the field is left, all
// below would move up under it, and what was tapped would not be hit.
let pressed = false;
function fractions() { for (const row of document.querySelectorAll(".fr")) row.classList.toggle("on", row.closest(".f").contains(document.activeElement)); }
document.addEventListener("pointerdown", () => { pressed = true; }, true);
for (const end of ["pointerup", "pointercancel"]) document.addEventListener(end, () => { pressed = false; setTimeout(fractions, 100); }, true);
document.addEventListener("focusout", () => { if (!pressed) setTimeout(fractions, 0); });
document.addEventListener("focusin", (e) => e.target.closest(".f")?.querySelector(".fr")?.classList.add("on"));
document.addEventListener("click", async (e) => {
  const part = e.target.closest(".fr button");
  if (part) {   // a fraction takes the place of the one that stands in the field
    const box = part.closest(".f").querySelector(".in");
    const whole = (box.value.trim().match(/^\d+(?![\d/])/) || [""])[0];
    box.value = part.textContent === "0" ? whole : `${whole} ${part.textContent}`.trim();
    box.dispatchEvent(new Event("input", {bubbles: true}));
    box.dispatchEvent(new Event("change", {bubbles: true}));
    return;
  }
  const adds = e.target.closest(".do-add");
  if (adds) {
    const inside = adds.closest("[data-add]");
    const said = await inTurn(() => post(`${at}/set`, {...base(), sets: [...sets(), [inside.dataset.add, table(inside)]]}));
    if (said?.written) { location.reload(); return; }
    if (said) { const w = inside.querySelector(":scope > .inner > .wrong"); w.textContent = said.problems.map((p) => `${p.where ? p.where + ": " : ""}${p.text}`).join(" "); w.hidden = false; }
    return;
  }
  const none = e.target.closest(".do-none");
  if (none) {   // looked at, and there is none: an empty list, which is not the same as not looked at
    const said = await inTurn(() => post(`${at}/set`, {...base(), sets: [...sets(), [none.dataset.none, "none"]]}));
    if (said?.written) location.reload(); else if (said) tell(said.problems.map((p) => p.text).join(" "));
    return;
  }
  const takes = e.target.closest(".do-remove");
  if (takes && confirm("Take this out of the job file? The file as it was is kept beside it, with .1 behind its name.")) {
    const said = await inTurn(() => post(`${at}/set`, {...base(), sets: [[takes.dataset.remove, null]]}));
    if (said?.written) location.reload(); else if (said) tell(said.problems.map((p) => p.text).join(" "));
  }
});
$("remove-entry")?.addEventListener("click", async () => {
  if (!confirm("Take this piece out of the job file? The file as it was is kept beside it, with .1 behind its name.")) return;
  const said = await post(`${at}/remove`, {digest, kind: form.dataset.kind, number: Number(form.dataset.number)});
  if (said?.go) location.href = said.go; else if (said) tell(said.problems.map((p) => `${p.where}: ${p.text}`).join(" "));
});
$("do-new")?.addEventListener("click", async () => {
  const inside = document.querySelector("[data-new]");
  const said = await post(`${at}/add`, {digest, kind: inside.dataset.new, value: table(inside)});
  if (said?.go) { location.href = said.go; return; }
  if (said) { const w = inside.querySelector(":scope > .wrong"); w.textContent = said.problems.map((p) => `${p.where ? p.where + ": " : ""}${p.text}`).join(" "); w.hidden = false; }
});

// ---- the text of a job, a new job ----------------------------------------------------------------------------------
$("text-form")?.addEventListener("submit", async (e) => {
  e.preventDefault();
  const said = await post(e.target.dataset.at, {digest, text: $("text").value, name: $("new-name")?.value || ""});
  if (!said) return;
  if (said.go) { location.href = said.go; return; }
  const box = $("text-problems");
  box.textContent = "";
  const list = document.createElement("ul");
  list.className = "card bad"; list.setAttribute("role", "alert");
  for (const one of said.problems) { const li = document.createElement("li"); li.textContent = `${one.line ? `line ${one.line}: ` : ""}${one.where ? one.where + ": " : ""}${one.text}`; list.append(li); }
  box.append(list);
  list.scrollIntoView({block: "nearest"});
});
$("come-in")?.requestSubmit?.();

// ---- photos --------------------------------------------------------------------------------------------------------
document.addEventListener("change", async (e) => {
  const file = e.target.closest("input[type=file][data-about]");
  if (!file || !file.files.length) return;
  const box = file.closest(".photo"), said = box.querySelector(".kept");
  said.textContent = "being kept ...";
  const kept = await post(`${at}/photo?about=${encodeURIComponent(file.dataset.about)}`, file.files[0], true);
  if (!kept) { said.textContent = "It was not kept."; file.value = ""; return; }
  said.textContent = `kept as ${kept.place}`;
  file.dataset.evidence = kept.evidence;
  file.dataset.place = kept.place;
  if (file.dataset.into) $(file.dataset.into).value = kept.evidence;
  if (file.dataset.append) {
    const f = document.querySelector(`#form .f[data-path="${CSS.escape(file.dataset.append)}"]`), list = f.querySelector("input");
    list.value = [list.value.trim().replace(/^none$/, ""), kept.place].filter(Boolean).join(", ");
    touch(f); write();
  }
  if (file.dataset.tick) tick(file.closest(".tick"), true);
});

{ const wait = $("effects-wait");
  if (wait) post(`${at}/effects`, {digest, who: wait.dataset.who, of: wait.dataset.of}).then((said) => {
    if (!said) { wait.textContent = "What the answers do could not be worked out."; return; }
    wait.remove();
    const typed = [...document.querySelectorAll("#cards input")].some((i) => i.name !== "date" && i.name !== "by" && (i.type === "radio" ? i.checked : i.value));
    if (typed) { tell("What each answer does is worked out: it is shown when the page is opened again."); return; }
    $("cards").innerHTML = said.cards;
    names();
  }); }
// ---- questions -----------------------------------------------------------------------------------------------------
document.addEventListener("submit", async (e) => {
  const f = e.target.closest("form[data-question]");
  if (!f) return;
  e.preventDefault();
  const chosen = f.querySelector("input[name=answer]:checked")?.value || "";
  const own = f.querySelector("[name=own]")?.value.trim() || "";
  const data = {digest, question: f.dataset.question, answer: own || chosen, by: f.querySelector("[name=by]").value.trim(), how: f.querySelector("[name=how]")?.value || "", date: f.querySelector("[name=date]").value, evidence: [f.querySelector("input[type=file]")?.dataset.evidence, f.querySelector("[name=evidence]")?.value.trim()].filter(Boolean).join("; "), document: f.querySelector("[name=document]")?.value.trim() || "", up_to: f.querySelector("[name=up_to]")?.value.trim() || ""};
  remember(data.by);
  const said = await post(`${at}/answer`, data);
  const w = f.querySelector(".wrong");
  if (said?.written) { location.reload(); return; }
  if (said) { w.textContent = said.problems.map((p) => `${p.where ? p.where + ": " : ""}${p.text}`).join(" "); w.hidden = false; }
});
function remember(name) { try { sessionStorage.setItem("by", name); } catch { /* not kept */ } }
function names() { document.querySelectorAll("[name=by]").forEach((i) => { try { i.value ||= sessionStorage.getItem("by") || ""; } catch { /* not kept */ } }); }
names();

// ---- ticks of the shop sheet, decisions of the engineer -------------------------------------------------------------
async function tick(box, on) {
  const by = document.querySelector("[name=by]").value.trim();
  const said = await post(`${at}/tick`, {digest, piece: box.dataset.piece, point: box.dataset.point, by, on, photo: box.querySelector("input[type=file]")?.dataset.place || ""});
  if (said?.go) location.reload(); else box.querySelector("input[type=checkbox]").checked = !on;
  if (said?.said) tell(said.said);
}
document.addEventListener("change", (e) => { const box = e.target.closest(".tick"); if (box && e.target.type === "checkbox") { remember(document.querySelector("[name=by]").value.trim()); tick(box, e.target.checked); } });
document.addEventListener("submit", async (e) => {
  const f = e.target.closest("form[data-decide]");
  if (!f) return;
  e.preventDefault();
  remember(f.querySelector("[name=by]").value.trim());
  const said = await post(`${at}/decide`, {digest, piece: f.dataset.decide, decision: f.querySelector("[name=decision]:checked")?.value || "", note: f.querySelector("[name=note]").value, by: f.querySelector("[name=by]").value.trim()});
  if (said?.go) location.reload(); else if (said?.said) tell(said.said);
});
document.addEventListener("submit", async (e) => {
  const f = e.target.closest("form[data-compare]");
  if (!f) return;
  e.preventDefault();
  const out = $("compared");
  out.textContent = "Reading it back and working it out anew ...";
  const said = await post(`${at}/compare`, {sheet: f.querySelector("select").value});
  if (said) out.innerHTML = said.found; else out.textContent = "";
});
document.addEventListener("submit", async (e) => {
  const f = e.target.closest("form[data-situation]");
  if (!f) return;
  e.preventDefault();
  const said = await post(f.dataset.situation, {name: f.querySelector("[name=file]").value.trim(), answers: answersOf(f)});
  if (said?.go) { location.href = said.go; return; }
  if (!said) return;
  f.querySelectorAll(".f .wrong").forEach((w) => { w.hidden = true; });
  const rest = [];
  for (const one of said.problems) {
    const field = [...f.querySelectorAll(".f[data-key]")].find((n) => n.dataset.key === one.where);
    if (!field) { rest.push(one.text); continue; }
    const w = field.querySelector(".wrong"); w.textContent = one.text; w.hidden = false; field.scrollIntoView({block: "nearest"});
  }
  const w = f.querySelector(":scope > .wrong"); w.textContent = rest.join(" "); w.hidden = !rest.length;
});
// a question of a situation is asked only where another has an answer ('top_held'), or a certain one ('carries=floor')
function asksWhen() {
  const form = document.querySelector("form[data-situation]");
  if (!form) return;
  const said = answersOf(form);
  for (const f of form.querySelectorAll(".f[data-when]")) {
    const [key, wanted] = f.dataset.when.split("=");
    f.hidden = !(wanted ? wanted.split("|").includes(said[key]) : said[key]);
  }
}
document.addEventListener("input", (e) => { if (e.target.closest("form[data-situation]")) asksWhen(); });
asksWhen();
function answersOf(f) { const made = {}; for (const n of f.querySelectorAll(".f[data-key]")) { const text = textOf(n).trim(); if (text) made[n.dataset.key] = text; } return made; }
$("print")?.addEventListener("click", () => print());
