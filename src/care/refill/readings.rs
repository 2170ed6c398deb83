//! Several readings of refill on each side: their median, how far they lie apart, and what may make
//! them unfit to be compared.

#[cfg(test)]
mod tests;

use super::{Colour, Judgement, Person, Refill, judge};
use crate::measure::Span;
use crate::measure::order;
use crate::protocol::refill_limit::{self, Group, Limit};
use crate::protocol::refill_reading::{
    COUNT, PRESS_TOLERANCE, USUAL_HIGH, USUAL_LOW, usual_millis,
};
use crate::protocol::{Protocol, tenfold_slip};
use serde::{Deserialize, Serialize};

/// Where a reading was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Side {
    /// Where the skin changed.
    Affected,
    /// The same place on the other side.
    Opposite,
}

impl Side {
    /// Both, in the order in which they are read.
    pub const BOTH: [Self; 2] = [Self::Affected, Self::Opposite];
}

/// How a reading came about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum How {
    /// By the app's timer, after a press of this length.
    Timed(Span),
    /// Read elsewhere and typed; how long the skin was pressed is not known.
    Typed,
}

/// One reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Reading {
    /// From the release until the colour was back.
    pub time: Span,
    /// How it came about.
    pub how: How,
}

/// How the press before a reading stands to the guide.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Press {
    /// Within the tolerance.
    AsGuided,
    /// Too short: refill may seem quicker than it is.
    Short,
    /// Too long: refill may seem slower than it is.
    Long,
    /// Nobody timed it.
    Unknown,
}

/// Why a reading is asked about before it is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doubt {
    /// The decimal sign may have slipped by one place; this would be usual.
    Tenfold(Span),
    /// Quicker than is usual: a second tap of the same finger?
    Quick,
    /// Slower than is usual: skin without blood, or nobody tapped when the colour was back.
    Slow,
}

impl Reading {
    /// A reading by the app's timer.
    pub const fn timed(time: Span, press: Span) -> Self {
        Self { time, how: How::Timed(press) }
    }

    /// A reading typed.
    pub const fn typed(time: Span) -> Self {
        Self { time, how: How::Typed }
    }

    /// How the press before it stands to the clinic's guide.
    pub fn press(self, protocol: &Protocol) -> Press {
        let guide = protocol.refill_press;
        match self.how {
            How::Typed => Press::Unknown,
            How::Timed(press) if press + PRESS_TOLERANCE < guide => Press::Short,
            How::Timed(press) if press > guide + PRESS_TOLERANCE => Press::Long,
            How::Timed(_) => Press::AsGuided,
        }
    }

    /// What is to be asked before it is taken; `None` for a usual one. Only what was typed can have
    /// a decimal sign that slipped.
    pub fn doubt(self) -> Option<Doubt> {
        let slip = match self.how {
            How::Typed => tenfold_slip(self.time.as_millis(), usual_millis()),
            How::Timed(_) => None,
        };
        if let Some(meant) = slip {
            Some(Doubt::Tenfold(Span::millis(meant)))
        } else if self.time < USUAL_LOW {
            Some(Doubt::Quick)
        } else {
            (self.time > USUAL_HIGH).then_some(Doubt::Slow)
        }
    }
}

/// What the readings of one side amount to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Summary {
    /// The middle one; of an even number the mean of the middle two, cut to a millisecond.
    pub median: Span,
    /// The greatest less the least; nothing for a single reading.
    pub spread: Span,
    /// How many there are.
    pub count: usize,
    /// How many are still wanted.
    pub wanted: usize,
    /// How many were not pressed as guided, or nobody knows how.
    pub off_guide: usize,
}

/// What weakens a comparison of the two sides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weakness {
    /// This side was read less often than wanted, by so many.
    Fewer(Side, usize),
    /// So many readings of this side were not pressed as guided, or nobody knows how.
    Press(Side, usize),
    /// The sides lie apart by more than a reader's noise, yet by no more than the readings of one
    /// side lie apart among themselves.
    WithinSpread,
}

/// Whether the two sides can be compared.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Comparison {
    /// Not: this side was not read.
    Wanting(Side),
    /// They can, with what weakens it; nothing if the list is empty.
    Compared(Vec<Weakness>),
}

/// The readings of one look, in the order taken.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Readings {
    affected: Vec<Reading>,
    opposite: Vec<Reading>,
}

/// The side has as many readings as are wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Full(pub Side);

impl Readings {
    /// Whether neither side was read.
    pub fn is_empty(&self) -> bool {
        self.affected.is_empty() && self.opposite.is_empty()
    }

    /// The readings of a side, first to last.
    pub fn of(&self, side: Side) -> &[Reading] {
        match side {
            Side::Affected => &self.affected,
            Side::Opposite => &self.opposite,
        }
    }

