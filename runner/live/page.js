// The page follows its notebook: the server tells which pieces it is made of
// now, and those that are not here yet.
"use strict";

const [start, token] = ["start", "token"].map((name) => document.querySelector(`meta[name=${name}]`).content);
const pageID = Array.from(crypto.getRandomValues(new Uint8Array(12)), (b) => b.toString(16).padStart(2, "0")).join("");
const byID = (id) => document.getElementById(id);
const slots = new Map(); // by name: {element, pieces: [{digest, nodes}]}

// Pieces that came with the page stand behind comments with their digests.
for (const element of document.querySelectorAll("[data-slot]")) {
  const pieces = [];
  for (const node of [...element.childNodes]) {
    const mark = node.nodeType === Node.COMMENT_NODE && node.data.match(/^piece ([0-9a-f]+)$/);
    if (mark) {
      pieces.push({ digest: mark[1], nodes: [] });
      node.remove();
    } else if (pieces.length > 0) {
      pieces.at(-1).nodes.push(node);
    }
  }
  slots.set(element.dataset.slot, { element, pieces });
}

// arrange gives a slot the pieces of an order. Those that it has stay where they
// are, and so does what the reader opened in those that are replaced.
function arrange(slot, order, html) {
  const have = new Map();
  for (const piece of slot.pieces) {
    if (!have.has(piece.digest)) have.set(piece.digest, []);
    have.get(piece.digest).push(piece);
  }
  const next = order.map((digest) => have.get(digest)?.shift() ?? { digest, nodes: null });
  const kept = new Set(next);
  const opened = new Map();
  for (const piece of slot.pieces.filter((p) => !kept.has(p))) {
    for (const node of piece.nodes) {
      for (const d of details(node)) opened.set(d.querySelector("summary")?.textContent, d.open);
      node.remove();
    }
  }
  let at = slot.element.firstChild;
  for (const piece of next) {
    if (piece.nodes === null) {
      const template = document.createElement("template");
      template.innerHTML = html[piece.digest] ?? "";
      piece.nodes = [...template.content.childNodes];
      for (const node of piece.nodes) {
        for (const d of details(node)) {
          const was = opened.get(d.querySelector("summary")?.textContent);
          if (was !== undefined) d.open = was;
        }
      }
    }
    for (const node of piece.nodes) {
      if (node === at) at = at.nextSibling;
      else slot.element.insertBefore(node, at);
    }
  }
  slot.pieces = next;
}

function details(node) {
  if (node.nodeType !== Node.ELEMENT_NODE) return [];
  return [...(node.matches("details") ? [node] : []), ...node.querySelectorAll("details")];
}

// anchor is what the reader looks at: the topmost piece in the window.
function anchor() {
  for (const { pieces } of slots.values()) {
    for (const { nodes } of pieces) {
      for (const node of nodes) {
        if (node.nodeType !== Node.ELEMENT_NODE) continue;
        const box = node.getBoundingClientRect();
        if (box.bottom > 60 && box.height > 0) return { node, top: box.top };
      }
    }
  }
  return null;
}

// hold keeps what the reader looks at where it is while change is made. When
// that is replaced, its successor at the same place counts.
function hold(change) {
  const before = anchor();
  if (before === null || scrollY === 0) return change();
  const id = before.node.id || before.node.querySelector?.("[id]")?.id;
  const inner = id && byID(id) ? byID(id).getBoundingClientRect().top : 0;
  change();
  let shift = 0;
  if (before.node.isConnected) shift = before.node.getBoundingClientRect().top - before.top;
  else if (id && byID(id)) shift = byID(id).getBoundingClientRect().top - inner;
  if (shift !== 0) scrollBy({ top: shift, behavior: "instant" });
}

// mark shows what each changed number was, and what it is in the record.
let marks = [];
function unmark() {
  for (const { row, name, note } of marks) {
    row.classList.remove(name);
    note.remove();
  }
  marks = [];
}
function mark(was, word, name) {
  for (const [id, text] of Object.entries(was ?? {})) {
    const row = byID(id);
    const place = row?.querySelector(".result") ?? row;
    if (!place) continue;
    const note = document.createElement("span");
    note.className = "was";
    note.textContent = word + " " + text;
    row.classList.add(name);
    place.append(note);
    marks.push({ row, name, note });
  }
}

// standing writes the line above the page.
function standing(bar, trial) {
  const line = byID("live:bar");
  if (!line) return;
  line.className = "standing " + bar.class;
  let text = line;
  if (bar.href) {
    text = line.firstElementChild?.matches("a") ? line.firstElementChild : document.createElement("a");
    text.setAttribute("href", bar.href);
    if (text.parentNode !== line) line.replaceChildren(text);
  }
  if (text.textContent !== bar.text) text.textContent = bar.text;
  document.body.classList.toggle("whatif-on", trial);
}

