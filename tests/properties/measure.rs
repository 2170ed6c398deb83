//! Quantities: exact, and read as they are written.

use freshet::measure::{Area, Length, Misread, Strength, Typed, Units, Volume};
use proptest::prelude::*;

proptest! {
    /// Whole units per mL times whole microlitres is exact, and back again.
    #[test]
    fn strength_times_volume_is_exact(strength in 1_u64..10_000, volume in 1_u64..100_000) {
        let units = Strength::per_ml(strength).units_in(Volume::ul(volume));
        prop_assert_eq!(units.raw(), strength * volume);
        prop_assert_eq!(Strength::per_ml(strength).volume_of(units), Some(Volume::ul(volume)));
    }

    /// What a volume holds is the sum of what its parts hold, to one milli-unit for the rounding.
    #[test]
    fn parts_make_the_whole(
        units in 1_u64..10_000_000,
        volume in 2_u64..100_000,
        part in 1_u64..100_000,
    ) {
        let part = part % volume;
        let strength = Strength::of(Units::milli(units), Volume::ul(volume)).unwrap();
        let first = strength.units_in(Volume::ul(part));
        let second = strength.units_in(Volume::ul(volume - part));
        prop_assert!((first + second).gap(Units::milli(units)) <= Units::milli(1));
    }

    /// What is shown can be typed back, with a point or a comma.
    #[test]
    fn reads_what_it_shows(count in 1_u64..900_000) {
        let volume = Volume::ul(count);
        let shown = volume.to_string();
        let comma = shown.replace('.', ",");
        for text in [shown, comma] {
            match Volume::read(&text) {
                Ok(read) => prop_assert_eq!(read, volume),
                // Three digits after a sign may be thousands: asked about, never guessed.
                Err(error) => {
                    let asked = matches!(error, Misread::Ambiguous { .. });
                    prop_assert!(asked, "{text}: {error:?}");
                }
            }
        }
    }

    /// No text makes reading fail otherwise than by saying why.
    #[test]
    fn any_text_is_read_or_refused(text in ".{0,24}") {
        let _ = Volume::read(&text);
        let _ = Units::read(&text);
        let _ = Strength::read(&text);
        let _ = Area::read(&text);
        let _ = u32::read(&text);
    }

    /// A typed quantity is never zero.
    #[test]
    fn nothing_is_never_read(text in "[0-9.,]{1,12}") {
        if let Ok(volume) = Volume::read(&text) {
            prop_assert!(!volume.is_zero());
        }
    }

    /// The nearest mark is on a mark and no further than half an interval.
    #[test]
    fn marks(volume in 0_u64..10_000, interval in 1_u64..500) {
        let (volume, interval) = (Volume::ul(volume), Volume::ul(interval));
        let mark = volume.to_mark(interval);
        prop_assert!(mark.on_mark(interval));
        prop_assert!(mark.gap(volume).times(2) <= interval);
    }

    /// Strengths order as the units in the same volume do.
    #[test]
    fn order(a in 1_u64..1_000_000, b in 1_u64..1_000_000, va in 1_u64..10_000, vb in 1_u64..10_000) {
        let of = |units, volume| Strength::of(Units::milli(units), Volume::ul(volume)).unwrap();
        let (one, two) = (of(a, va), of(b, vb));
        prop_assert_eq!(one.cmp(&two), (a * vb).cmp(&(b * va)));
    }

    /// A rectangle turned on its side has the same area.
    #[test]
    fn rectangles(a in 0_u64..10_000, b in 0_u64..10_000) {
        prop_assert_eq!(
            Length::tenths(a).by(Length::tenths(b)),
            Length::tenths(b).by(Length::tenths(a))
        );
    }
}
