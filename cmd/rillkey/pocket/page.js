// The script around the program: it hands presses in, shows the page that comes
// back, fills in drawings one by one, and keeps the visit in the browser's own
// store after every press. What the page says and does is in Go (package phone).
"use strict";

const words = window.rillkeyWords; // in the language of the region: see words.go
const filled = (text, what) => text.replace("%s", () => what);

const form = document.getElementById("page");
const keeping = document.getElementById("keeping");
let store = null;      // the database, or null where the browser refuses it
let revision = 0;      // of what this page last read or wrote
let busy = Promise.resolve();
let unreached = false; // the table did not answer last time

function database() {
  return new Promise((resolve, reject) => {
    const open = indexedDB.open("rillkey", 1);
    open.onupgradeneeded = () => open.result.createObjectStore("visit");
    open.onsuccess = () => resolve(open.result);
    open.onerror = open.onblocked = () => reject(open.error || new Error(words.blocked));
  });
}

// once runs work inside one transaction, so that two pages of one browser never
// write over each other: what another one wrote meanwhile is taken in first.
function once(work) {
  return new Promise((resolve, reject) => {
    const change = store.transaction("visit", "readwrite", { durability: "strict" });
    const table = change.objectStore("visit");
    const get = table.get("now");
    get.onsuccess = () => { try { work(get.result, table); } catch (err) { change.abort(); reject(err); } };
    change.oncomplete = () => resolve();
    change.onabort = change.onerror = () => reject(change.error || new Error(words.brokenOff));
  });
}

async function keep() {
  if (!store) { lost(new Error(words.keepsNothing)); return; }
  let holds = 0;
  try {
    await once((was, table) => {
      if (was && was.revision !== revision && was.file && rillkey.file()) rillkey.takeIn(was.file);
      revision = (was ? was.revision : 0) + 1;
      holds = made;
      table.put({ revision, file: rillkey.file(), kept: rillkey.keep() }, "now");
      keepPractice(table);
    });
    inStore = Math.max(inStore, holds);
    refused = null;
    tell();
  } catch (err) { lost(err); }
}

// keepPractice keeps what was practised beside the visit, what another window added
// meanwhile taken in first.
let practised = "";
function keepPractice(table) {
  const get = table.get("practice");
  get.onsuccess = () => {
    const other = get.result ? get.result.text : "";
    if (other !== practised && other && rillkey.practice()) rillkey.takePractice(other);
    practised = rillkey.practice();
    table.put({ text: practised }, "practice");
  };
}

// made counts what changed the page, inStore how much of it the store holds: nothing
// is called kept before the store has said so.
let made = 0;
let inStore = 0;

// onPhone says how the phone's own store stands.
let refused = null; // why the store did not take the last
function onPhone() {
  if (refused) return filled(words.notKept, refused.message || refused.name);
  return inStore < made ? words.beingKept : words.kept;
}

// say puts words at the foot of the page; what is not kept can be saved from there.
function say(text) {
  keeping.textContent = text;
  if (!refused || !rillkey.begun()) return;
  const save = document.createElement("button");
  save.type = "button";
  save.dataset.act = "give";
  save.textContent = words.save;
  keeping.append(" ", save);
}

// tell says where the entries are.
function tell() {
  const waiting = rillkey.waiting();
  say(rillkey.begun() ? onPhone() + " " + waiting + (waiting && unreached ? " " + words.outOfReach : "") : "");
}

function lost(err) {
  refused = err;
  say(onPhone());
}

// show draws the page anew, from its top or with the button that was pressed where it
// was: what comes above it must not bring another under the thumb.
function show(top, pressed) {
  const held = pressed || document.activeElement;
  const at = window.scrollY, was = held.getBoundingClientRect().top;
  const same = (e) => e.name === held.name && (held.name !== "do" || e.value === held.value);
  const fresh = document.createElement("template");
  fresh.innerHTML = rillkey.html();
  renew(form, fresh.content);
  form.reset(); // what was typed belonged to the page before
  top = top || form.querySelector(".said.wrong") !== null; // a refusal is seen
  window.scrollTo(0, top ? 0 : at);
  const again = held.name ? [...form.querySelectorAll(held.tagName)].find(same) : null;
  if (again) {
    again.focus({ preventScroll: true }); // whoever uses keys stays where they were
    if (!top) window.scrollBy(0, again.getBoundingClientRect().top - was);
  }
  draw();
}

// renew makes what is in a part of the page what is in the new one. What is the same
// stays, and animals that are drawn already: a phone has less to lay out.
function renew(was, now) {
  const old = [...was.childNodes], fresh = [...now.childNodes];
  fresh.forEach((node, i) => {
    if (!old[i]) was.append(node);
    else if (!alike(old[i], node)) old[i].replaceWith(node);
    else if (!isFigure(node)) renew(old[i], node);
  });
  old.slice(fresh.length).forEach((node) => node.remove());
}

