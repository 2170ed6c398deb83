//! An occlusion: points, volume and units of one round by the skin without blood.

use super::inputs::{Ask, Field, Inputs, SizeBy};
use super::refuse;
use super::syringe::{Picker, SyringeRow};
use crate::care::dilution::{Syringe, syringes_needed};
use crate::care::dose::{Standing, Urgent, supply, urgent};
use crate::care::territory::{Refused, Size, Territory};
use crate::measure::{Area, Length, Strength, Units};
use crate::protocol::zone::Zone;
use crate::protocol::{Id, Kind, Protocol};
use crate::ui::parts::{Chips, Figure, Figures, Item, Note, Segment, Tone, Why};
use crate::ui::words::{self, numbers, rounds, sums as said};
use leptos::prelude::*;

/// Zones, size, strength and spacing to a round's dose.
#[component]
pub fn ByArea(inputs: Inputs) -> impl IntoView {
    let picking = RwSignal::new(false);
    let sizes = [
        Item::new(SizeBy::Usual, said::usual()),
        Item::new(SizeBy::Typed, said::typed()),
        Item::new(SizeBy::Rectangle, said::rectangle()),
    ];
    let zones = Signal::derive(move || {
        let usual = inputs.size.get() == SizeBy::Usual;
        let name =
            |zone| if usual { said::zone(zone) } else { words::situation::zone(zone).into() };
        Zone::ALL.map(|zone| Item::new(zone, name(zone))).to_vec()
    });
    let toggle = move |(zone, on): (Zone, bool)| {
        inputs.zones.update(|zones| {
            zones.retain(|other| *other != zone);
            if on {
                zones.push(zone);
            }
        });
    };
    let size = move || match inputs.size.get() {
        SizeBy::Usual => Some(Size::Usual),
        SizeBy::Typed => inputs.get::<Area>(Ask::Area).map(Size::Typed),
        SizeBy::Rectangle => {
            let length = inputs.get::<Length>(Ask::Length)?;
            let width = inputs.get::<Length>(Ask::Width)?;
            Some(Size::Rectangle { length, width })
        }
    };
    let skin =
        Memo::new(move |_| Some(Territory::new(inputs.zones.get(), size()?, &inputs.protocol())));
    view! {
        <Note tone=Tone::Danger>{said::emergency()}</Note>
        <Segment
            legend=said::size()
            items=sizes.to_vec()
            value=Signal::derive(move || Some(inputs.size.get()))
            on_choose=move |size| inputs.size.set(size)
        />
        {move || match inputs.size.get() {
            SizeBy::Usual => ().into_any(),
            SizeBy::Typed => {
                view! { <Field<Area> ask=Ask::Area inputs label=said::surface() unit=said::cm2() /> }
                    .into_any()
            }
            SizeBy::Rectangle => {
                view! {
                    <div class="beside">
                        <Field<Length> ask=Ask::Length inputs label=said::length() unit=said::mm() />
                        <Field<Length> ask=Ask::Width inputs label=said::width() unit=said::mm() />
                    </div>
                }
                    .into_any()
            }
        }}
        <Chips legend=said::zones() items=zones value=inputs.zones on_change=toggle />
        <Field<Strength>
            ask=Ask::UrgentStrength
            inputs
            label=said::strength()
            unit=said::per_ml()
            refuse=refuse::strength
        />
        <Field<Length>
            ask=Ask::Spacing
            inputs
            label=said::spacing()
            unit=said::mm()
            refuse=refuse::spacing
        />
        <SyringeRow inputs picking />
        <Picker inputs picking />
        <section aria-live="polite">
            {move || match skin.get() {
                None | Some(Err(Refused::Empty)) => {
                    view! { <p class="hint">{said::type_area()}</p> }.into_any()
                }
                Some(Err(Refused::LargerThanFace { most, .. })) => {
                    view! { <Note tone=Tone::Caution>{said::larger_than_face(most)}</Note> }
                        .into_any()
                }
                Some(Ok(skin)) => view! { <Dose inputs skin /> }.into_any(),
            }}
        </section>
    }
}

