//! What is there, lot by lot: by kind, what runs out first at the top.

use super::{Kit, Sheet};
use crate::case::{CaseId, Headline, Step};
use crate::kit::ready::{Expiring, Runs};
use crate::kit::{Holding, Kind, LotId, Place};
use crate::measure::Date;
use crate::measure::order;
use crate::ui::page::Page;
use crate::ui::parts::{Icon, Note, Row, Rows, Sign};
use crate::ui::words::kit as said;
use leptos::prelude::*;

/// What is to be minded about a lot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// Past its last day.
    Expired(Date),
    /// Its last day comes soon: in so many days.
    Soon(u32),
    /// Its last day comes in so many days, in time to order.
    Ahead(u32),
    /// So many more were taken than had been booked.
    Short(u32),
    /// Nobody noted its last day, so it does not count.
    Undated,
}

impl State {
    /// How it looks.
    pub const fn class(self) -> &'static str {
        match self {
            Self::Expired(_) => "harm",
            Self::Soon(_) | Self::Short(_) | Self::Undated => "caution",
            Self::Ahead(_) => "plain",
        }
    }

    /// Its sign.
    pub const fn icon(self) -> Icon {
        match self {
            Self::Expired(_) => Icon::Stop,
            Self::Soon(_) | Self::Short(_) | Self::Undated => Icon::Warning,
            Self::Ahead(_) => Icon::Planned,
        }
    }

    /// Its words.
    pub fn words(self) -> String {
        match self {
            Self::Expired(last) => said::expired(last),
            Self::Soon(days) | Self::Ahead(days) => said::expires_in(days),
            Self::Short(count) => said::short(count),
            Self::Undated => said::undated_lot().to_owned(),
        }
    }
}

/// What is to be minded about a lot today.
pub fn state_of(holding: &Holding, today: Date, expiring: &[Expiring]) -> Vec<State> {
    let mut states = Vec::new();
    if let Some(one) = expiring.iter().find(|one| one.lot == holding.id) {
        let days = u32::try_from(today.days_until(one.last)).unwrap_or_default();
        states.push(match one.runs {
            Runs::Out => State::Expired(one.last),
            Runs::Near => State::Soon(days),
            Runs::Ahead => State::Ahead(days),
        });
    }
    if holding.left() > 0 && holding.lot.expiry.is_none() {
        states.push(State::Undated);
    }
    if holding.short > 0 {
        states.push(State::Short(holding.short));
    }
    states
}

/// How many of a lot lie where one looks.
fn there(holding: &Holding, place: Option<Place>) -> u32 {
    place.map_or_else(|| holding.left(), |place| holding.at(place))
}

/// The lots of a kind that are to be shown, the first to expire first, those without a date last.
fn shown(holdings: &[Holding], kind: Kind, place: Option<Place>) -> Vec<Holding> {
    let of_kind = holdings.iter().filter(|holding| holding.lot.article.kind() == kind);
    let some = of_kind.filter(|holding| there(holding, place) > 0 || holding.short > 0);
    let mut lots: Vec<Holding> = some.cloned().collect();
    order::by_key(&mut lots, |holding| holding.lot.expiry.unwrap_or(Date::MAX));
    lots
}

/// Lots of which nothing is left anywhere, the last that came in first.
fn used_up(holdings: &[Holding]) -> Vec<Holding> {
    let gone = |holding: &&Holding| holding.left() == 0 && holding.short == 0;
    holdings.iter().rev().filter(gone).cloned().collect()
}

/// Before the first entry.
#[component]
pub fn Empty() -> impl IntoView {
    view! {
        <section class="kit-empty">
            <h2>{said::empty()}</h2>
            <p>{said::empty_why()}</p>
        </section>
    }
}

