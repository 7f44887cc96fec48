"""Sentences about accounts, signing in and the telephone."""

from wetside.wording.catalog import N_

SENTENCES = {
    "services.accounts.no_name": N_("The account has no name. Type the one that you will sign in with."),
    "services.accounts.long_name": N_("The name has more than {most} letters. Take a shorter one."),
    "services.accounts.odd_name": N_(
        "{value:quoted} cannot be an account's name. Letters, digits and the signs @ . + - _ may stand in it, no blanks."
    ),
    "services.accounts.taken": N_(
        "There is an account {name:quoted} already. Change its password with: wetside account password"
    ),
    "services.accounts.taken_removed": N_(
        "An account {name:quoted} was removed and keeps its name. Bring it back with: wetside account bring-back {name}"
    ),
    "services.accounts.unknown": N_("There is no account {value:quoted}. There are: {known:list}."),
    "services.accounts.none": N_(
        "There is no account {value:quoted}, nor any other. Make one with: wetside account add NAME"
    ),
    "services.accounts.removed": N_(
        "The account {name:quoted} is removed. Bring it back with: wetside account bring-back {name}"
    ),
    "services.accounts.not_removed": N_("The account {name:quoted} is not removed; nobody needs to bring it back."),
    "services.accounts.short_password": N_(
        "The password is too short. It needs {least} letters or more; several words are good."
    ),
    "services.accounts.long_password": N_("The password has more than {most} letters. Take a shorter one."),
    "services.accounts.common_password": N_("This password is among those that are guessed first. Take another."),
    "services.accounts.digits_only": N_("The password is digits only. Put letters between them."),
    "services.accounts.like_the_name": N_("The password is too much like the account's name. Take another."),
    "services.accounts.weak": N_("The password is too weak. Take {least} letters or more that nobody would guess."),
    "services.sign_in.wait": N_(
        "After several attempts that failed, the next one is looked at in {wait_s} seconds. This one was not: whether the password was right is not known."
    ),
    "services.telephone.code": N_(
        "This link no longer holds: each works once, and for {minutes} minutes. Make a new one on a device that is signed in."
    ),
    "services.check.open_key": N_(
        "Others on this machine may read the key {file:quoted}. Close it with: chmod 600. If somebody may have copied it, move the folder of the authority away and start anew."
    ),
}
