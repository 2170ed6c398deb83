//! The scripted clinician, who does what the app's screens record.

use super::super::*;
use super::START;
use crate::care::allergy::Urgency;
use crate::care::dilution::{Ask, Syringe, Vial as Powder, plans};
use crate::care::refill::Colour;
use crate::care::rounds::{Act, End, Look, SkipReason};
use crate::care::situation::Findings;
use crate::care::territory::{Size, Territory};
use crate::case::{Case, CaseId, Event, Journal, Reference};
use crate::measure::{Area, Date, Moment, Span, Strength, Units, Volume};
use crate::protocol::Protocol;
use crate::protocol::zone::Zone;

/// How a clinician works.
#[derive(Clone)]
pub struct Way {
    pub strength: u64,
    pub zones: Vec<Zone>,
    pub area: Area,
    /// Every point but one in so many is injected; none is left out at 0.
    pub skips: u32,
    /// Takes the first vial whatever its expiry.
    pub careless: bool,
}

pub struct Clinician {
    pub scenario: Scenario,
    pub journal: Journal,
    pub minute: u64,
    pub way: Way,
}

impl Clinician {
    pub fn new(scenario: Scenario) -> Self {
        let brief = scenario.brief();
        let way = Way {
            strength: 500,
            zones: brief.zones.to_vec(),
            area: brief.area,
            skips: 0,
            careless: false,
        };
        let mut clinician =
            Self { scenario, journal: Journal::new(CaseId::from_random(7)), minute: 0, way };
        clinician.then(Event::Opened {
            reference: Reference::new("Rehearsal").unwrap(),
            protocol: Box::default(),
        });
        clinician
    }

    pub fn now(&self) -> Moment {
        START.after(Span::minutes(self.minute))
    }

    pub fn then(&mut self, event: Event) {
        self.journal.append(self.now(), 0, event);
    }

    pub fn act(&mut self, act: Act) {
        self.then(Event::Round(act));
    }

    pub fn wait(&mut self, minutes: u64) {
        self.minute += minutes;
    }

    pub fn sees(&self) -> Condition {
        condition(self.scenario, START, &self.journal, self.now())
    }

    pub fn case(&self) -> Case {
        Case::of(&self.journal)
    }

    pub fn debrief(&self) -> Debrief {
        debrief(self.scenario, START, &self.journal, self.now())
    }

    pub fn look(&mut self) -> Condition {
        let seen = self.sees();
        self.act(Act::Look(Look {
            refill: Some(seen.refill()),
            red_flags: seen.flags.clone(),
            temperature: Some(seen.temperature),
            function: Some(seen.function),
            ..Look::of(seen.colour, seen.pain)
        }));
        seen
    }

    /// Triage, allergy, readiness, a first look: as it should be.
    pub fn open(&mut self) {
        let seen = self.sees();
        let brief = self.scenario.brief();
        self.wait(2);
        let found = Findings {
            signs: seen.signs,
            filler: brief.filler,
            onset: Some(START.before(brief.onset)),
            refill: Some(self.sees().refill()),
            person: brief.person,
            ..Findings::default()
        };
        self.then(Event::Found(Box::new(found)));
        self.then(Event::Way { urgency: Urgency::Urgent, aim: None });
        self.wait(1);
        self.then(Event::Asked(brief.answers()));
        self.then(Event::Ready);
        self.look();
    }

    /// Tells the skin, makes a solution for it and checks it.
    pub fn prepare(&mut self) {
        let skin = Size::Typed(self.way.area);
        let skin = Territory::new(self.way.zones.clone(), skin, &Protocol::default()).unwrap();
        self.then(Event::Territory(skin));
        let points = self
            .case()
            .territory()
            .unwrap()
            .points(Protocol::default().spacing, &Protocol::default());
        let strength = Strength::per_ml(self.way.strength);
        let dose = strength.units_in(Volume::ul(100 * u64::from(points)));
        let syringe = Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap();
        let powder = Powder { units: Units::whole(1_500), holds: Volume::ml(3) };
        let ask = Ask::dose(powder, None, strength, dose, syringe);
        let plan = plans(&ask).unwrap().remove(0);
        let (movements, used) = (plan.movements().len(), plan.vials_used());
        self.then(Event::Preparation(Box::new(plan)));
        let today = Date::of(START, 0);
        let bag = self.scenario.brief().bag.one_by_one(today);
        let good = |vial: &&crate::kit::Vial| {
            self.way.careless || vial.expiry.is_some_and(|last| last >= today)
        };
        let vials: Vec<_> = bag.iter().filter(good).take(used as usize).cloned().collect();
        for vial in vials {
            self.then(Event::Vial(vial));
        }
        for movement in 0..u32::try_from(movements).unwrap() {
            self.then(Event::Drew(movement));
            self.then(Event::Checked { movement, by: "AB".into() });
        }
        self.wait(4);
    }

    /// A round on the skin as it is told.
    pub fn round(&mut self) {
        self.prepare();
        let begin = self.case().begin_next().unwrap();
        let (Act::Begin(plan) | Act::BeginOn(plan, _)) = begin else { panic!() };
        self.act(begin);
        self.wait(1);
        for point in 1..=plan.points {
            if self.way.skips > 0 && point.is_multiple_of(self.way.skips) {
                self.act(Act::Skip { point, reason: SkipReason::Unsafe });
            } else {
                self.act(Act::Inject { point, volume: plan.bolus });
            }
        }
        self.wait(3);
        self.act(Act::Finish);
    }

    /// Round after round with a look an hour after each, on the skin that is still without blood,
    /// until it has its blood back; how many it took.
    pub fn treat(&mut self, most: u32) -> u32 {
        for round in 1..=most {
            self.round();
            self.wait(60);
            let seen = self.look();
            if seen.colour == Colour::Normal && seen.pain.score() == 0 {
                return round;
            }
            self.way.area = seen.area;
        }
        most
    }

    pub fn end(&mut self, end: End) {
        self.act(Act::End(end));
        self.then(Event::Closed(end));
    }
}
