//! The frame, the pages, storage and its troubles.

use crate::case::{Step, Stop};
use crate::store::{Damaged, Refusal};
use crate::ui::language::{spoken, within};

words! {
    pub name = "Freshet";
    pub anaphylaxis = "Anaphylaxis";
    pub back = "Back";
    pub close = "Close";
}

/// What forbids to inject now, on the button that would.
pub fn stop(stop: Stop) -> &'static str {
    spoken(match stop {
        Stop::Reaction => {
            "A severe reaction is not over. No more enzyme: finish it on the sheet first."
        }
        Stop::AfterReaction => {
            "A severe reaction was treated in this case. No more enzyme unless an allergist or a \
             specialist who is asked says so: hand over."
        }
        Stop::Sign(_) => "A sign that goes before everything stands. Stop: call, hand over.",
    })
}

words! {
    pub inject_all_the_same = "Inject all the same, why";

    /// Stands where the risk is.
    pub follow = "Follow local protocol, the product’s label and licensed practice. You decide; this proposes.";

    /// Off label, said once on each way.
    pub off_label = "Hyaluronidase for filler is off label.";
}

pub fn step(step: Step) -> &'static str {
    spoken(match step {
        Step::Situation => "Situation",
        Step::Allergy => "Allergy",
        Step::Strength => "Strength",
        Step::Syringe => "Syringe",
        Step::Rounds => "Rounds",
    })
}

/// What a screen reader says of the rail.
pub fn step_of(step: Step) -> String {
    let place = Step::ALL.iter().position(|other| *other == step).unwrap_or(0) + 1;
    tr!("Step {place} of {count}: {step}", place, count = Step::ALL.len(), step = self::step(step))
}

/// Why a shelf refused, for the user.
pub fn refusal(refusal: &Refusal) -> &'static str {
    spoken(match refusal {
        Refusal::Full => "this browser’s storage is full",
        Refusal::Denied => "this browser’s settings forbid it",
        Refusal::Absent => "this browser has no such storage",
        Refusal::Lost(_) | Refusal::Silent | Refusal::NotReadBack => "the storage did not answer",
        Refusal::Overtaken => "another tab wrote it meanwhile",
        Refusal::Blocked => "another tab holds an older version open",
        Refusal::NewerForm => "a later version of the app made it",
        Refusal::Locked => "the phone is locked",
        Refusal::Other(_) => "the browser refused",
    })
}

words! {
    pub otherwise = "Do otherwise";
    pub reason = "Why, in your words";
    pub reason_wanted = "Write why: it goes into the record.";
    pub go_on_otherwise = "Record it and go on";
}

/// Home.
pub mod home {
    words! {
        pub title = "Undo filler, safely";
        pub new = "New case";
        pub open = "Open cases";
        pub closed = "Closed cases";
        pub more = "Without a case";
        pub sums = "Quick sums";
        pub sums_detail = "Strength, planned dose, dose by area";
        pub kit = "Kit";
        pub kit_detail = "Vials, expiry, and whether it would do for an occlusion";
        pub records = "Records";
        pub records_detail = "Find a case by reference, batch or date; take a file in";
        pub rehearsal = "Rehearsal";
        pub rehearsal_detail = "The whole way against a simulated patient";
        pub contacts = "Whom to call";
        pub contacts_detail = "Emergency number, eyes, hospital, colleague";
        pub ringing = "Will it ring?";
        pub ringing_detail = "What this phone can do when something is due";
        pub values = "Clinic values";
        pub values_detail = "Every number, its source, your own settings";
        pub about = "About and cautions";
        pub about_detail = "What this is, what it is not, where data lives";
        pub no_name = "This browser gives no random numbers, so a case cannot be named.";
    }
}

/// Storage and the phone.
pub mod keeping {
    words! {
        pub reading = "Reading the records on this phone";
        pub no_case = "No such case on this phone";
        pub no_case_why = "The address names a case that is not here. It may be on another phone or in another browser.";
        pub not_fetched_label = "The case could not be read";
        pub home = "To the start";
        pub save_file = "Save the record as a file";
        pub try_again = "Try again";
        pub try_again_why = "Made room on the phone?";
        pub file_name = "freshet-record.txt";
        pub other_tab = "Freshet is open in another tab, which writes. A tap here takes the writing over.";
        pub write_here = "Write here instead";
        pub unread = "One of the two places that keep the record could not be read: the newest entries may be missing.";
        pub nothing_read = "The records could not be read. They are not gone: cases may be missing below.";
        pub update = "A new version is ready.";
        pub update_now = "Take it";
        pub replaced = "A new version took over in another tab.";
        pub reload = "Load again";
        pub file_failed = "The browser did not take the file.";
    }
}

