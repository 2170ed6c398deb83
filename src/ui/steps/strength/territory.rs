//! The skin without blood: zones first, its size for whoever has time.

use crate::care::territory::{Outlined, Size, Territory};
use crate::measure::{Area, Length};
use crate::protocol::zone::Zone;
use crate::protocol::{Id, Protocol, Quantity, tenfold_slip};
use crate::ui::parts::{
    Chips, Finding, Item, Note, Pair, QuantityField, QuietButton, Segment, Tone, Why,
};
use crate::ui::steps::use_here;
use crate::ui::words::strength as said;
use crate::ui::words::{self, numbers, situation, typed};
use leptos::prelude::*;

/// How the size is to be told.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Sizing {
    Usual,
    Typed,
    Rectangle,
    Drawn,
}

/// What is told of the territory so far.
#[derive(Clone, Copy)]
pub struct Skin {
    zones: RwSignal<Vec<Zone>>,
    sizing: RwSignal<Sizing>,
    area: RwSignal<String>,
    length: RwSignal<String>,
    width: RwSignal<String>,
    /// What was drawn.
    outlined: RwSignal<Option<Outlined>>,
    /// An odd size that was looked at again and stands.
    sure: RwSignal<Option<Area>>,
}

impl Skin {
    /// As it was told before.
    pub fn of(territory: Option<&Territory>) -> Self {
        let none = String::new;
        let (sizing, area, length, width) = match territory.map(Territory::size) {
            Some(Size::Typed(area)) => (Sizing::Typed, numbers::typed(area), none(), none()),
            Some(Size::Rectangle { length, width }) => {
                (Sizing::Rectangle, none(), numbers::typed(length), numbers::typed(width))
            }
            Some(Size::Outlined(_)) => (Sizing::Drawn, none(), none(), none()),
            Some(Size::Usual) | None => (Sizing::Usual, none(), none(), none()),
        };
        Self {
            zones: RwSignal::new(territory.map(|skin| skin.zones().to_vec()).unwrap_or_default()),
            sizing: RwSignal::new(sizing),
            area: RwSignal::new(area),
            length: RwSignal::new(length),
            width: RwSignal::new(width),
            outlined: RwSignal::new(territory.and_then(Territory::outlined).cloned()),
            // It was looked at when it was recorded.
            sure: RwSignal::new(territory.map(Territory::area)),
        }
    }

    /// The territory, tracked; or what is missing.
    pub fn read(self, protocol: &Protocol) -> Result<Territory, String> {
        let wanted = || said::size_wanted().to_owned();
        let size = match self.sizing.get() {
            Sizing::Usual => Size::Usual,
            Sizing::Typed => Size::Typed(typed::field(&self.area.read())?.ok_or_else(wanted)?),
            Sizing::Rectangle => Size::Rectangle {
                length: typed::field(&self.length.read())?.ok_or_else(wanted)?,
                width: typed::field(&self.width.read())?.ok_or_else(wanted)?,
            },
            Sizing::Drawn => Size::Outlined(Box::new(self.outlined.get().ok_or_else(wanted)?)),
        };
        Territory::new(self.zones.get(), size, protocol).map_err(said::refused)
    }

    /// Whether a size was typed, not tracked.
    pub fn typed(self) -> bool {
        matches!(self.sizing.get_untracked(), Sizing::Typed | Sizing::Rectangle)
    }

    /// What was drawn, if its size is taken from it; tracked.
    pub fn drawn(self) -> Option<Outlined> {
        self.outlined.get().filter(|_| self.sizing.get() == Sizing::Drawn)
    }

    /// Whether the size is still to be looked at again, tracked.
    pub fn unsure(self, territory: &Territory, protocol: &Protocol) -> bool {
        territory.questioned(protocol) && self.sure.get() != Some(territory.area())
    }
}

/// The zones.
#[component]
pub fn Zones(skin: Skin) -> impl IntoView {
    let items: Vec<Item<Zone>> =
        Zone::ALL.into_iter().map(|zone| Item::new(zone, situation::zone(zone))).collect();
    let change = move |(zone, on): (Zone, bool)| {
        skin.zones.update(|zones| {
            zones.retain(|other| *other != zone);
            if on {
                zones.push(zone);
            }
        });
    };
    view! {
        <Chips legend=said::zones() legend_hidden=true items value=skin.zones on_change=change />
    }
}

