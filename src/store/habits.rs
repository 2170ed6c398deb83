//! What is set for this phone and not for a case: how its screen looks and is kept, and how a test of
//! its alarm went. No record: losing it costs a tap.

use crate::measure::{Moment, Span};
use serde::{Deserialize, Serialize};

/// What the screen does while something is to fall due.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Screen {
    /// It stays on, where the phone lets it.
    #[default]
    StaysOn,
    /// It may go dark, and the phone may sleep.
    MaySleep,
}

/// What the user noticed of the alarm.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Noticed {
    /// A sound.
    Heard,
    /// A buzz alone.
    Felt,
    /// Neither.
    Nothing,
}

/// How a test of the alarm went.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Trial {
    /// When it was to ring.
    pub at: Moment,
    /// How much later the app's code ran: a phone that sleeps runs none.
    pub late: Span,
    /// Whether the page was out of view before it rang, as behind a locked screen.
    pub left: bool,
    /// What the user noticed.
    pub noticed: Noticed,
}

/// How a test of the alarm came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Noticed, on time.
    Rang,
    /// Noticed, so much too late.
    Late(Span),
    /// Not noticed.
    Silent,
}

impl Trial {
    /// Later than this is late; less is the time that a timer and a screen take.
    pub const ON_TIME: Span = Span::seconds(2);

    /// How it came out.
    pub fn outcome(&self) -> Outcome {
        match self.noticed {
            Noticed::Nothing => Outcome::Silent,
            Noticed::Heard | Noticed::Felt if self.late > Self::ON_TIME => Outcome::Late(self.late),
            Noticed::Heard | Noticed::Felt => Outcome::Rang,
        }
    }
}

/// How long the app may lie untouched before the passcode is asked for again.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Patience {
    /// A minute.
    Short,
    /// Five minutes.
    #[default]
    Usual,
    /// A quarter of an hour.
    Long,
}

impl Patience {
    /// How long.
    pub const fn span(self) -> Span {
        Span::minutes(match self {
            Self::Short => 1,
            Self::Usual => 5,
            Self::Long => 15,
        })
    }
}

/// What the screen looks like.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Theme {
    /// As the phone prefers.
    #[default]
    Phone,
    /// Dark on light.
    Light,
    /// Light on dark.
    Dark,
    /// Black on white with heavy lines: for a screen that the sun is on.
    Sunlight,
}

impl Theme {
    /// Its name in the page and in what is kept; `public/boot.js` reads both.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Phone => "phone",
            Self::Light => "light",
            Self::Dark => "dark",
            Self::Sunlight => "sunlight",
        }
    }
}

/// The language that the app speaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Language {
    /// As the app was written.
    #[default]
    English,
    /// By a catalogue that no clinician has reviewed yet.
    German,
}

impl Language {
    /// Every language.
    pub const ALL: [Self; 2] = [Self::English, Self::German];

    /// Its tag, as BCP 47 has it.
    pub const fn tag(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::German => "de",
        }
    }
}

/// What is set for this phone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Habits {
    /// The language that the app speaks.
    pub language: Language,
    /// What the screen does.
    pub screen: Screen,
    /// What it looks like.
    pub theme: Theme,
    /// When it locks itself, if a passcode is set.
    pub patience: Patience,
    /// The last test of the alarm.
    pub tried: Option<Trial>,
    /// When the last backup left this phone.
    pub backed: Option<Moment>,
}

/// How the last backup stands to what was recorded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Backing {
    /// There is none.
    Never,
    /// There is one, so old.
    Made(Span),
    /// There is one, so old, and something was recorded since: time for another.
    Due(Span),
}

impl Backing {
    /// A backup is to be made anew after so long. No rule of the trade: four weeks of cases are what
    /// one would hate to lose.
    pub const AFTER: Span = Span::days(28);

    /// How it stands, where the last backup was made then and the last entry then.
    pub fn of(made: Option<Moment>, last: Option<Moment>, now: Moment) -> Self {
        let Some(made) = made else { return Self::Never };
        let age = now.since(made);
        let newer = last.is_some_and(|last| last > made);
        if newer && age >= Self::AFTER { Self::Due(age) } else { Self::Made(age) }
    }
}

#[cfg(feature = "app")]
pub use here::{keep, load};

#[cfg(feature = "app")]
mod here {
    use super::Habits;
    use crate::store::local::storage;
    use gloo_storage::{LocalStorage, Storage};

    const NAME: &str = "freshet/habits";

    /// What this browser keeps. What is not there or cannot be read is as supplied.
    pub fn load() -> Habits {
        storage().ok().and_then(|_| LocalStorage::get(NAME).ok()).unwrap_or_default()
    }

    /// Keeps it in this browser; false if the browser refuses.
    pub fn keep(habits: Habits) -> bool {
        storage().is_ok() && LocalStorage::set(NAME, habits).is_ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TRIAL: Trial = Trial {
        at: Moment::from_millis(1_795_615_500_000),
        late: Span::ZERO,
        left: true,
        noticed: Noticed::Heard,
    };

    #[test]
    fn what_was_noticed_and_when_makes_the_outcome() {
        assert_eq!(TRIAL.outcome(), Outcome::Rang);
        assert_eq!(Trial { late: Trial::ON_TIME, ..TRIAL }.outcome(), Outcome::Rang);
        let late = Trial::ON_TIME + Span::millis(1);
        let felt = Trial { late, noticed: Noticed::Felt, ..TRIAL };
        assert_eq!(felt.outcome(), Outcome::Late(late));
        let nothing = Trial { noticed: Noticed::Nothing, ..felt };
        assert_eq!(nothing.outcome(), Outcome::Silent);
    }

    #[test]
    fn habits_are_read_as_written_and_what_is_missing_is_as_supplied() {
        let habits = Habits {
            language: Language::German,
            screen: Screen::MaySleep,
            theme: Theme::Sunlight,
            patience: Patience::Long,
            tried: Some(TRIAL),
            backed: Some(TRIAL.at),
        };
        let text = serde_json::to_string(&habits).unwrap();
        assert_eq!(serde_json::from_str::<Habits>(&text).unwrap(), habits);
        assert_eq!(serde_json::from_str::<Habits>("{}").unwrap(), Habits::default());
        assert_eq!(Habits::default().screen, Screen::StaysOn);
    }

    #[test]
    fn a_theme_is_kept_under_the_name_that_the_page_knows() {
        for theme in [Theme::Phone, Theme::Light, Theme::Dark, Theme::Sunlight] {
            let text = serde_json::to_string(&Habits { theme, ..Habits::default() }).unwrap();
            let kept: serde_json::Value = serde_json::from_str(&text).unwrap();
            assert_eq!(kept["theme"], theme.name());
        }
    }

    #[test]
    fn a_backup_is_due_once_it_is_old_and_something_is_not_in_it() {
        let made = TRIAL.at;
        let old = made.after(Backing::AFTER);
        let young = made.after(Backing::AFTER.saturating_sub(Span::millis(1)));
        let after = made.after(Span::millis(1));
        assert_eq!(Backing::of(None, Some(after), old), Backing::Never);
        assert_eq!(Backing::of(Some(made), Some(after), old), Backing::Due(Backing::AFTER));
        for (last, now) in [(Some(after), young), (Some(made), old), (None, old)] {
            assert_eq!(Backing::of(Some(made), last, now), Backing::Made(now.since(made)));
        }
    }
}
