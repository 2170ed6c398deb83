//! Vial and diluent are known: which strength is it?

use super::inputs::{Ask, Field, Inputs};
use super::refuse;
use crate::care::dilution::strength_of;
use crate::measure::{Strength, Units, Volume};
use crate::protocol::filler_dose::PER;
use crate::protocol::{Id, Kind, PerMille, Protocol, potency};
use crate::ui::parts::{Figure, Figures, Note, Stepper, Tone, Why};
use crate::ui::words::{numbers, sums as said};
use leptos::prelude::*;

/// What was dissolved in what.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Solution {
    vial: Units,
    vials: u32,
    diluent: Volume,
    strength: Strength,
}

impl Solution {
    /// In a vial that holds this part of its label.
    fn at(&self, part: PerMille) -> Option<Strength> {
        let units = self.vial.raw().saturating_mul(u64::from(part.0)) / 1_000;
        strength_of(Units::milli(units), self.vials, self.diluent)
    }

    /// The diluent that would make a usual strength, if the decimal sign of it may have slipped.
    fn slipped(&self, protocol: &Protocol) -> Option<(Volume, Strength)> {
        let strength = refuse::slipped_strength(self.strength, protocol)?;
        let units = self.vial.times(u64::from(self.vials));
        Some((strength.volume_of(units)?, strength))
    }
}

/// Vial and diluent to strength.
#[component]
pub fn Made(inputs: Inputs) -> impl IntoView {
    let vials = Signal::derive(move || inputs.more_vials.get() + 1);
    let most = match Protocol::entry(Id::VialsAtHand).high {
        crate::protocol::Quantity::Count(most) => most,
        _ => u32::MAX,
    };
    let solution = Memo::new(move |_| {
        let vial = inputs.get::<Units>(Ask::Vial)?;
        let diluent = inputs.get::<Volume>(Ask::Diluent)?;
        if refuse::vial(&inputs.protocol(), vial).is_some() {
            return None;
        }
        let strength = strength_of(vial, vials.get(), diluent)?;
        Some(Solution { vial, vials: vials.get(), diluent, strength })
    });
    let vial_slip = move || refuse::vial_slip(inputs.get(Ask::Vial), &inputs.protocol());
    view! {
        <Field<Units>
            ask=Ask::Vial
            inputs
            label=said::vial()
            unit=said::units()
            refuse=refuse::vial
        />
        {move || vial_slip().map(|asked| view! { <Note tone=Tone::Caution>{asked}</Note> })}
        <Stepper
            label=said::vials()
            value=vials
            on_change=move |count: u32| inputs.more_vials.set(count.saturating_sub(1))
            least=1
            most=most
            less_label=said::one_less()
            more_label=said::one_more()
        />
        <Field<Volume> ask=Ask::Diluent inputs label=said::diluent() unit=said::ml() />
        <section aria-live="polite">
            {move || match solution.get() {
                Some(solution) => view! { <Result inputs solution /> }.into_any(),
                None => view! { <p class="hint">{said::type_diluent()}</p> }.into_any(),
            }}
        </section>
    }
}

/// The strength, what a draw of it holds, and where the truth may lie.
#[component]
fn Result(inputs: Inputs, solution: Solution) -> impl IntoView {
    let protocol = untrack(|| inputs.protocol());
    let strength = solution.strength;
    let (low, high) = potency::BAND;
    let band = solution.at(low).zip(solution.at(high));
    let slipped = solution.slipped(&protocol);
    let holds = protocol.vial_holds;
    let too_full = solution.diluent > holds.times(u64::from(solution.vials));
    let known = Strength::unwrap(Protocol::entry(Id::UrgentStrength).high);
    let too_strong = known.filter(|known| strength > *known);
    let bolus = Some(protocol.bolus).filter(|bolus| *bolus != PER);
    let in_volume = move |volume: Volume| {
        view! {
            <Figure
                label=said::in_volume(volume)
                number=numbers::units(strength.units_in(volume))
                unit=Some(said::units().to_owned())
            />
        }
    };
    view! {
        <h2>{said::result()}</h2>
        {slipped
            .map(|(meant, strength)| {
                view! {
                    <Note tone=Tone::Caution>{said::slipped_diluent(meant, strength)}</Note>
                }
            })}
        {too_strong.map(|known| view! { <Note tone=Tone::Caution>{said::too_strong(known)}</Note> })}
        {too_full
            .then(|| {
                view! {
                    <Note tone=Tone::Caution>{said::too_full(holds, solution.vials)}</Note>
                }
            })}
        <Figures>
            <Figure
                label=said::strength()
                number=numbers::strength(strength)
                unit=Some(said::per_ml().to_owned())
                note=said::exactly(strength)
                wide=true
            />
            {in_volume(PER)}
            {bolus.map(in_volume)}
            <Figure
                label=said::in_all()
                number=numbers::units(strength.units_in(solution.diluent))
                unit=Some(said::units().to_owned())
            />
            {band
                .map(|(low, high)| {
                    view! {
                        <Figure
                            label=said::expected_vial()
                            number=said::strengths(low, high)
                            unit=Some(said::per_ml().to_owned())
                        />
                    }
                })}
        </Figures>
        <Why summary=said::why_expected() findings=vec![said::band()] />
    }
}
