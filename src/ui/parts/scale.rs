//! The marks of a barrel, and where a volume stands on it. For drawing only: floats of pixels.

use crate::measure::Volume;
use crate::ui::language::number;

/// How long a mark is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rank {
    /// Every mark.
    Short,
    /// Halfway between two long ones.
    Middle,
    /// The round volumes.
    Long,
}

/// One mark of a barrel.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// The volume it stands for.
    pub at: Volume,
    /// How long it is.
    pub rank: Rank,
    /// The numeral beside it.
    pub numeral: Option<String>,
}

/// Marks beyond this number are not a syringe but a mistake.
const MOST_MARKS: u64 = 400;
/// Numerals beyond the zero that stay legible along a barrel.
const MOST_NUMERALS: u64 = 6;
/// Fewer numerals than this leave too long a way between them.
const FEWEST_NUMERALS: u64 = 4;

/// Intervals of a closer look past either end of the marks: enough for the stopper's first ring.
const PAST: f64 = 2.0;

/// The first two digits of an interval that are not zero: 10 µL and 100 µL are both 1.
const fn digits(interval: Volume) -> u64 {
    let mut digits = interval.raw();
    while digits != 0 && digits.is_multiple_of(10) {
        digits /= 10;
    }
    digits
}

/// Every how many marks a long one stands, and a middle one if there is any.
const fn ranks(interval: Volume) -> (u64, Option<u64>) {
    match digits(interval) {
        1 => (10, Some(5)),
        5 => (2, None),
        25 => (4, Some(2)),
        _ => (5, None),
    }
}

/// Every how many marks a numeral stands on a barrel with so many marks.
fn numbered(count: u64, interval: Volume) -> u64 {
    let (long, middle) = ranks(interval);
    if let Some(middle) = middle.filter(|_| count / long < FEWEST_NUMERALS)
        && count / middle <= MOST_NUMERALS
    {
        return middle;
    }
    // Twice, five times, ten times as far apart until they fit.
    [1, 2, 5, 10, 20, 50]
        .map(|times| long * times)
        .into_iter()
        .find(|every| count / every <= MOST_NUMERALS)
        .unwrap_or(count.max(1))
}

/// Decimals that a multiple of `step` needs in millilitres.
pub const fn decimals(step: Volume) -> usize {
    let mut places = Volume::PLACES;
    let mut rest = step.raw();
    while places > 0 && rest != 0 && rest.is_multiple_of(10) {
        rest /= 10;
        places -= 1;
    }
    places
}

/// All marks from zero to the capacity; none if the interval is zero or absurdly small.
pub fn marks(capacity: Volume, interval: Volume) -> Vec<Mark> {
    let count = capacity.fits(interval);
    if count == 0 || count > MOST_MARKS {
        return Vec::new();
    }
    let (long, middle) = ranks(interval);
    let numeral_every = numbered(count, interval);
    let places = decimals(interval.times(numeral_every));
    let mark = |n: u64| {
        let at = interval.times(n);
        let rank = if n.is_multiple_of(long) {
            Rank::Long
        } else if middle.is_some_and(|middle| n.is_multiple_of(middle)) {
            Rank::Middle
        } else {
            Rank::Short
        };
        let numeral = n
            .is_multiple_of(numeral_every)
            .then(|| if n == 0 { "0".to_owned() } else { number(&format!("{at:.places$}")) });
        Mark { at, rank, numeral }
    };
    (0..=count).map(mark).collect()
}

/// A stretch of barrel laid along the x axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ruler {
    /// Where `from` stands.
    pub left: f64,
    /// Where `to` stands.
    pub right: f64,
    /// The volume at the left, in µL; may lie before the zero mark.
    pub from: f64,
    /// The volume at the right, in µL.
    pub to: f64,
}

impl Ruler {
    /// Where a volume stands.
    pub fn x(&self, volume: Volume) -> f64 {
        self.x_of(microlitres(volume))
    }

    /// The same, held inside the stretch.
    pub fn held(&self, volume: Volume) -> f64 {
        self.x(volume).clamp(self.left, self.right)
    }

    /// Whether a volume lies on the stretch.
    pub fn shows(&self, volume: Volume) -> bool {
        (self.from..=self.to).contains(&microlitres(volume))
    }

    /// The width of a volume, wherever it stands.
    pub fn width(&self, volume: Volume) -> f64 {
        microlitres(volume) * self.per_microlitre()
    }

    /// Where so many microlitres stand, also before zero.
    pub fn x_of(&self, microlitres: f64) -> f64 {
        self.left + (microlitres - self.from) * self.per_microlitre()
    }

    fn per_microlitre(&self) -> f64 {
        if self.to > self.from { (self.right - self.left) / (self.to - self.from) } else { 0.0 }
    }

