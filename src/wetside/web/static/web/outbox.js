// What is entered is kept on this device first, then handed over in its order, and again until it is answered.
// The server takes each number of a device once, so that sending twice does no harm.
//
// A form with data-outbox="kind" goes through here; one with data-draft="name" keeps what is half typed. Other pages may
// use Outbox themselves: `const outbox = await openOutbox(); await outbox.add(kind, fields)`.

import { keepPage } from "./keeping.js";

const DATABASE = "wetside-outbox";
const KEPT_DAYS = 30;
const FIRST_WAIT_MS = 1000;
const LONGEST_WAIT_MS = 60000;
const QUIET = new Set(["csrfmiddlewaretoken"]);

function asked(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function done(transaction) {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = transaction.onerror = () => reject(transaction.error);
  });
}

async function openDatabase() {
  const request = indexedDB.open(DATABASE, 1);
  request.onupgradeneeded = () => {
    request.result.createObjectStore("items", { keyPath: "number" });
    request.result.createObjectStore("meta");
    request.result.createObjectStore("drafts");
  };
  return asked(request);
}

function newDevice() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

export class Outbox extends EventTarget {
  constructor(database, addresses) {
    super();
    this.database = database;
    this.addresses = addresses;
    this.wait = FIRST_WAIT_MS;
    this.timer = 0;
    this.running = null;
    this.token = "";
    this.tabs = new BroadcastChannel(DATABASE);
    this.tabs.onmessage = (event) => {
      this.tell(event.data.type, event.data.detail, false);
      // A tab that lies behind, or was put to sleep, may not come through: whoever hears of what is kept sends it.
      if (event.data.type === "changed") this.drain();
    };
  }

  tell(type, detail, others = true) {
    this.dispatchEvent(new CustomEvent(type, { detail }));
    if (others) this.tabs.postMessage({ type, detail });
  }

  /** Keep an item; it is on the disk when this returns. `number` replaces a refused one. */
  async add(kind, fields, number = 0) {
    const transaction = this.database.transaction(["items", "meta"], "readwrite", { durability: "strict" });
    const meta = transaction.objectStore("meta");
    const items = transaction.objectStore("items");
    let counted = number;
    if (counted) {
      const before = await asked(items.get(counted));
      // Somebody has mended and sent it in another tab: what is typed here is a new item.
      if (!before || before.state === "kept") counted = 0;
    }
    if (!counted) {
      counted = (await asked(meta.get("last")) ?? 0) + 1;
      meta.put(counted, "last");
    }
    if (!(await asked(meta.get("device")))) meta.put(newDevice(), "device");
    const item = { number: counted, kind, fields, state: "kept", page: location.pathname, at: Date.now(), mistakes: {} };
    items.put(item);
    await done(transaction);
    this.tell("changed", {});
    this.wait = FIRST_WAIT_MS;
    this.drain();
    return item;
  }

  async all() {
    return asked(this.database.transaction("items").objectStore("items").getAll());
  }

  async settle(number, changes) {
    const transaction = this.database.transaction("items", "readwrite", { durability: "strict" });
    const items = transaction.objectStore("items");
    const item = await asked(items.get(number));
    if (item && changes) items.put({ ...item, ...changes });
    if (item && !changes) items.delete(number);
    await done(transaction);
  }

  /** What was taken goes; a later correction of the same record, typed before the answer, follows on what it has become. */
  async taken(item, answer) {
    const transaction = this.database.transaction("items", "readwrite", { durability: "strict" });
    const items = transaction.objectStore("items");
    items.delete(item.number);
    const before = item.fields.revision?.[0];
    if (item.fields.id?.[0] && answer.revision) {
      for (const later of await asked(items.getAll())) {
        const follows = later.number > item.number && later.kind === item.kind && later.state === "kept";
        if (!follows || later.fields.id?.[0] !== item.fields.id[0] || later.fields.revision?.[0] !== before) continue;
        items.put({ ...later, fields: { ...later.fields, revision: [String(answer.revision)] } });
      }
    }
    await done(transaction);
  }

  /** Hand over everything that is kept, in its order; one tab at a time where the browser can tell. */
  drain() {
    clearTimeout(this.timer);
    this.again = true;
    this.running ??= this.locked().finally(() => { this.running = null; });
    return this.running;
  }

  async locked() {
    while (this.again) {
      this.again = false;
      const work = async () => this.sendAll();
      const answered = navigator.locks ? await navigator.locks.request(DATABASE, work) : await work();
      if (!answered) {
        this.timer = setTimeout(() => this.drain(), this.wait * (0.75 + Math.random() / 2));
        this.wait = Math.min(this.wait * 2, LONGEST_WAIT_MS);
        this.tell("changed", {}, false);
        return;
      }
    }
    this.wait = FIRST_WAIT_MS;
  }

