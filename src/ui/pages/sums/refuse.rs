//! What is wrong with a quantity that reads well: outside the bounds of the clinic's values, or
//! perhaps a slip of the decimal sign.

use crate::measure::{Length, Strength, Units, Volume};
use crate::protocol::{Id, Kind, Protocol, tenfold_slip};
use crate::ui::pages::values;
use crate::ui::words::{self, typed};

/// Outside the bounds of a value, in words.
fn outside<T: Kind>(id: Id, quantity: T) -> Option<String> {
    Protocol::entry(id).accepts(quantity.wrap()).err().map(words::protocol::refused)
}

pub fn vial(_: &Protocol, units: Units) -> Option<String> {
    outside(Id::VialUnits, units)
}

/// Strengths of every use: from the weakest to the strongest that any value allows.
pub fn strength(_: &Protocol, strength: Strength) -> Option<String> {
    let bounds = STRENGTHS.map(|id| (Protocol::entry(id).low, Protocol::entry(id).high));
    let low = bounds.iter().map(|(low, _)| *low).min_by_key(|low| low.raw())?;
    let high = bounds.iter().map(|(_, high)| *high).max_by_key(|high| high.raw())?;
    let raw = strength.wrap().raw();
    (raw < low.raw() || raw > high.raw()).then(|| typed::out_of_bounds(low, high))
}

pub fn deposit(_: &Protocol, volume: Volume) -> Option<String> {
    outside(Id::Bolus, volume)
}

pub fn spacing(_: &Protocol, spacing: Length) -> Option<String> {
    outside(Id::Spacing, spacing)
}

/// The values that are strengths.
const STRENGTHS: [Id; 3] = [Id::PartStrength, Id::AllStrength, Id::UrgentStrength];

/// What strength was meant, if this one is unusual and the decimal sign may have slipped. Usual is
/// whatever sources name or the clinic uses.
pub fn slipped_strength(strength: Strength, protocol: &Protocol) -> Option<Strength> {
    let usual = STRENGTHS.map(|id| values::usual(id, protocol));
    let low = usual.iter().map(|range| *range.start()).min()?;
    let high = usual.iter().map(|range| *range.end()).max()?;
    let meant = tenfold_slip(strength.wrap().raw(), low..=high)?;
    Strength::of(Units::milli(meant), Volume::ml(1))
}

/// A question about the strength's decimal sign.
pub fn strength_slip(strength: Option<Strength>, protocol: &Protocol) -> Option<String> {
    slipped_strength(strength?, protocol).map(|meant| typed::slip(meant.wrap()))
}

/// A question about the vial's decimal sign.
pub fn vial_slip(units: Option<Units>, protocol: &Protocol) -> Option<String> {
    values::slip(Id::VialUnits, units?.wrap(), protocol).map(typed::slip)
}
