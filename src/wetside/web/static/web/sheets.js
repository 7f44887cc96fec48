// The pages of sheets: the row that begins the next one, ticking whole runs, and films that nobody knows yet.

import { openOutbox, showMistakes } from "./outbox.js";

const PAIRS = [["left", "right"], ["l", "r"], ["a", "b"], ["links", "rechts"]];
const LONGEST_NUMBER = 9;

function up(digits) {
  return String(Number(digits) + 1).padStart(digits.length, "0");
}

function cased(word, like) {
  if (like === like.toUpperCase()) return word.toUpperCase();
  return like[0] === like[0].toUpperCase() ? word[0].toUpperCase() + word.slice(1) : word;
}

/** The other side of the holder, then the next holder; numbers count up. The server has the same rule. */
export function nextLabel(text) {
  const label = text.trim();
  const sided = /^(.*?)([0-9]+)(\s*)(left|right|links|rechts|l|r|a|b)$/i.exec(label);
  if (sided && sided[2].length <= LONGEST_NUMBER) {
    const [, stem, number, gap, side] = sided;
    for (const [first, second] of PAIRS) {
      if (side.toLowerCase() === first) return stem + number + gap + cased(second, side);
      if (side.toLowerCase() === second) return stem + up(number) + gap + cased(first, side);
    }
  }
  const numbered = /^(.*?)([0-9]+)$/.exec(label);
  if (numbered && numbered[2].length <= LONGEST_NUMBER) return numbered[1] + up(numbered[2]);
  return "";
}
window.nextLabel = nextLabel;

function plain(text) {
  return text.toLowerCase().split(/\s+/).filter(Boolean).join(" ");
}

function knownFilms() {
  return new Set([...document.querySelectorAll("#words-films option")].map((option) => plain(option.value)));
}

/** The box to make a film stands open as soon as a name is typed that nobody knows. */
function offerFilm(form) {
  const offer = form.querySelector("[data-offer]");
  const film = form.elements.film;
  if (!offer || !film) return;
  const box = offer.querySelector("input");
  const look = () => {
    const other = form.elements.in_holder?.value ?? "";
    const isNew = [film.value, other].some((name) => plain(name) && !knownFilms().has(plain(name)));
    offer.hidden = !isNew;
    if (!isNew) box.checked = false;
  };
  film.addEventListener("change", look);
  form.addEventListener("outbox:filled", look);
  form.addEventListener("outbox:before", (event) => {
    look();
    if (offer.hidden || box.checked) return;
    // Whether it is kept or not is decided here, before the server is asked: it may not be there.
    event.preventDefault();
    box.focus();
  });
}

for (const form of document.querySelectorAll("form[data-outbox]")) offerFilm(form);

/** A mishap that was tapped and is not sent yet is told already: what is kept next holds it, and says no more than that. */
function showMishaps(form, fields) {
  const told = new Set(fields.mishaps ?? []);
  for (const word of fields.tap ?? []) if (!told.delete(word)) told.add(word);
  for (const old of form.querySelectorAll("input[type=hidden][name=mishaps]")) old.remove();
  for (const word of told) {
    const kept = document.createElement("input");
    Object.assign(kept, { type: "hidden", name: "mishaps", value: word });
    form.append(kept);
  }
  for (const button of form.querySelectorAll("button[name=tap]")) button.setAttribute("aria-pressed", String(told.has(button.value)));
}

const sheet = document.querySelector("form[data-outbox='sheet.change']");
if (sheet?.querySelector("button[name=tap]")) {
  for (const type of ["outbox:kept", "outbox:filled"]) sheet.addEventListener(type, (event) => showMishaps(sheet, event.detail.fields));
}

