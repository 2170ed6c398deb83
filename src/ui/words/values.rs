//! The clinic's values: their groups, and what is said about setting one.

use super::{numbers, protocol};
use crate::measure::Span;
use crate::protocol::{Id, Quantity};
use crate::ui::language::spoken;

/// A part of the work that values belong to, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    Skin,
    Test,
    Making,
    Strength,
    Occlusion,
    Between,
    Planned,
    Asked,
    After,
    Reaction,
}

/// In the order of the work.
pub const GROUPS: &[Group] = &[
    Group::Skin,
    Group::Test,
    Group::Making,
    Group::Strength,
    Group::Occlusion,
    Group::Between,
    Group::Planned,
    Group::Asked,
    Group::After,
    Group::Reaction,
];

pub fn group(group: Group) -> &'static str {
    spoken(match group {
        Group::Skin => "Looking at the skin",
        Group::Test => "Skin test",
        Group::Making => "Vials and syringe",
        Group::Strength => "Strength",
        Group::Occlusion => "Occlusion: one round",
        Group::Between => "Occlusion: hour by hour",
        Group::Planned => "Planned work",
        Group::Asked => "Figures asked about twice",
        Group::After => "Afterwards",
        Group::Reaction => "Severe reaction",
    })
}

/// Where a value belongs.
pub const fn group_of(id: Id) -> Group {
    match id {
        Id::RefillPress | Id::RefillAlert | Id::RefillNoise | Id::PainStep => Group::Skin,
        Id::SkinTestLow | Id::SkinTestHigh | Id::SkinTestRead | Id::SkinTestLast => Group::Test,
        Id::VialUnits
        | Id::VialHolds
        | Id::SyringeHolds
        | Id::SyringeMarks
        | Id::VialsAtHand
        | Id::ExpiryNear
        | Id::ExpiryAhead => Group::Making,
        Id::UrgentStrength | Id::PartStrength | Id::AllStrength => Group::Strength,
        Id::Bolus
        | Id::Spacing
        | Id::Margin
        | Id::AreaUnits
        | Id::PerArea
        | Id::RoundLow
        | Id::RoundHigh
        | Id::LeastUnits => Group::Occlusion,
        Id::RoundInterval | Id::RoundsBeforeHandover => Group::Between,
        Id::FillerLow | Id::FillerHigh => Group::Planned,
        Id::AreaQuestion | Id::AreaLimit | Id::FillerQuestion => Group::Asked,
        Id::ReviewDaily
        | Id::ReviewDailyFor
        | Id::ReviewSpaced
        | Id::PlannedReview
        | Id::NewFiller => Group::After,
        Id::ReactionRate | Id::AdrenalineRepeat | Id::RefractoryDoses => Group::Reaction,
    }
}

words! {
    pub title = "Clinic values";
    pub only_new = "A change holds for cases opened from now on. A case keeps the values that it was opened under.";
    pub region = "Adrenaline table";
    pub disputed = "Sources disagree";
    pub fixed = "Stands as published";
    pub fixed_why = "It stands as published and cannot be set here. Where your local protocol says otherwise, follow \
         it and write so in a note.";
    pub disputed_why = "Not every source supports the value supplied. Each says what it says below; your clinic decides.";
    pub save = "Save";
    pub back_to_default = "Back to the value supplied";
    pub nothing_changed = "This is the value in force.";
    pub for_new = "For new cases";
    pub mend = "Put right what is marked.";
    pub type_first = "Type a value first.";
    pub local = "Set these by your local protocol and the label of your product, and have a second person check \
         them: every calculation follows them.";
    pub sources_label = "All sources";
    pub sources_why = "Where a figure was seen in a page that reports the source, it says second hand. Figures without \
         a source say so.";
    pub no_locator = "No identifier was seen";
}

/// The default stands beside a value that the clinic set.
pub fn changed(default: Quantity) -> String {
    tr!("Set here; supplied as {value}", value = numbers::quantity(default))
}

/// How many values the clinic set.
pub fn changed_count(count: usize) -> String {
    match count {
        0 => tr!("All values are as supplied."),
        count => tr!(
            "{count} value is set by this clinic."
                | "{count} values are set by this clinic." % count,
            count = numbers::whole(count)
        ),
    }
}

/// What the value supplied is, and what is accepted.
pub fn bounds(default: Quantity, low: Quantity, high: Quantity) -> String {
    format!(
        "{} {}",
        tr!("Supplied as {value}.", value = numbers::quantity(default)),
        super::typed::out_of_bounds(low, high)
    )
}

/// Why this number, and how many say so.
pub fn why(findings: usize) -> String {
    tr!(
        "Why this number: {count} finding" | "Why this number: {count} findings" % findings,
        count = numbers::whole(findings)
    )
}

/// What was saved.
pub fn saved(id: Id, quantity: Quantity) -> String {
    format!("{}: {}", protocol::value(id), numbers::quantity(quantity))
}

/// The unit of time that a value is typed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tick {
    Days,
    Hours,
    Minutes,
    Seconds,
    /// Seconds with one decimal.
    Tenths,
}

impl Tick {
    /// How long one of it is.
    pub const fn span(self) -> Span {
        match self {
            Self::Days => Span::days(1),
            Self::Hours => Span::hours(1),
            Self::Minutes => Span::minutes(1),
            Self::Seconds => Span::seconds(1),
            Self::Tenths => Span::millis(100),
        }
    }

    /// Its name beside a field.
    pub fn name(self) -> &'static str {
        spoken(match self {
            Self::Days => "days",
            Self::Hours => "hours",
            Self::Minutes => "min",
            Self::Seconds | Self::Tenths => "s",
        })
    }
}

/// The unit beside a field.
pub fn unit(quantity: Quantity, tick: Tick) -> &'static str {
    spoken(match quantity {
        Quantity::Units(_) => "units",
        Quantity::Volume(_) => "mL",
        Quantity::Strength(_) => "units/mL",
        Quantity::Area(_) => "cm²",
        Quantity::Length(_) => "mm",
        Quantity::PerMille(_) => "in 1000",
        Quantity::Span(_) => return tick.name(),
        // An empty text asks a catalogue for what stands at its head.
        Quantity::Count(_) => return "",
    })
}

/// The list of sources, closed until asked for.
pub fn sources(count: usize) -> String {
    tr!("Show {count} source" | "Show {count} sources" % count, count = numbers::whole(count))
}

/// Why the value supplied cannot be taken up again just now.
pub fn no_way_back(default: Quantity, refused: crate::protocol::Refused) -> String {
    tr!(
        "Supplied as {value}, which does not go with the other end of the range now: {reason}",
        value = numbers::quantity(default),
        reason = protocol::refused(refused)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::protocol::Protocol;

    #[test]
    fn every_value_is_in_a_group_that_is_shown_and_no_group_is_empty() {
        let of =
            |group| Protocol::table().iter().filter(|value| group_of(value.id) == group).count();
        let counts: Vec<usize> = GROUPS.iter().map(|group| of(*group)).collect();
        assert!(counts.iter().all(|count| *count > 0), "{counts:?}");
        assert_eq!(counts.iter().sum::<usize>(), Protocol::table().len());
    }
}
