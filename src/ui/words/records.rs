//! Finding a case again, and taking a file in.

use super::document::{count, day_hour};
use super::{numbers, situation, time};
use crate::case::{CaseId, Entry, Fault, Headline, Hit, Journal};
use crate::record::lines::{LARGEST, Unread};
use crate::record::merge::Standing;
use crate::record::note::Local;
use crate::store::Refusal;

words! {
    pub title = "Records";
    pub search = "Reference, batch or date";
    pub search_hint = "A part is enough. A date: 2026, 2026-11 or 25.11.2026.";
    pub open = "Open cases";
    pub closed_label = "Closed cases";
    pub none = "No case on this phone yet.";
    pub nothing_found = "Nothing found. A batch counts as it was typed when the vial was noted.";
    pub all_again = "Show all cases";
    pub more = "Show more";
    pub all = "All records";
    pub unnamed = "Without a reference";

    pub file = "From a file";
    pub choose = "Take a file in";
    pub choose_why = "A record or a backup that this app saved, on this phone or on another. You see what is in it first; nothing here is changed or replaced.";
    pub reading = "Reading the file";
    pub preview = "What is in this file";
    pub not_taken = "This file is not taken in";
    pub nothing_changed = "Nothing was changed.";
    pub leave = "Leave it";
    pub other_file = "Choose another file";
    pub nothing_new = "Nothing in it is new here.";
    pub other_tab = "Another tab writes. Choose “Write here instead” above, then try again.";
    pub clinic = "The clinic’s values and contacts";
    pub kit = "The kit";
    pub whole = "Every entry was checked and follows from the one before.";
    pub no_end = "These are lines alone: they cannot show whether entries after the last are lost. Compare its hour with the phone that they come from. A case file can show it.";
}

/// How many are shown of how many.
pub fn counted(found: usize, all: usize) -> String {
    let cases = if all == 1 { "case" } else { "cases" };
    if found == all { format!("{all} {cases}") } else { format!("{found} of {all} {cases}") }
}

/// How many closed ones lie behind a row.
pub fn closed(count: usize) -> String {
    numbers::count(u32::try_from(count).unwrap_or(u32::MAX), "closed case", "closed cases")
}

/// The name in a list.
pub fn name(line: &Headline) -> String {
    if line.reference.is_empty() { unnamed().to_owned() } else { line.reference.clone() }
}

/// How urgent, and how it stands.
pub fn detail(line: &Headline, state: &str, hits: &[Hit]) -> String {
    let kind = line.urgency.map_or("", situation::urgency);
    let hits = hits.iter().map(hit);
    let parts = [kind.to_owned(), state.to_owned()].into_iter().chain(hits);
    parts.filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ")
}

/// Why it was found, where its name does not say it.
fn hit(hit: &Hit) -> String {
    match hit {
        Hit::Reference => String::new(),
        Hit::Batch(batch) => format!("Batch {batch}"),
        Hit::Opened(day) => format!("Opened {}", time::day(*day)),
        Hit::Closed(day) => format!("Closed {}", time::day(*day)),
    }
}

/// Why a file is not taken.
pub fn unread(why: &Unread) -> String {
    match why {
        Unread::TooLarge => {
            format!(
                "It is larger than {} MB, more than this app reads at once.",
                LARGEST / 1_000_000
            )
        }
        Unread::NotText => "It is not a text, so it is not a record of this app.".to_owned(),
        Unread::Empty => "It is empty.".to_owned(),
        Unread::Foreign => "It is not a record of this app.".to_owned(),
        Unread::Truncated(line) => {
            format!("Entry {line} in it is cut or missing: a part is lost. Save or send it again.")
        }
        Unread::Head => {
            "Its head does not fit its entries: the file was changed or damaged.".to_owned()
        }
        Unread::NewerForm => {
            "It was saved by a later version of the app. Update the app here first.".to_owned()
        }
        Unread::Altered(line) => {
            format!("Entry {line} is not what was recorded: the file was changed or damaged.")
        }
        Unread::Newer(line) => {
            format!(
                "Entry {line} was written by a later version of the app. Update the app here first."
            )
        }
        Unread::NotWhole(case, fault) => {
            let case = case.to_string();
            format!("Case {} in it is not whole: {}.", &case[..8], broken(fault))
        }
    }
}

fn broken(fault: &Fault) -> String {
    match fault {
        Fault::Missing { seq } => format!("its entry {} is missing", seq.saturating_add(1)),
        Fault::BrokenChain { seq } => {
            format!("its entry {} does not follow from the one before", seq.saturating_add(1))
        }
        Fault::Fork { seq, .. } => format!("two entries claim place {}", seq.saturating_add(1)),
    }
}

/// What a file would do to a case here, or to one of the clinic's own journals, which every phone
/// begins for itself.
pub fn standing(id: CaseId, standing: Standing) -> String {
    match (id, standing) {
        (CaseId::CLINIC, Standing::New) => {
            return "Not set on this phone: will be taken in. New cases go by them.".to_owned();
        }
        (CaseId::CLINIC, Standing::Forked(_)) => {
            return "Set on this phone too, apart from the file: kept as they are here. Look through \
                    Clinic values and Whom to call."
                .to_owned();
        }
        (CaseId::KIT, Standing::New) => {
            return "Not begun on this phone: will be taken in, as it was then. Count it through."
                .to_owned();
        }
        (CaseId::KIT, Standing::Forked(_)) => {
            return "Begun on this phone too, apart from the file: kept as it is here. Count it \
                    through."
                .to_owned();
        }
        _ => {}
    }
    let entries = |number: usize| count(number, "entry", "entries");
    match standing {
        Standing::New => "Not on this phone: will be taken in".to_owned(),
        Standing::Same => "Already here, the same".to_owned(),
        Standing::Older(more) => {
            format!("Already here, with {} more than in the file", entries(more))
        }
        Standing::Newer(more) => format!("Here without its last {}: will be added", entries(more)),
        Standing::Forked(common) => format!(
            "Goes on differently here after {}: not taken in. Both may be right; nothing here is \
             replaced.",
            entries(common)
        ),
    }
}

/// A journal that is no case, by name.
pub fn own(id: CaseId) -> Option<&'static str> {
    match id {
        CaseId::CLINIC => Some(clinic()),
        CaseId::KIT => Some(kit()),
        _ => None,
    }
}

/// How many entries, and when the first and the last of them were made, by the clinic's clock then.
pub fn extent(journal: &Journal) -> String {
    let hour = |entry: &Entry| day_hour(Local::of(entry.at(), entry.body().zone));
    let all = journal.entries();
    let entries = count(all.len(), "entry", "entries");
    match all {
        [] => entries,
        [only] => format!("{entries}, {}", hour(only)),
        [first, .., last] => {
            format!("{entries}, the first {}, the last {}", hour(first), hour(last))
        }
    }
}

/// The button that takes a file in.
pub fn take(count: usize) -> String {
    if count == 1 { "Take it in".to_owned() } else { format!("Take in these {count}") }
}

/// Taken in.
pub fn taken(count: usize) -> String {
    if count == 1 { "Taken in.".to_owned() } else { format!("{count} taken in.") }
}

/// Refused by the phone's storage.
pub fn refused(why: &Refusal) -> String {
    format!(
        "Not taken in: {}. {nothing_changed}",
        super::app::refusal(why),
        nothing_changed = nothing_changed()
    )
}
