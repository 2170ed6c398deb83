//! The skin test of a case, read and judged.

use super::Case;
use crate::care::skin_test::{self, Seen, Verdict};
use crate::measure::Moment;

/// One reading of the skin test, judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TestReading {
    /// When.
    pub at: Moment,
    /// What was seen.
    pub seen: Seen,
    /// What it amounts to.
    pub verdict: Verdict,
}

impl Case {
    pub(super) fn tested(&mut self, at: Moment, act: &skin_test::Act) {
        match act {
            skin_test::Act::Place(placed) => {
                self.test = Some((at, *placed));
                self.readings.clear();
            }
            skin_test::Act::Read(seen) => {
                if let Some((since, placed)) = &self.test {
                    let verdict = skin_test::judge(placed, seen, at.since(*since), &self.protocol);
                    self.readings.push(TestReading { at, seen: *seen, verdict });
                }
            }
        }
    }

    /// What the skin test amounts to so far.
    pub fn test_verdict(&self) -> Option<Verdict> {
        let verdicts: Vec<Verdict> = self.readings.iter().map(|reading| reading.verdict).collect();
        skin_test::overall(&verdicts)
    }
}
