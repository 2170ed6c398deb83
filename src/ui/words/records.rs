//! Finding a case again, and taking a file in.

use super::document::day_hour;
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
    if found == all {
        tr!("{count} case" | "{count} cases" % all, count = all)
    } else {
        tr!("{found} of {count} case" | "{found} of {count} cases" % all, found, count = all)
    }
}

/// How many closed ones lie behind a row.
pub fn closed(count: usize) -> String {
    tr!("{count} closed case" | "{count} closed cases" % count, count = numbers::whole(count))
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
        Hit::Batch(batch) => tr!("Batch {batch}", batch),
        Hit::Opened(day) => tr!("Opened {day}", day = time::day(*day)),
        Hit::Closed(day) => tr!("Closed {day}", day = time::day(*day)),
    }
}

/// Why a file is not taken.
pub fn unread(why: &Unread) -> String {
    match why {
        Unread::TooLarge => tr!(
            "It is larger than {size} MB, more than this app reads at once.",
            size = LARGEST / 1_000_000
        ),
        Unread::NotText => tr!("It is not a text, so it is not a record of this app."),
        Unread::Empty => tr!("It is empty."),
        Unread::Foreign => tr!("It is not a record of this app."),
        Unread::Truncated(line) => tr!(
            "Entry {line} in it is cut or missing: a part is lost. Save or send it again.",
            line
        ),
        Unread::Head => tr!("Its head does not fit its entries: the file was changed or damaged."),
        Unread::NewerForm => {
            tr!("It was saved by a later version of the app. Update the app here first.")
        }
        Unread::Altered(line) => {
            tr!("Entry {line} is not what was recorded: the file was changed or damaged.", line)
        }
        Unread::Newer(line) => tr!(
            "Entry {line} was written by a later version of the app. Update the app here first.",
            line
        ),
        Unread::NotWhole(case, fault) => {
            let case = case.to_string();
            tr!("Case {case} in it is not whole: {why}.", case = &case[..8], why = broken(fault))
        }
    }
}

fn broken(fault: &Fault) -> String {
    let place = |seq: &u32| seq.saturating_add(1);
    match fault {
        Fault::Missing { seq } => tr!("its entry {place} is missing", place = place(seq)),
        Fault::BrokenChain { seq } => {
            tr!("its entry {place} does not follow from the one before", place = place(seq))
        }
        Fault::Fork { seq, .. } => tr!("two entries claim place {place}", place = place(seq)),
    }
}

/// What a file would do to a case here, or to one of the clinic's own journals, which every phone
/// begins for itself.
pub fn standing(id: CaseId, standing: Standing) -> String {
    match (id, standing) {
        (CaseId::CLINIC, Standing::New) => {
            return tr!("Not set on this phone: will be taken in. New cases go by them.");
        }
        (CaseId::CLINIC, Standing::Forked(_)) => {
            return tr!(
                "Set on this phone too, apart from the file: kept as they are here. Look through \
                 Clinic values and Whom to call."
            );
        }
        (CaseId::KIT, Standing::New) => {
            return tr!(
                "Not begun on this phone: will be taken in, as it was then. Count it through."
            );
        }
        (CaseId::KIT, Standing::Forked(_)) => {
            return tr!(
                "Begun on this phone too, apart from the file: kept as it is here. Count it through."
            );
        }
        _ => {}
    }
    match standing {
        Standing::New => tr!("Not on this phone: will be taken in"),
        Standing::Same => tr!("Already here, the same"),
        Standing::Older(more) => tr!(
            "Already here, with {count} entry more than in the file"
                | "Already here, with {count} entries more than in the file" % more,
            count = numbers::whole(more)
        ),
        Standing::Newer(more) => tr!(
            "Here without its last {count} entry: will be added"
                | "Here without its last {count} entries: will be added" % more,
            count = numbers::whole(more)
        ),
        Standing::Forked(common) => tr!(
            "Goes on differently here after {count} entry: not taken in. Both may be right; nothing \
             here is replaced."
                | "Goes on differently here after {count} entries: not taken in. Both may be right; \
                   nothing here is replaced."
                    % common,
            count = numbers::whole(common)
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
    let entries =
        tr!("{count} entry" | "{count} entries" % all.len(), count = numbers::whole(all.len()));
    match all {
        [] => entries,
        [only] => format!("{entries}, {}", hour(only)),
        [first, .., last] => tr!(
            "{entries}, the first {first}, the last {last}",
            entries,
            first = hour(first),
            last = hour(last)
        ),
    }
}

/// The button that takes a file in.
pub fn take(count: usize) -> String {
    tr!("Take it in" | "Take in these {count}" % count, count)
}

/// Taken in.
pub fn taken(count: usize) -> String {
    tr!("Taken in." | "{count} taken in." % count, count)
}

/// Refused by the phone's storage.
pub fn refused(why: &Refusal) -> String {
    tr!("Not taken in: {why}. Nothing was changed.", why = super::app::refusal(why))
}
