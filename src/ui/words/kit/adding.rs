//! Adding a lot, by hand or from the code on its pack.

use super::{article_full, in_place, printed};
use crate::kit::gs1::Misread;
use crate::kit::{Lot, Place};
use crate::phone::camera::NoCamera;

pub const WHAT: &str = "What is it?";
pub const STRENGTH: &str = "On the vial’s label";
pub const OTHER: &str = "Other";
pub const UNITS: &str = "Units in one vial";
pub const DILUENT: &str = "Which diluent";
pub const HOLDS: &str = "In one container";
pub const SYRINGE: &str = "Size of the syringe";
pub const SYRINGE_HOLDS: &str = "It holds";
pub const PUT: &str = "Where it lies";
pub const KEEP: &str = "Put it in";
pub const BATCH_HINT: &str = "As printed on the pack.";

pub const UNITS_WANTED: &str = "Type the units on the label.";
pub const HOLDS_WANTED: &str = "Type how much it holds.";
pub const UNDATED: &str = "Without it the lot does not count as ready.";

pub const CODE: &str = "Code on the pack";
pub const TYPE_CODE: &str = "Type or paste the code on the pack";
pub const TYPE_CODE_HINT: &str = "All of it, with the numbers in brackets if they are printed.";
pub const READ_CODE: &str = "Fill in from the code";
pub const SCAN: &str = "Scan the pack";
pub const SCAN_STOP: &str = "Stop scanning";
pub const SCANNING: &str = "Hold the square code in the picture, a hand’s breadth away.";
pub const CANNOT_SCAN: &str = "This phone cannot read codes by its camera in this browser. Type \
     what is printed instead.";
pub const OPENING: &str = "The camera is opened; the browser may ask first.";
pub const SEEN: &str = "What the camera sees";
pub const READ: &str = "Read from the code. Compare with what is printed.";
pub const READ_KNOWN: &str = "Read from the code; the article is the one you received before under \
     this number. Compare with what is printed.";

/// Why the camera is not shown.
pub const fn no_camera(why: NoCamera) -> &'static str {
    match why {
        NoCamera::Absent => "No camera is open to this app here. Type the code instead.",
        NoCamera::Refused => {
            "The camera was not allowed. Allow it in the browser’s settings, or type the code."
        }
        NoCamera::Failed => "The camera does not answer; another app may hold it. Type the code.",
        NoCamera::Stopped => "The camera was stopped as the app left the screen.",
    }
}

/// Why a code says nothing that can be relied on.
pub const fn code_misread(misread: Misread) -> &'static str {
    match misread {
        Misread::Empty => "Type or paste the code first.",
        Misread::OtherCode => {
            "That is a code of another kind. Look for the square one, or type what is printed."
        }
        Misread::NothingOfUse => "The code names neither article, batch nor expiry.",
        Misread::Cut => "The code ends too early: something of it is missing.",
        Misread::TooLong => {
            "A part of the code is too long: a sign between two parts is missing. Type it with its \
             brackets."
        }
        Misread::Characters => "The code holds a sign that it may not: compare it with the pack.",
        Misread::CheckDigit => {
            "The article’s number is misread: its check digit does not fit. Nothing was taken over."
        }
        Misread::NoSuchDay => "The code names a day that does not exist. Nothing was taken over.",
        Misread::Contradiction => {
            "The code says one thing twice, and not the same. Nothing was taken over."
        }
    }
}

/// The same lot is there already.
pub fn same(lot: &Lot, count: u32, place: Place) -> String {
    format!(
        "The kit has this lot already: {}, {}, {count} {}.",
        article_full(lot.article),
        printed(&lot.batch, lot.expiry),
        in_place(place)
    )
}

/// Adds to the lot that is there, by a count.
pub fn add_to(there: u32, more: u32) -> String {
    format!("Add to it: then {} lie there", there.saturating_add(more))
}

pub const APART: &str = "Keep it as a lot of its own";