  async sendAll() {
    const device = await asked(this.database.transaction("meta").objectStore("meta").get("device"));
    for (;;) {
      const item = (await this.all()).find((one) => one.state === "kept");
      if (!item) return true;
      let answer;
      try {
        answer = await this.send(device, item);
      } catch {
        return false;
      }
      if (answer.taken) {
        await this.taken(item, answer.taken);
        this.tell("taken", { number: item.number, kind: item.kind, answer: answer.taken, before: item.fields.revision?.[0] });
      } else if (answer.mistakes) {
        await this.settle(item.number, { state: "refused", mistakes: answer.mistakes });
        this.tell("refused", { number: item.number, kind: item.kind, mistakes: answer.mistakes });
      } else {
        return false;
      }
      this.tell("changed", {});
    }
  }

  async send(device, item) {
    if (!this.token) await this.fetchToken();
    let answer = await this.post(device, item);
    if (answer.status === 403) {
      await this.fetchToken();
      answer = await this.post(device, item);
    }
    const said = (answer.headers.get("content-type") ?? "").startsWith("application/json") ? await answer.json() : null;
    if (answer.status === 200 && said) return { taken: said };
    if (answer.status === 422 && said) return { mistakes: said.mistakes };
    return {};
  }

  post(device, item) {
    const { number, kind, fields } = item;
    return fetch(this.addresses.items, {
      method: "POST",
      headers: { "Content-Type": "application/json", "X-CSRFToken": this.token },
      body: JSON.stringify({ device, number, kind, fields }),
      redirect: "error",
      signal: AbortSignal.timeout(20000),
    });
  }

  async fetchToken() {
    const answer = await fetch(this.addresses.token, { cache: "no-store", redirect: "error" });
    this.token = (await answer.json()).token;
  }

  async draft(name) {
    return asked(this.database.transaction("drafts").objectStore("drafts").get(name));
  }

  async keepDraft(name, draft) {
    const transaction = this.database.transaction("drafts", "readwrite");
    if (draft) transaction.objectStore("drafts").put(draft, name);
    else transaction.objectStore("drafts").delete(name);
    await done(transaction);
  }

  /** Forget what was dropped or half typed long ago. */
  async tidy() {
    const before = Date.now() - KEPT_DAYS * 86400000;
    const transaction = this.database.transaction(["items", "drafts"], "readwrite");
    for (const item of await asked(transaction.objectStore("items").getAll())) {
      if (item.state === "dropped" && item.at < before) transaction.objectStore("items").delete(item.number);
    }
    const drafts = transaction.objectStore("drafts");
    for (const key of await asked(drafts.getAllKeys())) {
      const draft = await asked(drafts.get(key));
      if (draft.at < before) drafts.delete(key);
    }
    await done(transaction);
  }
}

export function fieldsOf(form, submitter) {
  const fields = {};
  for (const [name, value] of new FormData(form, submitter)) {
    if (!QUIET.has(name) && typeof value === "string") (fields[name] ??= []).push(value);
  }
  return fields;
}

export function fill(form, fields) {
  for (const control of form.elements) {
    if (!control.name || QUIET.has(control.name) || control.type === "hidden" || control.type === "submit") continue;
    const values = fields[control.name] ?? [];
    if (control.type === "radio") control.checked = values[0] === control.value;
    else if (control.type === "checkbox") control.checked = values.includes(control.value);
    else if (control.localName !== "button") control.value = values[0] ?? "";
  }
  form.dispatchEvent(new CustomEvent("outbox:filled", { bubbles: true, detail: { fields } }));
  form.dispatchEvent(new Event("input", { bubbles: true }));
}

export function showMistakes(form, mistakes) {
  for (const old of form.querySelectorAll(".mistake")) old.remove();
  for (const control of form.querySelectorAll("[aria-invalid]")) control.removeAttribute("aria-invalid");
  let first = null;
  const rest = [];
  for (const [name, said] of Object.entries(mistakes)) {
    const field = form.querySelector(`[data-field="${CSS.escape(name)}"]`);
    if (!field) {
      rest.push(name ? `${name}: ${said}` : said);
      continue;
    }
    const control = field.querySelector("input, select, textarea");
    const beside = document.createElement("p");
    beside.className = "mistake";
    beside.id = `${control.id}-m`;
    beside.textContent = said;
    field.append(beside);
    control.setAttribute("aria-invalid", "true");
    control.setAttribute("aria-describedby", beside.id);
    field.closest("details")?.setAttribute("open", "");
    first ??= control;
  }
  if (rest.length) {
    const above = document.createElement("p");
    above.className = "mistake";
    above.setAttribute("role", "alert");
    above.textContent = rest.join(" ");
    form.prepend(above);
  }
  const offer = form.querySelector("[data-offer]");
  if (offer && ["film", "in_holder"].some((name) => mistakes[name] && form.elements[name]?.value.trim())) offer.hidden = false;
  first?.focus();
}

