"""What is spoken while sheets are loaded: the loading order as one sound, and the device that is black."""

from wetside.wording.catalog import N_

SENTENCES = {
    "run_sound.loading.first": N_(
        "{sheets}. Lights out when you are ready. The headset's button makes me wait at any time."
    ),
    "run_sound.loading.place": N_("{place}: sheet {sheet}."),
    "run_sound.loading.place_holder": N_("{place}: sheet {sheet}, holder {holder}."),
    "run_sound.loading.notch": N_(" Notch {notch}."),
    "run_sound.loading.last": N_(
        "That was the last: {sheets}. Lid on. Is it seated, does the vessel turn free? Then the light."
    ),
    "run_sound.title.places": N_("{first_place}: {first}, and so on to {last}: {sheets}"),
    "run_sound.title.one": N_("{first_place}: {first}, the only sheet"),
    "run_sound.title.none": N_("Load in any order: this run names no sheets"),
    "run_sound.dark.your_sheets": N_("your sheets"),
    "run_sound.dark.lights_out": N_(
        "Vessel dry? {sheets} counted? Telephone away? Way out felt? If all four are so: lights out, and press."
    ),
    "run_sound.dark.lights_on": N_("Lid seated? Does the vessel turn free? If both are so, press. Then the light."),
    "run_sound.dark.load": N_("Next: sheet {sheet}."),
    "run_sound.dark.lost": N_("{sheet} is lost. Left: {left}."),
    "run_sound.dark.wets": N_("{volume} are poured, {wetting} wet the vessel: enough."),
    "run_sound.dark.too_little": N_("{volume} are poured, {wetting} wet the vessel: too little. Pour more."),
    "run_sound.dark.agent": N_("Developing agent for the film: {ratio:.2f} times what it needs."),
    "run_sound.dark.lost_offline": N_(
        "It is lost, and left out. Volume and agent are checked when the server answers."
    ),
    "run_sound.dark.said_black": N_("Black now. A press is next. Hold a press for a second to go back."),
    "run_sound.dark.said_load": N_("Load your sheets now, and put the lid on. Then answer this."),
    "run_sound.dark.said_lost_again": N_("Lost it? Tell it again if it is so."),
    "run_sound.dark.said_lost_which": N_(
        "No sheet is being loaded. Tell which one is lost on the run's page, with the light on."
    ),
    "run_sound.dark.said_leave_again": N_("Show the page? It lights the room. Press Escape again if the film is safe."),
    "run_sound.dark.said_on": N_("Lights on when you like. The next press shows the run."),
    "run_sound.dark.said_run_on": N_("The run goes on in the dark. Escape twice shows the page."),
    "run_sound.dark.said_frame": N_("The browser shows its frame again, and that is lit. Cover the screen."),
    "run_sound.dark.said_over": N_("The run is over."),
}