/// Everything that is there.
#[component]
pub fn Lots(kit: Kit) -> impl IntoView {
    let kinds = Memo::new(move |_| -> Vec<(Kind, Vec<Holding>)> {
        let (stock, place) = (kit.stock.read(), kit.place.get());
        let of = |kind| (kind, shown(stock.holdings(), kind, place));
        Kind::ALL.map(of).into_iter().filter(|(_, lots)| !lots.is_empty()).collect()
    });
    let gone = Memo::new(move |_| used_up(kit.stock.read().holdings()));
    let group = move |(kind, lots): (Kind, Vec<Holding>)| {
        view! {
            <section>
                <h2>{said::kind(kind)}</h2>
                <Rows>
                    {lots.into_iter().map(|holding| view! { <Lot kit holding /> }).collect_view()}
                </Rows>
            </section>
        }
    };
    view! {
        {move || {
            let kinds = kinds.get();
            if kinds.is_empty() && kit.place.get().is_some() {
                view! { <Note>{said::none_here()}</Note> }.into_any()
            } else {
                kinds.into_iter().map(group).collect_view().into_any()
            }
        }}
        {move || {
            let gone = gone.get();
            (!gone.is_empty())
                .then(|| {
                    let lot = |holding| view! { <Lot kit holding /> };
                    let lots: Vec<_> = gone.into_iter().map(lot).collect();
                    view! {
                        <details class="more">
                            <summary>{said::used_up()}</summary>
                            <Rows>{lots}</Rows>
                        </details>
                    }
                })
        }}
    }
}

/// Cases that opened vials and did not note them; each leads to where it is done. Of one that was put
/// away before they were counted it is not known yet, and the page says so.
#[component]
pub fn Unnoted(kit: Kit) -> impl IntoView {
    let lines = Memo::new(move |_| kit.desk.headlines());
    let cases = Memo::new(move |_| -> Vec<(CaseId, String, usize)> {
        let case = |line: &Headline| {
            let count = line.unnoted.filter(|count| *count > 0)?;
            Some((line.id, line.reference.clone(), count))
        };
        lines.read().iter().filter_map(case).collect()
    });
    let unknown =
        Memo::new(move |_| lines.read().iter().filter(|line| line.unnoted.is_none()).count());
    let row = move |(case, reference, count): (CaseId, String, usize)| {
        let to = move |()| kit.go.to(Page::Case(case, Some(Step::Syringe)));
        view! { <Row label=said::case(&reference) trailing=Some(said::unnoted(count)) on_press=to /> }
    };
    move || {
        let (cases, unknown) = (cases.get(), unknown.get());
        (!cases.is_empty() || unknown > 0).then(|| {
            let unknown = (unknown > 0).then(|| said::unnoted_unknown(unknown));
            view! {
                <section>
                    <h2>{said::unnoted_label()}</h2>
                    <p class="hint">{said::unnoted_why()}</p>
                    {unknown.map(|words| view! { <p class="hint">{words}</p> })}
                    <Rows>{cases.into_iter().map(row).collect_view()}</Rows>
                </section>
            }
        })
    }
}

/// One lot in the list.
#[component]
fn Lot(kit: Kit, holding: Holding) -> impl IntoView {
    let id: LotId = holding.id;
    let states = state_of(&holding, kit.today.get(), &kit.expiring.read());
    let counts: Vec<_> = Place::ALL
        .into_iter()
        .filter(|place| holding.at(*place) > 0)
        .map(|place| {
            view! {
                <span class="lot-count">
                    <span class="unit">{said::place(place)} " "</span>
                    {holding.at(place)}
                </span>
            }
        })
        .collect();
    view! {
        <button type="button" class="row lot" on:click=move |_| kit.sheet.set(Sheet::Lot(id))>
            <span class="row-line">
                <span class="row-words">
                    <span class="row-name">{said::article(holding.lot.article)}</span>
                    <span class="row-detail">
                        {said::printed(&holding.lot.batch, holding.lot.expiry)}
                    </span>
                    {states.into_iter().map(badge).collect_view()}
                </span>
                <span class="lot-counts">{counts}</span>
            </span>
            <Sign icon=Icon::Onward />
        </button>
    }
}