function isFigure(node) { return node.nodeType === Node.ELEMENT_NODE && "figure" in node.dataset; }

// alike reports whether two nodes are the same but for what is in them. What is drawn
// beside an answer is another thing at each question.
function alike(a, b) {
  if (a.nodeName !== b.nodeName || a.nodeValue !== b.nodeValue) return false;
  if (b.nodeType !== Node.ELEMENT_NODE) return true;
  const names = b.getAttributeNames();
  return a.attributes.length === names.length && names.every((name) => a.getAttribute(name) === b.getAttribute(name)) &&
    (!isFigure(b) || isAnimal(b));
}

function isAnimal(place) { return place.dataset.figure.startsWith("taxon:"); }

// draw fills in the drawings one at a time, so that the page answers meanwhile; none
// before what they need is ready, which is made in smaller pieces.
let drawing = 0;
const animals = new Map(); // as they were drawn, by place and width
function drawn(place) {
  const wide = place.classList.contains("large") || place.closest(".lead") !== null;
  const key = place.dataset.figure + wide;
  const figure = animals.get(key) || rillkey.figure(place.dataset.figure, wide);
  if (isAnimal(place)) animals.set(key, figure);
  return figure;
}
function draw() {
  if (!ready) return;
  const mine = ++drawing;
  const places = [...form.querySelectorAll("[data-figure]:empty")];
  const next = () => {
    if (mine !== drawing) return;
    if (places.length === 0) { restLater(); return; }
    const place = places.shift();
    const figure = drawn(place);
    if (figure) place.innerHTML = figure;
    else place.remove();
    setTimeout(next, 0);
  };
  requestAnimationFrame(() => setTimeout(next, 0)); // the words are seen first
}

// restLater has memory swept when nobody has pressed anything for a while: a press that
// met it would wait.
const restAfter = 1500;
let resting = 0;
function restLater() {
  clearTimeout(resting);
  resting = setTimeout(() => rillkey.rest(), restAfter);
}
document.addEventListener("visibilitychange", () => { if (document.hidden && window.rillkey) rillkey.rest(); });

function fields() {
  const out = {};
  for (const [name, value] of new FormData(form)) if (typeof value === "string") out[name] = value;
  return JSON.stringify(out);
}

function press(what, by) {
  const title = () => (form.querySelector("h1") || {}).textContent;
  const before = title();
  clearTimeout(resting);
  if (what === "join") { join(); return; }
  rillkey.do(what, fields());
  made++;
  tell();
  show(title() !== before || !(what.startsWith("more:") || what === "undo"), by);
  if (title() !== before) focusTitle();
  keepThenHand();
}

// keepThenHand has the table wait for this phone's own store, never the other way.
function keepThenHand() {
  busy = busy.then(keep);
  busy.then(handOver);
}

// join tells the table who comes, with the code typed or scanned.
async function join() {
  const asked = JSON.parse(fields());
  const code = asked.code || new URLSearchParams(location.hash.slice(1)).get("code") || "";
  try {
    const answer = await ask("/join", JSON.stringify({ Name: asked.name, Code: code }));
    const text = await answer.text();
    const wrong = answer.ok ? rillkey.join(text) : JSON.parse(text).error;
    if (wrong) rillkey.refuse(wrong);
  } catch (err) { rillkey.refuse(filled(words.noAnswer, err.message)); }
  await handOver(); // first what the table holds: its samples are what is counted
  show(true);
  focusTitle();
  made++;
  busy = busy.then(keep);
}

function ask(path, body) {
  return fetch(path, { method: "POST", headers: { "Content-Type": "application/json" }, body, signal: AbortSignal.timeout(10000) });
}

// handOver gives the table what it lacks, and takes what this page lacks. What was
// not answered is handed over again: twice is once there.
let handing = false;
async function handOver() {
  if (handing || !rillkey.joined()) return;
  handing = true;
  let more = false;
  try {
    const answer = await ask("/hand", rillkey.hand());
    const text = await answer.text();
    unreached = false;
    if (answer.ok) {
      const came = rillkey.handed(text);
      if (came.gained) made++;
      more = came.more && !came.wrong;
      if (came.gained && !typing()) show(false);
      busy = busy.then(keep);
      await busy;
      if (came.wrong) say(came.wrong);
    } else {
      say(onPhone() + " " + filled(words.refused, JSON.parse(text).error));
    }
  } catch (err) { unreached = true; tell(); }
  handing = false;
  if (more) setTimeout(handOver, 50);
}

// typing tells that the page must not be drawn anew under somebody's fingers.
function typing() {
  const at = document.activeElement;
  return at instanceof HTMLInputElement || at instanceof HTMLSelectElement;
}

