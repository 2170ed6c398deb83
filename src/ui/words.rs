//! Every word that is shown, in one place: rules return facts, and this says them.
//!
//! One file for each floor or subject that has something to say. Numbers are written here too, so
//! that a quantity looks the same wherever it stands.

/// Fixed phrases: each becomes a function that says it in the language in force. A phrase whose
/// English means two things says which it is: `pub open = "Open" as "to do";`.
macro_rules! words {
    ($($(#[$doc:meta])* $vis:vis $name:ident = $text:literal $(as $context:literal)?;)*) => {$(
        $(#[$doc])*
        $vis fn $name() -> &'static str {
            $crate::ui::language::spoken_as(None $(.or(Some($context)))?, $text)
        }
    )*};
}

pub mod about;
pub mod adjunct;
pub mod after;
pub mod allergy;
pub mod anaphylaxis;
pub mod app;
pub mod backup;
pub mod contacts;
pub mod debrief;
pub mod dilution;
pub mod document;
pub mod followup;
pub mod handing;
pub mod hour;
pub mod kit;
pub mod lock;
pub mod looking;
pub mod note;
pub mod numbers;
pub mod outline;
pub mod papers;
pub mod patient;
pub mod photos;
pub mod plain;
pub mod points;
pub mod protocol;
pub mod records;
pub mod rehearsal;
pub mod report;
pub mod ringing;
pub mod round_screens;
pub mod rounds;
pub mod sheet;
pub mod situation;
pub mod sketching;
pub mod strength;
pub mod sums;
pub mod syringe;
pub mod theme;
pub mod time;
pub mod timeline;
pub mod typed;
pub mod values;