    fn side(&mut self, side: Side) -> &mut Vec<Reading> {
        match side {
            Side::Affected => &mut self.affected,
            Side::Opposite => &mut self.opposite,
        }
    }

    /// Adds a reading.
    ///
    /// # Errors
    /// [`Full`] if the side has all that are wanted; nothing is then changed.
    pub fn add(&mut self, side: Side, reading: Reading) -> Result<(), Full> {
        if self.wanted(side) == 0 {
            return Err(Full(side));
        }
        self.side(side).push(reading);
        Ok(())
    }

    /// Takes the last reading of a side back, and says which it was.
    pub fn take_back(&mut self, side: Side) -> Option<Reading> {
        self.side(side).pop()
    }

    /// How many readings of a side are still wanted.
    pub fn wanted(&self, side: Side) -> usize {
        COUNT.saturating_sub(self.of(side).len())
    }

    /// The side to be read next: the affected one first, then turn by turn, so that a look cut short
    /// has both. `None` when all are there.
    pub fn next(&self) -> Option<Side> {
        Side::BOTH
            .into_iter()
            .filter(|side| self.wanted(*side) > 0)
            .max_by_key(|side| (self.wanted(*side), *side == Side::Affected))
    }

    /// How far the readings of a side lie apart; `None` for fewer than two.
    pub fn spread(&self, side: Side) -> Option<Span> {
        let times = || self.of(side).iter().map(|reading| reading.time);
        (self.of(side).len() > 1).then_some(times().max()?.saturating_sub(times().min()?))
    }

    /// What a side's readings amount to; `None` before the first.
    pub fn summary(&self, side: Side, protocol: &Protocol) -> Option<Summary> {
        let readings = self.of(side);
        let mut times: Vec<Span> = readings.iter().map(|reading| reading.time).collect();
        order::sort(&mut times);
        let (least, greatest) = (*times.first()?, *times.last()?);
        let half = times.len() / 2;
        let upper = *times.get(half)?;
        let lower = if times.len().is_multiple_of(2) { *times.get(half - 1)? } else { upper };
        let off = |reading: &&Reading| reading.press(protocol) != Press::AsGuided;
        Some(Summary {
            // From the lower one, so that no sum can pass the largest span.
            median: lower + Span::millis(upper.saturating_sub(lower).as_millis() / 2),
            spread: greatest.saturating_sub(least),
            count: times.len(),
            wanted: self.wanted(side),
            off_guide: readings.iter().filter(off).count(),
        })
    }

    /// Whether the two sides can be compared, and what weakens it.
    pub fn comparison(&self, protocol: &Protocol) -> Comparison {
        let Some(affected) = self.summary(Side::Affected, protocol) else {
            return Comparison::Wanting(Side::Affected);
        };
        let Some(opposite) = self.summary(Side::Opposite, protocol) else {
            return Comparison::Wanting(Side::Opposite);
        };
        let mut weak = Vec::new();
        for (side, summary) in [(Side::Affected, affected), (Side::Opposite, opposite)] {
            if summary.wanted > 0 {
                weak.push(Weakness::Fewer(side, summary.wanted));
            }
            if summary.off_guide > 0 {
                weak.push(Weakness::Press(side, summary.off_guide));
            }
        }
        let (a, b) = (affected.median, opposite.median);
        let gap = a.max(b).saturating_sub(a.min(b));
        if gap > protocol.refill_noise && gap <= affected.spread.max(opposite.spread) {
            weak.push(Weakness::WithinSpread);
        }
        Comparison::Compared(weak)
    }

    /// The medians, as a look keeps them; `None` before the affected side is read.
    pub fn refill(&self, protocol: &Protocol) -> Option<Refill> {
        let median = |side| self.summary(side, protocol).map(|summary| summary.median);
        Some(Refill { affected: median(Side::Affected)?, opposite: median(Side::Opposite) })
    }

    /// The medians judged as any pair of readings is.
    pub fn judge(&self, colour: Colour, person: Person, protocol: &Protocol) -> Option<Judgement> {
        Some(judge(self.refill(protocol)?, colour, person, protocol))
    }
}

/// Every published limit that can be held beside a person's reading, each with where on the body it
/// was found: the one of the filler guidance first. None of them was measured on facial skin.
pub fn limits(person: Person) -> impl Iterator<Item = &'static Limit> {
    let group = person.group();
    refill_limit::ALL.iter().filter(move |limit| {
        limit.group == group || limit.group == Group::Adults
            // Not knowing whom, the guidance's strictest is in force, and it is the men's.
            || (group == Group::Adults && limit.group == Group::Men)
    })
}