// Givens that can be tried.

let readOnly = false;
const tries = new Map(); // by name: the controls

function offer(givens) {
  const panel = document.querySelector("aside.whatif");
  if (!panel) return;
  panel.hidden = !givens?.length;
  const list = byID("live:givens");
  for (const [name, t] of tries) {
    if (!givens?.some((g) => g.name === name)) {
      t.box.remove();
      tries.delete(name);
    }
  }
  let last = null;
  for (const g of givens ?? []) {
    const t = tries.get(g.name) ?? controls(g.name);
    if (t.box.previousElementSibling !== last || t.box.parentNode !== list) {
      last ? last.after(t.box) : list.prepend(t.box);
    }
    last = t.box;
    t.show(g);
  }
}

// controls makes the slider and the box of one given.
function controls(name) {
  const box = document.createElement("fieldset");
  box.className = "try";
  box.innerHTML = `<legend><span class="symbol"></span></legend><span class="number"><input type="number"><span class="unit"></span></span><input type="range"><span class="ends"><span class="low"></span><button type="button" hidden>As in the notebook</button><span class="high"></span></span>`;
  const [number, range] = ["number", "range"].map((type) => box.querySelector(`input[type=${type}]`));
  const back = box.querySelector("button");
  let symbol = "";
  const send = (text) => {
    number.removeAttribute("aria-invalid");
    wanted.set(name, text);
    pump();
  };
  range.addEventListener("input", () => {
    number.value = range.value;
    send(range.value);
  });
  number.addEventListener("input", () => {
    if (number.value === "") return;
    range.value = number.value;
    send(number.value);
  });
  back.addEventListener("click", () => {
    send("");
    range.focus();
  });
  const show = (g) => {
    if (symbol !== g.symbol) box.querySelector(".symbol").innerHTML = symbol = g.symbol;
    const unit = g.unit === "" ? "" : " in " + g.unit;
    number.setAttribute("aria-label", `${name}${unit}, number`);
    range.setAttribute("aria-label", `${name}${unit}, from ${g.low} to ${g.high}`);
    range.setAttribute("aria-valuetext", `${g.trial || g.value} ${g.unit}`);
    for (const input of [number, range]) input.step = input === number ? "any" : g.step;
    range.min = g.low;
    range.max = g.high;
    const value = g.trial || g.value;
    const busy = wanted.has(name) || sending.has(name);
    const typing = document.activeElement === number && g.trial !== "";
    if (!busy && !typing && number.value !== value) number.value = value;
    if (!busy && Number(range.value) !== Number(value)) range.value = value;
    box.querySelector(".unit").textContent = g.unit;
    box.querySelector(".low").textContent = `${g.low} ${g.unit}`;
    box.querySelector(".high").textContent = `${g.high} ${g.unit}`;
    box.classList.toggle("tried", g.trial !== "");
    back.hidden = g.trial === "";
    back.textContent = `Back to ${g.value} ${g.unit}`.trim();
    back.setAttribute("aria-label", `${name}: back to ${g.value} ${g.unit}`.trim());
    box.title = g.fixed ? `Can be tried, not kept: ${g.fixed}` : "";
  };
  const t = { box, show };
  tries.set(name, t);
  return t;
}

// On a small screen the panel lies over the page: it is opened when wanted.
const panel = document.querySelector("aside.whatif details");
if (panel && !matchMedia("(min-width: 84rem)").matches) panel.open = false;

// One number is on its way at a time; of those that follow only the newest is
// sent.
const wanted = new Map();
const sending = new Set();
let pumping = false;

async function pump() {
  if (pumping) return;
  pumping = true;
  while (wanted.size > 0) {
    const [name, number] = wanted.entries().next().value;
    wanted.delete(name);
    sending.add(name);
    await order("try", { name, number });
    sending.delete(name);
  }
  pumping = false;
}

async function order(what, more) {
  let refused = "";
  try {
    const answer = await fetch(document.body.dataset.orders + what, {
      method: "POST",
      headers: { "Content-Type": "application/json", "X-Token": token },
      body: JSON.stringify({ page: pageID, ...more }),
    });
    if (!answer.ok) refused = await answer.text();
  } catch {
    refused = "The desk does not answer.";
  }
  const line = byID("live:refused");
  line.textContent = refused;
  line.hidden = refused === "";
  return refused === "";
}

byID("live:keep")?.addEventListener("click", () => order("keep", {}));
byID("live:drop")?.addEventListener("click", () => order("drop", {}));

// The library's documentation, searched.