/// A case in the archive that could not be read.
pub fn not_fetched(refused: &Refusal) -> String {
    tr!("It is on this phone and not gone, but {reason}.", reason = refusal(refused))
}

/// The archive could not be read.
pub fn archive_unread(refused: &Refusal) -> String {
    tr!(
        "Cases closed long ago could not be read: {reason}. They are not gone; those in hand go \
         on.",
        reason = refusal(refused)
    )
}

/// A file that lacks what is in the archive.
pub fn file_lacks(refused: &Refusal) -> String {
    if *refused == Refusal::Locked {
        return spoken("The file lacks what lies sealed. Unlock, then save it again.").to_owned();
    }
    tr!(
        "The file lacks the cases closed long ago: they could not be read, since {reason}. Save it \
         again.",
        reason = refusal(refused)
    )
}

/// A record that is on one shelf only.
pub fn weak(refused: &Refusal) -> String {
    tr!("The last entry is kept in one place only: {reason}.", reason = refusal(refused))
}

/// Entries that no shelf took.
pub fn unsaved(count: usize) -> String {
    tr!(
        "{count} entry is not saved on this phone. Do not close the app; save the record as a file."
            | "{count} entries are not saved on this phone. Do not close the app; save the record \
               as a file."
                % count,
        count
    )
}

/// Lines that are damaged, each by the place where it lay.
pub fn damaged(lines: &[Damaged]) -> String {
    let names: Vec<String> = lines.iter().map(|line| place(line.key.origin().as_str())).collect();
    tr!(
        "Damaged on this phone: {places}. Kept aside; the rest is whole, and both go into the \
         file.",
        places = names.join(", ")
    )
}

/// Where an entry lies, short enough to be read: its number, and how its case's name begins.
fn place(key: &str) -> String {
    let mut parts = key.rsplit('/').skip(1);
    let number = parts.next().and_then(|part| part.parse::<u32>().ok());
    match (number, parts.next().and_then(|case| case.get(..8))) {
        (Some(number), Some(case)) => {
            tr!("entry {number} of case {case}", number = number + 1, case)
        }
        _ => key.to_owned(),
    }
}

/// The clock stands before the last entry.
pub fn clock_behind(by: crate::measure::Span) -> String {
    tr!(
        "The phone’s clock is behind the last entry by {span}. Set it right: every due time follows \
         it.",
        span = super::time::span(by)
    )
}

/// The clock jumped, by so much, forward or back.
pub fn jumped(back: bool, span: crate::measure::Span) -> String {
    let span = super::time::span(span);
    if back {
        tr!(
            "The phone’s clock was set back by {span}. Times in the record follow the phone’s \
             clock: check when to look next.",
            span
        )
    } else {
        tr!(
            "The phone’s clock was set forward by {span}. Times in the record follow the phone’s \
             clock: check when to look next.",
            span
        )
    }
}

/// Step 1.
pub mod situation {
    words! {
        pub flags = "Any of these now?";
        pub no_flags = "None of these";
        pub to_sheet = "To the anaphylaxis sheet";
        pub hand_over = "Hand over";
        pub skin = "What does the skin show?";
        pub urgent = "Urgent: blocked artery";
        pub no_signs = "None: planned work";
        pub on = "Go on";
        pub see_why = "See why not";
        pub planned = "Planned work";
        pub aim = "How much is to go?";
        pub site = "At the site, if any";
        pub why = "The reasons";
        pub handed_over = "Handed over: close the case";
        pub close_case = "Close the case";
        pub record = "Record";
        pub treat_meanwhile = "Treat meanwhile";
        pub more = "Onset, refill, patient, filler";
        pub onset = "First sign seen";
        pub onset_now = "Just now";
        pub filler = "The filler is";
        pub sex = "Patient";
        pub age = "Age";
        pub years = "years";
        pub refill_affected = "Refill, affected side";
        pub refill_opposite = "Refill, other side";
        pub seconds = "s";
        pub limits = "The limits and their sources";
        pub windows = "How late treatment still helped";
        pub age_bounds = "Between 0 and 120 years.";
    }
}

/// How to time refill.
pub fn press(span: crate::measure::Span) -> String {
    tr!(
        "Press for {span}, moderately, let go, and time until the colour is back.",
        span = super::time::span(span)
    )
}

/// So long ago.
pub fn ago(span: crate::measure::Span) -> String {
    tr!("{span} ago", span = super::time::span(span))
}

