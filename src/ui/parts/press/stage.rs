//! What a press has come to, told from the moments at which the button was touched.

use crate::measure::Span;

/// A press and what followed it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pressed {
    /// How long was pressed.
    pub press: Span,
    /// From letting go until it was said to be over, to the nearest tenth of a second: no hand and
    /// no eye is finer, and what is shown adds up.
    pub time: Span,
}

/// How a press stands, by a clock that nobody sets.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PressStage {
    /// Nothing is pressed.
    #[default]
    Ready,
    /// It is pressed, since then.
    Pressing {
        /// When it began.
        since: Span,
    },
    /// It was let go, then.
    Released {
        /// When.
        since: Span,
        /// How long had been pressed.
        press: Span,
    },
}

/// Why a press came to nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PressLost {
    /// The hold was a mere touch.
    Brief,
    /// The browser, the phone or another screen took the finger away.
    Interrupted,
}

/// What came of a touch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Came {
    /// Nothing, or a step on the way.
    Onward,
    /// A whole press.
    Timed(Pressed),
    /// A press came to nothing.
    Lost(PressLost),
}

/// A hold shorter than this is a touch by mistake, or one by a screen reader.
const TOUCH: Span = Span::millis(400);

impl PressStage {
    /// The button goes down, or is tapped.
    #[must_use]
    pub fn down(self, now: Span) -> (Self, Came) {
        match self {
            Self::Ready => (Self::Pressing { since: now }, Came::Onward),
            // A second finger, or a key beside the finger.
            Self::Pressing { .. } => (self, Came::Onward),
            Self::Released { since, press } => {
                let time = tenths(now.saturating_sub(since));
                (Self::Ready, Came::Timed(Pressed { press, time }))
            }
        }
    }

    /// The button is let go after a hold.
    #[must_use]
    pub fn up(self, now: Span) -> (Self, Came) {
        match self {
            Self::Pressing { since } if now.saturating_sub(since) < TOUCH => {
                (Self::Ready, Came::Lost(PressLost::Brief))
            }
            Self::Pressing { .. } => (self.release(now), Came::Onward),
            Self::Ready | Self::Released { .. } => (self, Came::Onward),
        }
    }

    /// The next step of three taps: begin, let go, over.
    #[must_use]
    pub fn tap(self, now: Span) -> (Self, Came) {
        match self {
            Self::Pressing { .. } => (self.release(now), Came::Onward),
            Self::Ready | Self::Released { .. } => self.down(now),
        }
    }

    /// What ran is broken off.
    #[must_use]
    pub const fn broken(self) -> (Self, Came) {
        match self {
            Self::Ready => (self, Came::Onward),
            Self::Pressing { .. } | Self::Released { .. } => {
                (Self::Ready, Came::Lost(PressLost::Interrupted))
            }
        }
    }

    fn release(self, now: Span) -> Self {
        match self {
            Self::Pressing { since } => {
                Self::Released { since: now, press: now.saturating_sub(since) }
            }
            Self::Ready | Self::Released { .. } => self,
        }
    }

    /// How long this stage has lasted; nothing while nothing is pressed.
    pub fn lasted(self, now: Span) -> Span {
        match self {
            Self::Ready => Span::ZERO,
            Self::Pressing { since } | Self::Released { since, .. } => now.saturating_sub(since),
        }
    }
}

/// To the nearest tenth of a second.
fn tenths(span: Span) -> Span {
    Span::millis((span.as_millis() + 50) / 100 * 100)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(millis: u64) -> Span {
        Span::millis(millis)
    }

    #[test]
    fn a_hold_is_timed_from_letting_go() {
        let (stage, _) = PressStage::Ready.down(at(1_000));
        let (stage, came) = stage.up(at(6_100));
        assert_eq!(came, Came::Onward);
        // The finger that ends it comes down and goes up; only the first counts.
        let (stage, came) = stage.down(at(8_449));
        let timed = Pressed { press: at(5_100), time: at(2_300) };
        assert_eq!((stage, came), (PressStage::Ready, Came::Timed(timed)));
        assert_eq!(stage.up(at(8_500)), (PressStage::Ready, Came::Onward));
    }

    #[test]
    fn three_taps_time_the_same() {
        let (stage, _) = PressStage::Ready.tap(at(0));
        let (stage, _) = stage.tap(at(5_000));
        let (_, came) = stage.tap(at(7_000));
        assert_eq!(came, Came::Timed(Pressed { press: at(5_000), time: at(2_000) }));
    }

    #[test]
    fn a_touch_and_a_broken_press_are_no_readings() {
        let (stage, _) = PressStage::Ready.down(at(0));
        assert_eq!(stage.up(at(399)).1, Came::Lost(PressLost::Brief));
        assert_eq!(stage.up(at(400)).1, Came::Onward);
        assert_eq!(stage.broken(), (PressStage::Ready, Came::Lost(PressLost::Interrupted)));
        let (released, _) = stage.up(at(5_000));
        assert_eq!(released.broken().1, Came::Lost(PressLost::Interrupted));
        assert_eq!(PressStage::Ready.broken().1, Came::Onward);
    }

    #[test]
    fn a_second_finger_changes_nothing() {
        let (stage, _) = PressStage::Ready.down(at(0));
        assert_eq!(stage.down(at(2_000)), (stage, Came::Onward));
    }
}
