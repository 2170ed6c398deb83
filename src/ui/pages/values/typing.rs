//! Typing a clinical value: into the kind that it is, and back.

use crate::measure::{Area, Length, Misread, Span, Strength, Typed, Units, Volume};
use crate::protocol::{Finding, Id, PerMille, Protocol, Quantity, Value, tenfold_slip};
use crate::ui::words::numbers;
use crate::ui::words::values::Tick;
use std::ops::RangeInclusive;

/// The largest unit of time that every bound and the default are whole numbers of.
pub fn tick(value: &Value) -> Tick {
    let spans = [value.default, value.low, value.high].map(Quantity::raw);
    [Tick::Days, Tick::Hours, Tick::Minutes, Tick::Seconds]
        .into_iter()
        .find(|tick| spans.iter().all(|span| span.is_multiple_of(tick.span().as_millis())))
        .unwrap_or(Tick::Tenths)
}

/// A value as one types it: the bare number.
pub fn shown(quantity: Quantity, tick: Tick) -> String {
    match quantity {
        Quantity::Units(units) => numbers::typed(&units),
        Quantity::Volume(volume) => numbers::typed(&volume),
        Quantity::Strength(strength) => numbers::typed(&strength),
        Quantity::Area(area) => numbers::typed(&area),
        Quantity::Length(length) => numbers::typed(&length),
        Quantity::Span(span) if tick == Tick::Tenths => numbers::seconds(span),
        Quantity::Span(span) => (span.as_millis() / tick.span().as_millis()).to_string(),
        Quantity::Count(count) => count.to_string(),
        Quantity::PerMille(part) => part.0.to_string(),
    }
}

/// Reads what was typed as the kind of `like`. Nought is read too: whether it is allowed is for the
/// value's bounds to say, and for some it is.
///
/// # Errors
/// [`Misread`] that names what is wrong.
pub fn read(text: &str, like: Quantity, tick: Tick) -> Result<Quantity, Misread> {
    match read_some(text, like, tick) {
        Err(Misread::Zero) => of_raw(0, like).ok_or(Misread::Zero),
        read => read,
    }
}

fn read_some(text: &str, like: Quantity, tick: Tick) -> Result<Quantity, Misread> {
    Ok(match like {
        Quantity::Units(_) => Quantity::Units(Units::read(text)?),
        Quantity::Volume(_) => Quantity::Volume(Volume::read(text)?),
        Quantity::Strength(_) => Quantity::Strength(Strength::read(text)?),
        Quantity::Area(_) => Quantity::Area(Area::read(text)?),
        Quantity::Length(_) => Quantity::Length(Length::read(text)?),
        Quantity::Span(_) if matches!(tick, Tick::Tenths) => Quantity::Span(Span::read(text)?),
        Quantity::Span(_) => {
            // The unit's name may be typed after the number, as everywhere.
            let text = text.trim();
            let number = text.strip_suffix(tick.name()).unwrap_or(text);
            let count = u64::from(u32::read(number)?);
            Quantity::Span(Span::millis(count.saturating_mul(tick.span().as_millis())))
        }
        Quantity::Count(_) => Quantity::Count(u32::read(text)?),
        Quantity::PerMille(_) => Quantity::PerMille(PerMille(u32::read(text)?)),
    })
}

/// A quantity of the kind of `like` from its finest unit.
fn of_raw(raw: u64, like: Quantity) -> Option<Quantity> {
    Some(match like {
        Quantity::Units(_) => Quantity::Units(Units::milli(raw)),
        Quantity::Volume(_) => Quantity::Volume(Volume::ul(raw)),
        Quantity::Strength(_) => {
            Quantity::Strength(Strength::of(Units::milli(raw), Volume::ml(1))?)
        }
        Quantity::Area(_) => Quantity::Area(Area::mm2(raw)),
        Quantity::Length(_) => Quantity::Length(Length::tenths(raw)),
        Quantity::Span(_) => Quantity::Span(Span::millis(raw)),
        Quantity::Count(_) => Quantity::Count(u32::try_from(raw).ok()?),
        Quantity::PerMille(_) => Quantity::PerMille(PerMille(u32::try_from(raw).ok()?)),
    })
}

/// What sources and the clinic use of a value: from the lowest to the highest that any names.
pub fn usual(id: Id, protocol: &Protocol) -> RangeInclusive<u64> {
    let named = |finding: &Finding| [finding.low.raw(), finding.high.raw()];
    let set = protocol.get(id).raw();
    Protocol::entry(id)
        .findings
        .iter()
        .flat_map(named)
        .fold(set..=set, |range, raw| *range.start().min(&raw)..=*range.end().max(&raw))
}

/// What was meant, if the decimal sign of an unusual number may have slipped.
pub fn slip(id: Id, typed: Quantity, protocol: &Protocol) -> Option<Quantity> {
    of_raw(tenfold_slip(typed.raw(), usual(id, protocol))?, typed)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn every_value_and_bound_reads_back_as_it_is_shown() {
        for value in Protocol::table() {
            let tick = tick(value);
            for quantity in [value.default, value.low, value.high] {
                let text = shown(quantity, tick);
                assert_eq!(read(&text, value.default, tick), Ok(quantity), "{:?} {text}", value.id);
            }
        }
    }

    proptest! {
        /// Whatever is typed is read as the kind of the value, or refused by name.
        #[test]
        fn any_text_is_read_or_refused(
            text in prop_oneof![any::<String>(), "[0-9., minhdays%-]{0,14}"],
            which in any::<prop::sample::Index>(),
        ) {
            let value = which.get(Protocol::table());
            if let Ok(quantity) = read(&text, value.default, tick(value)) {
                prop_assert!(quantity.same_kind(value.default));
                let _ = slip(value.id, quantity, &Protocol::default());
            }
        }
    }

    #[test]
    fn times_are_typed_in_the_unit_that_fits() {
        let tick = |id| tick(Protocol::entry(id));
        assert_eq!(tick(Id::PlannedReview), Tick::Days);
        assert_eq!(tick(Id::RoundInterval), Tick::Minutes);
        assert_eq!(tick(Id::RefillPress), Tick::Seconds);
        assert_eq!(tick(Id::RefillNoise), Tick::Tenths);
        let hour = Protocol::entry(Id::RoundInterval).default;
        assert_eq!(read(" 60 min ", hour, Tick::Minutes), Ok(hour));
        assert_eq!(read("1.5", hour, Tick::Minutes), Err(Misread::TooFine(0)));
    }

    #[test]
    fn a_slipped_decimal_sign_is_asked_about_and_a_usual_figure_is_not() {
        let protocol = Protocol::default();
        let asked = |units| slip(Id::SkinTestLow, Quantity::Units(units), &protocol);
        assert_eq!(asked(Units::milli(1_500)), Some(Quantity::Units(Units::whole(15))));
        assert_eq!(asked(Units::whole(15)), None);
        // One source uses as little as this.
        assert_eq!(asked(Units::whole(3)), None);
    }
}
