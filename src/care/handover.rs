//! What the people who take over are told: situation, background, assessment, recommendation. Facts
//! in the order in which they are read out; the words are the screen's.
//!
//! Who and where is the clinic's to say. Nothing here tells how much time is left: for sight the
//! published figures contradict each other, and none is a promise.

mod ask;
mod fact;

pub use ask::Ask;
pub use fact::{Fact, Noticed};

use super::adjunct::Chosen;
use super::allergy::{Answers, Urgency};
use super::anaphylaxis::Reaction;
use super::perfusion::{State, change, stuck};
use super::refill::Person;
use super::rounds::{HandOver, Treatment};
use super::situation::{Filler, Findings, RedFlag};
use super::skin_test;
use crate::measure::{Area, Moment, Units};
use crate::protocol::Protocol;
use crate::protocol::zone::Zone;

/// All that is known of a case for its hand-over.
#[derive(Clone, Debug)]
pub struct Known<'a> {
    /// Why it is handed over, if that is said.
    pub reason: Option<HandOver>,
    /// Signs that go before everything, first noticed first.
    pub flags: &'a [Noticed],
    /// How urgent, once that was decided.
    pub urgency: Option<Urgency>,
    /// What was found at the start.
    pub findings: Option<&'a Findings>,
    /// Zones of the skin without blood.
    pub zones: &'a [Zone],
    /// Its surface.
    pub area: Option<Area>,
    /// What was asked about allergy.
    pub answers: Option<&'a Answers>,
    /// What a skin test amounts to.
    pub test: Option<skin_test::Verdict>,
    /// Rounds and looks.
    pub treatment: &'a Treatment,
    /// Its looks with all that was seen.
    pub states: Vec<State>,
    /// A severe reaction; empty if there was none.
    pub reaction: &'a Reaction,
    /// What was given besides.
    pub besides: &'a [Chosen],
}

/// The sheet, part by part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// What is the matter.
    pub situation: Vec<Fact>,
    /// What was before, and what was done.
    pub background: Vec<Fact>,
    /// How it looks now.
    pub assessment: Vec<Fact>,
    /// What is asked, the most urgent first; never empty.
    pub recommendation: Vec<Ask>,
}

/// The short sheet for signs of sight: moments and what was done. It holds no span, so that no screen
/// can count one down.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SightSheet {
    /// When sight was first noticed to be wrong.
    pub noticed: Moment,
    /// Other signs that go before everything.
    pub also: Vec<Noticed>,
    /// When the first sign of any kind was seen.
    pub onset: Option<Moment>,
    /// What was injected before.
    pub filler: Filler,
    /// Where.
    pub zones: Vec<Zone>,
    /// Enzyme given so far.
    pub units: Units,
    /// What is asked, the most urgent first.
    pub asks: Vec<Ask>,
}

