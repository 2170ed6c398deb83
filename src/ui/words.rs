//! Every word that is shown, in one place: rules return facts, and this says them.
//!
//! One file for each floor or subject that has something to say. Numbers are written here too, so
//! that a quantity looks the same wherever it stands.

/// A sentence with something put into it, in the language in force. Everything that is put in has a
/// name, so that another language can say it in another order.
///
/// `tr!("{reason}, at {hour}", reason = …, hour)`, `tr!("which is meant" => "Open")`, and for a count
/// `tr!("{count} vial" | "{count} vials" % vials, count = …)`.
macro_rules! tr {
    (@value $name:ident) => { &$name };
    (@value $name:ident $value:expr) => { &$value };
    (@given) => { &[] };
    (@given $($name:ident $(= $value:expr)?),+ $(,)?) => {
        &[$((stringify!($name), tr!(@value $name $($value)?) as &dyn ::std::fmt::Display)),+]
    };
    ($context:literal => $text:literal $(, $($given:tt)*)?) => {
        $crate::ui::language::filled(
            $crate::ui::language::spoken_as(Some($context), $text),
            tr!(@given $($($given)*)?),
        )
    };
    ($one:literal | $many:literal % $n:expr $(, $($given:tt)*)?) => {
        $crate::ui::language::filled(
            $crate::ui::language::counted($n, $one, $many),
            tr!(@given $($($given)*)?),
        )
    };
    ($text:literal $(, $($given:tt)*)?) => {
        $crate::ui::language::filled(
            $crate::ui::language::spoken($text),
            tr!(@given $($($given)*)?),
        )
    };
}

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
pub mod language;
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
