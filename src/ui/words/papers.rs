//! What leaves the phone of a case.

use super::document::day_hour;
use super::{dilution, numbers, syringe};
use crate::record::label::Label;

pub const TITLE: &str = "Hand on";
pub const DETAIL: &str = "Note, patient’s sheet, report, label, files";
pub const NO_NAME: &str =
    "The app puts no patient’s name in. Your own notes go in as you wrote them.";
pub const REHEARSED: &str = "A rehearsal has no papers: none of it must lie among real ones.";

pub const READ: &str = "To read, print or share";
pub const NOTE: &str = "Clinical note";
pub const NOTE_FOR: &str = "The whole case, for colleagues and the patient’s file";
pub const PATIENT: &str = "Patient’s sheet";
pub const PATIENT_FOR: &str = "What to watch for and whom to call, for the patient";
pub const REPORT: &str = "Report of a reaction";
pub const REPORT_FOR: &str = "What a national form asks, for whoever reports";
pub const LABEL: &str = "Syringe label";
pub const LABEL_FOR: &str = "Text and picture, for the syringe or a label printer";
pub const CALENDAR: &str = "Follow-ups for a calendar";
pub const CALENDAR_FOR: &str = "When the patient comes back, for the clinic or the patient";

pub const FILES: &str = "Files";
pub const FHIR: &str = "FHIR R4 bundle";
pub const FHIR_FOR: &str = "The case as data, for a clinic’s own system";
pub const CASE: &str = "Case file";
pub const CASE_FOR: &str = "With its chain, to be taken in by this app on another phone";
pub const NOT_WHOLE: &str = "The record of this case is not whole, so it makes no case file: that would be refused. Save the record from its own page instead.";

pub const FAILED: &str = "The browser did not take it. Nothing left the phone.";
pub const NOT_DRAWN: &str = "This browser draws no picture. Share the text.";
pub const FHIR_KIND: &str = "application/fhir+json";
pub const CASE_KIND: &str = "application/json";

pub const LABEL_CLOSE: &str = "Close the label";
pub const LABEL_TEXT: &str = "Share the text";
pub const LABEL_PICTURE: &str = "Share the picture";
pub const BY: &str = "Made by: initials or role";
pub const BY_HINT: &str = "Goes on the label alone. It is not kept.";
pub const SYRINGE_LESS: &str = "The syringe before";
pub const SYRINGE_MORE: &str = "The next syringe";
pub const SYRINGE: &str = "Syringe";
pub const LABEL_NONE: &str = "No solution was made in this case, so there is no label.";
pub const LABEL_FILE: &str = "syringe-label.png";

/// The name of a file of this case, which says nothing of a person.
pub fn file_name(id: &str, ending: &str) -> String {
    format!("freshet-{}.{ending}", id.get(..8).unwrap_or(id))
}

/// The picture in words, for those who cannot see it.
pub fn picture_of(lines: &[String]) -> String {
    format!("Label: {}", lines.join("; "))
}

/// The label, line by line. The first is what must be read from afar.
pub fn label(label: &Label, by: &str) -> Vec<String> {
    let by = by.trim();
    let batches = syringe::batches(&label.batches);
    let made = label.made.map_or_else(|| BLANK.to_owned(), day_hour);
    let mut lines = vec![
        format!("{} {}", syringe::DRUG, numbers::strength_named(label.strength)),
        format!(
            "{} in {}",
            numbers::units_named(label.contents.units),
            numbers::volume_named(label.contents.volume)
        ),
        dilution::diluent(label.diluent),
        format!("Batch {batches}"),
        format!("Made {made}"),
        // The monograph asks for use at once; until when one may keep it, no source here says.
        "Use at once; discard by local protocol".to_owned(),
        format!("By {}", if by.is_empty() { BLANK } else { by }),
    ];
    let mut last = Vec::new();
    if !label.reference.is_empty() {
        last.push(format!("Case {}", label.reference));
    }
    if label.syringes > 1 {
        last.push(format!("syringe {} of {}", label.syringe, label.syringes));
    }
    if !last.is_empty() {
        lines.push(last.join(", "));
    }
    lines
}

/// Where something is written by hand.
const BLANK: &str = "______________";