// The page.

const place = document.querySelector("[data-outbox-status]");
let opened = null;

export function openOutbox() {
  opened ??= (async () => {
    const outbox = new Outbox(await openDatabase(), { items: place.dataset.address, token: place.dataset.token });
    await outbox.tidy();
    return outbox;
  })();
  return opened;
}

function button(text, act) {
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = text;
  made.addEventListener("click", act);
  return made;
}

function nameOf(item) {
  const said = (name) => (item.fields[name] ?? [""])[0];
  const name = ["holder", "label", "holders", "name", "number", "move"].map(said).find(Boolean);
  return [name, said("film")].filter(Boolean).join(", ") || item.kind;
}

function words(template, value) {
  return template.replace("%s", value);
}

async function show(outbox) {
  const items = await outbox.all();
  const kept = items.filter((item) => item.state === "kept");
  const refused = items.filter((item) => item.state === "refused");
  const dropped = items.filter((item) => item.state === "dropped" && item.page === location.pathname);
  const told = place.dataset;
  const said = place.querySelector("[data-outbox-said]");
  const text = kept.length ? `${kept.length === 1 ? told.one : words(told.many, kept.length)} ${told.waits}` : "";
  const was = said.textContent;
  said.textContent = text || (was && was !== told.sent ? told.sent : "");
  const acts = place.querySelector("[data-outbox-acts]");
  acts.replaceChildren(...(kept.length ? [button(told.now, () => { outbox.wait = FIRST_WAIT_MS; outbox.drain(); })] : []));
  const list = place.querySelector("[data-outbox-refused]");
  const hadFocus = list.contains(document.activeElement);
  list.replaceChildren(...refused.map((item) => refusedLine(outbox, item)), ...dropped.map((item) => droppedLine(outbox, item)));
  place.hidden = !said.textContent && !refused.length && !dropped.length;
  if (hadFocus) list.querySelector("button")?.focus();
  showWaiting(kept);
  showPage(items, told);
}

function refusedLine(outbox, item) {
  const line = document.createElement("li");
  const name = document.createElement("strong");
  name.textContent = nameOf(item);
  line.append(place.dataset.refused, " ", name);
  for (const [field, said] of Object.entries(item.mistakes)) {
    const mistake = document.createElement("p");
    mistake.className = "mistake";
    mistake.textContent = field ? `${field}: ${said}` : said;
    line.append(mistake);
  }
  const acts = document.createElement("div");
  acts.className = "acts";
  acts.append(
    button(place.dataset.mend, () => mend(item)),
    button(place.dataset.drop, () => change(outbox, item, "dropped")),
  );
  line.append(acts);
  return line;
}

function droppedLine(outbox, item) {
  const line = document.createElement("li");
  line.append(`${nameOf(item)}: ${place.dataset.dropped} `, button(place.dataset.restore, () => change(outbox, item, "refused")));
  return line;
}

async function change(outbox, item, state) {
  await outbox.settle(item.number, { state });
  outbox.tell("changed", {});
}

function formFor(item) {
  return [...document.querySelectorAll(`form[data-outbox="${CSS.escape(item.kind)}"]`)].find((form) => isOf(form, item));
}

/** Whether a form is of the record that an item is about. */
function isOf(form, item) {
  const same = (name) => !item.fields[name] || form.elements[name]?.value === item.fields[name][0];
  return form.dataset.outbox === item.kind && ["id", "of", "side"].every(same);
}

/** A form whose last entry is not sent yet says so beside it, for the page shows what was before. */
function showWaiting(kept) {
  for (const form of document.querySelectorAll("form[data-outbox]:not([data-row])")) {
    form.querySelector(".not-sent")?.remove();
    if (!kept.some((item) => isOf(form, item))) continue;
    const told = document.createElement("p");
    told.className = "not-sent";
    told.textContent = place.dataset.here;
    form.append(told);
  }
}

function mend(item) {
  const form = formFor(item);
  if (!form || item.kind === "side.move") {
    location.assign(`${item.page}#mend-${item.number}`);
    return;
  }
  fill(form, item.fields);
  form.dataset.mending = item.number;
  showMistakes(form, item.mistakes);
}

