//! The frame, the pages, storage and its troubles.

use crate::case::{Step, Stop};
use crate::store::{Damaged, Refusal};

pub const NAME: &str = "Freshet";
pub const ANAPHYLAXIS: &str = "Anaphylaxis";
pub const BACK: &str = "Back";
pub const CLOSE: &str = "Close";

/// What forbids to inject now, on the button that would.
pub const fn stop(stop: Stop) -> &'static str {
    match stop {
        Stop::Reaction => {
            "A severe reaction is not over. No more enzyme: finish it on the sheet first."
        }
        Stop::AfterReaction => {
            "A severe reaction was treated in this case. No more enzyme unless an allergist or a \
             specialist who is asked says so: hand over."
        }
        Stop::Sign(_) => "A sign that goes before everything stands. Stop: call, hand over.",
    }
}

pub const INJECT_ALL_THE_SAME: &str = "Inject all the same, why";

/// Stands where the risk is.
pub const FOLLOW: &str =
    "Follow local protocol, the product’s label and licensed practice. You decide; this proposes.";

/// Off label, said once on each way.
pub const OFF_LABEL: &str = "Hyaluronidase for filler is off label.";

pub const fn step(step: Step) -> &'static str {
    match step {
        Step::Situation => "Situation",
        Step::Allergy => "Allergy",
        Step::Strength => "Strength",
        Step::Syringe => "Syringe",
        Step::Rounds => "Rounds",
    }
}

/// What a screen reader says of the rail.
pub fn step_of(step: Step) -> String {
    let place = Step::ALL.iter().position(|other| *other == step).unwrap_or(0) + 1;
    format!("Step {place} of {}: {}", Step::ALL.len(), self::step(step))
}

/// Why a shelf refused, for the user.
pub fn refusal(refusal: &Refusal) -> &'static str {
    match refusal {
        Refusal::Full => "this browser’s storage is full",
        Refusal::Denied => "this browser’s settings forbid it",
        Refusal::Absent => "this browser has no such storage",
        Refusal::Lost(_) | Refusal::Silent | Refusal::NotReadBack => "the storage did not answer",
        Refusal::Overtaken => "another tab wrote it meanwhile",
        Refusal::Blocked => "another tab holds an older version open",
        Refusal::NewerForm => "a later version of the app made it",
        Refusal::Locked => "the phone is locked",
        Refusal::Other(_) => "the browser refused",
    }
}

pub const OTHERWISE: &str = "Do otherwise";
pub const REASON: &str = "Why, in your words";
pub const REASON_WANTED: &str = "Write why: it goes into the record.";
pub const GO_ON_OTHERWISE: &str = "Record it and go on";

/// Home.
pub mod home {
    pub const TITLE: &str = "Undo filler, safely";
    pub const NEW: &str = "New case";
    pub const OPEN: &str = "Open cases";
    pub const CLOSED: &str = "Closed cases";
    pub const MORE: &str = "Without a case";
    pub const SUMS: &str = "Quick sums";
    pub const SUMS_DETAIL: &str = "Strength, planned dose, dose by area";
    pub const KIT: &str = "Kit";
    pub const KIT_DETAIL: &str = "Vials, expiry, and whether it would do for an occlusion";
    pub const RECORDS: &str = "Records";
    pub const RECORDS_DETAIL: &str = "Find a case by reference, batch or date; take a file in";
    pub const REHEARSAL: &str = "Rehearsal";
    pub const REHEARSAL_DETAIL: &str = "The whole way against a simulated patient";
    pub const CONTACTS: &str = "Whom to call";
    pub const CONTACTS_DETAIL: &str = "Emergency number, eyes, hospital, colleague";
    pub const RINGING: &str = "Will it ring?";
    pub const RINGING_DETAIL: &str = "What this phone can do when something is due";
    pub const VALUES: &str = "Clinic values";
    pub const VALUES_DETAIL: &str = "Every number, its source, your own settings";
    pub const ABOUT: &str = "About and cautions";
    pub const ABOUT_DETAIL: &str = "What this is, what it is not, where data lives";
    pub const NO_NAME: &str = "This browser gives no random numbers, so a case cannot be named.";
}

