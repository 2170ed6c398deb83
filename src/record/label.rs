//! What stands on the label of each syringe of the solution made last.

use super::note::{Local, Note};
use crate::care::dilution::{Contents, Movement};
use crate::case::{Case, Event, Journal};
use crate::measure::Strength;
use crate::protocol::diluent::Diluent;

/// A label's facts. Its words are the screen's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// Which syringe, from 1.
    pub syringe: usize,
    /// Of how many.
    pub syringes: usize,
    /// How strong the solution is.
    pub strength: Strength,
    /// How much of it, and of the enzyme, is in the syringe.
    pub contents: Contents,
    /// What the powder was dissolved in.
    pub diluent: Diluent,
    /// Batches, each once, as far as they were noted.
    pub batches: Vec<String>,
    /// When the syringe was filled, by the clinic's clock then; none for one that is still to be.
    pub made: Option<Local>,
    /// The clinic's reference; empty before it has one.
    pub reference: String,
}

/// The labels of a case; none before a solution was chosen.
pub fn labels(case: &Case, journal: &Journal) -> Vec<Label> {
    let note = Note::of(case, journal, &[], case.last, 0);
    let Some(solution) = note.solutions.last() else { return Vec::new() };
    let plan = &solution.plan;
    let mut batches: Vec<String> = Vec::new();
    for vial in &solution.vials {
        let batch = vial.batch.trim();
        if !batch.is_empty() && batches.iter().all(|known| known != batch) {
            batches.push(batch.to_owned());
        }
    }
    // When each syringe was set aside: what its last movement was, in the solution made last.
    let standing: Vec<_> = case.standing(journal).collect();
    let start = standing.iter().rposition(|entry| matches!(entry.event(), Event::Preparation(_)));
    let made = |syringe: usize| {
        let finish = plan.movements().iter().position(|movement| {
            matches!(movement, Movement::Finish { syringe: number } if *number as usize == syringe)
        })?;
        let mut drew = standing.iter().skip(start.unwrap_or_default()).rev();
        drew.find_map(|entry| match entry.event() {
            Event::Drew(index) if *index as usize == finish => {
                Some(Local::of(entry.at(), entry.body().zone))
            }
            _ => None,
        })
    };
    let syringes = plan.syringes().len();
    (1..)
        .zip(plan.syringes())
        .map(|(syringe, contents)| Label {
            syringe,
            syringes,
            strength: plan.strength(),
            contents: *contents,
            diluent: solution.diluent,
            batches: batches.clone(),
            made: made(syringe),
            reference: note.reference.clone(),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::Journal;
    use crate::measure::{Date, Span};
    use crate::record::samples;

    #[test]
    fn each_syringe_has_its_label() {
        let told = samples::occlusion();
        let case = told.case();
        let labels = labels(&case, &told.journal);
        let made = &case.preparation.as_ref().unwrap().plan;
        assert_eq!(labels.len(), made.syringes().len());
        let first = &labels[0];
        assert_eq!((first.syringe, first.strength), (1, Strength::per_ml(500)));
        assert_eq!(first.batches, ["DEMO-1"]);
        assert_eq!(first.reference, "A-17");
        let in_all = labels.iter().map(|label| label.contents.units).sum();
        assert_eq!(made.delivered().units, in_all);
        // Of the second solution, not of the first.
        let made = first.made.unwrap();
        assert_eq!((made.hour, made.minute), (11, 13));
    }

    #[test]
    fn the_hour_is_that_of_the_clinic_wherever_the_label_is_written() {
        let told = samples::occlusion();
        // The same moments on a clock half a day ahead of the one that the sample tells of.
        let mut east = Journal::new(told.journal.case());
        for entry in told.journal.entries() {
            east.append(entry.at(), samples::ZONE + 12 * 60, entry.event().clone());
        }
        let case = Case::of(&east);
        let made = labels(&case, &east)[0].made.unwrap();
        assert_eq!((made.date, made.hour), (Date::new(2026, 11, 5).unwrap(), 23));
        // What the note says of the same moment.
        let drew = |entry: &&crate::case::Entry| matches!(entry.event(), Event::Drew(_));
        let at = east.entries().iter().rfind(drew).unwrap().at();
        let note = Note::of(&case, &east, &[], case.last.after(Span::hours(1)), -600);
        assert_eq!(made, note.hours.local(at));
    }

    #[test]
    fn each_of_several_syringes_says_which_it_is() {
        let told = samples::drawn();
        let labels = labels(&told.case(), &told.journal);
        let which: Vec<_> = labels.iter().map(|label| (label.syringe, label.syringes)).collect();
        assert_eq!(which, [(1, 2), (2, 2)]);
        assert!(labels.iter().all(|label| label.made.is_some()));
    }

    #[test]
    fn nothing_made_has_no_label() {
        let told = samples::tested();
        assert!(labels(&told.case(), &told.journal).is_empty());
    }
}
