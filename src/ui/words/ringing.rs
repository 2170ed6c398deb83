//! What this phone can do when something falls due, and what is said then.

use super::time;
use crate::case::CaseId;
use crate::measure::Span;
use crate::phone::clock;
use crate::phone::notice::{Notice, Permission};
use crate::phone::sound::Ringing;
use crate::store::habits::{Outcome, Screen, Trial};
use crate::ui::alarm::What;
use crate::ui::language::spoken;
use crate::ui::page::Page;

// At the due moment. Shown on locked screens and in lists of tabs: nobody is named.

words! {
    pub trial_title = "Test";
    pub trial_body = "Freshet rings: the test.";
}

pub fn title(what: What) -> &'static str {
    spoken(match what {
        What::Look => "Look now",
        What::Adrenaline => "Adrenaline due",
    })
}

/// The notification of something due.
pub fn notice(what: What, tag: String, case: CaseId) -> Notice {
    let (body, page) = match what {
        What::Look => (tr!("Freshet: a look at the skin is due."), Page::Case(case, None)),
        What::Adrenaline => (
            tr!("Freshet: a dose of adrenaline is due, unless better."),
            Page::Anaphylaxis(Some(case)),
        ),
    };
    Notice { tag, title: title(what).to_owned(), body, case: case.to_string(), query: page.query() }
}

/// Something due in a case that is not the one shown.
pub fn elsewhere(what: What, reference: &str) -> String {
    match what {
        What::Look => tr!("{reference}: the look is due.", reference),
        What::Adrenaline => {
            tr!("{reference}: adrenaline is due, unless better.", reference)
        }
    }
}

pub fn lead(reference: &str) -> String {
    tr!("Go to {reference}", reference)
}

// The screen.

words! {
    pub screen_label = "The screen, while something is to come";
    pub not_kept = "This browser did not keep the choice. It holds until the app is closed.";
}

pub fn screen(screen: Screen) -> &'static str {
    spoken(match screen {
        Screen::StaysOn => "Stays on",
        Screen::MaySleep => "May sleep",
    })
}

pub fn screen_follows(screen: Screen) -> &'static str {
    spoken(match screen {
        Screen::StaysOn => {
            "On while Freshet is in front, if the phone lets it. It takes battery: plug the phone in."
        }
        Screen::MaySleep => {
            "A phone that sleeps does not ring. Put the looks into its calendar, or set an alarm clock."
        }
    })
}

// The page.

words! {
    pub page = "Will this phone ring?";
    pub honest = "A web page cannot ring in a phone that sleeps. The phone’s own calendar can: use it.";
    pub can = "What this browser says it can";
    pub can_why = "A muted phone, or one that is not to be disturbed, keeps silent whatever the browser says. The test tells.";
    pub test = "Try it";
    pub test_why = "Tap, lock the phone and lay it where you will lay it. Come back when it rings, or after that.";
    pub rings_in = "Rings in";
    pub lock_now = "Lock the phone now.";
    pub stop_test = "Stop the test";
    pub noticed = "What did you notice?";
    pub heard = "I heard it";
    pub felt = "I felt it";
    pub nothing = "Nothing";
    pub not_tried = "Not tried yet";
    pub ask = "Allow notifications";

    pub sound_label = "Sound";
    pub buzz = "Vibration";
    pub notification_label = "Notification";
    pub wake = "Keeping the screen on";
    pub badge = "A number on the icon";
    pub calendar = "A file for the calendar";

    pub yes = "Yes";
    pub no = "No";
    pub no_buzz = "This browser does not make the phone buzz.";
    pub may_buzz = "If the phone has what buzzes.";
    pub may_wake = "The phone may refuse, as at low battery.";
    pub no_wake = "Set the phone’s own screen time longer.";
    pub may_badge = "For an app on the home screen.";
    pub no_badge = "Nothing is lost: it is an extra.";
    pub calendar_why = "From the clock between rounds. It rings by the phone’s own calendar, also asleep.";
}

pub fn go(span: Span) -> String {
    tr!("Ring me in {span}", span = time::span(span))
}

/// The state of the sound, and what follows.
pub fn sound(ringing: Ringing) -> (&'static str, &'static str) {
    match ringing {
        Ringing::Sounding => (yes(), spoken("Allowed by a tap.")),
        Ringing::Locked => {
            (spoken("After a tap"), spoken("The browser is silent until a tap. The test taps."))
        }
        Ringing::Absent => (no(), spoken("This browser makes no sound.")),
    }
}

/// Whether notifications are shown, and what follows.
pub fn notification(permission: Permission, able: bool) -> (&'static str, &'static str) {
    let shown = spoken("Shown over other apps; names no patient.");
    match (permission, able) {
        (Permission::Unable, _) => (no(), spoken("On an iPhone only from the home screen.")),
        (Permission::Refused, _) => {
            (spoken("Refused"), spoken("The browser’s settings for this page change it."))
        }
        (_, false) => {
            (no(), spoken("The app is not on this phone yet: load it again with a network."))
        }
        (Permission::NotAsked, true) => (spoken("Not asked"), shown),
        (Permission::Allowed, true) => (yes(), shown),
    }
}

/// What happened in the test, before the user says what they noticed.
pub fn happened(late: Span, left: bool, on_time: bool) -> String {
    let late = time::span(late);
    match (on_time, left) {
        (true, true) => tr!("Rang on time, out of view."),
        (true, false) => {
            tr!("Rang on time, with Freshet in front. Try it locked too: that is the hard case.")
        }
        (false, true) => tr!(
            "Rang {late} late: out of view the phone slept, or the browser held the page back.",
            late
        ),
        (false, false) => tr!("Rang {late} late, though in front: the page was held back.", late),
    }
}

/// The last test in one line.
pub fn tried(trial: &Trial) -> String {
    let day = time::short_day(clock::date(trial.at));
    match (trial.outcome(), trial.left) {
        (Outcome::Rang, true) => tr!("Tested {day}: rang when out of view", day),
        (Outcome::Rang, false) => tr!("Tested {day}: rang in front", day),
        (Outcome::Late(by), true) => {
            tr!("Tested {day}: rang {late} late when out of view", day, late = time::span(by))
        }
        (Outcome::Late(by), false) => {
            tr!("Tested {day}: rang {late} late in front", day, late = time::span(by))
        }
        (Outcome::Silent, true) => tr!("Tested {day}: silent when out of view", day),
        (Outcome::Silent, false) => tr!("Tested {day}: silent in front", day),
    }
}
