//! The passcode.

use super::{app, time};
use crate::measure::Span;
use crate::seal::RingError;
use crate::store::gate::GateError;
use crate::store::habits::Patience;

pub const TITLE: &str = "Passcode";
pub const HOME_DETAIL: &str = "Seal the records on this phone";
pub const HOME_SET: &str = "Set: the records are sealed";

pub const LOCKED: &str = "Locked";
pub const LOCKED_WHY: &str =
    "Records are sealed. A new case, Anaphylaxis, Quick sums and Rehearsal need no passcode.";
pub const LOCKED_CASE: &str = "This case is sealed";
pub const LOCKED_PAGE: &str = "This is sealed";
pub const BEGIN: &str = "New case without it";
pub const BEGIN_WHY: &str = "A patient is waiting? Begin a new case: it is sealed too, and joins the \
records when you unlock.";

pub const CODE: &str = "Passcode";
pub const OLD: &str = "Passcode now";
pub const NEW: &str = "New passcode";
pub const AGAIN: &str = "The same again";
pub const UNLOCK: &str = "Unlock";
pub const WORKING: &str = "One moment";
pub const SEALING: &str = "Sealing the records. Keep the app open.";

pub const WHY: &str = "With a passcode, records, photos and the kit lie sealed on this phone. It is \
asked for when the app starts, and when nobody has touched it for a while.";
pub const FREE: &str = "Without it you can still begin a case, and use Anaphylaxis, Quick sums and \
Rehearsal. A case where a patient is waiting stays in reach, unless the phone closes the app.";
pub const FINAL_HEADING: &str = "A forgotten passcode is final";
pub const FINAL: &str = "Nobody can open the records without it: not you, not us. Keep it where you \
keep the clinic’s keys.";
pub const STRENGTH: &str = "Six characters or more. Six digits stop a curious hand. Against somebody who \
copies the phone’s storage take four words or more.";
pub const UNDERSTOOD: &str = "I know that a forgotten passcode is final";
pub const SET: &str = "Set the passcode";
pub const SET_DONE: &str = "Set. Everything is sealed.";
pub const TRACES: &str = "What was written before may leave traces in the phone’s memory until the \
browser overwrites it. Values of the clinic and its phone numbers stay open.";

pub const NOW: &str = "Lock now";
pub const AFTER: &str = "Locks itself after";
pub const CHANGE: &str = "Change the passcode";
pub const CHANGED: &str = "Changed.";
pub const CLEAR: &str = "Take the passcode off";
pub const CLEAR_WHY: &str = "Everything will lie open on this phone again.";
pub const CLEARED: &str = "Taken off. Records lie open.";
pub const OPEN_STATE: &str = "Set, and unlocked now.";

pub const SHORT: &str = "Six characters at least.";
pub const DIFFERS: &str = "The two are not the same.";
pub const TICK_FIRST: &str = "Tick first that you know it is final.";

/// After how long it locks itself.
pub fn patience(patience: Patience) -> String {
    time::span(patience.span())
}

/// Why the gate did not do what was asked.
pub fn error(error: &GateError) -> String {
    match error {
        GateError::Wrong => "Not the passcode. Capitals and spaces count.".to_owned(),
        GateError::Wait(span) => wait(*span),
        GateError::NoRandomness => {
            "This browser gives no random numbers. Without them nothing can be sealed.".to_owned()
        }
        GateError::Refused(why) => {
            format!("Not done: {}. Nothing is lost. Try again.", app::refusal(why))
        }
    }
}

/// How long to wait before the next try.
pub fn wait(span: Span) -> String {
    format!("Too many wrong ones. Try again in {}.", time::countdown(span))
}

/// There are keys that this app cannot use.
pub const fn broken(why: RingError) -> &'static str {
    match why {
        RingError::Newer => {
            "A later version of the app sealed the records. Update the app to unlock them."
        }
        RingError::Unreadable | RingError::Wrong => {
            "What is left of the passcode’s keys cannot be read. Sealed records stay as they are."
        }
    }
}