/// Its size: usual, typed, or length by width.
#[component]
pub fn SizeFields(
    skin: Skin,
    /// The territory that comes of it.
    territory: Memo<Result<Territory, String>>,
) -> impl IntoView {
    let here = use_here();
    let drawn = skin.outlined.with_untracked(Option::is_some);
    let items: Vec<Item<Sizing>> = drawn
        .then(|| Item::new(Sizing::Drawn, said::drawn_label()))
        .into_iter()
        .chain([
            Item::new(Sizing::Usual, said::usual()),
            Item::new(Sizing::Typed, said::typed()),
            Item::new(Sizing::Rectangle, said::rectangle()),
        ])
        .collect();
    let usual = Signal::derive(move || {
        let zones = skin.zones.get();
        let named = if zones.is_empty() { Zone::ALL.to_vec() } else { zones };
        named.into_iter().map(usual_size).collect::<Vec<_>>()
    });
    let odd = move || {
        let territory = territory.get().ok()?;
        let case = here.case();
        skin.unsure(&territory, &case.protocol).then(|| {
            let area = territory.area();
            view! { <Odd skin area words=said::large(area, &case.protocol) /> }
        })
    };
    view! {
        <Segment
            legend=said::size()
            legend_hidden=true
            items
            value=Signal::derive(move || Some(skin.sizing.get()))
            on_choose=move |sizing| skin.sizing.set(sizing)
        />
        {move || match skin.sizing.get() {
            Sizing::Usual | Sizing::Drawn => ().into_any(),
            Sizing::Typed => {
                view! { <SizeField label=said::area() unit=said::cm2() text=skin.area check={error::<Area>} /> }
                    .into_any()
            }
            Sizing::Rectangle => {
                view! {
                    <div class="beside">
                        <SizeField
                            label=said::length()
                            unit=said::mm()
                            text=skin.length
                            check={error::<Length>}
                        />
                        <SizeField
                            label=said::width()
                            unit=said::mm()
                            text=skin.width
                            check={error::<Length>}
                        />
                    </div>
                }
                    .into_any()
            }
        }}
        {odd}
        <Why summary=said::why_usual() findings=usual>
            <p>{said::usual_is_a_start()}</p>
        </Why>
    }
}

/// What is wrong with the text, if anything is.
fn error<T: crate::measure::Typed>(text: &str) -> Option<String> {
    typed::field::<T>(text).err()
}

#[component]
fn SizeField(
    label: &'static str,
    unit: &'static str,
    text: RwSignal<String>,
    check: fn(&str) -> Option<String>,
) -> impl IntoView {
    view! {
        <QuantityField
            label
            value=text
            unit=Some(unit.to_owned())
            error=Signal::derive(move || check(&text.read()))
            on_input=move |typed| text.set(typed)
        />
    }
}

/// Asks again about a large size, with what may have been meant.
#[component]
fn Odd(skin: Skin, area: Area, words: String) -> impl IntoView {
    let here = use_here();
    // The smallest territory is one cell of the finest grid; the largest one that is not questioned.
    let least = match Protocol::entry(Id::Spacing).low {
        Quantity::Length(finest) => finest.by(finest),
        _ => Area::ZERO,
    };
    let usual = least.raw()..=here.now().protocol.area_question.raw();
    let slipped = (skin.sizing.get_untracked() == Sizing::Typed)
        .then(|| tenfold_slip(area.raw(), usual))
        .flatten()
        .map(Area::mm2);
    view! {
        <Note tone=Tone::Caution>{words}</Note>
        <Pair>
            {slipped
                .map(|meant| {
                    view! {
                        <QuietButton on_press=move |()| skin.area.set(numbers::typed(&meant))>
                            {numbers::area_named(meant)}
                        </QuietButton>
                    }
                })}
            <QuietButton on_press=move |()| skin.sure.set(Some(area))>{said::sure()}</QuietButton>
        </Pair>
    }
}

/// The usual size of a zone and where that is from.
fn usual_size(zone: Zone) -> Finding {
    let (area, basis) = zone.usual();
    Finding {
        figure: numbers::area_named(area),
        setting: situation::zone(zone).to_owned(),
        citation: words::protocol::citation(basis),
        status: words::protocol::status(basis).to_owned(),
    }
}
