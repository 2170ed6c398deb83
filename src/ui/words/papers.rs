//! What leaves the phone of a case.

use super::document::day_hour;
use super::{dilution, numbers, syringe};
use crate::record::label::Label;
use crate::ui::language::unbroken;

words! {
    pub title = "Hand on";
    pub detail = "Note, patient’s sheet, report, label, files";
    pub no_name = "The app puts no patient’s name in. Your own notes go in as you wrote them.";
    pub rehearsed = "A rehearsal has no papers: none of it must lie among real ones.";

    pub read = "To read, print or share";
    pub note = "Clinical note";
    pub note_for = "The whole case, for colleagues and the patient’s file";
    pub patient = "Patient’s sheet";
    pub patient_for = "What to watch for and whom to call, for the patient";
    pub report = "Report of a reaction";
    pub report_for = "What a national form asks, for whoever reports";
    pub label_label = "Syringe label";
    pub label_for = "Text and picture, for the syringe or a label printer";
    pub calendar = "Follow-ups for a calendar";
    pub calendar_for = "When the patient comes back, for the clinic or the patient";

    pub files = "Files";
    pub fhir = "FHIR R4 bundle";
    pub fhir_for = "The case as data, for a clinic’s own system";
    pub case = "Case file";
    pub case_for = "With its chain, to be taken in by this app on another phone";
    pub not_whole = "The record of this case is not whole, so it makes no case file: that would be refused. Save the record from its own page instead.";

    pub failed = "The browser did not take it. Nothing left the phone.";
    pub not_drawn = "This browser draws no picture. Share the text.";

    pub label_close = "Close the label";
    pub label_text = "Share the text";
    pub label_picture = "Share the picture";
    pub by = "Made by: initials or role";
    pub by_hint = "Goes on the label alone. It is not kept.";
    pub syringe_less = "The syringe before";
    pub syringe_more = "The next syringe";
    pub syringe = "Syringe";
    pub label_none = "No solution was made in this case, so there is no label.";
    pub label_file = "syringe-label.png";
}

/// What kind of file the bundle is.
pub const FHIR_KIND: &str = "application/fhir+json";
/// What kind of file the case is.
pub const CASE_KIND: &str = "application/json";

/// How the files of a case begin.
const NAMED: &str = "freshet-";

/// The name of a file of this case, which says nothing of a person.
pub fn file_name(id: &str, ending: &str) -> String {
    format!("{NAMED}{}.{ending}", id.get(..8).unwrap_or(id))
}

/// The picture in words, for those who cannot see it.
pub fn picture_of(lines: &[String]) -> String {
    tr!("Label: {lines}", lines = lines.join("; "))
}

/// The label, line by line. The first is what must be read from afar.
pub fn label(label: &Label, by: &str) -> Vec<String> {
    let by = by.trim();
    let batches = syringe::batches(&label.batches);
    let made = label.made.map_or_else(|| BLANK.to_owned(), day_hour);
    let mut lines = vec![
        format!("{} {}", syringe::drug(), numbers::strength_named(label.strength)),
        tr!(
            "{units} in {volume}",
            units = numbers::units_named(label.contents.units),
            volume = numbers::volume_named(label.contents.volume)
        ),
        dilution::diluent(label.diluent),
        tr!("Batch {batches}", batches),
        tr!("Made {when}", when = made),
        // The monograph asks for use at once; until when one may keep it, no source here says.
        tr!("Use at once; discard by local protocol"),
        tr!("By {who}", who = if by.is_empty() { BLANK } else { by }),
    ];
    let mut last = Vec::new();
    if !label.reference.is_empty() {
        last.push(tr!("Case {reference}", reference = label.reference));
    }
    if label.syringes > 1 {
        last.push(tr!("syringe {number} of {all}", number = label.syringe, all = label.syringes));
    }
    if !last.is_empty() {
        lines.push(last.join(", "));
    }
    lines.iter().map(|line| unbroken(line)).collect()
}

/// Where something is written by hand.
const BLANK: &str = "______________";
