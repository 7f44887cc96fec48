// What is typed beside the track: a temperature, a look, a lost sheet, a pause that is not wanted, a watch.

const mss = (seconds) => `${Math.floor(seconds / 60)}:${String(Math.floor(seconds % 60)).padStart(2, "0")}`;
const filled = (text, values) => Object.entries(values).reduce((said, [name, value]) => said.replaceAll(`{${name}}`, value), text);

/** A number typed with either decimal sign and either minus sign; NaN where it is none. */
export function numberOf(text) {
  const plain = text.trim().replace(",", ".").replace("−", "-");
  return /^[+-]?\d+(\.\d+)?$/.test(plain) ? Number(plain) : NaN;
}

/** Seconds of m:ss or h:mm:ss; NaN where it is none. [s] */
export function secondsOf(text) {
  const parts = text.trim().split(":");
  if (parts.length < 2 || parts.length > 3 || !parts.every((part) => /^\d{1,4}$/.test(part))) return NaN;
  if (parts.slice(1).some((part) => Number(part) > 59)) return NaN;
  return parts.reduce((seconds, part) => seconds * 60 + Number(part), 0);
}

function onSubmit(page, name, act) {
  const form = page.place.querySelector(`form[data-run-${name}]`);
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    event.stopPropagation();
    if (page.rules) await act(form);
    // What was typed is told: the next key is an answer again, whichever field the focus was in.
    if (!form.querySelector("[aria-invalid]") && form.contains(document.activeElement)) document.activeElement.blur();
  });
  return form;
}

export function bindForms(page) {
  onSubmit(page, "reading", (form) => reading(page, form));
  onSubmit(page, "look", async (form) => {
    const by_s = numberOf(form.elements.by.value);
    const most_s = page.rules.constants.most_looked_s;
    if (!(Math.abs(by_s) <= most_s)) return page.say(page.words.cannot_be, true);
    await page.looked(by_s);
    form.reset();
    return form.elements.by.blur();
  });
  onSubmit(page, "lost", async (form) => {
    const sheet = form.elements.sheet.value;
    if (!sheet || page.rules.lost.includes(sheet)) return page.say(page.words.cannot_be, true);
    return page.take({ facts: [{ kind: "lost", version: 1, data: { sheet } }], refused: null }, filled(page.words.lost, { sheet }));
  });
  onSubmit(page, "retire", async (form) => {
    const pause = form.elements.pause.value;
    if (!page.rules.pauses[pause] || page.rules.pauses[pause].retired) return page.say(page.words.cannot_be, true);
    return page.take({ facts: [{ kind: "retired", version: 1, data: { pause } }], refused: null }, page.words.retired);
  });
  onSubmit(page, "watch", async (form) => {
    const run_s = secondsOf(form.elements.time.value);
    const least_s = Math.floor(page.rules.known_s);
    if (!(run_s >= least_s && run_s <= 86400)) return page.say(filled(page.words.watch_wrong, { in: mss(least_s) }), true);
    await page.byWatch(Math.max(run_s, page.rules.known_s));
    form.reset();
    return form.elements.time.blur();
  });
  bindIncident(page);
  const lost = page.place.querySelector("#run-lost");
  lost.addEventListener("focus", () => offer(page, lost));
  page.place.addEventListener("toggle", () => {
    if (!page.rules) return;
    offer(page, lost);
    page.part("unit").textContent = page.rules.shown.us ? "°F" : "°C";
    page.part("instrument").textContent = page.rules.reading.thermometer;
    for (const option of page.place.querySelectorAll("#run-retire option")) {
      option.disabled = !page.rules.pauses[option.value] || page.rules.pauses[option.value].retired;
    }
  }, true);
}

// What went wrong is a fact of the hands: it is kept here first like the others, above all when the server is what went.
function bindIncident(page) {
  const form = document.querySelector(".run-plain input[name=command][value=incident]")?.form;
  form?.addEventListener("submit", async (event) => {
    if (!page.rules || page.now() === null) return; // without a time of its own the server decides
    event.preventDefault();
    const { what, ago_s: ago, text } = form.elements;
    const ticks = [...form.querySelectorAll("input[name=sheets]")];
    const sheets = ticks.filter((one) => one.checked).map((one) => one.value);
    const before_s = ago.value.trim() ? secondsOf(ago.value) : 0;
    const wrong = !(before_s >= 0 && before_s <= page.now());
    ago.setAttribute("aria-invalid", String(wrong));
    if (wrong) {
      page.say(filled(page.words.ago_wrong, { in: mss(page.now()) }), true);
      ago.focus();
      return;
    }
    if (ticks.length && !sheets.length && "whose" in what.selectedOptions[0].dataset) {
      page.say(page.words.whose, true);
      ticks[0].focus();
      return;
    }
    const data = { what: what.value, ago_s: before_s, text: text.value.trim(), sheets };
    const said = sheets.length ? filled(page.words.noted_of, { sheet: sheets.join(", ") }) : page.words.noted;
    await page.take({ facts: [{ kind: "noted", version: 2, data }], refused: null }, said);
    form.reset();
    // Whoever types elsewhere already stays there: an Enter that finds no field is the next act.
    if (form.contains(document.activeElement)) document.activeElement.blur();
    form.closest("details").open = false;
  });
}

function offer(page, select) {
  const there = page.rules.sheets.filter((sheet) => !page.rules.lost.includes(sheet.id)).map((sheet) => sheet.id);
  const had = [...select.options].map((option) => option.value);
  if (there.join("\n") !== had.join("\n")) select.replaceChildren(...there.map((id) => new Option(id, id)));
}

// The server reckons what a reading means; alone it is only kept.
async function reading(page, form) {
  const typed = numberOf(form.elements.shown.value);
  const { us } = page.rules.shown;
  const shown_c = us ? (typed - 32) / 1.8 : typed;
  const { coldest_c, hottest_c } = page.rules.constants;
  const field = form.elements.shown;
  const wrong = !(shown_c >= coldest_c && shown_c <= hottest_c);
  field.toggleAttribute("aria-invalid", wrong);
  if (wrong) {
    field.setAttribute("aria-invalid", "true");
    page.say(filled(page.words.reading_wrong, { low: page.temperature(coldest_c), high: page.temperature(hottest_c) }), true);
    return;
  }
  const where = form.elements.where.value;
  // What was told before the reading reaches the server before it: a reading means nothing in a bath that is not in.
  if (!page.alone) await page.handover.drain();
  if (!page.alone && !page.handover.waiting.length) {
    try {
      const device = await page.handover.device();
      const answer = await page.handover.post(page.place.dataset.commands, { device, command: "reading", shown_c, where });
      if (answer.status === 200 && answer.said) {
        await page.ask();
        const said = [answer.said.refused, ...answer.said.said].filter(Boolean);
        page.say(said.join(" "), Boolean(answer.said.refused));
        form.reset();
        field.blur();
        return;
      }
    } catch {
      page.serverGone();
    }
  }
  const { reads_high_c, thermometer } = page.rules.reading;
  const data = { shown_c, where, reads_high_c, instrument: thermometer };
  await page.take({ facts: [{ kind: "read", version: 2, data }], refused: null }, page.words.reading_alone);
  form.reset();
  field.blur();
}