/// The limit of refill that applies.
pub fn limit_for(unknown: bool, limit: crate::measure::Span) -> String {
    let seconds = super::numbers::seconds(limit);
    if unknown {
        tr!("Without age and sex the strictest limit applies: {seconds} s.", seconds)
    } else {
        tr!("The limit in filler guidance: {seconds} s.", seconds)
    }
}

/// Step 2.
pub mod allergy {
    use crate::ui::language::spoken;

    words! {
        pub no_test = "Urgent: no skin test";
        pub ready = "Ready for a reaction?";
    }
    pub fn readiness() -> [&'static str; 3] {
        [
            "Adrenaline within reach",
            "Somebody can call emergency services",
            "The patient can lie flat",
        ]
        .map(spoken)
    }
    words! {
        pub ready_go = "Ready: go on";
        pub unready = "Not ready";
        pub unready_why = "Send for adrenaline and for help first, if seconds allow. Going on without is recorded.";
        pub ready_test = "Ready: place the test";
        pub weigh = "Weigh it";
        pub more = "Stings, pregnancy, medicines";
        pub planned = "Planned work";
        pub ask = "Ask the patient";
        pub not_asked = "Answer each question; “not known” is an answer too.";
        pub ask_again = "Ask again";
        pub on = "Go on";
        pub way = "Allergy";
        pub close = "Close the case";
        pub previous = "Reacted to hyaluronidase before";
        pub bee = "Allergic to bee stings";
        pub wasp = "Allergic to wasp stings";
        pub desensitised = "Desensitised against the venom";
        pub pregnancy = "Pregnant or nursing";
        pub medicines = "Medicines that matter";
        pub species = "The enzyme at hand";
        pub place_label = "Inject into the skin";
        pub portion = "How much";
        pub making = "How to make it";
        pub label_dose = "The US label’s dose";
        pub no_portion = "This strength and syringe give no measurable test dose.";
        pub bleb_label = "Bleb, right after";
        pub mm = "mm";
        pub why_dose = "Why this dose";
        pub placed = "Injected: start the clock";
        pub wait = "Wait, watch the patient";
        pub read = "Read the test";
        pub until_read = "Time to the first reading";
        pub due_since = "Due";
        pub wheal = "Wheal across";
        pub wheal_none = "0 if there is none.";
        pub wheal_wanted = "Type how wide the wheal is, or 0 if there is none.";
        pub seen = "What is there";
        pub flare = "Redness round the wheal";
        pub itch = "Itching";
        pub pseudopods = "A wheal with branches";
        pub systemic = "Signs elsewhere: hives, breath, faint";
        pub guidelines = "What each guideline says now";
        pub redness = "Redness alone is not positive. A doubtful look is not negative.";
        pub test = "Skin test";
        pub too_late = "The first look came too late: a reaction may have come and gone. Repeat the test.";
        pub positive_means = "The case is closed to hyaluronidase. Watch the patient; refer to an allergist.";
        pub doubtful_means = "A doubtful test is not a negative one. Look again later, or refer to an allergist.";
        pub negative_means = "No guideline calls this look positive. A reaction is still possible: stay ready.";
        pub delayed = "Some guidelines read once more after a day or days: tell the patient what to look for.";
        pub look_again = "Look again";
    }
}

/// What the skin test is drawn from.
pub fn test_from(strength: &str) -> String {
    tr!("Skin test, back of the hand, from {strength}", strength)
}

/// The bleb to expect.
pub fn bleb(median: &str, least: &str, most: &str) -> String {
    tr!(
        "Measure it now: {median} is usual ({least} to {most}). Without it two guidelines cannot be \
         read.",
        median,
        least,
        most
    )
}

/// A bleb wider than blebs get.
pub fn wide_bleb(least: &str, most: &str) -> String {
    tr!("Measured were {least} to {most}. Measure again, or leave it empty.", least, most)
}

/// More than guidelines inject.
pub fn large_portion(most: &str) -> String {
    tr!(
        "More than the {most} that guidelines inject into the skin at most: use a stronger \
         solution",
        most
    )
}

/// When the test was placed.
pub fn placed_at(hour: &str) -> String {
    tr!("Skin test placed at {hour}", hour)
}

/// Nothing to see before the first reading.
pub fn read_from(hour: &str) -> String {
    tr!("Nothing to record yet. First reading at {hour}; earlier only if something shows.", hour)
}

/// Records a look, with what it amounts to.
pub fn record_look(verdict: &str) -> String {
    tr!("Record: {verdict}", verdict = within(verdict))
}
