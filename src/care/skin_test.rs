//! The intradermal test before planned work: how much, when to look, and what counts.

use crate::measure::{Length, Span, Strength, Units, Volume};
use crate::protocol::Protocol;
use crate::protocol::intradermal::{
    ALL, BLEB_OF_20_UL, Criterion, LABEL_DOSE, MOST_VOLUME, Reading, Scheme,
};
use crate::protocol::tenfold_slip;
use serde::{Deserialize, Serialize};

/// One way to dose the test at a strength.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Portion {
    /// Units injected.
    pub dose: Units,
    /// Volume that holds them, to the mark of the syringe.
    pub volume: Volume,
    /// More than any guideline injects into the skin.
    pub large: bool,
    /// The dose of the US label.
    pub label: bool,
}

/// The doses that sources use, as volumes of `strength` on a barrel marked every `interval`.
///
/// A dose too small for one mark is left out; so is all of it at zero strength.
pub fn portions(strength: Strength, interval: Volume, protocol: &Protocol) -> Vec<Portion> {
    let mut found: Vec<Portion> = [LABEL_DOSE, protocol.skin_test_low, protocol.skin_test_high]
        .into_iter()
        .filter_map(|wanted| {
            let volume = strength.volume_of(wanted)?.to_mark(interval);
            let dose = strength.units_in(volume);
            (!volume.is_zero()).then_some(Portion {
                dose,
                volume,
                large: volume > MOST_VOLUME,
                label: wanted == LABEL_DOSE && dose == LABEL_DOSE,
            })
        })
        .collect();
    found.dedup_by_key(|portion| portion.volume);
    found
}

/// What was injected.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Placed {
    /// Units injected.
    pub dose: Units,
    /// Volume injected.
    pub volume: Volume,
    /// Bleb right after injection, across. Without it two guidelines cannot be applied.
    pub bleb: Option<Length>,
}

/// What was seen at one look.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[allow(clippy::struct_excessive_bools, reason = "four independent signs")]
pub struct Seen {
    /// Wheal, across; zero if there is none.
    pub wheal: Length,
    /// Redness round the wheal.
    pub flare: bool,
    /// Itching.
    pub itch: bool,
    /// Wheal with branches.
    pub pseudopods: bool,
    /// Signs away from the site: urticaria, breath, collapse.
    pub systemic: bool,
}

/// What is recorded of a test.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Act {
    /// It was injected.
    Place(Placed),
    /// It was looked at.
    Read(Seen),
}

/// What one guideline says of a look.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Call {
    /// Positive.
    Positive,
    /// Not positive.
    Negative,
    /// The guideline reads at another time.
    OtherTime,
    /// The bleb was not measured.
    NoBleb,
}

/// What a look amounts to, all guidelines together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Positive by at least one guideline, or signs away from the site.
    Positive,
    /// Not positive, but not clean either. Treated as not negative.
    Doubtful,
    /// Nothing that any guideline calls positive, and late enough to say so.
    Negative,
    /// Clean, but first seen so late that a reaction may have come and gone.
    TooLate,
    /// Nothing yet.
    TooEarly,
}

/// What each guideline says of `seen`, `after` the test was placed.
pub fn calls(placed: &Placed, seen: &Seen, after: Span) -> Vec<(&'static Reading, Call)> {
    ALL.iter().map(|reading| (reading, call(reading, placed, seen, after))).collect()
}

fn call(reading: &Reading, placed: &Placed, seen: &Seen, after: Span) -> Call {
    // A reading counts from its minute to the end of the last one.
    if after < reading.from || after >= reading.to + Span::minutes(1) {
        return Call::OtherTime;
    }
    match meets(reading.criterion, placed, seen) {
        Some(true) => Call::Positive,
        Some(false) => Call::Negative,
        None => Call::NoBleb,
    }
}

/// Whether a look meets a criterion, whenever it was made; `None` where the bleb is wanting.
fn meets(criterion: Criterion, placed: &Placed, seen: &Seen) -> Option<bool> {
    match criterion {
        Criterion::LargerBy(more) => Some(seen.wheal >= placed.bleb? + more && seen.flare),
        Criterion::TimesBleb(times) => Some(seen.wheal >= placed.bleb?.times(times)),
        Criterion::Wide(least) => Some(seen.wheal >= least),
        Criterion::WideWithErythema(least) => Some(seen.flare && seen.wheal >= least),
        Criterion::PseudopodsAndItch => Some(seen.pseudopods && seen.itch),
    }
}