function showPage(items, told) {
  const list = document.querySelector("[data-outbox-items]");
  if (!list) return;
  const open = items.filter((item) => item.state !== "dropped");
  const title = document.querySelector("[data-outbox-title]");
  title.textContent = open.length ? words(title.dataset.some, open.length) : title.dataset.none;
  list.replaceChildren(
    ...open.map((item) => {
      const line = document.createElement("li");
      const name = document.createElement("span");
      name.textContent = nameOf(item);
      const state = document.createElement("span");
      state.className = "state";
      state.textContent = item.state === "kept" ? told.one.split(":")[0] : Object.values(item.mistakes).join(" ");
      line.append(name, state);
      return line;
    }),
  );
}

function bind(form, outbox) {
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    event.stopPropagation(); // the shell would take this for the one sending
    if (!form.dispatchEvent(new CustomEvent("outbox:before", { cancelable: true }))) return;
    if (form.dataset.keeping === "yes") return;
    const fields = fieldsOf(form, event.submitter);
    if ("typedOn" in form.dataset) fields.typed_on = [localDay()];
    const mended = Number(form.dataset.mending ?? 0);
    delete form.dataset.mending;
    clearTimeout(form.draftTimer);
    form.draftTimer = 0;
    showMistakes(form, {});
    // A row's form goes on to the next row at once: a slow disk neither swallows an Enter nor mixes two rows.
    if ("row" in form.dataset) form.dispatchEvent(new CustomEvent("outbox:begun", { detail: { fields } }));
    else form.dataset.keeping = "yes";
    keep(form, fields, mended, outbox)
      .catch(() => sendPlainly(form, fields, outbox)) // no room on this device
      .finally(() => delete form.dataset.keeping);
  });
}

async function keep(form, fields, mended, outbox) {
  const item = await outbox.add(form.dataset.outbox, fields, mended);
  // Where the next row is being typed already, its draft is the one to keep.
  if (form.dataset.draft && !form.draftTimer) await outbox.keepDraft(form.dataset.draft, null);
  if (!("row" in form.dataset)) form.dataset.waitsFor = item.number;
  form.dispatchEvent(new CustomEvent("outbox:kept", { bubbles: true, detail: item }));
}

/** What was entered, as the browser would have sent it: by a form of its own, for the one on the page may have gone on. */
async function sendPlainly(form, fields, outbox) {
  // What goes to the server now must not come back as half typed.
  if (form.dataset.draft && !form.draftTimer) await outbox.keepDraft(form.dataset.draft, null).catch(() => {});
  const plain = document.createElement("form");
  Object.assign(plain, { method: "post", action: form.getAttribute("action") ?? "", hidden: true });
  const token = form.elements.csrfmiddlewaretoken?.value ?? "";
  for (const [name, values] of Object.entries({ ...fields, csrfmiddlewaretoken: [token] })) {
    for (const value of values) {
      const kept = document.createElement("input");
      Object.assign(kept, { type: "hidden", name, value });
      plain.append(kept);
    }
  }
  document.body.append(plain);
  plain.submit();
}

function localDay() {
  const now = new Date();
  return [now.getFullYear(), String(now.getMonth() + 1).padStart(2, "0"), String(now.getDate()).padStart(2, "0")].join("-");
}

let leaving = 0;
/** A link that was followed meanwhile leads where the person wants to be: an answer that comes later does not call back. */
function leave(event) {
  const link = event.target.closest?.("a[href]");
  if (!link || event.defaultPrevented || event.button || event.ctrlKey || event.metaKey || event.shiftKey || link.target) return;
  if (link.pathname === location.pathname && link.hash) return;
  leaving = performance.now();
}
const LEAVES_WITHIN_MS = 5000; // a link that only saved a file leaves the page where it is

/** Forms that do not stay go on to the answer's page as soon as it is there. */
function follow(event) {
  const { number, answer } = event.detail;
  const form = document.querySelector(`form[data-outbox][data-waits-for="${number}"]`);
  if (!form || "row" in form.dataset) return;
  sessionStorage.setItem("told", answer.said);
  if (leaving && performance.now() - leaving < LEAVES_WITHIN_MS) return;
  const next = new URL(form.dataset.outbox === "side.move" ? location.href : answer.address, location.href);
  if (next.pathname === location.pathname) location.reload();
  else location.assign(next);
}

