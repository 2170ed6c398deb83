//! Every word that is shown, in one place: rules return facts, and this says them.
//!
//! One file for each floor or subject that has something to say. Numbers are written here too, so
//! that a quantity looks the same wherever it stands.

/// A sentence with something put into it, in the language in force: [`tr::tr!`], after everything
/// that is put in has been said. What is put in is often a text itself, and the one place where the
/// language in force stands is not asked again while it is being asked.
///
/// `tr!("{reason}, at {hour}", reason = …, hour)`, `tr!("which is meant" => "Open")`, and for a count
/// `tr!("{count} vial" | "{count} vials" % vials, count = …)`.
macro_rules! tr {
    (@value $name:ident) => { &$name };
    (@value $name:ident $value:expr) => { &$value };
    (@say [$($text:tt)*]) => { ::tr::tr!($($text)*) };
    (@say [$($text:tt)*] $($name:ident $(= $value:expr)?),+ $(,)?) => {
        match ($(tr!(@value $name $($value)?),)+) {
            ($($name,)+) => ::tr::tr!($($text)*, $($name = $name),+),
        }
    };
    ($context:literal => $text:literal $(, $($given:tt)*)?) => {
        tr!(@say [$context => $text] $($($given)*)?)
    };
    ($one:literal | $many:literal % $n:expr $(, $($given:tt)*)?) => {{
        // What is put in may bear the same name.
        let n = $n;
        tr!(@say [$one | $many % n] $($($given)*)?)
    }};
    ($text:literal $(, $($given:tt)*)?) => {
        tr!(@say [$text] $($($given)*)?)
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
