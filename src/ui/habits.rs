//! What is set for this phone, as signals; and the choice whether its screen may sleep.

use super::parts::{Item, Note, Segment, Tone};
use super::words::ringing as said;
use crate::measure::Moment;
use crate::phone::theme;
use crate::store::habits::{self, Habits, Language, Patience, Screen, Theme, Trial};
use leptos::prelude::*;

/// What is set for this phone. Copied freely.
#[derive(Clone, Copy)]
pub struct Kept {
    habits: RwSignal<Habits>,
    /// Whether the browser kept the last change.
    kept: RwSignal<bool>,
}

/// Reads what this phone keeps, for everything below the present owner.
pub fn provide() -> Kept {
    let set = Kept { habits: RwSignal::new(habits::load()), kept: RwSignal::new(true) };
    provide_context(set);
    set
}

/// What is set for this phone.
///
/// # Panics
/// If no component above called [`provide`].
pub fn use_habits() -> Kept {
    expect_context::<Kept>()
}

impl Kept {
    /// What the screen does.
    pub fn screen(self) -> Screen {
        self.habits.read().screen
    }

    /// What it looks like.
    pub fn theme(self) -> Theme {
        self.habits.read().theme
    }

    /// Sets what the screen looks like; it does at once.
    pub fn set_theme(self, theme: Theme) {
        self.change(|habits| habits.theme = theme);
        theme::wear(theme.name());
    }

    /// The language that the app is to speak.
    pub fn language(self) -> Language {
        self.habits.read().language
    }

    /// Keeps the language that the app is to speak; it does when it starts anew. False if the browser
    /// did not keep it.
    pub fn keep_language(self, language: Language) -> bool {
        self.change(|habits| habits.language = language);
        self.kept.get_untracked()
    }

    /// When it locks itself.
    pub fn patience(self) -> Patience {
        self.habits.read().patience
    }

    /// The same, not tracked.
    pub fn patience_untracked(self) -> Patience {
        self.habits.with_untracked(|habits| habits.patience)
    }

    /// Sets when it locks itself.
    pub fn set_patience(self, patience: Patience) {
        self.change(|habits| habits.patience = patience);
    }

    /// The last test of the alarm.
    pub fn tried(self) -> Option<Trial> {
        self.habits.read().tried
    }

    /// Keeps how a test of the alarm went.
    pub fn keep_trial(self, trial: Trial) {
        self.change(|habits| habits.tried = Some(trial));
    }

    /// When the last backup left this phone.
    pub fn backed(self) -> Option<Moment> {
        self.habits.read().backed
    }

    /// Keeps when a backup left this phone.
    pub fn keep_backed(self, at: Moment) {
        self.change(|habits| habits.backed = Some(at));
    }

    /// Whether the browser kept the last change; if not, it holds until the app is closed.
    pub fn kept(self) -> bool {
        self.kept.get()
    }

    fn change(self, change: impl FnOnce(&mut Habits)) {
        self.habits.update(change);
        self.kept.set(habits::keep(self.habits.get_untracked()));
    }
}

/// Whether the screen stays on, and what follows.
#[component]
pub fn ScreenChoice() -> impl IntoView {
    let set = use_habits();
    let items = [Screen::StaysOn, Screen::MaySleep];
    view! {
        <div class="screen-choice">
            <Segment
                legend=said::screen_label()
                items=Signal::stored(items.map(|screen| Item::new(screen, said::screen(screen))).into())
                value=Signal::derive(move || Some(set.screen()))
                on_choose=move |screen| set.change(|habits| habits.screen = screen)
            />
            <p class="hint" role="status">
                {move || said::screen_follows(set.screen())}
            </p>
            {move || {
                (!set.kept()).then(|| view! { <Note tone=Tone::Caution>{said::not_kept()}</Note> })
            }}
        </div>
    }
}
