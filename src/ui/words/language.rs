//! The language that the app speaks.

use crate::store::habits::Language;
use crate::ui::language::{in_force, spoken};

/// In both languages, for whoever cannot read the one in force.
const BOTH: &str = "Language ·\u{a0}Sprache";

const ENGLISH: &str = "English";
const GERMAN: &str = "Deutsch";

words! {
    pub home_detail = "English, or German that no clinician has reviewed";
    pub unreviewed = "Translation not reviewed by a clinician";
    pub caution = "No clinician has reviewed the German yet. Before it is relied on with a patient, somebody \
                   who treats in both languages has to read it against the English.";
    pub starts_anew = "The app starts again in the language chosen. Cases and running clocks stay as they are.";
    pub choose = "Start again in this language";
    pub same = "It speaks this language already.";
    pub not_kept = "This browser does not keep the choice, so the language stays as it is.";
    pub missed = "The German texts were not at hand when the app started. It speaks English until it can read them.";
    pub again = "Try again";
}

/// What stands at the end of a page or a paper in a language that no clinician has reviewed.
pub fn mark() -> Option<&'static str> {
    (in_force() != Language::English).then(unreviewed)
}

/// The name of the page and of the way to it.
pub const fn home() -> &'static str {
    BOTH
}

/// A language, by its own name.
pub const fn name(language: Language) -> &'static str {
    match language {
        Language::English => ENGLISH,
        Language::German => GERMAN,
    }
}

/// What it is, in the language in force.
pub fn hint(language: Language) -> &'static str {
    spoken(match language {
        Language::English => "As the app was written",
        Language::German => "Complete; not reviewed by a clinician yet",
    })
}