/** A form that goes on being typed in while its earlier correction is taken stands on what that made of the record. */
function renew(event) {
  const { kind, answer, before } = event.detail;
  if (!answer.revision) return;
  for (const form of document.querySelectorAll(`form[data-outbox="${CSS.escape(kind)}"]`)) {
    const revision = form.elements.revision;
    if (form.elements.id?.value === answer.id && revision?.value === before) revision.value = String(answer.revision);
  }
}

function refusedHere(event) {
  const { number, mistakes } = event.detail;
  const form = document.querySelector(`form[data-outbox][data-waits-for="${number}"]`);
  if (!form || "row" in form.dataset) return;
  form.dataset.mending = number;
  showMistakes(form, mistakes);
}

function tellLast() {
  const said = sessionStorage.getItem("told");
  if (!said) return;
  sessionStorage.removeItem("told");
  const told = document.createElement("p");
  told.className = "told";
  told.setAttribute("role", "status");
  told.textContent = said;
  place.before(told);
}

async function bindDraft(form, outbox) {
  const name = form.dataset.draft;
  const revision = form.dataset.revision ?? "";
  const save = () => outbox.keepDraft(name, { fields: fieldsOf(form), revision, at: Date.now() });
  const typed = await outbox.draft(name);
  form.addEventListener("input", (event) => {
    if (!event.isTrusted) return;
    clearTimeout(form.draftTimer);
    form.draftTimer = setTimeout(save, 150);
  });
  if (!form.dataset.outbox) form.addEventListener("submit", () => outbox.keepDraft(name, null));
  window.addEventListener("pagehide", () => form.draftTimer && !form.dataset.waitsFor && save());
  if ("mistaken" in form.dataset) return;
  if (!typed) {
    // A correction that waits to be sent is what this form stands at; the record that the page was made from is older.
    const waits = (await outbox.all()).filter((item) => item.state === "kept" && item.fields.id?.[0] && isOf(form, item)).at(-1);
    if (!waits) return;
    fill(form, waits.fields);
    form.dataset.waitsFor = waits.number;
    return;
  }
  const told = document.createElement("p");
  told.className = "told";
  told.setAttribute("role", "status");
  const forget = async () => { await outbox.keepDraft(name, null); location.reload(); };
  if (typed.revision === revision) {
    fill(form, typed.fields);
    told.append(place.dataset.back, " ", button(place.dataset.empty, forget));
  } else {
    const put = button(place.dataset.put, () => { fill(form, typed.fields); told.remove(); });
    told.append(place.dataset.older, " ", put, " ", button(place.dataset.empty, forget));
  }
  form.before(told);
}

/** The worker gave this page out, because the server is silent: from when it is, and that it takes entries all the same. */
function tellKept() {
  const at = Number(document.documentElement.dataset.keptAt);
  if (!at) return;
  for (const old of document.querySelectorAll("main > .told[data-told]")) old.remove();
  const told = document.createElement("p");
  told.className = "told";
  told.setAttribute("role", "status");
  told.textContent = words(place.dataset.silent, new Date(at).toLocaleString(document.documentElement.lang, { dateStyle: "medium", timeStyle: "short" }));
  place.before(told);
}

async function begin() {
  const outbox = await openOutbox();
  tellLast();
  tellKept();
  const forms = [...document.querySelectorAll("form[data-outbox]")];
  for (const form of forms) bind(form, outbox);
  await Promise.all([...document.querySelectorAll("form[data-draft]")].map((form) => bindDraft(form, outbox)));
  outbox.addEventListener("changed", () => show(outbox));
  outbox.addEventListener("taken", renew);
  document.addEventListener("click", leave);
  outbox.addEventListener("taken", follow);
  outbox.addEventListener("refused", refusedHere);
  for (const type of ["taken", "refused"]) {
    outbox.addEventListener(type, (event) => document.dispatchEvent(new CustomEvent(`outbox:${type}`, { detail: event.detail })));
  }
  const wake = () => { outbox.wait = FIRST_WAIT_MS; outbox.drain(); };
  window.addEventListener("online", wake);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && wake());
  await show(outbox);
  const wanted = /^#mend-([0-9]+)$/.exec(location.hash);
  if (wanted) {
    history.replaceState(null, "", location.pathname + location.search);
    const item = (await outbox.all()).find((one) => one.number === Number(wanted[1]) && one.state === "refused");
    if (item && formFor(item) && item.kind !== "side.move") mend(item);
  }
  document.documentElement.dataset.outbox = "ready";
  outbox.drain();
  keepPage(place.dataset.worker).catch(() => {});
}

if (place && "indexedDB" in window) begin().catch(() => { document.documentElement.dataset.outbox = "none"; });
