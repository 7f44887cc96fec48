// Notes when each queued cue begins to sound, on the audio thread, while the page is kept busy; read by bench_sound.py
// and by the browser's tests.
async ([address, cues, every]) => {
  const { openSound } = await import(address);
  const sound = await openSound({});
  sound.volume = 1;
  const { context } = sound;
  const begins = [];
  // On the audio thread, so that no block is missed while the page is busy.
  const code = `registerProcessor("tap", class extends AudioWorkletProcessor {
    constructor() { super(); this.quiet = 1; }
    process([[data]]) {
      const found = [];
      for (let place = 0; data && place < data.length; place += 1) {
        if (Math.abs(data[place]) > 1e-4) {
          if (this.quiet > 0.02) found.push(currentTime + place / sampleRate);
          this.quiet = 0;
        } else this.quiet += 1 / sampleRate;
      }
      if (!data) this.quiet += 128 / sampleRate;
      if (found.length) this.port.postMessage(found);
      return true;
    }
  });`;
  await context.audioWorklet.addModule(URL.createObjectURL(new Blob([code], { type: "text/javascript" })));
  const tap = new AudioWorkletNode(context, "tap");
  tap.port.onmessage = ({ data }) => begins.push(...data);
  sound.output.connect(tap).connect(context.destination);
  await new Promise((resolve) => setTimeout(resolve, 500));
  const clock = { now: () => performance.now() / 1000 };
  const ties = [];
  const tie = () => {
    const out = context.getOutputTimestamp?.();
    if (out && out.performanceTime > 0) ties.push({ audio: out.contextTime, page: out.performanceTime / 1000 });
    else ties.push({ audio: context.currentTime, page: clock.now() });
  };
  const first = clock.now() + 1;
  const wanted = Array.from({ length: cues }, (_, number) => first + number * every);
  const last = wanted.at(-1) + 1;
  globalThis.busy = 0;
  while (clock.now() < last) {
    const now = clock.now();
    tie();
    sound.plan(wanted.filter((at_s) => at_s >= now - 1.5 && at_s < now + 180).map((at_s) => ({ at_s, kind: "count", act: `act ${at_s}`, in_s: 20 })), clock);
    const until = performance.now() + (globalThis.busy % 3 === 0 ? 120 : 20); // a page that draws, reads and writes
    while (performance.now() < until);
    globalThis.busy += 1;
    await new Promise((resolve) => setTimeout(resolve, 300));
  }
  tie();
  const shifts = ties.map(({ audio, page }) => ({ page, shift: page - audio }));
  const pageOf = (audio) => {
    const best = shifts.reduce((a, b) => (Math.abs(b.page - b.shift - audio) < Math.abs(a.page - a.shift - audio) ? b : a));
    return audio + best.shift;
  };
  const heard = begins.map(pageOf);
  const off = wanted.map((at_s) => heard.reduce((best, at) => (Math.abs(at - at_s) < Math.abs(best) ? at - at_s : best), 9));
  const spread = Math.max(...shifts.map((one) => one.shift)) - Math.min(...shifts.map((one) => one.shift));
  return { off, heard: begins.length, spread, behind: context.currentTime - (context.getOutputTimestamp?.().contextTime ?? 0) };
}
