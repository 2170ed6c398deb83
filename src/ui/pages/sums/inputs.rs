//! What is typed into the sums. It lives as long as the app, so that a look at another tab or at
//! the anaphylaxis sheet costs nothing; it is nowhere written down.

use crate::care::dilution::{Syringe, Unfit};
use crate::measure::Typed;
use crate::protocol::zone::Zone;
use crate::protocol::{Id, Protocol, Quantity};
use crate::ui::desk::{Desk, use_desk};
use crate::ui::parts::{MaybeText, QuantityField};
use crate::ui::words::numbers;
use crate::ui::words::typed;
use leptos::prelude::*;
use std::sync::OnceLock;

/// Which sum is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tab {
    #[default]
    Strength,
    Planned,
    Area,
}

/// What is known about a strength.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Way {
    /// The vial and the diluent: which strength is it?
    #[default]
    Made,
    /// The strength: how is it made?
    Wanted,
}

/// How the size of a territory is known.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SizeBy {
    #[default]
    Usual,
    Typed,
    Rectangle,
}

/// A field that is typed into.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ask {
    Vial,
    Diluent,
    Target,
    Dose,
    Filler,
    PlannedStrength,
    Deposit,
    Area,
    Length,
    Width,
    UrgentStrength,
    Spacing,
}

/// How many fields there are.
const FIELDS: usize = Ask::Spacing as usize + 1;

impl Ask {
    /// The clinic's value that an untouched field shows, and whose bounds hold.
    pub const fn value(self) -> Option<Id> {
        match self {
            Self::Vial => Some(Id::VialUnits),
            Self::Target | Self::UrgentStrength => Some(Id::UrgentStrength),
            Self::PlannedStrength => Some(Id::PartStrength),
            Self::Deposit => Some(Id::Bolus),
            Self::Spacing => Some(Id::Spacing),
            Self::Diluent | Self::Dose | Self::Filler | Self::Area | Self::Length | Self::Width => {
                None
            }
        }
    }
}

/// What outlives the page.
#[derive(Default)]
struct Kept {
    tab: ArcRwSignal<Tab>,
    way: ArcRwSignal<Way>,
    vials: ArcRwSignal<u32>,
    syringe: ArcRwSignal<Option<Syringe>>,
    zones: ArcRwSignal<Vec<Zone>>,
    size: ArcRwSignal<SizeBy>,
    texts: [ArcRwSignal<Option<String>>; FIELDS],
}

static KEPT: OnceLock<Kept> = OnceLock::new();

/// The inputs of all sums. Copied freely.
#[derive(Clone, Copy)]
pub struct Inputs {
    pub tab: RwSignal<Tab>,
    pub way: RwSignal<Way>,
    /// Vials dissolved together, less the one that there always is.
    pub more_vials: RwSignal<u32>,
    pub zones: RwSignal<Vec<Zone>>,
    pub size: RwSignal<SizeBy>,
    syringe: RwSignal<Option<Syringe>>,
    texts: StoredValue<[RwSignal<Option<String>>; FIELDS]>,
    desk: Desk,
}

impl Inputs {
    /// As they were left.
    pub fn taken_up() -> Self {
        let kept = KEPT.get_or_init(Kept::default);
        Self {
            tab: kept.tab.clone().into(),
            way: kept.way.clone().into(),
            more_vials: kept.vials.clone().into(),
            zones: kept.zones.clone().into(),
            size: kept.size.clone().into(),
            syringe: kept.syringe.clone().into(),
            texts: StoredValue::new(kept.texts.clone().map(RwSignal::from)),
            desk: use_desk(),
        }
    }

    /// The clinic's values in force.
    pub fn protocol(self) -> Protocol {
        self.desk.protocol()
    }

    /// What was typed into a field; nothing before it was touched.
    fn typed(self, ask: Ask) -> RwSignal<Option<String>> {
        self.texts.with_value(|texts| texts[ask as usize])
    }

    /// What stands in a field: what was typed, or the clinic's value.
    pub fn text(self, ask: Ask) -> String {
        self.typed(ask).get().unwrap_or_else(|| {
            ask.value().map_or_else(String::new, |id| bare(self.protocol().get(id)))
        })
    }

    /// Something was typed.
    pub fn set(self, ask: Ask, text: String) {
        self.typed(ask).set(Some(text));
    }

    /// The quantity typed; nothing while a field is empty.
    ///
    /// # Errors
    /// What is wrong with it, in words.
    pub fn read<T: Typed>(self, ask: Ask) -> Result<Option<T>, String> {
        typed::field(&self.text(ask))
    }

    /// The quantity typed, if it is one.
    pub fn get<T: Typed>(self, ask: Ask) -> Option<T> {
        self.read(ask).ok().flatten()
    }

    /// The syringe chosen, or the clinic's.
    ///
    /// # Errors
    /// [`Unfit`] if the clinic's values name no possible syringe.
    pub fn syringe(self) -> Result<Syringe, Unfit> {
        let protocol = self.protocol();
        self.syringe
            .get()
            .map_or_else(|| Syringe::new(protocol.syringe_holds, protocol.syringe_marks), Ok)
    }

    /// Takes another syringe.
    pub fn take(self, syringe: Syringe) {
        self.syringe.set(Some(syringe));
    }
}

/// A value as one types it.
fn bare(quantity: Quantity) -> String {
    match quantity {
        Quantity::Units(units) => numbers::typed(&units),
        Quantity::Volume(volume) => numbers::typed(&volume),
        Quantity::Strength(strength) => numbers::typed(&strength),
        Quantity::Area(area) => numbers::typed(&area),
        Quantity::Length(length) => numbers::typed(&length),
        Quantity::Span(_) | Quantity::Count(_) | Quantity::PerMille(_) => String::new(),
    }
}

/// A field of the sums.
#[component]
pub fn Field<T: Typed + 'static>(
    /// Which.
    ask: Ask,
    /// The inputs.
    inputs: Inputs,
    /// What is asked.
    label: &'static str,
    /// The unit.
    unit: &'static str,
    /// What helps to answer.
    #[prop(optional, into)]
    hint: MaybeText,
    /// What else may be wrong with the quantity.
    #[prop(optional)]
    refuse: Option<fn(&Protocol, T) -> Option<String>>,
) -> impl IntoView {
    let error = Signal::derive(move || match inputs.read::<T>(ask) {
        Err(error) => Some(error),
        Ok(Some(quantity)) => refuse.and_then(|refuse| refuse(&inputs.protocol(), quantity)),
        Ok(None) => None,
    });
    view! {
        <QuantityField
            label
            value=Signal::derive(move || inputs.text(ask))
            on_input=move |text| inputs.set(ask, text)
            unit=Some(unit.to_owned())
            hint
            error
        />
    }
}
