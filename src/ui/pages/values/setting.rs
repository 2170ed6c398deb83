//! One value: what is in force, what the sources say, and setting another.

use super::typing;
use crate::protocol::{Control, Id, Protocol, Quantity};
use crate::ui::desk::use_desk;
use crate::ui::parts::{
    Figure, Figures, GoButton, Note, QuantityField, QuietButton, Sheet, Tone, Why,
};
use crate::ui::words::{self, numbers, typed, values as said};
use leptos::prelude::*;

/// The sheet of the value chosen.
#[component]
pub(super) fn SettingSheet(
    /// Which.
    chosen: RwSignal<Option<Id>>,
    /// What was done, for a few words over the screen.
    told: RwSignal<Option<String>>,
) -> impl IntoView {
    let heading = Signal::derive(move || {
        chosen.get().map(words::protocol::value).unwrap_or_default().to_owned()
    });
    view! {
        <Sheet
            open=Signal::derive(move || chosen.read().is_some())
            on_close=Callback::new(move |()| chosen.set(None))
            heading
            close_label=words::app::close()
        >
            {move || chosen.get().map(|id| view! { <Setting id chosen told /> })}
        </Sheet>
    }
}

#[component]
fn Setting(id: Id, chosen: RwSignal<Option<Id>>, told: RwSignal<Option<String>>) -> impl IntoView {
    let entry = Protocol::entry(id);
    let findings = words::protocol::findings(id);
    let count = findings.len();
    let field = match entry.control {
        Control::Clinic => view! { <Field id chosen told /> }.into_any(),
        Control::Fixed => view! {
            <Figures>
                <Figure label=said::fixed() number=numbers::quantity(entry.default) wide=true />
            </Figures>
            <Note>{said::fixed_why()}</Note>
        }
        .into_any(),
    };
    view! {
        {field}
        {entry.disputed().then(|| view! { <Note tone=Tone::Caution>{said::disputed_why()}</Note> })}
        <Why summary=said::why(count) findings />
    }
}

/// Typing another value, saving it, and going back to the one supplied.
#[component]
fn Field(id: Id, chosen: RwSignal<Option<Id>>, told: RwSignal<Option<String>>) -> impl IntoView {
    let desk = use_desk();
    let entry = Protocol::entry(id);
    let tick = typing::tick(entry);
    let in_force = untrack(|| desk.protocol()).get(id);
    let text = RwSignal::new(typing::shown(in_force, tick));
    let read = move || typing::read(&text.read(), entry.default, tick);
    // Nothing typed is asked for by the button, not called wrong.
    let error = Signal::derive(move || match read() {
        Err(crate::measure::Misread::Empty) => None,
        Err(misread) => Some(typed::misread(&misread)),
        Ok(quantity) => desk.protocol().with(id, quantity).err().map(words::protocol::refused),
    });
    let why_not = Signal::derive(move || match (read(), error.get()) {
        (_, Some(_)) => Some(said::mend().to_owned()),
        (Err(_), None) => Some(said::type_first().to_owned()),
        (Ok(quantity), None) if quantity == desk.protocol().get(id) => {
            Some(said::nothing_changed().to_owned())
        }
        (Ok(_), None) => None,
    });
    let slipped = move || {
        let quantity = read().ok().filter(|_| error.read().is_none())?;
        typing::slip(id, quantity, &desk.protocol()).map(typed::slip)
    };
    let set = move |quantity: Quantity| {
        // The button refuses what is not accepted, so this always is.
        let Ok(changed) = untrack(|| desk.protocol()).with(id, quantity) else { return };
        desk.set_protocol(changed, move || told.set(Some(said::saved(id, quantity))));
        chosen.set(None);
    };
    let save = move |()| {
        if let Ok(quantity) = untrack(read) {
            set(quantity);
        }
    };
    let unit = Some(said::unit(entry.default, tick).to_owned()).filter(|unit| !unit.is_empty());
    let whole = matches!(entry.default, Quantity::Count(_) | Quantity::PerMille(_))
        || matches!(entry.default, Quantity::Span(_)) && tick != said::Tick::Tenths;
    let differs = move || desk.protocol().get(id) != entry.default;
    // Going back may be refused too: a low end above the high end in force.
    let barred = move || desk.protocol().with(id, entry.default).err();
    view! {
        <QuantityField
            label=said::for_new()
            value=text
            on_input=move |input| text.set(input)
            unit
            hint=Some(said::bounds(entry.default, entry.low, entry.high))
            error
            whole
        />
        {move || {
            slipped().map(|asked| view! { <Note tone=Tone::Caution>{asked}</Note> })
        }}
        <GoButton on_press=save why_not>
            {said::save()}
        </GoButton>
        {move || {
            differs()
                .then(|| match barred() {
                    None => view! {
                        <QuietButton on_press=move |()| {
                            set(entry.default);
                        }>{said::back_to_default()}</QuietButton>
                    }
                        .into_any(),
                    Some(refused) => view! {
                        <Note>{said::no_way_back(entry.default, refused)}</Note>
                    }
                        .into_any(),
                })
        }}
        <Note>{said::only_new()}</Note>
    }
}
