//! Which point is taken now, and what is done with it.

use crate::care::allergy::Urgency;
use crate::care::rounds::{Act, Round, SkipReason};
use crate::care::territory::{Outlined, Territory};
use crate::case::Event;
use crate::measure::Volume;
use crate::plane::Spot;
use crate::ui::parts::{Note, Tone};
use crate::ui::skin::RoundDrawing;
use crate::ui::steps::rounds::{Step5, last_act, strike};
use crate::ui::steps::{Here, use_here};
use crate::ui::words::{points as words_of, round_screens as said};
use leptos::prelude::*;

/// A round being injected. Copied freely.
#[derive(Clone, Copy)]
pub struct Taking {
    pub here: Here,
    pub step: Step5,
    pub urgency: Urgency,
    /// The round that runs.
    pub round: Memo<Option<Round>>,
    /// The point that was tapped.
    picked: RwSignal<Option<u32>>,
    /// The point taken now: the one tapped, else the first that is open.
    pub next: Memo<Option<u32>>,
    /// What goes into it.
    pub bolus: Memo<Volume>,
    /// Whether the next tap on the skin adds a point there.
    pub placing: RwSignal<bool>,
    /// What the points lie on, if they lie on skin that was drawn.
    drawn: StoredValue<Option<Outlined>>,
}

impl Taking {
    /// The round that runs in this case.
    pub fn of(step: Step5) -> Self {
        let here = use_here();
        let case = here.now();
        let round = Memo::new(move |_| here.case().treatment.rounds().last().cloned());
        let picked = RwSignal::new(None::<u32>);
        let next = Memo::new(move |_| {
            let round = round.read();
            let round = round.as_ref()?;
            picked.get().filter(|point| round.is_open(*point)).or_else(|| round.next())
        });
        let bolus = Memo::new(move |_| {
            let plan = round.read().as_ref().map(|round| round.plan);
            let point = plan.zip(next.get());
            point.map_or(Volume::ZERO, |(plan, point)| here.case().share(&plan, point))
        });
        let rounds = case.treatment.rounds();
        let on_grid = rounds.last().is_some_and(|round| round.grid.is_some());
        let skin = case.territory_of(rounds.len().saturating_sub(1)).filter(|_| on_grid);
        Self {
            here,
            step,
            urgency: case.urgency().unwrap_or(Urgency::Urgent),
            round,
            picked,
            next,
            bolus,
            placing: RwSignal::new(false),
            drawn: StoredValue::new(skin.and_then(Territory::outlined).cloned()),
        }
    }

    fn on_skin(self) -> bool {
        self.drawn.with_value(Option::is_some)
    }

    fn record(self, act: Act) {
        self.step.taps.once(|| self.here.record(Event::Round(act)));
    }

    /// The next action: the point is injected; with none left, the round is over.
    pub fn press(self) {
        if let Some(point) = self.next.get_untracked() {
            self.record(Act::Inject { point, volume: self.bolus.get_untracked() });
            self.picked.set(None);
        } else {
            self.step.alarm.arm();
            self.record(Act::Finish);
        }
    }

    /// The point is left out.
    pub fn skip(self, reason: SkipReason) {
        if let Some(point) = self.next.get_untracked() {
            self.here.record(Event::Round(Act::Skip { point, reason }));
        }
    }

    /// A point more: on drawn skin the next tap says where; asked again, it is not wanted after all.
    pub fn ask_for_a_point(self) {
        if self.placing.get_untracked() {
            self.placing.set(false);
        } else if self.on_skin() {
            self.placing.set(true);
        } else {
            self.record(Act::Add { spot: None });
        }
    }

    fn add(self, spot: Spot) {
        self.placing.set(false);
        self.record(Act::Add { spot: Some(spot) });
    }

    /// Takes back what was recorded last.
    pub fn undo(self) {
        self.step.taps.once(|| {
            if let Some((entry, _)) = last_act(&untrack(|| self.here.held())) {
                strike(self.here, entry);
            }
        });
    }

    /// What taking back would take back, tracked.
    pub fn undo_words(self) -> String {
        match last_act(&self.here.held()) {
            Some((_, Act::Inject { point, .. } | Act::Skip { point, .. })) => said::undo(point),
            Some((_, Act::Add { .. })) => words_of::undo_add().to_owned(),
            _ => said::not_begun().to_owned(),
        }
    }
}

/// The points as they stand, and what a tap on them means.
#[component]
pub fn Points(
    /// The round; kept aside, for it is large to hand about.
    taking: StoredValue<Taking>,
) -> impl IntoView {
    let taking = taking.get_value();
    let Taking { here, round, next, placing, picked, .. } = taking;
    let on_skin = taking.on_skin();
    view! {
        <RoundDrawing
            round
            drawn=taking.drawn.get_value()
            next
            on_point=move |point| picked.set(Some(point))
            on_skin=move |spot| taking.add(spot)
            placing
        />
        {move || {
            placing.get().then(|| view! { <Note tone=Tone::Caution>{words_of::place_it()}</Note> })
        }}
        <p class="hint">
            {move || {
                let changes = here.case().syringe_changes();
                let pick = on_skin && next.get().is_some() && !placing.get();
                words_of::under_the_drawing(&changes, pick)
            }}
        </p>
    }
}
