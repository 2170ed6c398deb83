//! Whether the kit would do for an occlusion.

use super::kind;
use crate::kit::Place;
use crate::kit::ready::{Diluent, Have, Runs, Verdict};
use crate::measure::Units;
use crate::ui::language::spoken;
use crate::ui::words::numbers;

words! {
    pub ask = "Ready for an occlusion?";
    pub booked = "This counts what was booked here and is in date, not what lies in the \
         drawer. Look for yourself, on a fixed day. A case takes from here what is noted in it as from \
         the kit, and nothing else: count again after one.";
    pub how = "How it is counted";
    pub how_rounds = "Each round is made from vials of its own, for what is left of a vial \
         is thrown away. What is expired, and what has no expiry noted, does not count. One area, two \
         and three are the rounds of the protocol.";
}

/// The answer in a word or two.
pub fn verdict(verdict: Verdict) -> &'static str {
    spoken(match verdict {
        Verdict::Ready => "Ready",
        Verdict::BelowWish => "Ready, with less than you want",
        Verdict::NotAllNoted => "Not known: not all is noted",
        Verdict::NotReady => "Not ready",
    })
}

/// Which place the answer is for.
pub fn asked_of(place: Option<Place>) -> &'static str {
    spoken(match place {
        None => "Clinic and bag together",
        Some(Place::Clinic) => "The clinic alone",
        Some(Place::Bag) => "The bag alone",
    })
}

/// The name of a figure: rounds of so many units.
pub fn rounds_of(units: Units) -> String {
    tr!("Rounds of {units}", units = numbers::units_named(units))
}

/// So much is there of what is needed or wanted; `None` where it is enough.
pub fn lack(have: &Have) -> Option<String> {
    let (name, there) = (kind(have.kind), have.there);
    if have.needed > 0 && !have.noted {
        Some(tr!("{name}: never noted", name))
    } else if have.lacking() {
        let want = have.wanted.unwrap_or_default().max(have.needed);
        Some(tr!("{name}: {there} of {want}", name, there, want))
    } else if have.below_wish() {
        let want = have.wanted.unwrap_or_default();
        Some(tr!("{name}: {there} of {want} wanted", name, there, want))
    } else {
        None
    }
}

/// Less diluent than the vials of the first round take.
pub fn diluent(diluent: Diluent) -> String {
    tr!(
        "Diluent: {there} of {needed} for the first round",
        there = numbers::volume_named(diluent.there),
        needed = numbers::volume_named(diluent.needed)
    )
}

/// So many lots run out, or have run out.
pub fn runs(runs: Runs, lots: usize) -> String {
    let count = numbers::whole(lots);
    match runs {
        Runs::Out => tr!(
            "{count} lot expired: not counted, to be thrown away"
                | "{count} lots expired: not counted, to be thrown away" % lots,
            count
        ),
        Runs::Near => tr!(
            "{count} lot to be replaced now: the expiry is near"
                | "{count} lots to be replaced now: the expiry is near" % lots,
            count
        ),
        Runs::Ahead => tr!(
            "{count} lot to be thought of: the expiry comes"
                | "{count} lots to be thought of: the expiry comes" % lots,
            count
        ),
    }
}

/// So many lots have no last day noted.
pub fn undated(lots: usize) -> String {
    tr!(
        "{count} lot without an expiry: not counted"
            | "{count} lots without an expiry: not counted" % lots,
        count = numbers::whole(lots)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::Kind;

    #[test]
    fn what_is_short_is_said_with_both_numbers() {
        let have = |there, wanted, needed, noted| {
            lack(&Have { kind: Kind::Needle, there, wanted, needed, noted })
        };
        assert_eq!(have(0, None, 1, false).as_deref(), Some("Needles: never noted"));
        assert_eq!(have(0, None, 1, true).as_deref(), Some("Needles: 0 of 1"));
        assert_eq!(have(0, Some(10), 1, true).as_deref(), Some("Needles: 0 of 10"));
        assert_eq!(have(3, Some(10), 1, true).as_deref(), Some("Needles: 3 of 10 wanted"));
        assert_eq!(have(10, Some(10), 1, true), None);
        assert_eq!(have(0, None, 0, false), None);
    }
}
