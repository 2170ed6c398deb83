//! Where in a round the syringe is changed.

use super::in_hand;
use crate::measure::Volume;

/// From this point on another syringe is in the hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SyringeChange {
    /// The syringe's number, from 1.
    pub syringe: u32,
    /// The point's number, from 1. Where the syringe before does not hold all of the point before,
    /// that one takes its rest and goes on from this one.
    pub point: u32,
}

/// Where the syringes change, when `used` was injected from them already and the points `ahead` are
/// injected in their order, each with its volume. The syringe in the hand now is not named. Stops
/// where all of them are empty.
pub fn changes(syringes: &[Volume], used: Volume, ahead: &[(u32, Volume)]) -> Vec<SyringeChange> {
    let mut used = used;
    let mut now = in_hand(syringes, used, Volume::ZERO).map(|hand| hand.number);
    let mut found = Vec::new();
    for (point, volume) in ahead {
        let Some(hand) = in_hand(syringes, used, *volume) else { break };
        if now != Some(hand.number) {
            now = Some(hand.number);
            found.push(SyringeChange { syringe: hand.number, point: *point });
        }
        used += *volume;
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ahead(points: std::ops::RangeInclusive<u32>) -> Vec<(u32, Volume)> {
        points.map(|point| (point, Volume::ul(100))).collect()
    }

    #[test]
    fn the_second_syringe_comes_where_the_first_is_empty() {
        let syringes = [Volume::ul(1_000), Volume::ul(400)];
        let second = SyringeChange { syringe: 2, point: 11 };
        assert_eq!(changes(&syringes, Volume::ZERO, &ahead(1..=14)), [second]);
        assert_eq!(changes(&syringes, Volume::ul(900), &ahead(10..=14)), [second]);
        assert_eq!(changes(&syringes, Volume::ul(1_000), &ahead(11..=14)), []);
        assert_eq!(changes(&syringes, Volume::ZERO, &ahead(1..=10)), []);
    }

    #[test]
    fn a_point_that_takes_a_rest_goes_on_from_the_next() {
        let syringes = [Volume::ul(250), Volume::ul(250)];
        let second = SyringeChange { syringe: 2, point: 4 };
        assert_eq!(changes(&syringes, Volume::ZERO, &ahead(1..=9)), [second]);
    }
}