/// What is to be minded, by sign and word.
pub fn badge(state: State) -> impl IntoView {
    view! {
        <span class=format!("lot-state {}", state.class())>
            <Sign icon=state.icon() />
            {state.words()}
        </span>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::allergy::Species;
    use crate::kit::ready::readiness;
    use crate::kit::{Act, Article, Done, Lot, Source, Stock, Taking};
    use crate::measure::{Hash, Moment, Units};
    use crate::protocol::Protocol;

    fn day(year: i16, month: i8, day: i8) -> Date {
        Date::new(year, month, day).unwrap()
    }

    fn lot(batch: &str, expiry: Option<Date>, count: u32) -> Act {
        let units = Units::whole(1_500);
        Act::Received(Box::new(Lot {
            article: Article::Hyaluronidase { units, species: Species::Ovine },
            batch: batch.into(),
            expiry,
            gtin: None,
            place: Place::Clinic,
            count,
        }))
    }

    fn stock(acts: &[Act], taken: &[Taking]) -> Stock {
        let at = Moment::from_millis(0);
        let done = acts.iter().zip(0_u32..).map(|(act, n)| Done { id: name(n), at, act });
        Stock::of(done, taken)
    }

    fn name(n: u32) -> LotId {
        LotId(Hash::of(&n.to_le_bytes()))
    }

    #[test]
    fn the_first_to_expire_is_at_the_top_and_what_is_not_there_is_not_shown() {
        let acts = [
            lot("C", None, 1),
            lot("B", Some(day(2027, 9, 30)), 1),
            lot("A", Some(day(2027, 1, 31)), 1),
            Act::Moved { lot: name(2), to: Place::Bag, count: 1 },
            lot("Z", Some(day(2026, 1, 31)), 0),
        ];
        let stock = stock(&acts, &[]);
        let batches = |place| -> Vec<String> {
            let lots = shown(stock.holdings(), Kind::Hyaluronidase, place);
            lots.into_iter().map(|holding| holding.lot.batch).collect()
        };
        assert_eq!(batches(None), ["A", "B", "C"]);
        assert_eq!(batches(Some(Place::Bag)), ["A"]);
        assert_eq!(batches(Some(Place::Clinic)), ["B", "C"]);
        assert!(shown(stock.holdings(), Kind::Diluent, None).is_empty());
        assert_eq!(used_up(stock.holdings()).len(), 1);
    }

    #[test]
    fn what_is_to_be_minded_is_said_in_time() {
        let today = day(2026, 11, 26);
        let of = |expiry| {
            let stock = stock(&[lot("A", expiry, 1)], &[]);
            let worth = readiness(&stock, None, today, &Protocol::default());
            state_of(&stock.holdings()[0], today, &worth.expiring)
        };
        assert_eq!(of(None), [State::Undated]);
        assert_eq!(of(Some(day(2026, 11, 25))), [State::Expired(day(2026, 11, 25))]);
        assert_eq!(of(Some(today)), [State::Soon(0)]);
        assert_eq!(of(Some(day(2026, 12, 8))), [State::Soon(12)]);
        assert_eq!(of(Some(day(2027, 1, 31))), [State::Ahead(66)]);
        assert_eq!(of(Some(day(2027, 11, 26))), []);
    }

    #[test]
    fn what_was_taken_unbooked_is_shown_though_none_is_left() {
        let from = Source { lot: name(0), place: Place::Clinic };
        let taking = Taking { at: Moment::from_millis(1), from };
        let stock = stock(&[lot("A", None, 1)], &[taking, taking]);
        let lots = shown(stock.holdings(), Kind::Hyaluronidase, None);
        assert_eq!(lots.len(), 1);
        let today = day(2026, 11, 26);
        assert_eq!(state_of(&lots[0], today, &[]), [State::Short(1)]);
        assert!(used_up(stock.holdings()).is_empty());
    }
}
