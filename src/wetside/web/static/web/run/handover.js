// Every fact is kept on this device before anything is shown of it, then handed over in its order and again until it is
// answered. The server takes each number of a device once, so that sending twice does no harm.

const DATABASE = "wetside-runs";
const FIRST_WAIT_MS = 1000;
const LONGEST_WAIT_MS = 8000;
const MOST_FACTS = 200;
const ANSWER_WITHIN_MS = 6000;
const KEPT_DAYS = 30;

const asked = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

const done = (transaction) => new Promise((resolve, reject) => {
  transaction.oncomplete = () => resolve();
  transaction.onabort = transaction.onerror = () => reject(transaction.error);
});

export function newName() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

async function openDatabase() {
  const request = indexedDB.open(DATABASE, 1);
  request.onupgradeneeded = () => {
    request.result.createObjectStore("facts", { keyPath: "number" }).createIndex("run", "run");
    request.result.createObjectStore("meta");
    request.result.createObjectStore("runs", { keyPath: "run" });
  };
  return asked(request);
}

/** What a browser that keeps nothing falls back on: facts live as long as the page does, and the page says so. */
class Memory {
  constructor() {
    this.facts = [];
    this.device = newName();
    this.last = 0;
  }
}

export class Handover extends EventTarget {
  constructor(database, run, addresses, token) {
    super();
    this.database = database;
    this.memory = database ? null : new Memory();
    this.run = run;
    this.addresses = addresses;
    this.token = token;
    this.wait = FIRST_WAIT_MS;
    this.timer = 0;
    this.running = null;
    this.facts = [];
    this.tabs = "BroadcastChannel" in window ? new BroadcastChannel(`${DATABASE}-${run}`) : null;
    // A tab that lies behind, or was put to sleep, may not come through: whoever hears of what is kept hands it over.
    if (this.tabs) this.tabs.onmessage = async () => { await this.reread(); if (this.waiting.length) this.drain(); };
  }

  get keeps() {
    return this.database !== null;
  }

  /** Facts that the rules up to `seq` do not hold yet, in their order. */
  beyond(seq) {
    return this.facts.filter((fact) => fact.state === "kept" || (fact.state === "handed" && fact.seq > seq));
  }

  get waiting() {
    return this.facts.filter((fact) => fact.state === "kept");
  }

  get refused() {
    return this.facts.filter((fact) => fact.state === "refused");
  }

  async reread(others = false) {
    if (this.database) this.facts = await asked(this.database.transaction("facts").objectStore("facts").index("run").getAll(this.run));
    else this.facts = this.memory.facts;
    this.dispatchEvent(new Event("changed"));
    if (others) this.tabs?.postMessage("changed");
  }

  /** Keep facts, told at one moment of the run; they are on the disk when this returns. */
  async add(facts, moment) {
    if (!this.database) {
      for (const fact of facts) {
        this.memory.last += 1;
        this.memory.facts.push({ ...fact, ...moment, run: this.run, device: this.memory.device, number: this.memory.last, state: "kept" });
      }
    } else {
      const transaction = this.database.transaction(["facts", "meta"], "readwrite", { durability: "strict" });
      const meta = transaction.objectStore("meta");
      let device = await asked(meta.get("device"));
      if (!device) meta.put(device = newName(), "device");
      let last = (await asked(meta.get("last"))) ?? 0;
      for (const fact of facts) {
        last += 1;
        transaction.objectStore("facts").put({ ...fact, ...moment, run: this.run, device, number: last, state: "kept" });
      }
      meta.put(last, "last");
      await done(transaction);
    }
    await this.reread(true);
    this.wait = FIRST_WAIT_MS;
    this.drain();
  }

  async settle(numbers, changes) {
    if (!this.database) {
      for (const fact of this.memory.facts) if (numbers.includes(fact.number)) Object.assign(fact, changes);
      return;
    }
    const transaction = this.database.transaction("facts", "readwrite", { durability: "strict" });
    const store = transaction.objectStore("facts");
    for (const number of numbers) {
      const fact = await asked(store.get(number));
      if (fact) store.put({ ...fact, ...changes });
    }
    await done(transaction);
  }

  /** Hand over all that is kept; one tab at a time where the browser can tell. */
  drain() {
    clearTimeout(this.timer);
    this.again = true;
    this.running ??= this.locked().catch(() => this.later()).finally(() => { this.running = null; });
    return this.running;
  }

