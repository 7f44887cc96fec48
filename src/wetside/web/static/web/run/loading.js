// The spoken loading order: a headset's button stops and goes on, its next and previous go from place to place, also
// while the screen is locked.

const player = document.querySelector("audio[data-loading]");

function openMedia(rows) {
  const { mediaSession } = navigator;
  const begins = rows.map((row) => Number(row.dataset.at));
  const media = new MediaMetadata({ title: player.dataset.title, artist: player.dataset.name });
  const to = (seconds) => { player.currentTime = Math.max(0, Math.min(seconds, player.duration || 0)); };
  const acts = {
    play: () => player.play(),
    pause: () => player.pause(),
    stop: () => player.pause(),
    seekbackward: () => to(player.currentTime - 10),
    seekforward: () => to(player.currentTime + 10),
    previoustrack: () => to(begins.findLast((at) => at < player.currentTime - 3) ?? 0),
    nexttrack: () => to(begins.find((at) => at > player.currentTime + 0.5) ?? player.currentTime),
  };
  mediaSession.metadata = media;
  for (const [name, act] of Object.entries(acts)) {
    try {
      mediaSession.setActionHandler(name, act);
    } catch {
      // a browser without this act has the others
    }
  }
  player.addEventListener("play", () => { mediaSession.playbackState = "playing"; });
  player.addEventListener("pause", () => { mediaSession.playbackState = "paused"; });
  player.loadingActs = acts;
}

if (player) {
  const rows = [...document.querySelectorAll("tr[data-at]")];
  if ("mediaSession" in navigator && "MediaMetadata" in window) openMedia(rows);
  player.addEventListener("timeupdate", () => {
    const now = rows.findLast((row) => Number(row.dataset.at) <= player.currentTime);
    for (const row of rows) {
      if (row === now) row.setAttribute("aria-current", "step");
      else row.removeAttribute("aria-current");
    }
  });
}
