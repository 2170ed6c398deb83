//! Planned work: how many units for so much filler.

use super::inputs::{Ask, Field, Inputs};
use super::refuse;
use crate::care::dose::{self, planned};
use crate::measure::{Strength, Volume};
use crate::protocol::filler_dose::PER;
use crate::ui::parts::{Figure, Figures, Note, Tone, Why};
use crate::ui::words::{numbers, sums as said};
use leptos::prelude::*;

/// Filler, strength and deposit to a dose.
#[component]
pub fn Planned(inputs: Inputs) -> impl IntoView {
    let dose = Memo::new(move |_| {
        let protocol = inputs.protocol();
        let filler = inputs.get::<Volume>(Ask::Filler)?;
        let strength = inputs
            .get::<Strength>(Ask::PlannedStrength)
            .filter(|strength| refuse::strength(&protocol, *strength).is_none())?;
        let deposit = inputs
            .get::<Volume>(Ask::Deposit)
            .filter(|deposit| refuse::deposit(&protocol, *deposit).is_none())?;
        Some((filler, planned(filler, strength, deposit, &protocol)?))
    });
    let strength_slip =
        move || refuse::strength_slip(inputs.get(Ask::PlannedStrength), &inputs.protocol());
    let missing = move || {
        if inputs.get::<Volume>(Ask::Filler).is_some() { said::mend() } else { said::type_filler() }
    };
    view! {
        <Note tone=Tone::Caution>{said::planned_first()}</Note>
        <Field<Volume> ask=Ask::Filler inputs label=said::filler() unit=said::ml() />
        <Field<Strength>
            ask=Ask::PlannedStrength
            inputs
            label=said::strength()
            unit=said::per_ml()
            refuse=refuse::strength
        />
        {move || strength_slip().map(|asked| view! { <Note tone=Tone::Caution>{asked}</Note> })}
        <Field<Volume>
            ask=Ask::Deposit
            inputs
            label=said::deposit()
            unit=said::ml()
            hint=Signal::derive(|| Some(said::deposit_hint().to_owned()))
            refuse=refuse::deposit
        />
        <section aria-live="polite">
            {move || match dose.get() {
                Some((filler, dose)) => view! { <Result inputs filler dose /> }.into_any(),
                None => view! { <p class="hint">{missing()}</p> }.into_any(),
            }}
        </section>
    }
}

/// The dose as a range, and what sources use.
#[component]
fn Result(inputs: Inputs, filler: Volume, dose: dose::Planned) -> impl IntoView {
    let protocol = untrack(|| inputs.protocol());
    view! {
        <h2>{said::result()}</h2>
        {dose
            .questioned
            .then(|| {
                view! {
                    <Note tone=Tone::Caution>{said::much_filler(protocol.filler_question)}</Note>
                }
            })}
        <Figures>
            <Figure
                label=said::dose_range()
                number=numbers::units_range(dose.low, dose.high)
                unit=Some(said::units().to_owned())
                note=Some(
                    said::per_filler(protocol.filler_low, protocol.filler_high, PER),
                )
                wide=true
            />
            <Figure
                label=said::volume()
                number=said::volumes(dose.low_volume, dose.high_volume)
                unit=Some(said::ml().to_owned())
            />
            <Figure
                label=said::deposits()
                number=said::counts(dose.low_deposits, dose.high_deposits)
                note=Some(said::deposit_words(&dose))
            />
        </Figures>
        <Note>{said::filler_spread()}</Note>
        <Why
            summary=said::filler_sources()
            findings=said::filler_reports(filler, PER)
        />
    }
}