/// Storage and the phone.
pub mod keeping {
    pub const READING: &str = "Reading the records on this phone";
    pub const NO_CASE: &str = "No such case on this phone";
    pub const NO_CASE_WHY: &str = "The address names a case that is not here. It may be on another phone or in another browser.";
    pub const NOT_FETCHED: &str = "The case could not be read";
    pub const HOME: &str = "To the start";
    pub const SAVE_FILE: &str = "Save the record as a file";
    pub const TRY_AGAIN: &str = "Try again";
    pub const TRY_AGAIN_WHY: &str = "Made room on the phone?";
    pub const FILE_NAME: &str = "freshet-record.txt";
    pub const OTHER_TAB: &str =
        "Freshet is open in another tab, which writes. A tap here takes the writing over.";
    pub const WRITE_HERE: &str = "Write here instead";
    pub const UNREAD: &str = "One of the two places that keep the record could not be read: the newest entries may be missing.";
    pub const NOTHING_READ: &str =
        "The records could not be read. They are not gone: cases may be missing below.";
    pub const UPDATE: &str = "A new version is ready.";
    pub const UPDATE_NOW: &str = "Take it";
    pub const REPLACED: &str = "A new version took over in another tab.";
    pub const RELOAD: &str = "Load again";
    pub const FILE_FAILED: &str = "The browser did not take the file.";
}

/// A case in the archive that could not be read.
pub fn not_fetched(refused: &Refusal) -> String {
    format!("It is on this phone and not gone, but {}.", refusal(refused))
}

/// The archive could not be read.
pub fn archive_unread(refused: &Refusal) -> String {
    format!(
        "Cases closed long ago could not be read: {}. They are not gone; those in hand go on.",
        refusal(refused)
    )
}

/// A file that lacks what is in the archive.
pub fn file_lacks(refused: &Refusal) -> String {
    if *refused == Refusal::Locked {
        return "The file lacks what lies sealed. Unlock, then save it again.".to_owned();
    }
    format!(
        "The file lacks the cases closed long ago: they could not be read, since {}. Save it again.",
        refusal(refused)
    )
}

/// A record that is on one shelf only.
pub fn weak(refused: &Refusal) -> String {
    format!("The last entry is kept in one place only: {}.", refusal(refused))
}

/// Entries that no shelf took.
pub fn unsaved(count: usize) -> String {
    let entries = if count == 1 { "1 entry is" } else { return many_unsaved(count) };
    format!("{entries} not saved on this phone. Do not close the app; save the record as a file.")
}

fn many_unsaved(count: usize) -> String {
    format!(
        "{count} entries are not saved on this phone. Do not close the app; save the record as a file."
    )
}

/// Lines that are damaged, each by the place where it lay.
pub fn damaged(lines: &[Damaged]) -> String {
    let names: Vec<String> = lines.iter().map(|line| place(line.key.origin().as_str())).collect();
    format!(
        "Damaged on this phone: {}. Kept aside; the rest is whole, and both go into the file.",
        names.join(", ")
    )
}

/// Where an entry lies, short enough to be read: its number, and how its case's name begins.
fn place(key: &str) -> String {
    let mut parts = key.rsplit('/').skip(1);
    let number = parts.next().and_then(|part| part.parse::<u32>().ok());
    match (number, parts.next().and_then(|case| case.get(..8))) {
        (Some(number), Some(case)) => format!("entry {} of case {case}", number + 1),
        _ => key.to_owned(),
    }
}

/// The clock stands before the last entry.
pub fn clock_behind(by: crate::measure::Span) -> String {
    format!(
        "The phone’s clock is behind the last entry by {}. Set it right: every due time follows it.",
        super::time::span(by)
    )
}