/// What a look amounts to.
///
/// Redness alone is not positive (US label), yet any wheal larger than the bleb, itch or branches
/// without a guideline's full picture is doubtful. So is what a guideline calls positive when it is
/// still there after that guideline's minute: a look a minute late must not clear anybody.
pub fn judge(placed: &Placed, seen: &Seen, after: Span, protocol: &Protocol) -> Verdict {
    let positive = calls(placed, seen, after).iter().any(|(_, call)| *call == Call::Positive);
    let practice = !seen.wheal.is_zero() && seen.flare && seen.itch;
    // The label's picture comes within minutes of the test: it counts at once.
    let branched = seen.pseudopods && seen.itch;
    if seen.systemic || positive || practice || branched {
        return Verdict::Positive;
    }
    let grown = placed.bleb.map_or(!seen.wheal.is_zero(), |bleb| seen.wheal > bleb);
    let late = ALL.iter().any(|reading| {
        after >= reading.from && meets(reading.criterion, placed, seen) == Some(true)
    });
    if grown || late || seen.itch || seen.pseudopods {
        return Verdict::Doubtful;
    }
    if after < protocol.skin_test_read {
        Verdict::TooEarly
    } else if after < protocol.skin_test_last + Span::minutes(1) {
        Verdict::Negative
    } else {
        Verdict::TooLate
    }
}

/// The verdict of several looks: the worst counts, and only a look late enough can be negative.
pub fn overall(verdicts: &[Verdict]) -> Option<Verdict> {
    let has = |verdict| verdicts.contains(&verdict);
    [Verdict::Positive, Verdict::Doubtful, Verdict::Negative, Verdict::TooLate, Verdict::TooEarly]
        .into_iter()
        .find(|verdict| has(*verdict))
}

/// Why a size cannot be right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Odd {
    /// A decimal sign slipped; what was meant.
    Slip(Length),
    /// Wider than a bleb gets.
    Wide,
}

/// Whether a bleb's size cannot be right. One too wide would make every wheal look small, and a
/// positive test negative.
pub fn odd_bleb(bleb: Length) -> Option<Odd> {
    let (least, _, most) = BLEB_OF_20_UL;
    let slip = tenfold_slip(bleb.raw(), least.raw()..=most.raw());
    // More than is published is injected too, so twice the widest is still a bleb.
    slip.map(|meant| Odd::Slip(Length::tenths(meant)))
        .or_else(|| (bleb > most.times(2)).then_some(Odd::Wide))
}

/// What was meant, if a wheal is smaller than any bleb it could have grown from.
pub fn odd_wheal(wheal: Length) -> Option<Length> {
    let (least, _, most) = BLEB_OF_20_UL;
    (!wheal.is_zero() && wheal < least)
        .then(|| tenfold_slip(wheal.raw(), least.raw()..=most.raw()))
        .flatten()
        .map(Length::tenths)
}

