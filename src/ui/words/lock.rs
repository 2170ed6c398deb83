//! The passcode.

use super::{app, time};
use crate::measure::Span;
use crate::seal::RingError;
use crate::store::gate::GateError;
use crate::store::habits::Patience;
use crate::ui::language::spoken;

words! {
    pub title = "Passcode";
    pub home_detail = "Seal the records on this phone";
    pub home_set = "Set: the records are sealed";

    pub locked = "Locked";
    pub locked_why = "Records are sealed. A new case, Anaphylaxis, Quick sums and Rehearsal need no passcode.";
    pub locked_case = "This case is sealed";
    pub locked_page = "This is sealed";
    pub begin = "New case without it";
    pub begin_why = "A patient is waiting? Begin a new case: it is sealed too, and joins the \
    records when you unlock.";

    pub code = "Passcode";
    pub old = "Passcode now";
    pub new = "New passcode";
    pub again = "The same again";
    pub unlock = "Unlock";
    pub working = "One moment";
    pub sealing = "Sealing the records. Keep the app open.";

    pub why = "With a passcode, records, photos and the kit lie sealed on this phone. It is \
    asked for when the app starts, and when nobody has touched it for a while.";
    pub free = "Without it you can still begin a case, and use Anaphylaxis, Quick sums and \
    Rehearsal. A case where a patient is waiting stays in reach, unless the phone closes the app.";
    pub final_heading = "A forgotten passcode is final";
    pub final_label = "Nobody can open the records without it: not you, not us. Keep it where you \
    keep the clinic’s keys.";
    pub strength = "Six characters or more. Six digits stop a curious hand. Against somebody who \
    copies the phone’s storage take four words or more.";
    pub understood = "I know that a forgotten passcode is final";
    pub set = "Set the passcode";
    pub set_done = "Set. Everything is sealed.";
    pub traces = "What was written before may leave traces in the phone’s memory until the \
    browser overwrites it. Values of the clinic and its phone numbers stay open.";

    pub now = "Lock now";
    pub after = "Locks itself after";
    pub change = "Change the passcode";
    pub changed = "Changed.";
    pub clear = "Take the passcode off";
    pub clear_why = "Everything will lie open on this phone again.";
    pub cleared = "Taken off. Records lie open.";
    pub open_state = "Set, and unlocked now.";

    pub short = "Six characters at least.";
    pub differs = "The two are not the same.";
    pub tick_first = "Tick first that you know it is final.";
}

/// After how long it locks itself.
pub fn patience(patience: Patience) -> String {
    time::span(patience.span())
}

/// Why the gate did not do what was asked.
pub fn error(error: &GateError) -> String {
    match error {
        GateError::Wrong => tr!("Not the passcode. Capitals and spaces count."),
        GateError::Wait(span) => wait(*span),
        GateError::NoRandomness => {
            tr!("This browser gives no random numbers. Without them nothing can be sealed.")
        }
        GateError::Refused(why) => {
            tr!("Not done: {why}. Nothing is lost. Try again.", why = app::refusal(why))
        }
    }
}

/// How long to wait before the next try.
pub fn wait(span: Span) -> String {
    tr!("Too many wrong ones. Try again in {time}.", time = time::countdown(span))
}

/// There are keys that this app cannot use.
pub fn broken(why: RingError) -> &'static str {
    spoken(match why {
        RingError::Newer => {
            "A later version of the app sealed the records. Update the app to unlock them."
        }
        RingError::Unreadable | RingError::Wrong => {
            "What is left of the passcode’s keys cannot be read. Sealed records stay as they are."
        }
    })
}