const search = byID("live:search");
let asked = 0;

async function look() {
  const mine = ++asked;
  const query = search.value.trim();
  let found = { entries: [], more: 0 };
  if (query !== "") {
    try {
      found = await (await fetch("/library?q=" + encodeURIComponent(query))).json();
    } catch {
      return;
    }
  }
  if (mine !== asked) return; // a newer question is on its way
  byID("live:found").replaceChildren(...found.entries.map(entry));
  const n = found.entries.length;
  byID("live:count").textContent = query === "" ? "" : n === 0 ? "Nothing found." : found.more > 0 ? `The best ${n} of ${n + found.more}; another word narrows it.` : `${n} found.`;
}

function entry(e) {
  const box = document.createElement("details");
  const make = (kind, text) => {
    const element = document.createElement(kind);
    element.textContent = text;
    return element;
  };
  const head = document.createElement("summary");
  head.append(make("code", e.name), " ", make("span", e.summary));
  const text = make("pre", e.signature + "\n\n" + e.doc);
  text.tabIndex = 0;
  box.append(head, text);
  return box;
}

search?.addEventListener("input", look);

// Readings of what was measured on the built ride.

let trials = [];
const form = byID("live:reading");

function ask(now) {
  if (!form) return;
  trials = now ?? [];
  form.hidden = trials.length === 0;
  const choice = byID("live:trial");
  const chosen = choice.value;
  if ([...choice.options].map((o) => o.value).join("\n") !== trials.map((t) => t.name).join("\n")) {
    choice.replaceChildren(...trials.map((t) => new Option(t.name, t.name)));
    if (trials.some((t) => t.name === chosen)) choice.value = chosen;
    else chosenAnew();
  }
  foretell();
}

function foretell() {
  const t = trials.find((t) => t.name === byID("live:trial").value);
  if (!t) return;
  byID("live:predicted").textContent = `Predicted ${t.predicted}; ${t.standing}.`;
  byID("live:unit").textContent = t.unit || "numbers";
}

function chosenAnew() {
  const t = trials.find((t) => t.name === byID("live:trial").value);
  byID("live:instrument").value = t?.instrument ?? "";
  for (const id of ["live:number", "live:note"]) byID(id).value = "";
  byID("live:kept").textContent = "";
  foretell();
}

byID("live:trial")?.addEventListener("change", chosenAnew);
form?.addEventListener("submit", async (e) => {
  e.preventDefault();
  const [name, number, who, instrument, note] = ["trial", "number", "who", "instrument", "note"].map((f) => byID("live:" + f).value.trim());
  byID("live:kept").textContent = "";
  if (!(await order("measure", { name, number, who, instrument, note }))) return byID("live:number").focus();
  for (const id of ["live:number", "live:note"]) byID(id).value = "";
  byID("live:kept").textContent = `Kept: ${number}`;
});

// The events of the server.

function show(m) {
  document.title = m.title;
  hold(() => {
    unmark();
    for (const [name, slot] of slots) arrange(slot, m.order[name] ?? [], m.html);
    mark(m.was, m.trial ? "in the notebook" : "was", "changed");
    mark(m.signed, `in ${m.record}:`, "unsigned");
  });
  standing(m.bar, m.trial);
  readOnly = m.readOnly;
  for (const [id, hidden] of [["live:keep", !m.trial || m.readOnly], ["live:drop", !m.trial]]) {
    const button = byID(id);
    if (!button) continue;
    if (hidden && document.activeElement === button) byID("live:givens").querySelector("input[type=range]")?.focus();
    button.hidden = hidden;
  }
  const foot = byID("live:foot");
  if (foot) foot.textContent = m.foot;
  offer(m.givens);
  ask(m.trials);
}

let source = null;

function listen() {
  if (source) return;
  const address = document.body.dataset.events;
  source = new EventSource(address + "?page=" + pageID);
  source.addEventListener("hello", (e) => {
    byID("live:lost").hidden = true;
    if (JSON.parse(e.data) !== start) location.reload(); // the desk was started anew
  });
  source.addEventListener("view", (e) => show(JSON.parse(e.data)));
  source.addEventListener("running", (e) => document.body.classList.toggle("computing", JSON.parse(e.data)));
  source.addEventListener("error", () => {
    byID("live:lost").hidden = false;
    if (source.readyState === EventSource.CLOSED) {
      source = null;
      setTimeout(listen, 1000);
    }
  });
}

// A page that nobody sees leaves its place to others: a browser opens few
// connections to one server.
document.addEventListener("visibilitychange", () => {
  if (document.visibilityState === "hidden") {
    source?.close();
    source = null;
  } else {
    listen();
  }
});
listen();