const row = document.querySelector("form[data-row]");
if (row) {
  const controls = row.elements;
  const first = controls.holder;
  const title = document.querySelector("[data-next-title]");
  const list = document.querySelector("[data-rows]");
  const name = () => {
    const next = controls.holder.value || controls.label.value;
    title.textContent = next ? title.dataset.is.replace("%s", next) : title.dataset.none;
  };
  row.addEventListener("outbox:before", (event) => {
    const lacks = {};
    if (!controls.holder.value.trim() && !controls.label.value.trim()) lacks.holder = row.dataset.lacks;
    if (!controls.film.value.trim()) lacks.film = row.dataset.lacksFilm;
    if (!Object.keys(lacks).length) return;
    event.preventDefault();
    showMistakes(row, lacks);
  });
  // The answer may be quicker than the disk: a row that is listed after it was taken is told as sent all the same.
  const taken = new Map();
  const showTaken = (number) => {
    const answer = taken.get(number);
    const line = list.querySelector(`[data-number="${number}"]`);
    if (!line || !answer) return;
    line.querySelector(".state").textContent = list.dataset.sent;
    const link = document.createElement("a");
    link.href = answer.address;
    link.textContent = line.firstChild.textContent;
    line.firstChild.replaceChildren(link);
  };
  const shown = (fields) => {
    const line = document.createElement("li");
    for (const text of [fields.holder?.[0] || fields.label?.[0], fields.film?.[0], fields.n?.[0] ?? ""]) {
      const part = document.createElement("span");
      part.textContent = text ?? "";
      line.append(part);
    }
    const state = document.createElement("span");
    state.className = "state";
    state.textContent = list.dataset.writing;
    line.append(state);
    list.prepend(line);
    document.querySelector("[data-no-rows]")?.remove();
    return line;
  };
  // Rows that are still being written to this device, by what was entered.
  const writing = new Map();
  const listed = ({ number, fields }) => {
    list.querySelector(`[data-number="${number}"]`)?.remove();
    const line = writing.get(fields) ?? shown(fields);
    writing.delete(fields);
    line.dataset.number = number;
    line.querySelector(".state").textContent = list.dataset.kept;
    showTaken(number);
  };
  // Rows that wait from before this page was loaded: they are listed, and the next one follows the last of them.
  const resume = async () => {
    const outbox = await openOutbox();
    const waits = (await outbox.all()).filter((item) => item.kind === "sheet.add" && item.state === "kept");
    for (const item of waits) listed(item);
    const last = waits.at(-1);
    const begun = [...controls].some((one) => "defaultValue" in one && one.type !== "checkbox" && one.value !== one.defaultValue);
    if (!last || begun || (await outbox.draft(row.dataset.draft)) || "mistaken" in row.dataset) return;
    for (const one of ["film", "size", "process", "aim", "exposed"]) controls[one].value = last.fields[one]?.[0] ?? "";
    for (const one of ["holder", "label"]) controls[one].value = nextLabel(last.fields[one]?.[0] ?? "");
    name();
  };
  resume().catch(() => {});
  row.addEventListener("outbox:kept", (event) => listed(event.detail));
  row.addEventListener("outbox:begun", (event) => {
    const { fields } = event.detail;
    writing.set(fields, shown(fields));
    for (const one of ["holder", "label"]) controls[one].value = nextLabel(fields[one]?.[0] ?? "");
    for (const one of ["n", "note"]) controls[one].value = "";
    controls.suspect.checked = false;
    controls.importance.selectedIndex = [...controls.importance.options].findIndex((option) => option.value === "ordinary");
    const box = row.querySelector("[data-offer] input");
    if (box.checked) {
      const made = document.createElement("option");
      made.value = controls.film.value;
      document.querySelector("#words-films").append(made);
      box.checked = false;
      row.querySelector("[data-offer]").hidden = true;
    }
    name();
    first.focus();
    first.select();
  });
  // An Enter that is held down is one Enter.
  row.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && event.repeat) event.preventDefault();
  });
  row.addEventListener("outbox:filled", name);
  row.addEventListener("input", (event) => {
    if (event.target === controls.holder || event.target === controls.label) name();
  });
  document.addEventListener("outbox:taken", (event) => {
    taken.set(event.detail.number, event.detail.answer);
    showTaken(event.detail.number);
  });
  document.addEventListener("outbox:refused", (event) => {
    const state = list.querySelector(`[data-number="${event.detail.number}"] .state`);
    if (state) state.textContent = list.dataset.refused;
  });
}

const picks = document.querySelector("form[data-picks]");
if (picks) {
  const boxes = [...picks.querySelectorAll("input[name=sheet]")];
  const count = picks.querySelector("[data-picked-count]");
  let last = null;
  const tell = () => {
    const ticked = boxes.filter((box) => box.checked).length;
    picks.querySelector(".picked").classList.toggle("some", ticked > 0);
    count.textContent = ticked ? `${ticked} ${count.dataset.some}` : count.dataset.none;
  };
  for (const box of boxes) {
    box.addEventListener("click", (event) => {
      if (event.shiftKey && last) {
        const [from, to] = [boxes.indexOf(last), boxes.indexOf(box)].sort((a, b) => a - b);
        for (const between of boxes.slice(from, to + 1)) if (!between.disabled) between.checked = box.checked;
      }
      last = box;
      tell();
    });
  }
  for (const head of picks.querySelectorAll("th.pick")) {
    const table = head.closest("table");
    const all = document.createElement("input");
    all.type = "checkbox";
    all.setAttribute("aria-label", head.textContent.trim());
    const label = document.createElement("label");
    label.append(all);
    head.replaceChildren(label);
    all.addEventListener("change", () => {
      for (const box of table.querySelectorAll("input[name=sheet]:enabled")) box.checked = all.checked;
      tell();
    });
  }
  tell();
}

export { openOutbox, showMistakes };
