// The booking of a run: what follows from a changed amount is reckoned by the server and set into its fields at once.
// What was typed by hand stays: it differs from what was reckoned for it, which stands unseen beside it.

const WAIT_MS = 400;

const form = document.querySelector("form.booking[data-reckon]");
const anew = document.querySelector("[data-anew]");

let turn = 0; // counts what was typed: an answer to an older question is thrown away
let answered = 0;
let timer = 0;

function idOf(name) {
  return `f-${name.replace(/[^a-z0-9]+/g, "-")}`;
}

/** Sets one field; a field that was out of sight is shown with what it has got. */
function put(name, text) {
  const field = form.elements.namedItem(name);
  const kept = form.elements.namedItem(`${name}.shown`);
  if (!field || !kept) return;
  if (field.value !== text) {
    field.value = text;
    if (text) field.closest("details")?.setAttribute("open", "");
  }
  kept.value = text;
}

function putMistake(name, said) {
  const field = form.elements.namedItem(name);
  if (!field?.id) return;
  const line = document.createElement("p");
  line.className = "mistake";
  line.id = `${field.id}-m`;
  line.textContent = said;
  field.closest(".field").append(line);
  field.setAttribute("aria-invalid", "true");
  field.setAttribute("aria-describedby", line.id);
  field.closest("details")?.setAttribute("open", "");
}

function clearMistakes() {
  for (const line of form.querySelectorAll(".mistake")) line.remove();
  for (const field of form.querySelectorAll("[aria-invalid]")) {
    field.removeAttribute("aria-invalid");
    field.removeAttribute("aria-describedby");
  }
}

function show(answer) {
  for (const [name, text] of Object.entries(answer.values)) put(name, text);
  clearMistakes();
  for (const [name, said] of Object.entries(answer.mistakes)) putMistake(name, said);
  for (const [name, said] of Object.entries(answer.told)) {
    const line = form.querySelector(`[data-told="${name}"]`);
    if (line && line.textContent !== said) line.textContent = said;
  }
}

/** Asks what follows; null where the server is silent, or where more was typed meanwhile. */
async function reckon() {
  clearTimeout(timer);
  timer = 0;
  const asked = turn;
  let answer;
  try {
    const reply = await fetch(form.dataset.reckon, { method: "POST", body: new FormData(form), redirect: "error" });
    if (!reply.ok) return null;
    answer = await reply.json();
  } catch {
    return null; // the plain form reckons it when it is sent
  }
  if (asked !== turn) return null;
  answered = asked;
  show(answer);
  return answer;
}

function typed() {
  turn += 1;
  anew.hidden = true;
  clearTimeout(timer);
  timer = setTimeout(reckon, WAIT_MS);
}

if (form) {
  form.addEventListener("input", typed);
  // Sent before the answer has come: nothing is booked that nobody has seen.
  form.addEventListener("submit", async (event) => {
    if (answered === turn) return;
    event.preventDefault();
    event.stopPropagation(); // the page has not sent it yet, and may send it later
    const answer = await reckon();
    const wrong = Object.keys(answer?.mistakes ?? {}).map((name) => document.getElementById(idOf(name))).find(Boolean);
    if (wrong) {
      wrong.focus();
      return;
    }
    if (answer?.said) {
      anew.textContent = answer.said;
      anew.hidden = false;
      anew.scrollIntoView({ block: "nearest" });
      return;
    }
    answered = turn;
    form.requestSubmit();
  });
}