/// The dose for a territory, once strength and spacing read well.
#[component]
fn Dose(inputs: Inputs, skin: Territory) -> impl IntoView {
    move || {
        let clinic = inputs.protocol();
        let strength = inputs
            .get::<Strength>(Ask::UrgentStrength)
            .filter(|strength| refuse::strength(&clinic, *strength).is_none());
        let protocol = inputs
            .get::<Length>(Ask::Spacing)
            .and_then(|spacing| clinic.with(Id::Spacing, spacing.wrap()).ok());
        match strength.zip(protocol) {
            Some((strength, protocol)) => {
                let dose = urgent(&skin, strength, &protocol);
                let syringe = inputs.syringe().ok();
                let vial = inputs.get::<Units>(Ask::Vial).unwrap_or(protocol.vial_units);
                view! { <Result skin=skin.clone() dose protocol syringe vial /> }.into_any()
            }
            None => view! { <p class="hint">{said::mend()}</p> }.into_any(),
        }
    }
}

/// Both routes, where they stand, and what they take.
#[component]
fn Result(
    skin: Territory,
    dose: Urgent,
    protocol: Protocol,
    syringe: Option<Syringe>,
    vial: Units,
) -> impl IntoView {
    let plan = dose.plan;
    let volume = plan.volume();
    let syringes = syringe.map(|syringe| syringes_needed(volume, syringe));
    let supplied = supply(dose.by_grid, vial, protocol.vials_at_hand);
    let within = dose.standing == Standing::Within;
    let standing = rounds::standing(dose.standing, &protocol);
    let usual = *skin.size() == Size::Usual;
    let slip = refuse::strength_slip(Some(plan.strength), &protocol);
    let findings = said::findings(&[
        Id::Bolus,
        Id::Spacing,
        Id::AreaUnits,
        Id::PerArea,
        Id::RoundLow,
        Id::RoundHigh,
        Id::LeastUnits,
    ]);
    view! {
        <h2>{said::result()}</h2>
        {slip.map(|asked| view! { <Note tone=Tone::Caution>{asked}</Note> })}
        {skin
            .questioned(&protocol)
            .then(|| {
                view! {
                    <Note tone=Tone::Caution>{said::large_area(protocol.area_question)}</Note>
                }
            })}
        <Figures>
            <Figure
                label=said::by_grid()
                number=numbers::units(dose.by_grid)
                unit=Some(said::units().to_owned())
                note=Some(standing)
                wide=true
            />
            {dose
                .by_areas
                .map(|units| {
                    view! {
                        <Figure
                            label=said::by_areas()
                            number=numbers::units(units)
                            unit=Some(said::units().to_owned())
                            note=Some(said::areas(skin.facial_areas().unwrap_or(0)))
                        />
                    }
                })}
            <Figure
                label=said::by_published()
                number=numbers::units(dose.by_published)
                unit=Some(said::units().to_owned())
                note=Some(said::as_published(protocol.per_area))
            />
            <Figure
                label=said::points()
                number=plan.points.to_string()
                note=Some(said::each(plan.bolus, plan.units_per_point()))
            />
            <Figure
                label=said::volume()
                number=numbers::volume(volume)
                unit=Some(said::ml().to_owned())
                note=syringes.map(said::syringes)
            />
            <Figure
                label=said::surface_is()
                number=numbers::area(skin.area())
                unit=Some(said::cm2().to_owned())
            />
            <Figure
                label=said::vials_needed()
                number=supplied.needed.to_string()
                note=Some(said::supply(supplied, protocol.vials_at_hand))
            />
        </Figures>
        {said::disagree(&dose).map(|words| view! { <Note tone=Tone::Caution>{words}</Note> })}
        {(!within && !dose.remedies.is_empty())
            .then(|| {
                view! {
                    <Note heading=Some(said::remedies().to_owned())>
                        {dose
                            .remedies
                            .iter()
                            .map(|remedy| view! { <p>{rounds::remedy(*remedy)}</p> })
                            .collect_view()}
                    </Note>
                }
            })}
        {usual.then(|| view! { <Note tone=Tone::Caution>{said::usual_hint()}</Note> })}
        <Note>{said::look_again(protocol.round_interval)}</Note>
        <Why summary=said::why_area() findings />
    }
}