// warm makes ready what the next screens need, a piece at a time, while somebody
// reads the first one; what a question needs comes first, the drawings after, and
// last each kind of press.
let ready = false;
function warm(step) {
  const more = rillkey.warm(step);
  if (!ready && (rillkey.draws() || !more)) {
    ready = true;
    draw();
  }
  if (more) setTimeout(() => warm(step + 1), ready ? 20 : 4);
}

const handEvery = 3000;

function focusTitle() {
  const h1 = form.querySelector("h1");
  if (h1) { h1.tabIndex = -1; h1.focus({ preventScroll: true }); }
}

// A thumb that comes down twice answers one question, not the next one too.
form.addEventListener("click", (event) => {
  const button = event.target.closest("button[name=do]");
  if (button && event.detail > 1 && button.value.startsWith("answer:")) event.preventDefault();
});

form.addEventListener("submit", (event) => {
  event.preventDefault();
  const by = event.submitter;
  if (by && by.name === "do") press(by.value, by);
});

// Enter in a line presses the button that follows it, not the first of the page.
form.addEventListener("keydown", (event) => {
  if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement) || event.target.type === "file") return;
  event.preventDefault();
  const section = event.target.closest("section");
  const button = section && section.querySelector("button[name=do].main, button[name=do].row");
  if (button) press(button.value, button);
});

document.addEventListener("click", (event) => {
  const act = event.target.dataset && event.target.dataset.act;
  if (act === "give") give(rillkey.file(), rillkey.fileName());
  if (act === "give-practice") give(rillkey.practice(), rillkey.practiceFileName());
  if (act === "leave" && confirm(words.leave)) {
    rillkey.leave();
    show(true);
    busy = busy.then(keep);
  }
  if (act === "away" && confirm(words.away)) {
    rillkey.away();
    show(true);
    busy = busy.then(async () => { if (store) await once((was, table) => { revision = (was ? was.revision : 0) + 1; table.put({ revision, file: "", kept: "" }, "now"); }); });
  }
});

form.addEventListener("change", async (event) => {
  const input = event.target;
  if (!input.dataset || input.dataset.act !== "take" || input.files.length === 0) return;
  const wrong = rillkey.takeIn(await input.files[0].text());
  made++;
  show(true);
  if (wrong) alert(wrong);
  keepThenHand();
});

function give(text, name) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "application/toml" }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

async function rillkeyReady() {
  try {
    store = await database();
    let was;
    await once((found, table) => {
      was = found;
      const get = table.get("practice");
      get.onsuccess = () => { practised = get.result ? get.result.text : ""; };
    });
    if (practised) {
      const wrong = rillkey.takePractice(practised);
      if (wrong) keeping.textContent = wrong;
    }
    revision = was ? was.revision : 0;
    if (was && was.file) {
      const wrong = rillkey.open(was.file, was.kept);
      if (wrong) say(wrong);
    }
  } catch (err) { lost(err); }
  show(true);
  setTimeout(() => warm(0), 0);
  if (rillkeyServed) {
    setInterval(handOver, handEvery);
    window.addEventListener("online", handOver);
    handOver();
  }
}

// unpacked are the bytes of text, seven bits a character, or twice seven of which the first
// are no character that a page keeps: see inText in pocket.go.
function unpacked(element) {
  const text = element.textContent, bytes = new Uint8Array(Number(element.dataset.bytes));
  for (let i = 0, at = 0, held = 0, bits = 0; at < bytes.length; i++) {
    let c = text.charCodeAt(i);
    if (c > 127) {
      held = held << 7 | [0, 10, 13, 60][(c >> 7) - 2];
      bits += 7;
      if (bits >= 8) {
        bits -= 8;
        bytes[at++] = held >>> bits;
      }
      c &= 127;
    }
    held = held << 7 | c;
    bits += 7;
    if (bits >= 8) {
      bits -= 8;
      bytes[at++] = held >>> bits;
    }
  }
  return bytes;
}

async function rillkeyStart() {
  const wait = document.getElementById("wait");
  try {
    const packed = unpacked(document.getElementById("program"));
    const region = unpacked(document.getElementById("region"));
    window.rillkeyRegion = region.length ? await new Response(new Blob([region]).stream().pipeThrough(new DecompressionStream("gzip"))).text() : "";
    const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
    const go = new Go();
    go.env = { GOGC: "1600" }; // less than 64 MB need no sweeping, which would fall into the start: see restLater
    const program = await WebAssembly.instantiateStreaming(new Response(stream, { headers: { "Content-Type": "application/wasm" } }), go.importObject);
    go.run(program.instance);
  } catch (err) {
    wait.textContent = filled(words.cannotRun, err.message);
  }
}
