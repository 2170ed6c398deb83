//! The course after the treatment: what is next, what a review asks for, and when it is enough.

use super::{Corrected, Damage, Review, Seen};
use crate::care::allergy::Urgency;
use crate::care::perfusion::{Change, Changed, State, change};
use crate::care::refill::{Colour, Person};
use crate::care::rounds::{End, HandOver, Look, Sign};
use crate::care::situation::RedFlag;
use crate::measure::{Moment, Span};
use crate::protocol::Protocol;

/// What the rules need to know of a case.
#[derive(Clone, Copy, Debug)]
pub struct Course<'a> {
    /// What was treated.
    pub urgency: Urgency,
    /// Whether anything was injected.
    pub treated: bool,
    /// When and how the treatment ended.
    pub end: Option<(Moment, End)>,
    /// When the first sign was seen; else when the case was opened.
    pub since: Moment,
    /// The last look of the hours.
    pub before: Option<&'a Look>,
    /// Every review, first to last. Those before the end belong to an earlier one.
    pub reviews: &'a [(Moment, Review)],
    /// What was agreed on last, and not been seen since.
    pub appointed: Option<Moment>,
    /// Signs that go before everything and stand.
    pub flags: &'a [RedFlag],
    /// Whether a severe reaction is not over.
    pub reacting: bool,
    /// Who.
    pub person: Person,
    /// The values in force.
    pub protocol: &'a Protocol,
}

/// Which rule says when.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// An occlusion, daily at first.
    Daily,
    /// An occlusion, spaced out.
    Spaced,
    /// Planned work: its result.
    Result,
}

/// The next review.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Planned {
    /// When.
    pub at: Moment,
    /// By which rule.
    pub rule: Rule,
    /// Agreed with the patient; else it is the rule's proposal.
    pub agreed: bool,
    /// How the patient should be seen.
    pub seen: Seen,
}

/// How a moment stands to the present one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Still to come, in so long.
    Ahead(Span),
    /// Due, for so long.
    Due(Span),
}

impl Planned {
    /// Whether it is due.
    pub fn standing(&self, now: Moment) -> Standing {
        if now < self.at {
            Standing::Ahead(self.at.since(now))
        } else {
            Standing::Due(now.since(self.at))
        }
    }
}

/// What a review asks for, the most urgent first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Advice {
    /// A sign that goes before everything: hand over now.
    HandOver(RedFlag),
    /// Not seen in person, and not well: see the patient at once.
    InPerson,
    /// An occlusion, or one that is back: treat it now.
    Treat,
    /// Skin is dying: a specialist.
    Refer,
    /// An infection: by local protocol, and a specialist.
    Infection,
    /// The skin is open or breaking down: care for the wound.
    Wound,
    /// This sign is not back yet.
    NotBack(Sign),
    /// Filler is left: another session can be planned.
    Another,
    /// More went than was meant.
    TooMuch,
    /// Nothing more is asked for.
    Well,
}

/// What speaks against closing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    /// A sign that goes before everything stands.
    Flag,
    /// A severe reaction is not over.
    Reacting,
    /// The treatment has not ended.
    Treating,
    /// Nobody has seen the patient since.
    NotSeen,
    /// Seen last from afar.
    FromAfar,
    /// Seen last before this moment, up to which pustules may come.
    Before(Moment),
    /// The last review asks for this.
    Asked(Advice),
}