impl Known<'_> {
    /// The sheet as it stands at `now`.
    pub fn sheet(&self, now: Moment, protocol: &Protocol) -> Sheet {
        Sheet {
            situation: self.situation(now),
            background: self.background(),
            assessment: self.assessment(protocol),
            recommendation: self.asks(),
        }
    }

    /// The short sheet; `None` unless a sign of sight was noticed.
    pub fn sight(&self) -> Option<SightSheet> {
        let noticed = self.flags.iter().find(|noticed| noticed.flag == RedFlag::Sight)?.at;
        let others = self.flags.iter().filter(|noticed| noticed.flag != RedFlag::Sight);
        Some(SightSheet {
            noticed,
            also: others.copied().collect(),
            onset: self.findings.and_then(|findings| findings.onset),
            filler: self.findings.map_or(Filler::Unknown, |findings| findings.filler),
            zones: self.zones.to_vec(),
            units: self.treatment.units(),
            asks: self.asks(),
        })
    }

    fn situation(&self, now: Moment) -> Vec<Fact> {
        let mut facts: Vec<Fact> = self.reason.map(Fact::Reason).into_iter().collect();
        facts.extend(self.flags.iter().copied().map(Fact::Flag));
        if let Some(started) = self.reaction.started() {
            let (active, better) = (self.reaction.active(), self.reaction.better());
            facts.push(Fact::Reaction { started, active, better });
        }
        facts.extend(self.urgency.map(Fact::Way));
        if self.urgency != Some(Urgency::Planned) {
            let onset = self.findings.and_then(|findings| findings.onset);
            facts.push(Fact::Onset(onset.map(|at| (at, now.since(at)))));
        }
        if !self.zones.is_empty() {
            facts.push(Fact::Zones(self.zones.to_vec()));
        }
        facts.extend(self.area.map(Fact::Area));
        facts
    }

    fn background(&self) -> Vec<Fact> {
        let filler = self.findings.map_or(Filler::Unknown, |findings| findings.filler);
        let mut facts = vec![Fact::Filler(filler)];
        let person = self.findings.map(|findings| findings.person).unwrap_or_default();
        if person != Person::default() {
            facts.push(Fact::Person(person));
        }
        facts.push(Fact::Allergy(self.answers.cloned()));
        facts.extend(self.test.map(Fact::SkinTest));
        let rounds = self.treatment.rounds();
        facts.extend((1..).zip(rounds).map(|(number, round)| Fact::Round {
            number,
            begun: round.begun,
            finished: round.finished,
            strength: round.plan.strength,
            volume: round.volume(),
            units: round.units(),
        }));
        let (units, volume) = (self.treatment.units(), self.treatment.volume());
        facts.push(if rounds.is_empty() {
            Fact::NoEnzyme
        } else {
            Fact::InAll { rounds: rounds.len(), units, volume }
        });
        let doses = self.reaction.doses().iter();
        facts.extend(doses.map(|(at, volume)| Fact::Adrenaline { at: *at, volume: *volume }));
        facts.extend(self.besides.iter().copied().map(Fact::Besides));
        facts
    }

    fn assessment(&self, protocol: &Protocol) -> Vec<Fact> {
        let looks = self.treatment.looks();
        let found = self
            .findings
            .map(|findings| Fact::Found { signs: findings.signs.clone(), refill: findings.refill });
        let mut facts: Vec<Fact> = found.into_iter().collect();
        facts.extend(looks.iter().map(|(at, look)| Fact::Look {
            at: *at,
            refill: look.refill,
            colour: look.colour,
            pain: look.pain,
            temperature: look.temperature,
            function: look.function,
        }));
        let Some((_, last)) = looks.last() else {
            facts.push(Fact::NotLooked);
            return facts;
        };
        if let [first, .., last] = self.states.as_slice() {
            facts.push(Fact::Trend(change(first, last, protocol).whole()));
        }
        let person = self.findings.map(|findings| findings.person).unwrap_or_default();
        facts.push(Fact::Wanting(last.wanting(person, protocol)));
        let stuck = stuck(self.treatment, &self.states, protocol);
        if self.urgency == Some(Urgency::Urgent) && stuck > 0 {
            facts.push(Fact::Stuck(stuck));
        }
        facts
    }

    /// What is asked: for the reason said, and for each sign whether or not it is the reason.
    fn asks(&self) -> Vec<Ask> {
        let signs = self.flags.iter().map(|noticed| HandOver::of(noticed.flag));
        let reasons = signs.chain(self.reason);
        let mut asks: Vec<Ask> =
            reasons.flat_map(|reason| Ask::of(reason).iter().copied()).collect();
        if self.reaction.active() {
            asks.extend(Ask::of(HandOver::Reaction));
        } else if self.reaction.started().is_some() {
            // Over, it wants watching and no ambulance of its own.
            asks.push(Ask::WatchReaction);
        }
        asks.sort_unstable();
        asks.dedup();
        if asks.is_empty() {
            asks.push(Ask::TakeOver);
        }
        asks
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::adjunct::Choice;
    use crate::care::anaphylaxis;
    use crate::care::dose::RoundPlan;
    use crate::care::perfusion::Change;
    use crate::care::refill::{Colour, Refill};
    use crate::care::rounds::{Act, Look, Pain, Sign};
    use crate::care::situation;
    use crate::measure::{Span, Strength, Volume};
    use crate::protocol::adjunct::Adjunct;

    const PLAN: RoundPlan =
        RoundPlan { strength: Strength::per_ml(500), bolus: Volume::ul(100), points: 2 };

    fn at(minutes: u64) -> Moment {
        Moment::from_millis(0).after(Span::minutes(minutes))
    }

    fn look(affected: u64, colour: Colour, pain: u8) -> Look {
        let refill =
            Refill { affected: Span::millis(affected), opposite: Some(Span::millis(1_500)) };
        Look { refill: Some(refill), ..Look::of(colour, Pain::new(pain).unwrap()) }
    }

    /// Two rounds an hour apart, a look after each.
    fn treated() -> Treatment {
        let mut treatment = Treatment::new(Urgency::Urgent);
        for (start, look) in
            [(10, look(4_000, Colour::Mottled, 6)), (80, look(2_500, Colour::Pale, 2))]
        {
            treatment.apply(at(start), &Act::Begin(PLAN)).unwrap();
            for point in 1..=2 {
                let act = Act::Inject { point, volume: PLAN.bolus };
                treatment.apply(at(start), &act).unwrap();
            }
            treatment.apply(at(start + 5), &Act::Finish).unwrap();
            treatment.apply(at(start + 65), &Act::Look(look)).unwrap();
        }
        treatment
    }

    fn known<'a>(treatment: &'a Treatment, reaction: &'a Reaction) -> Known<'a> {
        Known {
            reason: None,
            flags: &[],
            urgency: Some(Urgency::Urgent),
            findings: None,
            zones: &[],
            area: None,
            answers: None,
            test: None,
            treatment,
            states: treatment.looks().iter().map(|(_, look)| State::of(look, None)).collect(),
            reaction,
            besides: &[],
        }
    }

    #[test]
    fn the_parts_are_in_the_order_of_the_report() {
        let (treatment, reaction) = (treated(), Reaction::default());
        let findings = Findings {
            signs: vec![situation::Sign::Pallor],
            filler: Filler::Hyaluronic,
            onset: Some(at(0)),
            ..Findings::default()
        };
        let besides = [Chosen { at: at(3), adjunct: Adjunct::Warmth, choice: Choice::Given(None) }];
        let known = Known {
            reason: Some(HandOver::NoImprovement),
            findings: Some(&findings),
            zones: &[Zone::UpperLip],
            area: Some(Area::cm2(6)),
            besides: &besides,
            ..known(&treatment, &reaction)
        };
        let sheet = known.sheet(at(150), &Protocol::default());
        let situation = [
            Fact::Reason(HandOver::NoImprovement),
            Fact::Way(Urgency::Urgent),
            Fact::Onset(Some((at(0), Span::minutes(150)))),
            Fact::Zones(vec![Zone::UpperLip]),
            Fact::Area(Area::cm2(6)),
        ];
        assert_eq!(sheet.situation, situation);
        let round = |number, begun: u64| Fact::Round {
            number,
            begun: at(begun),
            finished: Some(at(begun + 5)),
            strength: PLAN.strength,
            volume: Volume::ul(200),
            units: Units::whole(100),
        };
        let background = [
            Fact::Filler(Filler::Hyaluronic),
            Fact::Allergy(None),
            round(1, 10),
            round(2, 80),
            Fact::InAll { rounds: 2, units: Units::whole(200), volume: Volume::ul(400) },
            Fact::Besides(besides[0]),
        ];
        assert_eq!(sheet.background, background);
        let [found, Fact::Look { at: first, .. }, Fact::Look { at: last, .. }, rest @ ..] =
            sheet.assessment.as_slice()
        else {
            panic!("{:?}", sheet.assessment)
        };
        assert_eq!(*found, Fact::Found { signs: vec![situation::Sign::Pallor], refill: None });
        assert_eq!((*first, *last), (at(75), at(145)));
        assert_eq!(
            *rest,
            [
                Fact::Trend(Change::Better),
                Fact::Wanting(vec![Sign::Refill, Sign::Colour, Sign::Pain]),
            ]
        );
        assert_eq!(sheet.recommendation, [Ask::GoOn, Ask::Ultrasound, Ask::SkinSpecialist]);
    }

    #[test]
    fn what_is_not_known_is_said() {
        let (treatment, reaction) = (Treatment::new(Urgency::Urgent), Reaction::default());
        let sheet = known(&treatment, &reaction).sheet(at(0), &Protocol::default());
        assert!(sheet.situation.contains(&Fact::Onset(None)));
        let background = [Fact::Filler(Filler::Unknown), Fact::Allergy(None), Fact::NoEnzyme];
        assert_eq!(sheet.background, background);
        assert_eq!(sheet.assessment, [Fact::NotLooked]);
        assert_eq!(sheet.recommendation, [Ask::TakeOver]);
    }

    #[test]
    fn sight_has_moments_and_no_time_left() {
        let (treatment, reaction) = (treated(), Reaction::default());
        let flags = [
            Noticed { flag: RedFlag::Sight, at: at(90) },
            Noticed { flag: RedFlag::Stroke, at: at(95) },
        ];
        assert_eq!(known(&treatment, &reaction).sight(), None);
        let known = Known { flags: &flags, ..known(&treatment, &reaction) };
        let sheet = known.sight().unwrap();
        assert_eq!((sheet.noticed, sheet.also.as_slice()), (at(90), &flags[1..]));
        assert_eq!(sheet.units, Units::whole(200));
        // Nothing that could be shown as a countdown.
        assert!(!format!("{sheet:?}").contains("Span"), "{sheet:?}");
        let asks = [
            Ask::Ambulance,
            Ask::EyesAtOnce,
            Ask::StrokeTeam,
            Ask::LookForStroke,
            Ask::NotBehindTheEye,
        ];
        assert_eq!(sheet.asks, asks, "each sign is asked for, once");
    }

    #[test]
    fn a_reaction_is_told_with_its_doses() {
        let treatment = treated();
        let mut reaction = Reaction::default();
        reaction.apply(at(12), &anaphylaxis::Act::Adrenaline(Volume::ul(500)));
        let told = |reaction: &Reaction| {
            let sheet = known(&treatment, reaction).sheet(at(20), &Protocol::default());
            let dose = Fact::Adrenaline { at: at(12), volume: Volume::ul(500) };
            assert!(sheet.background.contains(&dose));
            (sheet.situation[0].clone(), sheet.recommendation)
        };
        let (fact, asks) = told(&reaction);
        assert_eq!(fact, Fact::Reaction { started: at(12), active: true, better: false });
        assert_eq!(asks, [Ask::Ambulance, Ask::WatchReaction]);
        reaction.apply(at(18), &anaphylaxis::Act::Better);
        reaction.apply(at(19), &anaphylaxis::Act::Over);
        let (fact, asks) = told(&reaction);
        assert_eq!(fact, Fact::Reaction { started: at(12), active: false, better: true });
        assert_eq!(asks, [Ask::WatchReaction]);
    }
}
