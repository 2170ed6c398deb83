//! Adding a lot, by hand or from the code on its pack.

use super::{article_full, lie, printed};
use crate::kit::gs1::Misread;
use crate::kit::{Lot, Place};
use crate::phone::camera::NoCamera;
use crate::ui::language::spoken;

words! {
    pub what = "What is it?";
    pub strength = "On the vial’s label";
    pub other = "Other";
    pub units = "Units in one vial";
    pub which_diluent = "Which diluent";
    pub holds = "In one container";
    pub syringe = "Size of the syringe";
    pub syringe_holds = "It holds";
    pub put = "Where it lies";
    pub keep = "Put it in";
    pub batch_hint = "As printed on the pack.";

    pub units_wanted = "Type the units on the label.";
    pub holds_wanted = "Type how much it holds.";
    pub undated_why = "Without it the lot does not count as ready.";

    pub code = "Code on the pack";
    pub type_code = "Type or paste the code on the pack";
    pub type_code_hint = "All of it, with the numbers in brackets if they are printed.";
    pub read_code = "Fill in from the code";
    pub scan = "Scan the pack";
    pub scan_stop = "Stop scanning";
    pub scanning = "Hold the square code in the picture, a hand’s breadth away.";
    pub cannot_scan = "This phone cannot read codes by its camera in this browser. Type \
         what is printed instead.";
    pub opening = "The camera is opened; the browser may ask first.";
    pub seen = "What the camera sees";
    pub read = "Read from the code. Compare with what is printed.";
    pub read_known = "Read from the code; the article is the one you received before under \
         this number. Compare with what is printed.";
}

/// Why the camera is not shown.
pub fn no_camera(why: NoCamera) -> &'static str {
    spoken(match why {
        NoCamera::Absent => "No camera is open to this app here. Type the code instead.",
        NoCamera::Refused => {
            "The camera was not allowed. Allow it in the browser’s settings, or type the code."
        }
        NoCamera::Failed => "The camera does not answer; another app may hold it. Type the code.",
        NoCamera::Stopped => "The camera was stopped as the app left the screen.",
    })
}

/// Why a code says nothing that can be relied on.
pub fn code_misread(misread: Misread) -> &'static str {
    spoken(match misread {
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
    })
}

/// The same lot is there already.
pub fn same(lot: &Lot, count: u32, place: Place) -> String {
    tr!(
        "The kit has this lot already: {article}, {printed}, {there}.",
        article = article_full(lot.article),
        printed = printed(&lot.batch, lot.expiry),
        there = lie(count, place)
    )
}

/// Adds to the lot that is there, by a count.
pub fn add_to(there: u32, more: u32) -> String {
    tr!("Add to it: then {count} lie there", count = there.saturating_add(more))
}

words! {
    pub apart = "Keep it as a lot of its own";
}
