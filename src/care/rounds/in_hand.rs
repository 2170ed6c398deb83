//! Which of the prepared syringes is in the hand, and when to take the next.

use crate::measure::Volume;

/// The syringe that the next point is injected from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct InHand {
    /// Its number, from 1.
    pub number: u32,
    /// How many there are.
    pub of: u32,
    /// What is left in it.
    pub left: Volume,
    /// Whole points that this still serves. None left means that the next point takes the rest
    /// of this syringe and goes on from the next.
    pub points: u64,
}

/// The syringe in the hand after `used` was injected from `syringes`, taken in their order, with
/// `bolus` at each point. `None` when all of them are empty.
pub fn in_hand(syringes: &[Volume], used: Volume, bolus: Volume) -> Option<InHand> {
    let mut before = Volume::ZERO;
    for (index, volume) in syringes.iter().enumerate() {
        let upto = before + *volume;
        if upto > used {
            let left = upto.saturating_sub(used);
            let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
            return Some(InHand {
                number: count(index + 1),
                of: count(syringes.len()),
                left,
                points: left.fits(bolus),
            });
        }
        before = upto;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOLUS: Volume = Volume::ul(100);

    fn at(used: u64) -> Option<(u32, Volume, u64)> {
        let syringes = [Volume::ul(1_000), Volume::ul(450)];
        in_hand(&syringes, Volume::ul(used), BOLUS)
            .map(|hand| (hand.number, hand.left, hand.points))
    }

    #[test]
    fn a_syringe_is_changed_when_it_is_empty() {
        assert_eq!(at(0), Some((1, Volume::ul(1_000), 10)));
        assert_eq!(at(900), Some((1, Volume::ul(100), 1)));
        assert_eq!(at(1_000), Some((2, Volume::ul(450), 4)));
        assert_eq!(at(1_400), Some((2, Volume::ul(50), 0)));
        assert_eq!(at(1_450), None);
    }

    #[test]
    fn an_empty_syringe_is_passed_over_and_no_bolus_serves_no_point() {
        let syringes = [Volume::ZERO, Volume::ul(300)];
        let hand = in_hand(&syringes, Volume::ZERO, BOLUS).unwrap();
        assert_eq!((hand.number, hand.of, hand.points), (2, 2, 3));
        assert_eq!(in_hand(&syringes, Volume::ZERO, Volume::ZERO).unwrap().points, 0);
        assert_eq!(in_hand(&[], Volume::ZERO, BOLUS), None);
    }
}