    /// A closer look of `marks` intervals around `aim`, between the two ends. It stays on the
    /// barrel, but for a few intervals before zero and past the last mark.
    pub fn around(
        aim: Volume,
        marks: u32,
        interval: Volume,
        capacity: Volume,
        x: (f64, f64),
    ) -> Self {
        let interval = microlitres(interval);
        let width = f64::from(marks) * interval;
        let past = PAST * interval;
        let last = microlitres(capacity) + past;
        let from = (microlitres(aim) - width / 2.0).min(last - width).max(-past);
        Self { left: x.0, right: x.1, from, to: from + width }
    }
}

/// Microlitres as a float; exact for every volume of a syringe.
#[allow(clippy::cast_precision_loss)]
fn microlitres(volume: Volume) -> f64 {
    volume.raw() as f64
}

/// The share of `whole` that `part` is, 0 to 1.
pub fn share(part: Volume, whole: Volume) -> f64 {
    if whole.is_zero() { 0.0 } else { (microlitres(part) / microlitres(whole)).clamp(0.0, 1.0) }
}

/// What was drawn in order, as stretches from–to: what came first lies at the plunger, what came
/// last at the tip.
pub fn stretches(drawn: &[Volume], plunger: Volume) -> Vec<(Volume, Volume)> {
    let mut to = plunger;
    drawn
        .iter()
        .map(|&volume| {
            let from = to.saturating_sub(volume);
            let stretch = (from, to);
            to = from;
            stretch
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn numerals(capacity: u64, interval: u64) -> Vec<String> {
        let marks = marks(Volume::ul(capacity), Volume::ul(interval));
        marks.into_iter().filter_map(|mark| mark.numeral).collect()
    }

    #[test]
    fn numerals_are_few_and_round_on_every_common_syringe() {
        assert_eq!(numerals(300, 10), ["0", "0.05", "0.10", "0.15", "0.20", "0.25", "0.30"]);
        assert_eq!(numerals(500, 10), ["0", "0.1", "0.2", "0.3", "0.4", "0.5"]);
        assert_eq!(numerals(1_000, 10), ["0", "0.2", "0.4", "0.6", "0.8", "1.0"]);
        assert_eq!(numerals(1_000, 20), ["0", "0.2", "0.4", "0.6", "0.8", "1.0"]);
        assert_eq!(numerals(1_000, 50), ["0", "0.2", "0.4", "0.6", "0.8", "1.0"]);
        assert_eq!(numerals(2_000, 100), ["0", "0.5", "1.0", "1.5", "2.0"]);
        assert_eq!(numerals(3_000, 100), ["0", "0.5", "1.0", "1.5", "2.0", "2.5", "3.0"]);
        assert_eq!(numerals(5_000, 200), ["0", "1", "2", "3", "4", "5"]);
        assert_eq!(numerals(10_000, 500), ["0", "2", "4", "6", "8", "10"]);
    }

    #[test]
    fn every_mark_is_there_and_the_fifth_and_tenth_are_longer() {
        let marks = marks(Volume::ml(1), Volume::ul(10));
        assert_eq!(marks.len(), 101);
        let rank = |n: usize| marks[n].rank;
        assert_eq!([rank(0), rank(10), rank(100)], [Rank::Long; 3]);
        assert_eq!([rank(5), rank(45)], [Rank::Middle; 2]);
        assert_eq!([rank(1), rank(39), rank(99)], [Rank::Short; 3]);
        assert_eq!(marks[40].at, Volume::ul(400));
    }

    #[test]
    fn nonsense_has_no_marks() {
        assert!(marks(Volume::ml(1), Volume::ZERO).is_empty());
        assert!(marks(Volume::ml(10), Volume::ul(1)).is_empty());
        assert!(marks(Volume::ZERO, Volume::ul(10)).is_empty());
    }

    #[test]
    fn a_volume_stands_where_its_share_of_the_barrel_is() {
        let ruler = Ruler { left: 40.0, right: 240.0, from: 0.0, to: 1_000.0 };
        assert!((ruler.x(Volume::ul(400)) - 120.0).abs() < 1e-9);
        assert!((ruler.width(Volume::ul(10)) - 2.0).abs() < 1e-9);
        assert!((ruler.held(Volume::ml(2)) - 240.0).abs() < 1e-9);
    }

    #[test]
    fn the_closer_look_stays_on_the_barrel() {
        let look = |aim| {
            let ruler =
                Ruler::around(Volume::ul(aim), 16, Volume::ul(10), Volume::ml(1), (0.0, 320.0));
            (ruler.from, ruler.to)
        };
        assert_eq!(look(400), (320.0, 480.0));
        assert_eq!(look(10), (-20.0, 140.0));
        assert_eq!(look(1_000), (860.0, 1_020.0));
    }

    #[test]
    fn what_was_drawn_first_lies_at_the_plunger() {
        let drawn = [Volume::ul(400), Volume::ul(600)];
        assert_eq!(
            stretches(&drawn, Volume::ml(1)),
            [(Volume::ul(600), Volume::ml(1)), (Volume::ZERO, Volume::ul(600))]
        );
    }
}