/// The clock jumped, by so much, forward or back.
pub fn jumped(back: bool, span: crate::measure::Span) -> String {
    let way = if back { "back" } else { "forward" };
    format!(
        "The phone’s clock was set {way} by {}. Times in the record follow the phone’s clock: check \
         when to look next.",
        super::time::span(span)
    )
}

/// Step 1.
pub mod situation {
    pub const FLAGS: &str = "Any of these now?";
    pub const NO_FLAGS: &str = "None of these";
    pub const TO_SHEET: &str = "To the anaphylaxis sheet";
    pub const HAND_OVER: &str = "Hand over";
    pub const SKIN: &str = "What does the skin show?";
    pub const URGENT: &str = "Urgent: blocked artery";
    pub const NO_SIGNS: &str = "None: planned work";
    pub const ON: &str = "Go on";
    pub const SEE_WHY: &str = "See why not";
    pub const PLANNED: &str = "Planned work";
    pub const AIM: &str = "How much is to go?";
    pub const SITE: &str = "At the site, if any";
    pub const WHY: &str = "The reasons";
    pub const HANDED_OVER: &str = "Handed over: close the case";
    pub const CLOSE_CASE: &str = "Close the case";
    pub const RECORD: &str = "Record";
    pub const TREAT_MEANWHILE: &str = "Treat meanwhile";
    pub const MORE: &str = "Onset, refill, patient, filler";
    pub const ONSET: &str = "First sign seen";
    pub const ONSET_NOW: &str = "Just now";
    pub const FILLER: &str = "The filler is";
    pub const SEX: &str = "Patient";
    pub const AGE: &str = "Age";
    pub const YEARS: &str = "years";
    pub const REFILL_AFFECTED: &str = "Refill, affected side";
    pub const REFILL_OPPOSITE: &str = "Refill, other side";
    pub const SECONDS: &str = "s";
    pub const LIMITS: &str = "The limits and their sources";
    pub const WINDOWS: &str = "How late treatment still helped";
    pub const AGE_BOUNDS: &str = "Between 0 and 120 years.";
}

/// How to time refill.
pub fn press(span: crate::measure::Span) -> String {
    format!(
        "Press for {}, moderately, let go, and time until the colour is back.",
        super::time::span(span)
    )
}

/// So long ago.
pub fn ago(span: crate::measure::Span) -> String {
    format!("{} ago", super::time::span(span))
}

/// The limit of refill that applies.
pub fn limit_for(unknown: bool, limit: crate::measure::Span) -> String {
    let limit = format!("{} s", super::numbers::seconds(limit));
    if unknown {
        format!("Without age and sex the strictest limit applies: {limit}.")
    } else {
        format!("The limit in filler guidance: {limit}.")
    }
}