  async locked() {
    while (this.again) {
      this.again = false;
      const work = () => this.sendAll();
      const answered = navigator.locks ? await navigator.locks.request(`${DATABASE}-${this.run}`, work) : await work();
      if (!answered) return this.later();
    }
    this.wait = FIRST_WAIT_MS;
    return undefined;
  }

  later() {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.drain(), this.wait * (0.75 + Math.random() / 2));
    this.wait = Math.min(this.wait * 2, LONGEST_WAIT_MS);
  }

  async sendAll() {
    await this.reread();
    let at_once = MOST_FACTS;
    for (;;) {
      const batch = this.waiting.slice(0, at_once);
      if (!batch.length) return true;
      const device = batch[0].device;
      const own = batch.filter((fact) => fact.device === device);
      let answer;
      try {
        answer = await this.post(this.addresses.facts, {
          device,
          facts: own.map(({ number, kind, version, at_utc, boot_s, boot_id, data }) => ({ number, kind, version, at_utc, boot_s, boot_id, data })),
        });
      } catch {
        this.dispatchEvent(new CustomEvent("unanswered"));
        return false;
      }
      const numbers = own.map((fact) => fact.number);
      if (answer.status === 200 && answer.said) {
        await this.settle(numbers, { state: "handed", seq: answer.said.seq });
        this.dispatchEvent(new CustomEvent("handed", { detail: { seq: answer.said.seq, count: numbers.length } }));
      } else if ([409, 413, 422].includes(answer.status) && own.length > 1) {
        at_once = 1; // one of them is not taken: find it, and let the others pass
        continue;
      } else if ([409, 413, 422].includes(answer.status)) {
        await this.settle(numbers, { state: "refused", why: whyOf(answer.said) });
      } else {
        this.dispatchEvent(new CustomEvent("unanswered"));
        return false;
      }
      at_once = at_once === 1 && this.waiting.length > 1 ? 1 : MOST_FACTS;
      await this.reread(true);
    }
  }

  /** POST plain values; `{status, said}`. */
  async post(address, body) {
    let answer = await this.once(address, body);
    if (answer.status === 403) {
      const fresh = await fetch(this.addresses.token, { cache: "no-store", redirect: "error", signal: AbortSignal.timeout(ANSWER_WITHIN_MS) });
      this.token = (await fresh.json()).token;
      answer = await this.once(address, body);
    }
    const json = (answer.headers.get("content-type") ?? "").startsWith("application/json");
    return { status: answer.status, said: json ? await answer.json() : null };
  }

  once(address, body) {
    return fetch(address, {
      method: "POST",
      headers: { "Content-Type": "application/json", Accept: "application/json", "X-CSRFToken": this.token },
      body: JSON.stringify(body),
      redirect: "error",
      signal: AbortSignal.timeout(ANSWER_WITHIN_MS),
    });
  }

  async device() {
    if (!this.database) return this.memory.device;
    const transaction = this.database.transaction("meta", "readwrite");
    const meta = transaction.objectStore("meta");
    let device = await asked(meta.get("device"));
    if (!device) meta.put(device = newName(), "device");
    await done(transaction);
    return device;
  }

  /** Keep the rules and the clock for a page that is loaded anew; facts that the rules hold are let go. */
  async keepRun(rules, clock) {
    if (!this.database) return;
    const transaction = this.database.transaction(["runs", "facts"], "readwrite");
    transaction.objectStore("runs").put({ run: this.run, rules, clock, at: Date.now() });
    for (const fact of this.facts) {
      if (fact.state === "handed" && fact.seq <= rules.seq) transaction.objectStore("facts").delete(fact.number);
    }
    await done(transaction);
  }

  async keptRun() {
    return this.database ? asked(this.database.transaction("runs").objectStore("runs").get(this.run)) : null;
  }

  async tidy() {
    if (!this.database) return;
    const transaction = this.database.transaction("runs", "readwrite");
    const runs = transaction.objectStore("runs");
    for (const one of await asked(runs.getAll())) if (one.at < Date.now() - KEPT_DAYS * 86400000) runs.delete(one.run);
    await done(transaction);
  }
}

function whyOf(said) {
  if (!said) return "";
  return [said.error, said.said, said.mistakes, said.detail].flat().filter((one) => typeof one === "string").join(" ");
}

export async function openHandover(run, addresses, token) {
  let database = null;
  try {
    database = await openDatabase();
  } catch {
    database = null;
  }
  const opened = new Handover(database, run, addresses, token);
  await opened.tidy().catch(() => {});
  await opened.reread();
  return opened;
}
