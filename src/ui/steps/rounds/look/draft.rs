//! What is being taken down at a look, kept while another page is shown: the anaphylaxis sheet above
//! all. It is dropped when the look is recorded or left, and when the treatment went on without it.

use crate::care::refill::Colour;
use crate::care::rounds::{Function, Look, Pain, Temperature};
use crate::care::situation::RedFlag;
use crate::case::{Case, CaseId};
use crate::measure::{Hash, Moment};
use crate::ui::steps::Here;
use crate::ui::steps::refill::{Timed, Timing};
use leptos::prelude::*;
use std::cell::RefCell;
use std::collections::BTreeMap;

/// The screens of a look.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Part {
    /// Refill, colour, temperature.
    #[default]
    Skin,
    /// Pain, function, signs.
    Patient,
    /// The photo.
    Photo,
}

/// What was answered so far.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Answers {
    timed: Timed,
    colour: Option<Colour>,
    temperature: Option<Temperature>,
    /// Not asked yet is not the same as none.
    pain: Option<Pain>,
    function: Option<Function>,
    flags: Vec<RedFlag>,
    photo: Option<Hash>,
}

/// A look that is kept while its screen is away.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Kept {
    /// How far the treatment was: a look begun before another round says nothing of the skin now.
    stands: Stands,
    begun: Moment,
    part: Part,
    answers: Answers,
}

thread_local! {
    static KEPT: RefCell<BTreeMap<CaseId, Kept>> = const { RefCell::new(BTreeMap::new()) };
}

/// How many rounds, looks and reviews there were.
type Stands = (usize, usize, usize);

fn stands(case: &Case) -> Stands {
    (case.treatment.rounds().len(), case.treatment.looks().len(), case.reviews.len())
}

/// The look of this case is recorded: nothing of it is kept.
pub fn forget(case: CaseId) {
    KEPT.with_borrow_mut(|all| all.remove(&case));
}

fn kept(case: &Case) -> Option<Kept> {
    let kept = KEPT.with_borrow(|all| all.get(&case.id).cloned());
    kept.filter(|kept| kept.stands == stands(case))
}

/// Whether a look of this case was begun and is neither recorded nor left.
pub fn waiting(case: &Case) -> bool {
    kept(case).is_some()
}

/// A look being taken down. Copied freely.
#[derive(Clone, Copy)]
pub struct Draft {
    /// The screen shown.
    pub part: RwSignal<Part>,
    /// Refill.
    pub timing: Timing,
    /// Colour.
    pub colour: RwSignal<Option<Colour>>,
    /// Temperature.
    pub temperature: RwSignal<Option<Temperature>>,
    /// Pain.
    pub pain: RwSignal<Option<Pain>>,
    /// Movement and feeling.
    pub function: RwSignal<Option<Function>>,
    /// Signs that go before everything.
    pub flags: RwSignal<Vec<RedFlag>>,
    /// The photo that was taken.
    pub photo: RwSignal<Option<Hash>>,
    /// When it was begun, for one that was taken up again.
    pub resumed: RwSignal<Option<Moment>>,
    begun: StoredValue<Moment>,
    /// What it holds before anything is answered.
    fresh: StoredValue<Answers>,
    case: CaseId,
}

impl Draft {
    /// Goes on with the look that was begun, or begins one. To be called by the screen that shows
    /// it.
    pub fn take_up(here: Here) -> Self {
        let case = here.now();
        let kept = kept(&case);
        let resumed = kept.as_ref().map(|kept| kept.begun);
        let now = crate::phone::use_clock().now();
        // A sign that stands is gone only when somebody says so at this look.
        let fresh = Answers { flags: case.flags.clone(), ..Answers::default() };
        let (part, answers) =
            kept.map_or_else(|| (Part::default(), fresh.clone()), |kept| (kept.part, kept.answers));
        let draft = Self {
            part: RwSignal::new(part),
            timing: Timing::of(answers.timed),
            colour: RwSignal::new(answers.colour),
            temperature: RwSignal::new(answers.temperature),
            pain: RwSignal::new(answers.pain),
            function: RwSignal::new(answers.function),
            flags: RwSignal::new(answers.flags),
            photo: RwSignal::new(answers.photo),
            resumed: RwSignal::new(resumed),
            begun: StoredValue::new(resumed.unwrap_or(now)),
            fresh: StoredValue::new(fresh),
            case: case.id,
        };
        let stands = stands(&case);
        Effect::new(move |_| draft.keep(stands));
        draft
    }

    /// Keeps what there is; nothing while nothing was answered.
    fn keep(self, stands: Stands) {
        let (part, answers) = (self.part.get(), self.answers());
        KEPT.with_borrow_mut(|all| {
            if self.fresh.with_value(|fresh| *fresh == answers) {
                all.remove(&self.case);
            } else {
                let begun = self.begun.get_value();
                all.insert(self.case, Kept { stands, begun, part, answers });
            }
        });
    }

    /// What was answered so far; tracked.
    fn answers(self) -> Answers {
        Answers {
            timed: self.timing.kept(),
            colour: self.colour.get(),
            temperature: self.temperature.get(),
            pain: self.pain.get(),
            function: self.function.get(),
            flags: self.flags.get(),
            photo: self.photo.get(),
        }
    }

    /// Whether nothing was answered.
    pub fn is_empty(self) -> bool {
        let answers = untrack(|| self.answers());
        self.fresh.with_value(|fresh| *fresh == answers)
    }

    /// It is recorded, or left: nothing of it is kept.
    pub fn drop_it(self) {
        forget(self.case);
    }

    /// Nothing was answered yet.
    pub fn begin_anew(self, now: Moment) {
        self.begun.set_value(now);
        self.resumed.set(None);
        self.timing.clear();
        self.colour.set(None);
        self.temperature.set(None);
        self.pain.set(None);
        self.function.set(None);
        self.flags.set(self.fresh.with_value(|fresh| fresh.flags.clone()));
        self.photo.set(None);
    }

    /// The look as it is recorded; `None` while colour or pain is wanting.
    pub fn look(self, here: Here) -> Option<Look> {
        let case = here.now();
        let answers = untrack(|| self.answers());
        let look = Look::of(answers.colour?, answers.pain?);
        Some(Look {
            refill: answers.timed.readings.refill(&case.protocol),
            red_flags: answers.flags,
            readings: answers.timed.readings,
            temperature: answers.temperature,
            function: answers.function,
            photo: answers.photo,
            ..look
        })
    }
}