impl<'a> Course<'a> {
    /// The reviews since the treatment ended.
    pub fn since_end(&self) -> impl DoubleEndedIterator<Item = &'a (Moment, Review)> {
        let end = self.end.map(|(at, _)| at);
        self.reviews.iter().filter(move |(at, _)| end.is_some_and(|end| *at >= end))
    }

    /// The last of them.
    pub fn last(&self) -> Option<&'a (Moment, Review)> {
        self.since_end().next_back()
    }

    /// Whether others took over, or nothing was injected: no review follows by rule.
    pub fn elsewhere(&self) -> bool {
        !self.treated || matches!(self.end, Some((_, End::HandedOver(_))))
    }

    /// The next review: as agreed, else as the rules propose it. `None` before the end, and where
    /// nothing more is to be seen.
    pub fn next(&self) -> Option<Planned> {
        let (ended, _) = self.end?;
        let last = self.last().map(|(at, _)| *at);
        let from = last.unwrap_or(ended);
        let (rule, after) = match self.urgency {
            Urgency::Planned => (Rule::Result, self.protocol.planned_review),
            Urgency::Urgent if self.daily(from) => (Rule::Daily, self.protocol.review_daily),
            Urgency::Urgent => (Rule::Spaced, self.protocol.review_spaced),
        };
        let seen = Seen::InPerson;
        if let Some(at) = self.appointed {
            return Some(Planned { at, rule, agreed: true, seen });
        }
        if self.elsewhere() || self.holds(End::Done).is_empty() {
            return None;
        }
        Some(Planned { at: from.after(after), rule, agreed: false, seen })
    }

    /// The moment to begin with when the next review is agreed on: the next one, or, where nothing
    /// more follows by rule, as long from now as reviews lie apart at last.
    pub fn offered(&self, now: Moment) -> Moment {
        let apart = match self.urgency {
            Urgency::Planned => self.protocol.planned_review,
            Urgency::Urgent => self.protocol.review_spaced,
        };
        self.next().map_or_else(|| now.after(apart), |next| next.at)
    }

    /// Why the patient would be handed over now: a sign that stands, else skin that is dying.
    pub fn hand_over(&self) -> Option<HandOver> {
        let flag = self.flags.first().map(|flag| HandOver::of(*flag));
        let dying = || self.advice().contains(&Advice::Refer).then_some(HandOver::Necrosis);
        flag.or_else(dying)
    }

    /// The next review and, of an occlusion, the daily ones that the rule proposes after it, as long as
    /// it is daily; none before the end or where nothing more is to be seen.
    pub fn coming(&self) -> Vec<Planned> {
        let Some(next) = self.next() else { return Vec::new() };
        let until = self.since.after(self.protocol.review_daily_for);
        let every = self.protocol.review_daily;
        let daily = self.urgency == Urgency::Urgent && !self.elsewhere() && every > Span::ZERO;
        let later = std::iter::successors(Some(next.at), |at| Some(at.after(every)))
            .skip(1)
            .take_while(|at| daily && *at <= until)
            .map(|at| Planned { at, rule: Rule::Daily, agreed: false, seen: Seen::InPerson });
        std::iter::once(next).chain(later).collect()
    }

    /// Whether the review after one at `from` comes after a day still.
    fn daily(&self, from: Moment) -> bool {
        let well = self.last().is_some_and(|_| self.advice() == [Advice::Well]);
        !well || from < self.since.after(self.protocol.review_daily_for)
    }

    /// What changed at the last review, against the one before it or the last look of the hours.
    pub fn changed(&self) -> Option<Changed> {
        let mut back = self.since_end().rev();
        let (_, now) = back.next()?;
        let before = back.next().map(|(_, review)| &review.look).or(self.before)?;
        let state = |look| State::of(look, None);
        Some(change(&state(before), &state(&now.look), self.protocol))
    }

    /// What the last review asks for, the most urgent first; nothing before any.
    pub fn advice(&self) -> Vec<Advice> {
        let Some((_, review)) = self.last() else { return Vec::new() };
        let look = &review.look;
        let wanting = look.wanting(self.person, self.protocol);
        let worse = self
            .changed()
            .is_some_and(|changed| matches!(changed.whole(), Change::Worse | Change::Mixed));
        let slow = look.refill.is_some() && wanting.contains(&Sign::Refill);
        let treat = worse || slow || look.colour != Colour::Normal;
        let dying = [Damage::Coagulation, Damage::Slough, Damage::Eschar];
        let has = |damage: &[Damage]| damage.iter().any(|one| review.damage.contains(one));
        let mut advice: Vec<Advice> =
            look.red_flags.iter().map(|flag| Advice::HandOver(*flag)).collect();
        if treat {
            if review.seen == Seen::Remotely {
                advice.push(Advice::InPerson);
            }
            advice.push(Advice::Treat);
        }
        let asked = [
            (look.colour == Colour::Black || has(&dying), Advice::Refer),
            (has(&[Damage::Infection]), Advice::Infection),
            (has(&[Damage::Pustules, Damage::Slough, Damage::Eschar]), Advice::Wound),
            (review.corrected == Some(Corrected::FillerLeft), Advice::Another),
            (review.corrected == Some(Corrected::TooMuch), Advice::TooMuch),
        ];
        advice.extend(asked.into_iter().filter_map(|(so, advice)| so.then_some(advice)));
        if !treat && self.urgency == Urgency::Urgent {
            advice.extend(wanting.into_iter().map(Advice::NotBack));
        }
        if advice.is_empty() {
            advice.push(Advice::Well);
        }
        advice
    }

    /// Whether the patient is to be treated at once: worse than before, or short of blood.
    pub fn treat(&self) -> bool {
        self.advice().contains(&Advice::Treat)
    }

    /// What speaks against closing the case so; nothing when it may be. Whoever takes the patient over
    /// sees the patient again; a sign that stands is in their hands only when it is why they do.
    pub fn holds(&self, end: End) -> Vec<Holds> {
        let mut holds = Vec::new();
        let taken = |flag: &RedFlag| end == End::HandedOver(HandOver::of(*flag));
        if !self.flags.is_empty() && !self.flags.iter().any(taken) {
            holds.push(Holds::Flag);
        }
        if self.reacting && end != End::HandedOver(HandOver::Reaction) {
            holds.push(Holds::Reacting);
        }
        if matches!(end, End::HandedOver(_)) || self.elsewhere() {
            return holds;
        }
        if self.end.is_none() {
            holds.push(Holds::Treating);
            return holds;
        }
        let Some((at, review)) = self.last() else {
            holds.push(Holds::NotSeen);
            return holds;
        };
        if self.urgency == Urgency::Urgent {
            let until = self.since.after(self.protocol.review_daily_for);
            if review.seen == Seen::Remotely {
                holds.push(Holds::FromAfar);
            }
            if *at < until {
                holds.push(Holds::Before(until));
            }
        }
        // What more or less filler does to the shape is the patient's choice, and holds nothing up.
        let left = [Advice::Well, Advice::TooMuch];
        holds.extend(self.advice().into_iter().filter(|one| !left.contains(one)).map(Holds::Asked));
        holds
    }
}

#[cfg(test)]
mod tests;