/// Whether a guideline needs the bleb's size.
pub fn needs_bleb(scheme: Scheme) -> bool {
    ALL.iter().any(|reading| {
        reading.scheme == scheme
            && matches!(reading.criterion, Criterion::LargerBy(_) | Criterion::TimesBleb(_))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLACED: Placed =
        Placed { dose: Units::whole(3), volume: Volume::ul(20), bleb: Some(Length::mm(5)) };
    const NOTHING: Seen =
        Seen { wheal: Length::ZERO, flare: false, itch: false, pseudopods: false, systemic: false };

    fn verdict(seen: Seen, minutes: u64) -> Verdict {
        judge(&PLACED, &seen, Span::minutes(minutes), &Protocol::default())
    }

    #[test]
    fn redness_alone_is_not_positive() {
        assert_eq!(verdict(Seen { flare: true, ..NOTHING }, 10), Verdict::TooEarly);
        assert_eq!(verdict(Seen { flare: true, ..NOTHING }, 20), Verdict::Negative);
    }

    #[test]
    fn a_first_look_too_late_clears_nobody() {
        assert_eq!(verdict(NOTHING, 30), Verdict::Negative);
        assert_eq!(verdict(NOTHING, 90), Verdict::TooLate);
        assert_eq!(overall(&[Verdict::Negative, Verdict::TooLate]), Some(Verdict::Negative));
        assert_eq!(overall(&[Verdict::TooEarly, Verdict::TooLate]), Some(Verdict::TooLate));
    }

    #[test]
    fn a_doubtful_look_is_not_negative() {
        let itches = Seen { itch: true, ..NOTHING };
        assert_eq!(verdict(itches, 20), Verdict::Doubtful);
        assert_eq!(overall(&[Verdict::Negative, Verdict::Doubtful]), Some(Verdict::Doubtful));
        assert_eq!(overall(&[]), None);
    }

    #[test]
    fn a_look_a_minute_late_clears_nobody() {
        let wheal = Seen { wheal: Length::mm(5), flare: true, ..NOTHING };
        assert_eq!(verdict(wheal, 14), Verdict::TooEarly, "the bleb itself");
        assert_eq!(verdict(wheal, 15), Verdict::Positive);
        assert_eq!(verdict(wheal, 17), Verdict::Doubtful);
        let placed = Placed { bleb: Some(Length::mm(10)), ..PLACED };
        let seen = Seen { wheal: Length::mm(10), ..NOTHING };
        let at = |minutes| judge(&placed, &seen, Span::minutes(minutes), &Protocol::default());
        assert_eq!((at(30), at(32)), (Verdict::Positive, Verdict::Doubtful));
    }

    #[test]
    fn branches_and_itch_count_before_the_first_reading() {
        let branched = Seen { pseudopods: true, itch: true, ..NOTHING };
        assert_eq!(verdict(branched, 3), Verdict::Positive);
    }

    #[test]
    fn a_wheal_with_redness_and_itch_is_positive() {
        let wheal = Seen { wheal: Length::mm(6), flare: true, itch: true, ..NOTHING };
        assert_eq!(verdict(wheal, 20), Verdict::Positive);
        assert_eq!(verdict(Seen { systemic: true, ..NOTHING }, 1), Verdict::Positive);
    }

    #[test]
    fn without_the_bleb_growth_cannot_be_told() {
        let placed = Placed { bleb: None, ..PLACED };
        let seen = Seen { wheal: Length::mm(4), ..NOTHING };
        let unknown = calls(&placed, &seen, Span::minutes(20))
            .iter()
            .filter(|(_, call)| *call == Call::NoBleb)
            .count();
        assert_eq!(unknown, 3);
        assert_eq!(
            judge(&placed, &seen, Span::minutes(20), &Protocol::default()),
            Verdict::Doubtful
        );
        assert!(needs_bleb(Scheme::Sfar) && !needs_bleb(Scheme::Escd));
    }

    #[test]
    fn a_size_typed_ten_times_wrong_is_asked_about() {
        let slip = |mm| Some(Odd::Slip(Length::mm(mm)));
        assert_eq!(odd_bleb(Length::mm(50)), slip(5));
        assert_eq!(odd_bleb(Length::tenths(5)), slip(5));
        assert_eq!(odd_bleb(Length::mm(500)), Some(Odd::Wide));
        for usual in [2, 5, 10, 14] {
            assert_eq!(odd_bleb(Length::mm(usual)), None);
        }
        assert_eq!(odd_wheal(Length::tenths(9)), Some(Length::mm(9)));
        for wheal in [Length::ZERO, Length::mm(9), Length::mm(40)] {
            assert_eq!(odd_wheal(wheal), None);
        }
    }

    #[test]
    fn volumes_follow_the_strength() {
        let at =
            |strength| portions(Strength::per_ml(strength), Volume::ul(10), &Protocol::default());
        let volumes = |strength| at(strength).iter().map(|p| p.volume.raw()).collect::<Vec<_>>();
        assert_eq!(volumes(150), [20, 100, 200]);
        assert_eq!(volumes(300), [10, 50, 100]);
        assert!(at(150)[1].large && !at(300)[1].large);
        assert!(at(150)[0].label && at(300)[0].label);
        let strong = at(600)[0];
        assert_eq!(
            (strong.dose, strong.label),
            (Units::whole(6), false),
            "to the mark it is twice"
        );
        assert!(at(0).is_empty());
    }
}
