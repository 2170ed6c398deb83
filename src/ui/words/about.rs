//! What the app is, is not, and does with data.

use super::numbers;
use crate::phone::update::Offline;
use crate::store::persist::{Persistence, Room};
use crate::ui::language::spoken;

words! {
    pub title = "About and cautions";
    pub what = "What it is";
}

pub fn what_words() -> [&'static str; 2] {
    [
        "A calculator, a clock and a record for the clinician who injects hyaluronic-acid filler \
         and has to undo it with hyaluronidase: at once when filler blocks a skin artery, or \
         calmly when a correction is to be removed.",
        "It works without a network, and nothing leaves this phone unless you save or share it.",
    ]
    .map(spoken)
}

words! {
    pub not = "What it is not";
}

pub fn not_words() -> [&'static str; 4] {
    [
        "It is not a certified medical device, and nobody has approved it as one.",
        "It is no substitute for training, for judgement or for advice from a specialist. It \
         proposes; you decide, and you answer for it.",
        "It cannot see the patient. Its numbers follow from what is typed and from the clinic’s \
         values. Check each one.",
        "It cannot ring while the phone sleeps. Keep the screen on, or set an alarm as well.",
    ]
    .map(spoken)
}

words! {
    pub cautions = "Cautions";
}

pub fn caution_words() -> [&'static str; 4] {
    [
        "Dissolving filler with hyaluronidase is off label almost everywhere. Follow your local \
         protocol, the product’s label and the law where you work.",
        "Published doses and times differ, and few are from trials. Each number shows where it is \
         from; where sources disagree, all are shown.",
        "Change of sight, pain in the eye, or signs of a stroke: call emergency services first.",
        "Hyaluronidase can cause anaphylaxis. Have adrenaline and help within reach before the \
         first injection.",
    ]
    .map(spoken)
}

words! {
    pub data = "Where the records are";
}

pub fn data_words() -> [&'static str; 6] {
    [
        "On this phone, in this browser, and nowhere else. There is no account and no server.",
        "Without a passcode they are not encrypted, and whoever can unlock this phone can read \
         them. Set one on the start screen, under Passcode.",
        "Clearing this site’s data in the browser deletes them all. So does removing the browser, \
         and on an iPhone removing the app from the Home Screen.",
        "On an iPhone the app on the Home Screen has a store of its own, apart from Safari’s. \
         Start cases in one of the two only.",
        "Each entry is kept in two places of this browser. Cases closed long ago move into one of \
         them, since the other is small: make a backup now and then, on the start screen, under \
         Backup.",
        "Cases carry your clinic’s own reference. Never write a name into them.",
    ]
    .map(spoken)
}

words! {
    pub state = "This phone";
    pub storage = "Storage";
    pub ask = "Ask the browser to keep it";
    pub asked = "The browser did not promise it. Installing the app on the Home Screen often helps; and make a \
         backup now and then.";
    pub room_label = "Room used";
    pub no_network = "Without a network";
    pub version = "Version";
    pub build = "A build for development";
    pub check = "Look for a new version";
    pub checking = "Looking for a new version";
    pub found = "A new version was found. It is offered above once it is on the phone.";
    pub current = "This is the newest version.";
    pub unreachable = "Where the app came from cannot be reached. Nothing was changed.";
    pub install = "Put it on the Home Screen";
    pub install_why = "Do this on a quiet day, with a network. Then it opens like any app, also with none.";
    pub android = "Android";
}

pub fn android_steps() -> [&'static str; 3] {
    [
        "Open this page in the browser and open its menu (three dots).",
        "Press “Install app” or “Add to Home screen”.",
        "Open it once from the Home screen, then once more in flight mode, to see that it starts.",
    ]
    .map(spoken)
}

words! {
    pub iphone = "iPhone and iPad";
}

pub fn iphone_steps() -> [&'static str; 4] {
    [
        "Open this page in Safari and press the Share button.",
        "Press “Add to Home Screen”. If it is not there, press “More” or scroll down.",
        "If it asks, let it open as a web app.",
        "Open it once from the Home Screen, then once more in flight mode, to see that it starts.",
    ]
    .map(spoken)
}

words! {
    pub save_why = "The file holds every entry of every case as plain text, readable by anyone who has it. Keep it \
         where patient records belong.";
    pub nothing = "There is no case yet.";
    pub licences = "Licences";
    pub own_licence = "Freshet is free under the MIT licence. What it contains of others:";
    pub no_licences = "The list cannot be read here. It lies beside the app, as licences.txt.";
}

/// Whether the browser keeps the records when the phone runs short of room.
pub fn persistence(state: Option<Persistence>) -> &'static str {
    spoken(match state {
        None => "Asking the browser",
        Some(Persistence::Granted) => "Kept until you delete it",
        Some(Persistence::Refused) => "The browser may delete it when room runs short",
        Some(Persistence::Unknown) => "The browser does not say whether it keeps it",
    })
}

/// Whether the app starts without a network.
pub fn offline(state: Offline) -> &'static str {
    spoken(match state {
        Offline::Unknown => "Not known yet",
        Offline::Ready => "Ready: it starts without one",
        Offline::Failed => {
            "Not ready: it could not be put on the phone. Open it again with a network"
        }
        Offline::Unable => "Not ready: this browser or this build does not do it",
    })
}

/// How much of the room is used.
pub fn room(room: Room) -> String {
    tr!("{used} of about {limit}", used = bytes(room.used), limit = bytes(room.limit))
}

/// Bytes in the unit that fits, to two or three figures.
pub fn bytes(count: u64) -> String {
    const KILO: u64 = 1_000;
    let mut of = 1;
    for unit in ["bytes", "kB", "MB"].map(spoken) {
        if count / of < KILO {
            return if count / of < 10 && of > 1 {
                let figure = format!("{}.{}", count / of, count / (of / 10) % 10);
                format!("{} {unit}", numbers::typed(&figure))
            } else {
                format!("{} {unit}", count / of)
            };
        }
        of *= KILO;
    }
    tr!("{count} GB", count = count / of)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn room_is_told_in_the_unit_that_fits() {
        let told = |used| room(Room { used, limit: 10_000_000_000 });
        assert_eq!(told(999), "999 bytes of about 10 GB");
        assert_eq!(told(1_000), "1.0 kB of about 10 GB");
        assert_eq!(told(73_400), "73 kB of about 10 GB");
        assert_eq!(told(5_260_000), "5.2 MB of about 10 GB");
    }
}