/// Step 2.
pub mod allergy {
    pub const NO_TEST: &str = "Urgent: no skin test";
    pub const READY: &str = "Ready for a reaction?";
    pub const READINESS: [&str; 3] = [
        "Adrenaline within reach",
        "Somebody can call emergency services",
        "The patient can lie flat",
    ];
    pub const READY_GO: &str = "Ready: go on";
    pub const UNREADY: &str = "Not ready";
    pub const UNREADY_WHY: &str =
        "Send for adrenaline and for help first, if seconds allow. Going on without is recorded.";
    pub const READY_TEST: &str = "Ready: place the test";
    pub const WEIGH: &str = "Weigh it";
    pub const MORE: &str = "Stings, pregnancy, medicines";
    pub const PLANNED: &str = "Planned work";
    pub const ASK: &str = "Ask the patient";
    pub const NOT_ASKED: &str = "Answer each question; “not known” is an answer too.";
    pub const ASK_AGAIN: &str = "Ask again";
    pub const ON: &str = "Go on";
    pub const WAY: &str = "Allergy";
    pub const CLOSE: &str = "Close the case";
    pub const PREVIOUS: &str = "Reacted to hyaluronidase before";
    pub const BEE: &str = "Allergic to bee stings";
    pub const WASP: &str = "Allergic to wasp stings";
    pub const DESENSITISED: &str = "Desensitised against the venom";
    pub const PREGNANCY: &str = "Pregnant or nursing";
    pub const MEDICINES: &str = "Medicines that matter";
    pub const SPECIES: &str = "The enzyme at hand";
    pub const PLACE: &str = "Inject into the skin";
    pub const PORTION: &str = "How much";
    pub const MAKING: &str = "How to make it";
    pub const LABEL_DOSE: &str = "The US label’s dose";
    pub const NO_PORTION: &str = "This strength and syringe give no measurable test dose.";
    pub const BLEB: &str = "Bleb, right after";
    pub const MM: &str = "mm";
    pub const WHY_DOSE: &str = "Why this dose";
    pub const PLACED: &str = "Injected: start the clock";
    pub const WAIT: &str = "Wait, watch the patient";
    pub const READ: &str = "Read the test";
    pub const UNTIL_READ: &str = "Time to the first reading";
    pub const DUE_SINCE: &str = "Due";
    pub const WHEAL: &str = "Wheal across";
    pub const WHEAL_NONE: &str = "0 if there is none.";
    pub const WHEAL_WANTED: &str = "Type how wide the wheal is, or 0 if there is none.";
    pub const SEEN: &str = "What is there";
    pub const FLARE: &str = "Redness round the wheal";
    pub const ITCH: &str = "Itching";
    pub const PSEUDOPODS: &str = "A wheal with branches";
    pub const SYSTEMIC: &str = "Signs elsewhere: hives, breath, faint";
    pub const GUIDELINES: &str = "What each guideline says now";
    pub const REDNESS: &str = "Redness alone is not positive. A doubtful look is not negative.";
    pub const TEST: &str = "Skin test";
    pub const TOO_LATE: &str =
        "The first look came too late: a reaction may have come and gone. Repeat the test.";
    pub const POSITIVE_MEANS: &str =
        "The case is closed to hyaluronidase. Watch the patient; refer to an allergist.";
    pub const DOUBTFUL_MEANS: &str =
        "A doubtful test is not a negative one. Look again later, or refer to an allergist.";
    pub const NEGATIVE_MEANS: &str =
        "No guideline calls this look positive. A reaction is still possible: stay ready.";
    pub const DELAYED: &str =
        "Some guidelines read once more after a day or days: tell the patient what to look for.";
    pub const LOOK_AGAIN: &str = "Look again";
}

/// What the skin test is drawn from.
pub fn test_from(strength: &str) -> String {
    format!("Skin test, back of the hand, from {strength}")
}

/// The bleb to expect.
pub fn bleb(median: &str, least: &str, most: &str) -> String {
    format!(
        "Measure it now: {median} is usual ({least} to {most}). Without it two guidelines cannot be read."
    )
}

/// A bleb wider than blebs get.
pub fn wide_bleb(least: &str, most: &str) -> String {
    format!("Measured were {least} to {most}. Measure again, or leave it empty.")
}

/// More than guidelines inject.
pub fn large_portion(most: &str) -> String {
    format!(
        "More than the {most} that guidelines inject into the skin at most: use a stronger solution"
    )
}

/// When the test was placed.
pub fn placed_at(hour: &str) -> String {
    format!("Skin test placed at {hour}")
}

/// Nothing to see before the first reading.
pub fn read_from(hour: &str) -> String {
    format!("Nothing to record yet. First reading at {hour}; earlier only if something shows.")
}

/// Records a look, with what it amounts to.
pub fn record_look(verdict: &str) -> String {
    format!("Record: {}", verdict.to_lowercase())
}
